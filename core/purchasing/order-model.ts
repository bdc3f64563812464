import type { Column, MixedInteger, MixedIntegerModel, Row } from "./mixed-integer.ts";
import { type OrderChoice, type OrderProblem, orderTotal } from "./order.ts";
import { CRUMB_G, coverRows, type ItemNeed, lackG, type PackOffer } from "./packs.ts";

/** Money of the problem is in millionths, that of the model in the currency: a solver likes numbers near one. */
const MILLION = 1e6;
/** Less than half of the smallest coin of any currency with two decimals. */
const GAP = 0.004;
/** Enough to prove a supper's orders, or to come within a thousandth for 300 ingredients, in about two seconds. */
const STEPS = 2000;

/** Where the numbers of an order stand in the model. */
interface Places {
  /** By item and offer: a column for each price, in the order of the tiers that were kept. */
  readonly packs: readonly (readonly (readonly TierColumn[])[])[];
}

interface TierColumn {
  readonly column: number;
  /** Whether this price holds, where an offer has several. */
  readonly chosen: number | undefined;
  readonly from: number;
  readonly most: number;
}

/**
 * The order as a mixed-integer program: packs by offer, delivery and price; deliveries made or not; what is missing to
 * a minimum; what is left over and worth something. Items that nobody can cover must be left out.
 */
export function orderModel(
  { slots, items }: OrderProblem,
  start: OrderChoice["packs"],
): { readonly model: MixedIntegerModel; readonly places: Places } {
  const columns: Column[] = [];
  const rows: Row[] = [];
  const values: number[] = [];
  const add = (cost: number, upper: number, whole: boolean, value: number): number => {
    columns.push({ cost, lower: 0, upper, whole });
    values.push(value);
    return columns.length - 1;
  };
  const free = Number.POSITIVE_INFINITY;
  const used = slots.map((_, s) =>
    items.some((item, i) => item.offers.some((offer, o) => offer.slot === s && start[i]![o]! > 0)),
  );
  const made = slots.map(({ charge }, s) => add(charge / MILLION, 1, true, used[s] ? 1 : 0));
  const goods: (readonly [number, number])[][] = slots.map(() => []);
  const packs = items.map((item, i) => {
    const cover = coverRows(item);
    const brought: (readonly [number, number])[] = [];
    const mine = item.offers.map((offer, o): TierColumn[] => {
      const { slot } = offer;
      const count = start[i]![o]!;
      const tiers = pricesThatMatter(item, offer, cover, o);
      const places = tiers.map(({ from, most, price }): TierColumn => {
        const here = count >= from && count <= most;
        const column = add(price / MILLION, most, true, here ? count : 0);
        goods[slot]!.push([column, price / MILLION]);
        brought.push([column, offer.brings]);
        if (tiers.length === 1 && from <= 1) {
          rows.push({ lower: -free, upper: 0, terms: [[column, 1] as const, [made[slot]!, -most] as const] });
          return { column, chosen: undefined, from, most };
        }
        const chosen = add(0, 1, true, here && count > 0 ? 1 : 0);
        rows.push(
          { lower: -free, upper: 0, terms: [[column, 1] as const, [chosen, -most] as const] },
          { lower: 0, upper: free, terms: [[column, 1] as const, [chosen, -from] as const] },
        );
        return { column, chosen, from, most };
      });
      const choice = places.flatMap(({ chosen }) => (chosen === undefined ? [] : [[chosen, 1] as const]));
      if (choice.length > 0)
        rows.push({ lower: -free, upper: 0, terms: [...choice, [made[slot]!, -1] as const] });
      return places;
    });
    for (const { needG, offers } of cover)
      rows.push({
        lower: 1,
        upper: free,
        terms: offers.flatMap((o) =>
          mine[o]!.map(({ column }) => [column, item.offers[o]!.brings / needG] as const),
        ),
      });
    const needed = item.needs.reduce((sum, each) => sum + each, 0);
    if (item.worth > 0 && item.worthMostG > 0 && needed > CRUMB_G) {
      const bringing = item.offers.reduce((sum, { brings }, o) => sum + brings * start[i]![o]!, 0);
      const left = Math.min(item.worthMostG, Math.max(0, bringing - needed)) / needed;
      const column = add((-item.worth * needed) / MILLION, item.worthMostG / needed, false, left);
      rows.push({
        lower: 1,
        upper: free,
        terms: [...brought.map(([at, grams]) => [at, grams / needed] as const), [column, -1] as const],
      });
    }
    return mine;
  });
  slots.forEach(({ minimum }, s) => {
    if (minimum === 0) return;
    const paid = goods[s]!.reduce((sum, [column, price]) => sum + price * values[column]!, 0);
    const short = add(1, minimum / MILLION, false, used[s] ? Math.max(0, minimum / MILLION - paid) : 0);
    const terms = [[short, 1] as const, [made[s]!, -minimum / MILLION] as const, ...goods[s]!];
    rows.push({ lower: 0, upper: free, terms });
  });
  return { model: { columns, rows, start: values, gap: GAP, steps: STEPS }, places: { packs } };
}

/** The order made better by a solver, and a bound of it. `start` is an order that covers all that can be. */
export function improveOrder(
  problem: OrderProblem,
  start: OrderChoice,
  solver: MixedInteger,
): Pick<OrderChoice, "packs" | "total" | "bound"> {
  const open = problem.items.flatMap((item, i) =>
    start.uncovered.includes(i) || item.needs.every((g) => g <= CRUMB_G) ? [] : [i],
  );
  const part: OrderProblem = { slots: problem.slots, items: open.map((i) => problem.items[i]!) };
  const { model, places } = orderModel(
    part,
    open.map((i) => start.packs[i]!),
  );
  const answer = solver(model);
  const found = answer.values && packsOf(problem, open, places, answer.values);
  const total = found ? orderTotal(problem, found) : Number.POSITIVE_INFINITY;
  const better = total < start.total ? { packs: found!, total } : { packs: start.packs, total: start.total };
  const bound = Number.isFinite(answer.bound)
    ? Math.floor(answer.bound * MILLION - 1e-9 * Math.abs(answer.bound * MILLION))
    : start.bound;
  return { ...better, bound: Math.min(better.total, Math.max(start.bound, bound)) };
}

/** Whole packs of an answer; undefined when, rounded, they do not cover the needs. */
function packsOf(
  problem: OrderProblem,
  open: readonly number[],
  places: Places,
  values: readonly number[],
): number[][] | undefined {
  const packs = problem.items.map((item) => item.offers.map(() => 0));
  open.forEach((i, k) => {
    places.packs[k]!.forEach((tiers, o) => {
      packs[i]![o] = tiers.reduce((sum, { column }) => sum + Math.round(values[column]!), 0);
    });
  });
  // A solver keeps a row to a millionth of the need; a scale shows no less.
  const short = open.some((i) => {
    const item = problem.items[i]!;
    return lackG(item, packs[i]!) > CRUMB_G + 2e-6 * item.needs.reduce((sum, each) => sum + each, 0);
  });
  return short ? undefined : packs;
}

/**
 * The prices of an offer that can be part of a best order: as many packs as cover all it serves, and what is left over
 * and worth something; a break beyond that only when its packs together cost less than those would.
 */
function pricesThatMatter(
  item: ItemNeed,
  { brings, tiers }: PackOffer,
  cover: ReturnType<typeof coverRows>,
  place: number,
): { from: number; most: number; price: number }[] {
  const needG = Math.max(0, ...cover.filter((row) => row.offers.includes(place)).map((row) => row.needG));
  const extra = item.worth > 0 ? item.worthMostG : 0;
  const enough = Math.ceil((needG + extra - CRUMB_G) / brings);
  return tiers.flatMap(({ from, price }, k) => {
    const most = (tiers[k + 1]?.from ?? Number.POSITIVE_INFINITY) - 1;
    if (from <= enough) return [{ from: k === 0 ? 0 : from, most: Math.min(most, enough), price }];
    // Beyond what is needed the first pack of a price is the only one that can pay.
    return [{ from, most: from, price }];
  });
}
