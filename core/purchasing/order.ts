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
/** How strongly a supplier under its minimum is favoured when packs are compared again, step by step. */
const PULLS = [1, 0.98, 0.95, 0.92, 0.88, 0.84, 0.8, 0.75, 0.7, 0.6, 0.5, 0.35, 0.2, 0];

/** Whether a set of suppliers, as bits, holds the supplier at `s`. */
export function holds(set: number, s: number): boolean {
  return Math.floor(set / 2 ** s) % 2 === 1;
}

/**
 * The cheapest order: every set of suppliers is tried, and in each set every item's packs are chosen exactly.
 * Without minimums that bite the answer is proven best. Where a minimum bites, prices of the suppliers in question
 * are weighted down step by step: each weighting gives an order, and a bound (Lagrange: a supplier is paid
 * max(goods, minimum) ≥ w × goods + (1 − w) × minimum for every w from 0 to 1).
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

  let best: { total: number; set: number; weights: readonly number[] } | undefined;
  let bound = Number.POSITIVE_INFINITY;
  const consider = (set: number): void => {
    let floor = 0;
    const look = (weights: readonly number[]): readonly number[] => {
      const found = evaluate(suppliers, covered, set, weights);
      if (!found) return [];
      floor = Math.max(floor, found.least);
      if (!best || found.total < best.total) best = { total: found.total, set, weights };
      return found.short;
    };
    if (!evaluate(suppliers, covered, set, plain)) return;
    const short = look(plain);
    // All that are short together, then each alone: one may be out of reach and only cost.
    for (const pulled of short.length > 1 ? [short, ...short.map((s) => [s])] : [short]) {
      let weights: readonly number[] = plain;
      let still = pulled;
      for (let step = 1; step < PULLS.length && still.length > 0; step++) {
        if (floor >= best!.total) break;
        weights = weights.map((w, s) => (still.includes(s) ? PULLS[step]! : w));
        still = look(weights).filter((s) => pulled.includes(s));
      }
    }
    bound = Math.min(bound, floor);
  };

  const { must, may } = sortedOut(suppliers.length, covered);
  if (may.length <= MOST_TRIED) {
    for (let k = 0; k < 2 ** may.length; k++)
      consider(must + may.reduce((set, s, j) => set + (holds(k, j) ? 2 ** s : 0), 0));
  } else {
    consider(dropWhilePaying(suppliers, covered, must, may, plain));
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
  readonly #weighted = new Map<string, ItemTable>();

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
    if (this.sellers.every((s) => weights[s] === this.#weights[s])) return this;
    const key = this.sellers.map((s) => weights[s]).join(" ");
    const known = this.#weighted.get(key);
    if (known) return known;
    const made = new ItemTable(this.item, weights);
    this.#weighted.set(key, made);
    return made;
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

/**
 * The order in one set of suppliers with prices compared by weights: its total, who is under a minimum, and the
 * least that any order using just this set can come to.
 */
function evaluate(
  suppliers: readonly SupplierTerms[],
  items: readonly ItemTable[],
  set: number,
  weights: readonly number[],
): { total: number; least: number; short: number[] } | undefined {
  const goods = new Array<number>(suppliers.length).fill(0);
  let least = chargesOf(suppliers, set);
  for (const item of items) {
    const choice = item.weighted(weights).at(set);
    if (!choice) return undefined;
    least += choice.bound;
    for (const { supplier, price } of choice.goods) goods[supplier] = goods[supplier]! + price;
  }
  let total = 0;
  const short: number[] = [];
  suppliers.forEach(({ minimum, charge }, s) => {
    if (holds(set, s)) least += (1 - weights[s]!) * minimum;
    if (goods[s]! <= 0) return;
    total += Math.max(goods[s]!, minimum) + charge;
    if (goods[s]! < minimum) short.push(s);
  });
  // Prices are whole numbers, so is every total; weighted sums are not, and are rounded in doubles.
  return { total, least: Math.ceil(least * (1 - 1e-12) - 1e-6), short };
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
  plain: readonly number[],
): number {
  let set = may.reduce((all, s) => all + 2 ** s, must);
  let total = evaluate(suppliers, items, set, plain)?.total ?? Number.POSITIVE_INFINITY;
  for (let better = true; better; ) {
    better = false;
    for (const s of may) {
      const without = holds(set, s) ? evaluate(suppliers, items, set - 2 ** s, plain)?.total : undefined;
      if (without !== undefined && without < total) {
        set -= 2 ** s;
        total = without;
        better = true;
      }
    }
  }
  return set;
}
