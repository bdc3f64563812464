import type { Pointer } from "../formula/graph.ts";
import type { Larder } from "../formula/larder.ts";
import { wholePortions } from "../formula/rules.ts";
import { scalable } from "../formula/scaling.ts";
import type { Cell, TraceNode } from "../ledger/ledger.ts";
import { minus, over, smallest, times } from "../ledger/rules.ts";
import { Tracer } from "../ledger/tracer.ts";
import { cutKey } from "../pantry/cuts.ts";
import { type Problem, Refusal } from "../pantry/refusal.ts";
import { weighedOn } from "./rules.ts";

/** Stands before the pointers of what is asked here. */
export const ANOTHER = "/another";

/** What is on hand of an ingredient in a cut, g: as purchased unless `trimmed`. */
export interface OnHand {
  readonly ingredient: string;
  readonly cut?: string | undefined;
  readonly grams: number;
  readonly trimmed?: boolean | undefined;
}

/** What a formula is to be scaled by: what it shall come to, so many portions, or what is there. Masses in g. */
export type AmountAsked =
  | { readonly by: "mass"; readonly g: number }
  | { readonly by: "portions"; readonly portions: number }
  | { readonly by: "here"; readonly here: readonly OnHand[] };

/** A formula at another amount, made alone: no batches, no overage, nothing of any service. Masses in g. */
export interface AnotherAmount {
  /** Times the written yield. */
  readonly factor: number;
  readonly makesG: number;
  readonly pieces?: number;
  /** Whole portions, where it is known what one weighs. */
  readonly portions?: number;
  /** Which of what is here gives out first: its place in what was asked. */
  readonly limit?: number;
  readonly lines: readonly {
    readonly line: string;
    readonly exactG: number;
    readonly weighG: number;
    readonly errorG: number;
    /** As purchased, where something is trimmed. */
    readonly apG?: number;
  }[];
  /** What the amount takes through all parts. */
  readonly takes: readonly {
    readonly ingredient: string;
    readonly cut?: string;
    readonly epG: number;
    readonly apG: number;
  }[];
}

/**
 * Scales one preparation alone, in any of three ways, with how each figure came. Of what is here the scarcest decides;
 * ingredients not listed are taken as no limit.
 * @param portionG what a portion weighs, if known. @param scaleStepG steps of the kitchen's scales, g.
 * @throws Refusal when nothing of what is here goes into it, or the formula cannot be weighed.
 */
export function anotherAmount(
  larder: Larder,
  pointer: Pointer,
  preparation: string,
  asked: AmountAsked,
  portionG: number | undefined,
  scaleStepG: readonly number[],
): { readonly another: AnotherAmount; readonly trace: Readonly<Record<string, TraceNode>> } {
  const { ledger, own, uses } = scalable(larder, preparation, pointer);
  const given = (name: string, unit: string, value: number) => ledger.give(`asked:/${name}`, unit, value);
  const portion = portionG === undefined ? undefined : given("portion", "g", portionG);
  const { factor, limit } = factorFor();
  const tracer = new Tracer(ledger);
  const read = tracer.under(ANOTHER);
  const scaled = (name: string, unit: string, cell: Cell) =>
    ledger.derive(`calc:/another/${name}`, unit, times, [cell, factor]);
  const makes = scaled("makes", "g", own.yieldG);
  const scales = scaleStepG.map((step, i) => given(`scaleStep/${i}`, "g", step));
  const another: AnotherAmount = {
    factor: read.of(factor, "factor"),
    makesG: read.of(makes, "makesG"),
    ...(own.pieces === undefined ? {} : { pieces: read.of(scaled("pieces", "piece", own.pieces), "pieces") }),
    ...(portion === undefined
      ? {}
      : {
          portions: read.of(
            ledger.derive("calc:/another/portions", "1", wholePortions, [makes, portion]),
            "portions",
          ),
        }),
    ...(limit === undefined ? {} : { limit }),
    lines: own.lines
      .filter((of) => of.weighed)
      .map(({ line, ep, ap }, i) => {
        const to = read.under(`lines/${i}`);
        const exact = scaled(`${line.id}/exact`, "g", ep);
        const weigh = ledger.derive(`calc:/another/${line.id}/weigh`, "g", weighedOn, [exact, ...scales]);
        const error = ledger.derive(`calc:/another/${line.id}/error`, "g", minus, [weigh, exact]);
        return {
          line: line.id,
          exactG: to.of(exact, "exactG"),
          weighG: to.of(weigh, "weighG"),
          errorG: to.of(error, "errorG"),
          ...(ap === ep ? {} : { apG: to.of(scaled(`${line.id}/ap`, "g", ap), "apG") }),
        };
      }),
    takes: [...uses.values()].map(({ ingredient, cut, ep, ap }, i) => {
      const to = read.under(`takes/${i}`);
      const key = cutKey(ingredient, cut);
      return {
        ...{ ingredient, ...(cut === undefined ? {} : { cut }) },
        epG: to.of(scaled(`takes/${key}/ep`, "g", ep), "epG"),
        apG: to.of(scaled(`takes/${key}/ap`, "g", ap), "apG"),
      };
    }),
  };
  return { another, trace: tracer.nodes() };

  function factorFor(): { readonly factor: Cell; readonly limit?: number } {
    const byMass = (wanted: Cell) => ({
      factor: ledger.derive("calc:/another/factor", "1", over, [wanted, own.yieldG]),
    });
    if (asked.by === "mass") return byMass(given("wanted", "g", asked.g));
    if (asked.by === "portions") {
      if (portion === undefined) throw new Refusal([PORTION_UNKNOWN]);
      const count = given("portions", "1", asked.portions);
      return byMass(ledger.derive("calc:/another/wanted", "g", times, [count, portion]));
    }
    const each = asked.here.flatMap(({ ingredient, cut, grams, trimmed }, place) => {
      const use = uses.get(cutKey(ingredient, cut));
      if (!use || ledger.value(use.ap) === 0) return [];
      const key = cutKey(ingredient, cut);
      const here = given(`here/${key}/${place}`, "g", grams);
      const takes = trimmed ? use.ep : use.ap;
      return [{ place, cell: ledger.derive(`calc:/another/here/${key}/${place}`, "1", over, [here, takes]) }];
    });
    if (each.length === 0) throw new Refusal([noneGoesIn(asked.here, uses.keys())]);
    const factor = ledger.derive(
      "calc:/another/factor",
      "1",
      smallest,
      each.map(({ cell }) => cell),
    );
    return { factor, limit: each.find(({ cell }) => ledger.value(cell) === ledger.value(factor))!.place };
  }
}

/** Nothing of what is on hand is asked for. */
function noneGoesIn(here: readonly OnHand[], asks: Iterable<string>): Problem {
  return {
    path: "",
    what: `none of what is on hand goes into it: ${here.map((each) => cutKey(each.ingredient, each.cut)).join(", ")}`,
    mend: `name one of: ${[...asks].slice(0, 12).join(", ")}`,
  };
}

const PORTION_UNKNOWN = {
  path: "",
  what: "what a portion weighs is not known",
  mend: "say the mass of one portion",
};
