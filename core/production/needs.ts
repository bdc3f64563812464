import { type BatchCells, batchCells } from "../formula/batches.ts";
import type { FormulaCells, PreparationCells } from "../formula/cells.ts";
import type { Cell, Ledger } from "../ledger/ledger.ts";
import { over, shortOf, sum, sumOfProducts, times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { cutKey } from "../pantry/cuts.ts";
import { gramsCell } from "../pantry/grams.ts";
import type { BesideCells } from "./beside.ts";
import type { PlateCells } from "./plates.ts";
import { shareThrough } from "./rules.ts";
import type { Service } from "./schema.ts";

/** Who asks for a preparation or an ingredient, and how much, g EP. */
export interface UseCell {
  readonly course?: string | undefined;
  readonly dish?: string | undefined;
  readonly variant?: string | undefined;
  readonly preparation?: string | undefined;
  readonly line?: string | undefined;
  /** Place in the menu's list of what goes with every cover. */
  readonly beside?: number | undefined;
  readonly g: Cell;
}

/** What one preparation comes to. */
export interface NeedCells {
  readonly cells: PreparationCells;
  readonly uses: readonly UseCell[];
  readonly overage: Cell;
  readonly asked: Cell;
  /** Good until the service, from stock. */
  readonly stock: Cell;
  readonly toMake: Cell;
  readonly batches: BatchCells;
  /** Multiple of the written yield. */
  readonly factor: Cell;
  /** The preparations whose yields stray that it goes through on its way to the plate, itself among them. */
  readonly through: readonly Through[];
}

/** A preparation whose yield strays, on the way to the plate. */
export interface Through {
  readonly preparation: string;
  /** How much of what is made goes through it. */
  readonly share: Cell;
  /** Standard deviation of its yield, as a ratio of it. */
  readonly spread: Cell;
}

/** What one ingredient in one cut comes to. */
export interface IngredientCells {
  readonly ingredient: string;
  readonly cut: string | undefined;
  readonly ep: Cell;
  readonly ap: Cell;
  readonly uses: readonly UseCell[];
  /** As purchased for one of the uses; made when it is first asked for. */
  apOf(use: number): Cell;
}

/**
 * Follows the plates, and what goes with every cover, down to preparations and ingredients: what is asked, overage once at the preparation nearest
 * the plate, less what stock is good until the service, made in whole pieces and batches; its parts follow what
 * is made.
 * @param order parts before what is made of them.
 */
export function needCells(
  formula: FormulaCells,
  order: readonly PreparationCells[],
  plates: readonly PlateCells[],
  service: Service,
  serviceAt: string,
  beside: { readonly covers: Cell; readonly items: readonly BesideCells[] },
): { preparations: NeedCells[]; ingredients: IngredientCells[] } {
  const { ledger } = formula;
  const onPlates = usesOnPlates(plates);
  const inParts = new Map<string, UseCell[]>();
  const needs: NeedCells[] = [];
  const ways = new Map<string, readonly Through[]>();
  const wanted = new Map<string, { ingredient: string; cut: string | undefined; uses: WeighedUse[] }>();
  const want = (ingredient: string, cut: string | undefined, use: WeighedUse) => {
    const key = cutKey(ingredient, cut);
    const known = wanted.get(key) ?? { ingredient, cut, uses: [] };
    known.uses.push(use);
    wanted.set(key, known);
  };

  // From the plate down: a preparation comes before its parts.
  for (const cells of [...order].reverse()) {
    const { preparation, at } = cells;
    const path = `calc:/needs/${preparation.id}`;
    const direct = (onPlates.get(`preparation ${preparation.id}`) ?? []).map((use, i): UseCell => {
      const g = ledger.derive(`${path}/plates/${i}`, "g", sumOfProducts, use.pairs);
      return { course: use.course, dish: use.dish, variant: use.variant, g };
    });
    for (const { place, preparation: id, ep } of beside.items)
      if (id === preparation.id)
        direct.push({
          beside: place,
          g: ledger.derive(`${path}/beside/${place}`, "g", times, [beside.covers, ep]),
        });
    const plated = ledger.derive(
      `${path}/plated`,
      "g",
      sum,
      direct.map((use) => use.g),
    );
    const overage =
      preparation.overage === undefined || direct.length === 0
        ? nothing(ledger)
        : ledger.derive(`${path}/overage`, "g", times, [
            plated,
            stated(ledger, `book:${at}/overage`, "ratio", preparation.overage),
          ]);
    const parts = inParts.get(preparation.id) ?? [];
    const asked = ledger.derive(`${path}/asked`, "g", sum, [plated, overage, ...parts.map((use) => use.g)]);
    const stock = stockCell(formula, cells, service, serviceAt, path);
    const toMake =
      stock === nothing(ledger) ? asked : ledger.derive(`${path}/to-make`, "g", shortOf, [asked, stock]);
    const batches = batchCells(ledger, cells, toMake, `calc:/batches/${preparation.id}`, formula.problems);
    const factor = ledger.derive(`${path}/factor`, "ratio", over, [batches.madeG, cells.yieldG]);
    const through = throughOf(ledger, cells, parts, batches.madeG, path, ways);
    ways.set(preparation.id, through);
    needs.push({
      ...{ cells, uses: [...direct, ...parts], overage, asked, stock, toMake, batches, factor },
      through,
    });

    for (const { line, ep, ap } of cells.lines) {
      const by = { preparation: preparation.id, line: line.id };
      if ("ingredient" in line.item) {
        want(line.item.ingredient, line.item.cut, { ...by, pairs: [ep, factor], apPairs: [ap, factor] });
        continue;
      }
      const g = ledger.derive(
        `calc:/needs/${line.item.preparation}/from/${preparation.id}/${line.id}`,
        "g",
        times,
        [ep, factor],
      );
      inParts.set(line.item.preparation, [...(inParts.get(line.item.preparation) ?? []), { ...by, g }]);
    }
  }
  for (const uses of onPlates.values())
    for (const use of uses) if (use.ingredient !== undefined) want(use.ingredient, use.cut, use);

  for (const { place, ingredient, cut, ep, ap } of beside.items)
    if (ingredient !== undefined)
      want(ingredient, cut, { beside: place, pairs: [beside.covers, ep], apPairs: [beside.covers, ap] });

  const ingredients = [...wanted.values()].map(({ ingredient, cut, uses }): IngredientCells => {
    const path = `calc:/ingredients/${ingredient}/${cut === undefined ? "whole" : `cuts/${cut}`}`;
    const made = uses.map(({ pairs, apPairs: _, ...by }, i): UseCell => {
      const rule = pairs.length === 2 ? times : sumOfProducts;
      return { ...by, g: ledger.derive(`${path}/uses/${i}`, "g", rule, pairs) };
    });
    const ep = ledger.derive(
      `${path}/ep`,
      "g",
      sum,
      made.map((use) => use.g),
    );
    const trimmed = uses.some((use) => use.apPairs.some((cell, k) => cell !== use.pairs[k]));
    const ap = trimmed
      ? ledger.derive(
          `${path}/ap`,
          "g",
          sumOfProducts,
          uses.flatMap((use) => use.apPairs),
        )
      : ep;
    const apOf = (i: number): Cell => {
      const { pairs, apPairs } = uses[i]!;
      if (apPairs.every((cell, k) => cell === pairs[k])) return made[i]!.g;
      const at = `${path}/uses/${i}/ap`;
      return ledger.find(at) ?? ledger.derive(at, "g", sumOfProducts, apPairs);
    };
    return { ingredient, cut, ep, ap, uses: made, apOf };
  });
  return { preparations: needs.reverse(), ingredients };
}

/** Of what a preparation is made for, the share that goes on through each whose yield strays. */
function throughOf(
  ledger: Ledger,
  { preparation, balance }: PreparationCells,
  parts: readonly UseCell[],
  madeG: Cell,
  path: string,
  ways: ReadonlyMap<string, readonly Through[]>,
): Through[] {
  const own: Through[] =
    balance.spread === nothing(ledger)
      ? []
      : [
          {
            ...{ preparation: preparation.id, spread: balance.spread },
            share: stated(ledger, "const:/one", "ratio", 1),
          },
        ];
  const above = new Map<string, { readonly spread: Cell; readonly pairs: Cell[] }>();
  for (const { preparation: parent, g } of parts)
    for (const way of ways.get(parent!)!) {
      const known = above.get(way.preparation) ?? { spread: way.spread, pairs: [] };
      known.pairs.push(g, way.share);
      above.set(way.preparation, known);
    }
  return [
    ...own,
    ...[...above].map(([of, { spread, pairs }]) => ({
      ...{ preparation: of, spread },
      share: ledger.derive(`${path}/through/${of}`, "ratio", shareThrough, [madeG, ...pairs]),
    })),
  ];
}

interface WeighedUse {
  readonly course?: string;
  readonly dish?: string;
  readonly variant?: string;
  readonly preparation?: string;
  readonly line?: string;
  readonly beside?: number;
  /** Cells in pairs whose products add to the grams. */
  readonly pairs: Cell[];
  readonly apPairs: Cell[];
}

interface PlateUse extends WeighedUse {
  readonly ingredient: string | undefined;
  readonly cut: string | undefined;
}

/** What the plates ask for, one entry a row of plates and item. */
function usesOnPlates(plates: readonly PlateCells[]): Map<string, PlateUse[]> {
  const found = new Map<string, PlateUse[]>();
  for (const { course, row, plates: count, placed } of plates) {
    const ofRow = new Map<string, PlateUse>();
    for (const { preparation, ingredient, cut, ep, ap } of placed) {
      const key =
        preparation === undefined ? `ingredient ${cutKey(ingredient!, cut)}` : `preparation ${preparation}`;
      const by = { course, dish: row.dish.id, variant: row.form.name };
      const use = ofRow.get(key) ?? { ...by, ingredient, cut, pairs: [], apPairs: [] };
      use.pairs.push(count, ep);
      use.apPairs.push(count, ap);
      ofRow.set(key, use);
    }
    for (const [key, use] of ofRow) found.set(key, [...(found.get(key) ?? []), use]);
  }
  return found;
}

function stockCell(
  formula: FormulaCells,
  cells: PreparationCells,
  service: Service,
  serviceAt: string,
  path: string,
): Cell {
  const { ledger } = formula;
  const good = service.stock.flatMap((lot, i): Cell[] => {
    const mine = "preparation" in lot.item && lot.item.preparation === cells.preparation.id;
    if (!mine || lot.useBy < service.at.slice(0, 10)) return [];
    const at = `${serviceAt}/stock/${i}/amount`;
    return [gramsCell(ledger, `${path}/stock/${i}`, lot.amount, at, cells.matter, formula.problems)];
  });
  return good.length === 0 ? nothing(ledger) : ledger.derive(`${path}/stock`, "g", sum, good);
}
