import { type Cell, Ledger } from "../ledger/ledger.ts";
import { over, sum, times } from "../ledger/rules.ts";
import { cutKey } from "../pantry/cuts.ts";
import { Refusal } from "../pantry/refusal.ts";
import { FormulaCells, type PreparationCells } from "./cells.ts";
import { orderOfMaking, type Pointer } from "./graph.ts";
import type { Larder } from "./larder.ts";

/** What one written yield of a preparation takes, through all its parts, of one ingredient in one cut, g. */
export interface Use {
  readonly ingredient: string;
  readonly cut: string | undefined;
  readonly ep: Cell;
  readonly ap: Cell;
}

/** A preparation with all its parts, each made exactly as much as is asked of it (no batches, no overage). */
export interface Scalable {
  readonly ledger: Ledger;
  readonly own: PreparationCells;
  readonly uses: ReadonlyMap<string, Use>;
}

/**
 * Reads a preparation alone into a ledger of its own.
 * @throws Refusal when amounts cannot be weighed, parts are missing or turn in a circle.
 */
export function scalable(larder: Larder, preparation: string, pointer: Pointer): Scalable {
  const ledger = new Ledger();
  const cells = new FormulaCells(ledger, larder, pointer);
  const order = orderOfMaking(larder, [preparation], pointer);
  for (const each of order) cells.add(each);
  if (cells.problems.length > 0) throw new Refusal(cells.problems);
  const shares = new Map<string, Cell[]>([[preparation, [ledger.give("const:/one-yield", "1", 1)]]]);
  const taken = new Map<string, Pick<Use, "ingredient" | "cut"> & { ep: Cell[]; ap: Cell[] }>();
  for (const part of order.reverse()) {
    const at = `calc:/alone/${part.id}`;
    const asked = shares.get(part.id) ?? [];
    const factor = asked.length === 1 ? asked[0]! : ledger.derive(`${at}/factor`, "1", sum, asked);
    for (const { line, ep, ap } of cells.get(part.id)!.lines) {
      const path = `${at}/${line.id}`;
      const epCell = ledger.derive(`${path}/ep`, "g", times, [ep, factor]);
      if ("preparation" in line.item) {
        const { preparation: id } = line.item;
        const share = ledger.derive(`${path}/share`, "1", over, [epCell, cells.get(id)!.yieldG]);
        shares.set(id, [...(shares.get(id) ?? []), share]);
        continue;
      }
      const { ingredient, cut } = line.item;
      const use = taken.get(cutKey(ingredient, cut)) ?? { ingredient, cut, ep: [], ap: [] };
      use.ep.push(epCell);
      use.ap.push(ap === ep ? epCell : ledger.derive(`${path}/ap`, "g", times, [ap, factor]));
      taken.set(cutKey(ingredient, cut), use);
    }
  }
  const uses = [...taken].map(([key, { ingredient, cut, ep, ap }]) => {
    const path = `calc:/alone/takes/${key}`;
    const of = {
      ep: ledger.derive(`${path}/ep`, "g", sum, ep),
      ap: ledger.derive(`${path}/ap`, "g", sum, ap),
    };
    return [key, { ingredient, cut, ...of }] as const;
  });
  return { ledger, own: cells.get(preparation)!, uses: new Map(uses) };
}
