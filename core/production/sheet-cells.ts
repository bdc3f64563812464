import type { LossCell } from "../formula/balance.ts";
import type { BatchSize } from "../formula/batches.ts";
import type { LineCells } from "../formula/lines.ts";
import type { Cell, Ledger } from "../ledger/ledger.ts";
import { minus, times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import type { NeedCells } from "./needs.ts";
import { weighedOn } from "./rules.ts";
import type { Kitchen } from "./schema.ts";

/** A line of one batch, g. */
export interface SheetLine {
  readonly of: LineCells;
  readonly exact: Cell;
  readonly weigh: Cell;
  readonly error: Cell;
  /** As purchased, where something is trimmed. */
  readonly ap: Cell | undefined;
}

/** Lines and steps of one size of batch. */
export interface SheetCells {
  readonly lines: readonly SheetLine[];
  readonly steps: readonly { readonly step: string; readonly inG: Cell; readonly outG: Cell }[];
}

/** Mass balance of one preparation for the whole service, g. */
export interface ServiceBalance {
  readonly inG: Cell;
  readonly water: Cell;
  readonly outG: Cell;
  readonly lost: readonly LossCell[];
}

/** The formula's lines and steps at the size of a batch; nothing for a size that is never made. */
export function sheetCells(
  ledger: Ledger,
  need: NeedCells,
  size: "first" | "rest",
  kitchen: Kitchen,
  at: string,
): SheetCells {
  const { preparation, lines, balance } = need.cells;
  const batch: BatchSize = need.batches[size];
  if (batch.g === nothing(ledger)) return { lines: [], steps: [] };
  const path = `calc:/sheets/${preparation.id}/${size}`;
  const scales = kitchen.measures.scaleStepG.map((step, i) =>
    stated(ledger, `book:${at}/measures/scaleStepG/${i}`, "g", step),
  );
  return {
    lines: lines.flatMap((of): SheetLine[] => {
      const linePath = `${path}/lines/${of.line.id}`;
      if (!of.weighed)
        return [
          { of, exact: nothing(ledger), weigh: nothing(ledger), error: nothing(ledger), ap: undefined },
        ];
      const exact = ledger.derive(linePath, "g", times, [of.ep, batch.scale]);
      const weigh = ledger.derive(`${linePath}/weigh`, "g", weighedOn, [exact, ...scales]);
      const error = ledger.derive(`${linePath}/error`, "g", minus, [weigh, exact]);
      const ap =
        of.ap === of.ep ? undefined : ledger.derive(`${linePath}/ap`, "g", times, [of.ap, batch.scale]);
      return [{ of, exact, weigh, error, ap }];
    }),
    steps: balance.steps.map(({ step, inG, outG }) => {
      const into = ledger.derive(`${path}/steps/${step.id}/in`, "g", times, [inG, batch.scale]);
      const out =
        outG === inG ? into : ledger.derive(`${path}/steps/${step.id}/out`, "g", times, [outG, batch.scale]);
      return { step: step.id, inG: into, outG: out };
    }),
  };
}

/** The formula's balance times the service's factor. */
export function serviceBalance(ledger: Ledger, need: NeedCells): ServiceBalance {
  const { balance, preparation } = need.cells;
  const path = `calc:/balance/${preparation.id}`;
  const scaled = (name: string, g: Cell) => ledger.derive(`${path}/${name}`, "g", times, [g, need.factor]);
  return {
    inG: scaled("in", balance.inG),
    water: balance.water === nothing(ledger) ? balance.water : scaled("water", balance.water),
    outG: scaled("out", balance.outG),
    lost: balance.lost.map(({ how, g }) => ({ how, g: scaled(`lost/${how}`, g) })),
  };
}
