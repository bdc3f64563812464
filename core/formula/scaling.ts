import { type Cell, Ledger } from "../ledger/ledger.ts";
import { over, sum, times } from "../ledger/rules.ts";
import { cutKey } from "../pantry/cuts.ts";
import { type Problem, Refusal } from "../pantry/refusal.ts";
import { FormulaCells, type PreparationCells } from "./cells.ts";
import { orderOfMaking, type Pointer } from "./graph.ts";
import type { Larder } from "./larder.ts";
import { wholePortions } from "./rules.ts";

/** What one written yield of a preparation takes, through all its parts, by ingredient and cut, g. */
export interface Use {
  readonly ingredient: string;
  readonly cut: string | undefined;
  readonly epG: number;
  readonly apG: number;
}

/** The same as cells. */
export interface UseCells {
  readonly ingredient: string;
  readonly cut: string | undefined;
  readonly ep: Cell;
  readonly ap: Cell;
}

/** A preparation looked at alone: its yield and what it takes, to be scaled in any of three ways. */
export interface Scalable {
  readonly yieldG: number;
  readonly pieceG: number | undefined;
  readonly uses: ReadonlyMap<string, Use>;
}

/** A preparation with all its parts, each made exactly as much as is asked of it (no batches, no overage). */
export interface ScalableCells {
  readonly ledger: Ledger;
  readonly own: PreparationCells;
  readonly uses: ReadonlyMap<string, UseCells>;
}

/**
 * Reads a preparation alone into a ledger of its own.
 * @throws Refusal when amounts cannot be weighed, parts are missing or turn in a circle.
 */
export function scalableCells(larder: Larder, preparation: string, pointer: Pointer): ScalableCells {
  const ledger = new Ledger();
  const cells = new FormulaCells(ledger, larder, pointer);
  const order = orderOfMaking(larder, [preparation], pointer);
  for (const each of order) cells.add(each);
  if (cells.problems.length > 0) throw new Refusal(cells.problems);
  const shares = new Map<string, Cell[]>([[preparation, [ledger.give("const:/one-yield", "1", 1)]]]);
  const taken = new Map<string, Pick<UseCells, "ingredient" | "cut"> & { ep: Cell[]; ap: Cell[] }>();
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

/** `scalableCells` as numbers. */
export function scalable(larder: Larder, preparation: string, pointer: Pointer): Scalable {
  const { ledger, own, uses } = scalableCells(larder, preparation, pointer);
  const numbers = [...uses].map(
    ([key, { ep, ap, ...of }]) => [key, { ...of, epG: ledger.value(ep), apG: ledger.value(ap) }] as const,
  );
  return {
    yieldG: ledger.value(own.yieldG),
    pieceG: own.pieceG === undefined ? undefined : ledger.value(own.pieceG),
    uses: new Map(numbers),
  };
}

/** Working factor for a wanted mass, g: wanted / written yield. */
export function factorForGrams(of: Scalable, grams: number): number {
  return grams / of.yieldG;
}

/** Working factor for `portions` portions of `portionG` each (covers, when each gets one). */
export function factorForPortions(of: Scalable, portions: number, portionG: number): number {
  return factorForGrams(of, portions * portionG);
}

/** Whole portions of `portionG` in `factor` times the written yield. */
export function portionsAt(of: Scalable, factor: number, portionG: number): number {
  return wholePortions(factor * of.yieldG, portionG);
}

/** What is on hand of an ingredient in a cut, g: as purchased unless `trimmed`. */
export interface OnHand {
  readonly ingredient: string;
  readonly cut?: string | undefined;
  readonly grams: number;
  readonly trimmed?: boolean | undefined;
}

/**
 * The largest working factor that what is on hand allows, and which of it gives out first.
 * Ingredients not listed are taken as no limit. @throws Refusal when none of those listed goes into it.
 */
export function factorOnHand(
  of: Scalable,
  onHand: readonly OnHand[],
): { readonly factor: number; readonly limit: OnHand } {
  let best: { factor: number; limit: OnHand } | undefined;
  for (const limit of onHand) {
    const use = of.uses.get(cutKey(limit.ingredient, limit.cut));
    const each = use && (limit.trimmed ? use.epG : use.apG);
    if (!each) continue;
    const factor = limit.grams / each;
    if (!best || factor < best.factor) best = { factor, limit };
  }
  if (best) return best;
  throw new Refusal([noneGoesIn(onHand, of.uses.keys())]);
}

/** Nothing of what is on hand is asked for. */
export function noneGoesIn(onHand: readonly OnHand[], asks: Iterable<string>): Problem {
  return {
    path: "",
    what: `none of what is on hand goes into it: ${onHand.map((each) => cutKey(each.ingredient, each.cut)).join(", ")}`,
    mend: `name one of: ${[...asks].slice(0, 12).join(", ")}`,
  };
}
