import type { Cell } from "../ledger/ledger.ts";
import { over, sum, sumOfProducts, times } from "../ledger/rules.ts";
import { stated } from "../ledger/stated.ts";
import type { Amounts } from "../production/amounts.ts";
import type { PlateCells } from "../production/plates.ts";
import type { BuyingDocuments } from "../purchasing/documents.ts";
import type { OfferBook } from "../purchasing/offers.ts";
import { type LabourCells, labourCells } from "./labour.ts";
import { PreparationCosts } from "./preparation-costs.ts";
import { perKilogram } from "./rules.ts";
import { type SurroundCells, surroundCells } from "./surround.ts";

/** Cost of one plate in one form. */
export interface PlateCost {
  readonly row: PlateCells;
  readonly plate: Cell;
  /** Of the dish's own price, when it has one. */
  readonly share: Cell | undefined;
}

export interface PreparationCost {
  readonly preparation: string;
  readonly perKg: Cell;
  readonly total: Cell;
}

/** Costs of one service as cells that follow its amounts. */
export interface CostCells {
  readonly plates: readonly PlateCost[];
  readonly preparations: readonly PreparationCost[];
  /** Value of everything used, with overage, spare plates and whole batches. */
  readonly used: Cell;
  /** Plates of the guests alone, by cover. */
  readonly menu: Cell;
  readonly menuShare: Cell | undefined;
  /** What goes with every cover and stands on no plate. */
  readonly surround: SurroundCells | undefined;
  /** Plates and surround, by cover. */
  readonly food: Cell;
  readonly labour: LabourCells | undefined;
  /** Where the prices of what is used come from. */
  readonly offers: OfferBook;
}

/** Adds the costs of a service to its ledger: once for each `computeAmounts`. */
export function costCells(amounts: Amounts, docs: BuyingDocuments, offers: OfferBook): CostCells {
  const { ledger, service, kitchen } = amounts;
  const { formula, covers } = amounts.cells;
  const { currency } = kitchen;
  const costs = new PreparationCosts(formula, offers, currency);
  const preparations = amounts.cells.preparations.map((need): PreparationCost => {
    const { id } = need.cells.preparation;
    const perG = costs.add(need.cells);
    return {
      preparation: id,
      perKg: ledger.derive(`calc:/costs/preparations/${id}/per-kg`, `${currency}/kg`, perKilogram, [perG]),
      total: ledger.derive(`calc:/costs/preparations/${id}/total`, currency, times, [
        perG,
        need.batches.madeG,
      ]),
    };
  });
  const serviceAt = `book:${docs.pointer("services", service.id)}`;
  const plates = amounts.cells.plates.map((row): PlateCost => {
    const { dish } = row.row;
    const path = `calc:/costs/plates/${row.course}/${dish.id}/${row.row.form.name}`;
    const pairs = row.placed.flatMap(({ preparation, ingredient, cut, ep }) => [
      ep,
      preparation === undefined ? costs.prices.of(ingredient!, cut) : costs.of(preparation),
    ]);
    const plate = ledger.derive(path, currency, sumOfProducts, pairs);
    if (dish.sell === undefined) return { row, plate, share: undefined };
    const sell = stated(ledger, `book:${docs.pointer("dishes", dish.id)}/sell`, currency, Number(dish.sell));
    return { row, plate, share: ledger.derive(`${path}/share`, "ratio", over, [plate, sell]) };
  });
  const bought = amounts.cells.preparations.flatMap((need) =>
    need.cells.lines.flatMap((each): Cell[] => {
      if ("preparation" in each.line.item) return [];
      const { ingredient, cut } = each.line.item;
      const path = `calc:/costs/used-in/${need.cells.preparation.id}/${each.line.id}`;
      const used = ledger.derive(`${path}/g`, "g", times, [each.ep, need.factor]);
      return [used, costs.prices.of(ingredient, cut, each)];
    }),
  );
  const onPlates = amounts.cells.plates.flatMap((row) =>
    row.placed.flatMap(({ ingredient, cut, ep }, k): Cell[] => {
      if (ingredient === undefined) return [];
      const path = `calc:/costs/used-on-plates/${row.course}/${row.row.dish.id}/${row.row.form.name}/${k}`;
      return [ledger.derive(path, "g", times, [row.plates, ep]), costs.prices.of(ingredient, cut)];
    }),
  );
  const beside = amounts.cells.ingredients.flatMap(({ ingredient, cut, uses }) =>
    uses.flatMap((use): Cell[] =>
      use.beside === undefined ? [] : [use.g, costs.prices.of(ingredient, cut)],
    ),
  );
  const used = ledger.derive("calc:/costs/used", currency, sumOfProducts, [
    ...bought,
    ...onPlates,
    ...beside,
  ]);
  const eaten = ledger.derive(
    "calc:/costs/eaten",
    currency,
    sumOfProducts,
    plates.flatMap(({ row, plate }) => [row.count, plate]),
  );
  const menu = ledger.derive("calc:/costs/menu", currency, over, [eaten, covers]);
  const sellPerCover = service.sellPerCover;
  const menuShare =
    sellPerCover === undefined
      ? undefined
      : ledger.derive("calc:/costs/menu-share", "ratio", over, [
          menu,
          stated(ledger, `${serviceAt}/sellPerCover`, currency, Number(sellPerCover)),
        ]);
  const surround = surroundCells(amounts, docs, costs, menu);
  const food = surround ? ledger.derive("calc:/costs/food", currency, sum, [menu, surround.perCover]) : menu;
  const labour = labourCells(amounts, docs);
  return { plates, preparations, used, menu, menuShare, surround, food, labour, offers };
}
