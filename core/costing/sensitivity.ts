import type { Cell } from "../ledger/ledger.ts";
import { given } from "../ledger/ledger.ts";
import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import { withChanged } from "./changes.ts";
import type { CostCells } from "./costs.ts";
import { elasticity } from "./rules.ts";

/** A price that rises by a tenth; a yield that falls by five points. */
export const PRICE_RISE = 0.1;
export const YIELD_FALL = 0.05;
/** So many of each are told. */
const TOLD = 5;

/** Something that moves the cost of the menu. */
export interface Lever {
  readonly ingredient?: string;
  readonly cut?: string;
  readonly preparation?: string;
  /** Where the first of its numbers stands in the book. */
  readonly path: string;
  /** Of a yield: of a cut, or of a making. */
  readonly kind?: "trim" | "making";
  readonly cells: readonly { readonly cell: Cell; readonly to: (now: number) => number }[];
}

/** A lever with what it does to the menu, by cover, in the currency. */
export interface Moved {
  readonly ingredient?: string;
  readonly cut?: string;
  readonly preparation?: string;
  readonly path: string;
  readonly kind?: "trim" | "making";
  readonly change: number;
  /** Change of the menu over the menu. */
  readonly share: number;
}

export interface Sensitivity {
  readonly priceRise: number;
  readonly yieldFall: number;
  /** The prices of an ingredient, all its offers together, that move the menu most when they rise by a tenth. */
  readonly prices: readonly (Moved & { readonly elasticity: number })[];
  /** Trim yields five points lower, and makings that come out five in a hundred below what is written. */
  readonly yields: readonly Moved[];
}

/** Every ingredient's prices, in the order in which the menu asks for it. */
export function priceLevers(amounts: Amounts, costs: CostCells): Lever[] {
  const { ledger } = amounts;
  const ingredients = new Set(amounts.cells.ingredients.map((each) => each.ingredient));
  return [...ingredients]
    .flatMap((ingredient): Lever[] => {
      const cells = costs.offers.of(ingredient).map(({ price }) => price);
      if (cells.length === 0) return [];
      return [
        {
          ingredient,
          path: pathOf(amounts, cells[0]!),
          cells: cells.map((cell) => ({ cell, to: (now) => now * (1 + PRICE_RISE) })),
        },
      ];
    })
    .filter(({ cells }) => cells.some(({ cell }) => ledger.value(cell) > 0));
}

/** Every trim yield that is used, then the yield of every preparation. */
export function yieldLevers(amounts: Amounts): Lever[] {
  const { ledger, cells } = amounts;
  const trims = new Map<Cell, Lever>();
  const addTrim = (ingredient: string, cut: string | undefined, cell: Cell | undefined, own?: string) => {
    if (cell === undefined || trims.has(cell) || ledger.ruleOf(cell) !== given) return;
    if (!(ledger.value(cell) > YIELD_FALL)) return;
    trims.set(cell, {
      kind: "trim",
      ingredient,
      ...(cut === undefined ? {} : { cut }),
      ...(own === undefined ? {} : { preparation: own }),
      path: pathOf(amounts, cell),
      cells: [{ cell, to: (now) => now - YIELD_FALL }],
    });
  };
  for (const { cells: made } of cells.preparations)
    for (const { line, trim } of made.lines)
      if ("ingredient" in line.item) {
        const own = line.trimYield === undefined ? undefined : made.preparation.id;
        addTrim(line.item.ingredient, line.item.cut, trim, own);
      }
  for (const { placed } of cells.plates)
    for (const { ingredient, cut } of placed)
      if (ingredient !== undefined) addTrim(ingredient, cut, cells.formula.trim(ingredient, cut));
  const makings = cells.preparations.map(({ cells: made }): Lever => {
    const at = `book:${made.at}/yield/amount/value`;
    const cell = ledger.find(at)!;
    return {
      kind: "making",
      preparation: made.preparation.id,
      path: pathOf(amounts, cell),
      cells: [{ cell, to: (now) => now * (1 - YIELD_FALL) }],
    };
  });
  return [...trims.values(), ...makings];
}

/** The menu's cost by cover with a lever moved; everything is put back after. */
export function menuWith(amounts: Amounts, costs: CostCells, lever: Lever): number {
  const { ledger } = amounts;
  const changes = lever.cells.map(({ cell, to }) => [cell, to(ledger.value(cell))] as const);
  return withChanged(amounts, changes, () => ledger.value(costs.menu));
}

/** Which prices and which yields move the cost of the menu most. */
export function sensitivityOf(amounts: Amounts, costs: CostCells, tracer: Tracer | undefined): Sensitivity {
  const menu = amounts.ledger.value(costs.menu);
  const most = (levers: readonly Lever[]) =>
    levers
      .map((lever, place) => ({ lever, place, after: menuWith(amounts, costs, lever) }))
      .map((each) => ({ ...each, change: each.after - menu }))
      .filter(({ change }) => Math.abs(change) > 1e-9)
      .sort((a, b) => Math.abs(b.change) - Math.abs(a.change) || a.place - b.place)
      .slice(0, TOLD);
  const note = (at: string, value: number, rule: string, inputs: readonly string[], unit: string) =>
    tracer?.note(at, { value, unit, rule, inputs });
  const { currency } = amounts.kitchen;
  const told = (kind: "prices" | "yields", found: ReturnType<typeof most>) =>
    found.map(({ lever, place, after, change }, i): Moved => {
      const here = `/cost/sensitivity/${kind}/${i}`;
      note(`const:/number/${place}`, place, "given", [], "");
      const rule = kind === "prices" ? "menuAtPrice" : "menuAtYield";
      const by = `/cost/sensitivity/${kind === "prices" ? "priceRise" : "yieldFall"}`;
      note(`${here}/after`, after, rule, [`const:/number/${place}`, by], currency);
      note(`${here}/change`, change, "minus", [`${here}/after`, "/cost/menu"], currency);
      note(`${here}/share`, change / menu, "over", [`${here}/change`, "/cost/menu"], "ratio");
      const { cells: _, ...named } = lever;
      return { ...named, change, share: change / menu };
    });
  note("const:/price-rise", PRICE_RISE, "given", [], "ratio");
  note("const:/yield-fall", YIELD_FALL, "given", [], "ratio");
  note("/cost/sensitivity/priceRise", PRICE_RISE, "given", ["const:/price-rise"], "ratio");
  note("/cost/sensitivity/yieldFall", YIELD_FALL, "given", ["const:/yield-fall"], "ratio");
  const prices = told("prices", most(priceLevers(amounts, costs))).map((moved, i) => {
    const value = elasticity(moved.change, menu, PRICE_RISE);
    const inputs = [`/cost/sensitivity/prices/${i}/change`, "/cost/menu", "/cost/sensitivity/priceRise"];
    note(`/cost/sensitivity/prices/${i}/elasticity`, value, "elasticity", inputs, "ratio");
    return { ...moved, elasticity: value };
  });
  const yields = told("yields", most(yieldLevers(amounts)));
  return { priceRise: PRICE_RISE, yieldFall: YIELD_FALL, prices, yields };
}

/** The rules of sensitivity, for replaying a trace: they change the cells of the same service once more. */
export function sensitivityRules(amounts: Amounts, costs: () => CostCells) {
  return {
    /** Menu cost by cover with the k-th ingredient's prices raised. */
    menuAtPrice(k: number, _by: number): number {
      return menuWith(amounts, costs(), priceLevers(amounts, costs())[k]!);
    },
    /** Menu cost by cover with the k-th yield lowered. */
    menuAtYield(k: number, _by: number): number {
      return menuWith(amounts, costs(), yieldLevers(amounts)[k]!);
    },
  };
}

function pathOf({ ledger }: Amounts, cell: Cell): string {
  return ledger.path(cell).replace(/^book:/, "");
}
