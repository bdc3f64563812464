import { choosePacks, type ItemNeed, type PackChoice, tierPrice } from "./packs.ts";

/** What a supplier asks beside its prices; money in whole numbers of the smallest unit counted in. */
export interface SupplierTerms {
  readonly minimum: number;
  readonly charge: number;
}

export interface OrderProblem {
  readonly suppliers: readonly SupplierTerms[];
  readonly items: readonly ItemNeed[];
}

/**
 * An order over all suppliers. What is minimised: goods, a delivery charge for each supplier used, and what is
 * missing to a supplier's minimum (it would have to be bought on top).
 */
export interface OrderChoice {
  /** Suppliers that may be used, as bits: supplier s is in it when ⌊suppliers / 2^s⌋ is odd. */
  readonly suppliers: number;
  /** By supplier: what its prices were weighted with when packs were compared; 1 unless its minimum pulled. */
  readonly weights: readonly number[];
  /** Packs by item and offer. */
  readonly packs: readonly (readonly number[])[];
  readonly total: number;
  /** No order costs less; equal to `total` when this one is proven best. */
  readonly bound: number;
  /** Items nobody can cover. */
  readonly uncovered: readonly number[];
}

/** With more suppliers than this to choose between, not every set of them is tried. */
const MOST_TRIED = 12;
/** Sets of suppliers are counted in doubles. */
export const MOST_SUPPLIERS = 50;
/** How strongly a supplier under its minimum is favoured when packs are compared again. */
const PULLS = [0.95, 0.9, 0.8, 0.7, 0.5, 0.25, 0];

/** Whether a set of suppliers, as bits, holds the supplier at `s`. */
export function holds(set: number, s: number): boolean {
  return Math.floor(set / 2 ** s) % 2 === 1;
}

/**
 * The cheapest order: every set of suppliers is tried, and in each set every item's packs are chosen exactly.
 * Without minimums that bite the answer is proven best. Where a minimum bites, choices that favour the supplier
 * in question are tried too, and the bound says how far the answer might be from the best.
 * @throws RangeError with more than 50 suppliers.
 */
export function chooseOrder(problem: OrderProblem): OrderChoice {
  const { suppliers, items } = problem;
  if (suppliers.length > MOST_SUPPLIERS) throw new RangeError(`more than ${MOST_SUPPLIERS} suppliers`);
  const everyone = 2 ** suppliers.length - 1;
  const plain = suppliers.map(() => 1);
  const tables = items.map((item) => new ItemTable(item, plain));
  const uncovered = tables.flatMap((table, i) => (table.at(everyone) ? [] : [i]));
  const covered = tables.filter((table) => table.at(everyone) !== undefined);

  const known = new Map<string, { weights: readonly number[]; items: ItemTable[] }>();
  const pulled = (s: number, pull: number) => {
    const key = `${s} ${pull}`;
    const found = known.get(key);
    if (found) return found;
    const weights = plain.map((w, i) => (i === s ? pull : w));
    const made = { weights, items: covered.map((table) => table.weighted(weights)) };
    known.set(key, made);
    return made;
  };

  let best: { total: number; set: number; weights: readonly number[] } | undefined;
  let bound = Number.POSITIVE_INFINITY;
  const consider = (set: number): void => {
    const found = evaluate(suppliers, covered, set);
    if (!found) return;
    const { total, short } = found;
    const least = Math.max(found.least, leastWithMinimums(suppliers, covered, set, short));
    const floor = least + chargesOf(suppliers, set);
    bound = Math.min(bound, floor);
    if (!best || total < best.total) best = { total, set, weights: plain };
    for (const s of short)
      for (const pull of PULLS) {
        if (floor >= best.total) return;
        const { weights, items: favoured } = pulled(s, pull);
        const other = evaluate(suppliers, favoured, set);
        if (other && other.total < best.total) best = { total: other.total, set, weights };
      }
  };

  const { must, may } = sortedOut(suppliers.length, covered);
  if (may.length <= MOST_TRIED) {
    for (let k = 0; k < 2 ** may.length; k++)
      consider(must + may.reduce((set, s, j) => set + (holds(k, j) ? 2 ** s : 0), 0));
  } else {
    consider(dropWhilePaying(suppliers, covered, must, may));
    bound = covered.reduce((total, table) => total + table.at(everyone)!.bound, chargesOf(suppliers, must));
  }
  if (!best) throw new Error("orders: no set of suppliers covers what all of them together can");
  const { set, weights, total } = best;
  const packs = tables.map((table) => table.weighted(weights).at(set)?.packs ?? table.none);
  return { suppliers: set, weights, packs, total, bound: Math.min(bound, total), uncovered };
}

/** The packs of one item in each set of suppliers, chosen once for each set that matters to the item. */
class ItemTable {
  readonly item: ItemNeed;
  readonly sellers: readonly number[];
  readonly #weights: readonly number[];
  readonly #chosen: (Chosen | null | undefined)[] = [];

  constructor(item: ItemNeed, weights: readonly number[]) {
    this.item = item;
    this.sellers = [...new Set(item.offers.map((offer) => offer.supplier))];
    this.#weights = weights;
  }

  /** No packs at all. */
  get none(): number[] {
    return this.item.offers.map(() => 0);
  }

  /** What is taken when the suppliers are those in `set`; undefined when they cannot cover it. */
  at(set: number): Chosen | undefined {
    let own = 0;
    for (let k = 0; k < this.sellers.length; k++) if (holds(set, this.sellers[k]!)) own += 2 ** k;
    let found = this.#chosen[own];
    if (found === undefined) {
      const choice = choosePacks(
        this.item,
        (supplier) => holds(set, supplier),
        (supplier) => this.#weights[supplier]!,
      );
      found = choice ? { ...choice, goods: goodsOf(this.item, choice) } : null;
      this.#chosen[own] = found;
    }
    return found ?? undefined;
  }

  /** The same item with prices compared by weights. */
  weighted(weights: readonly number[]): ItemTable {
    const same = this.sellers.every((s) => weights[s] === this.#weights[s]);
    return same ? this : new ItemTable(this.item, weights);
  }
}

interface Chosen extends PackChoice {
  /** Price by supplier, unweighted. */
  readonly goods: readonly { readonly supplier: number; readonly price: number }[];
}

function goodsOf(item: ItemNeed, { packs }: PackChoice): Chosen["goods"] {
  return packs.flatMap((count, o) => {
    if (count === 0) return [];
    const { supplier, tiers } = item.offers[o]!;
    return [{ supplier, price: count * tierPrice(tiers, count) }];
  });
}

/** The order in one set of suppliers: its total, the least the goods can cost there, and who is under a minimum. */
function evaluate(
  suppliers: readonly SupplierTerms[],
  items: readonly ItemTable[],
  set: number,
): { total: number; least: number; short: number[] } | undefined {
  const goods = new Array<number>(suppliers.length).fill(0);
  let least = 0;
  for (const item of items) {
    const choice = item.at(set);
    if (!choice) return undefined;
    least += choice.bound;
    for (const { supplier, price } of choice.goods) goods[supplier] = goods[supplier]! + price;
  }
  let total = 0;
  const short: number[] = [];
  suppliers.forEach(({ minimum, charge }, s) => {
    if (goods[s]! <= 0) return;
    total += Math.max(goods[s]!, minimum) + charge;
    if (goods[s]! < minimum) short.push(s);
  });
  return { total, least, short };
}

/** If the suppliers in `short` are used, their minimums are paid, and what only others sell comes on top. */
function leastWithMinimums(
  suppliers: readonly SupplierTerms[],
  items: readonly ItemTable[],
  set: number,
  short: readonly number[],
): number {
  if (short.length === 0) return 0;
  let least = short.reduce((total, s) => total + suppliers[s]!.minimum, 0);
  for (const item of items)
    if (!item.sellers.some((s) => short.includes(s))) least += item.at(set)?.bound ?? 0;
  return least;
}

/** Suppliers no order can do without, as a set, and those there is a choice about. */
function sortedOut(n: number, items: readonly ItemTable[]): { must: number; may: number[] } {
  const everyone = 2 ** n - 1;
  const useful = new Set(items.filter((item) => item.at(0) === undefined).flatMap((item) => item.sellers));
  const needed = [...useful].filter((s) => items.some((item) => item.at(everyone - 2 ** s) === undefined));
  const may = [...useful].filter((s) => !needed.includes(s));
  return { must: needed.reduce((set, s) => set + 2 ** s, 0), may };
}

function chargesOf(suppliers: readonly SupplierTerms[], set: number): number {
  return suppliers.reduce((total, { charge }, s) => total + (holds(set, s) ? charge : 0), 0);
}

/** Leaves suppliers out one by one as long as that pays. */
function dropWhilePaying(
  suppliers: readonly SupplierTerms[],
  items: readonly ItemTable[],
  must: number,
  may: readonly number[],
): number {
  let set = may.reduce((all, s) => all + 2 ** s, must);
  let total = evaluate(suppliers, items, set)?.total ?? Number.POSITIVE_INFINITY;
  for (let better = true; better; ) {
    better = false;
    for (const s of may) {
      const without = holds(set, s) ? evaluate(suppliers, items, set - 2 ** s)?.total : undefined;
      if (without !== undefined && without < total) {
        set -= 2 ** s;
        total = without;
        better = true;
      }
    }
  }
  return set;
}
