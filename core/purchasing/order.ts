import {
  type CoverRow,
  choosePacks,
  coverRows,
  type ItemNeed,
  type PackChoice,
  tierPrice,
  worthLeft,
} from "./packs.ts";

/** What a delivery asks beside its prices, in whole millionths of the currency. */
export interface DeliveryTerms {
  readonly minimum: number;
  readonly charge: number;
}

/** What to order, as numbers: deliveries that suppliers could make, and what is needed of each ingredient. */
export interface OrderProblem {
  readonly slots: readonly DeliveryTerms[];
  readonly items: readonly ItemNeed[];
}

/**
 * An order over all deliveries. What is minimised: goods, a charge for each delivery used, and what is missing to a
 * supplier's minimum (it would have to be bought on top), less the worth of what is left over and keeps.
 */
export interface OrderChoice {
  /** Packs by item and offer. */
  readonly packs: readonly (readonly number[])[];
  readonly total: number;
  /** No order costs less; equal to `total` when this one is proven best. */
  readonly bound: number;
  /** Items nobody can cover. */
  readonly uncovered: readonly number[];
}

/** A set of deliveries: delivery s is in it when place s holds 1. Never changed once made. */
type Slots = Uint8Array;

/** With more deliveries than this to choose between, not every set of them is tried. */
const MOST_TRIED = 9;
/** How strongly a supplier under its minimum is favoured when packs are compared again, step by step. */
const PULLS = [1, 0.98, 0.95, 0.92, 0.88, 0.84, 0.8, 0.75, 0.7, 0.6, 0.5, 0.35, 0.2, 0];

const holds = (set: Slots, s: number): boolean => set[s] === 1;

/** The set with these deliveries as well, or without them. */
function changed(set: Slots, deliveries: readonly number[], to: 0 | 1): Slots {
  const next = set.slice();
  for (const s of deliveries) next[s] = to;
  return next;
}

/** What the packs of an order come to; what nobody can cover counts nothing. */
export function orderTotal(problem: OrderProblem, packs: OrderChoice["packs"]): number {
  return new OrderTotal(problem, packs).total;
}

/**
 * What an order comes to, and what it would with one item's packs exchanged. All sums are of whole millionths, so
 * that taking an item out and putting it back loses nothing.
 */
export class OrderTotal {
  readonly total: number;
  readonly #problem: OrderProblem;
  readonly #packs: OrderChoice["packs"];
  readonly #goods: Float64Array;
  /** Items that come with each delivery. */
  readonly #users: Int32Array;
  #worth = 0;

  constructor(problem: OrderProblem, packs: OrderChoice["packs"]) {
    this.#problem = problem;
    this.#packs = packs;
    this.#goods = new Float64Array(problem.slots.length);
    this.#users = new Int32Array(problem.slots.length);
    for (const [i, item] of problem.items.entries()) this.#count(item, packs[i]!, 1);
    this.total = this.#sum();
  }

  /** The total with these packs of one item, all else as it is. */
  with(i: number, packs: readonly number[]): number {
    const item = this.#problem.items[i]!;
    this.#count(item, this.#packs[i]!, -1);
    this.#count(item, packs, 1);
    const total = this.#sum();
    this.#count(item, packs, -1);
    this.#count(item, this.#packs[i]!, 1);
    return total;
  }

  #count(item: ItemNeed, packs: readonly number[], sign: 1 | -1): void {
    let any = false;
    packs.forEach((count, o) => {
      if (count === 0) return;
      any = true;
      const { slot, tiers } = item.offers[o]!;
      this.#goods[slot]! += sign * count * tierPrice(tiers, count);
      this.#users[slot]! += sign;
    });
    if (any) this.#worth += sign * worthLeft(item, packs);
  }

  #sum(): number {
    let sum = -this.#worth;
    this.#problem.slots.forEach(({ minimum, charge }, s) => {
      if (this.#users[s]! > 0) sum += Math.max(this.#goods[s]!, minimum) + charge;
    });
    return sum;
  }
}

/**
 * The cheapest order: every set of deliveries is tried, and in each set every item's packs are chosen exactly.
 * Without minimums that bite the answer is proven best. Where a minimum bites, prices of the deliveries in question
 * are weighted down step by step: each weighting gives an order, and a bound (Lagrange: a delivery is paid
 * max(goods, minimum) ≥ w × goods + (1 − w) × minimum for every w from 0 to 1). Over nine deliveries to choose between
 * they are dropped one by one while that pays.
 */
export function chooseOrder(problem: OrderProblem): OrderChoice {
  const { slots, items } = problem;
  const everyone: Slots = new Uint8Array(slots.length).fill(1);
  const plain = slots.map(() => 1);
  const tables = items.map((item) => new ItemTable(item, plain));
  const uncovered = tables.flatMap((table, i) => (table.at(everyone) ? [] : [i]));
  const covered = tables.filter((table) => table.at(everyone) !== undefined);

  let best: { total: number; set: Slots; weights: readonly number[] } | undefined;
  let bound = Number.POSITIVE_INFINITY;
  const consider = (set: Slots): void => {
    let floor = Number.NEGATIVE_INFINITY;
    const look = (weights: readonly number[]): readonly number[] => {
      const found = evaluate(slots, covered, set, weights);
      if (!found) return [];
      floor = Math.max(floor, found.least);
      if (!best || found.total < best.total) best = { total: found.total, set, weights };
      return found.short;
    };
    if (!evaluate(slots, covered, set, plain)) return;
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

  const { must, may } = sortedOut(slots.length, covered);
  if (may.length <= MOST_TRIED) {
    for (let k = 0; k < 1 << may.length; k++) {
      const also = may.filter((_, j) => ((k >> j) & 1) === 1);
      consider(changed(must, also, 1));
    }
  } else {
    consider(dropWhilePaying(slots, covered, must, may, plain));
    bound = covered.reduce((total, table) => total + table.at(everyone)!.bound, chargesOf(slots, must));
  }
  if (!best) throw new Error("orders: no set of deliveries covers what all of them together can");
  const { set, weights } = best;
  const packs = tables.map((table) => table.weighted(weights).at(set)?.packs ?? table.none);
  const total = orderTotal(problem, packs);
  return { packs, total, bound: Math.min(bound, total), uncovered };
}

/** The packs of one item in each set of deliveries, chosen once for each set that matters to the item. */
class ItemTable {
  readonly item: ItemNeed;
  readonly sellers: readonly number[];
  readonly #rows: readonly CoverRow[];
  readonly #weights: readonly number[];
  /** By which of the item's own sellers come. */
  readonly #chosen = new Map<number | string, Chosen | undefined>();
  readonly #weighted = new Map<string, ItemTable>();
  #last: { readonly set: Slots; readonly chosen: Chosen | undefined } | undefined;

  constructor(item: ItemNeed, weights: readonly number[], rows: readonly CoverRow[] = coverRows(item)) {
    this.item = item;
    this.sellers = [...new Set(item.offers.map((offer) => offer.slot))];
    this.#weights = weights;
    this.#rows = rows;
  }

  /** No packs at all. */
  get none(): number[] {
    return this.item.offers.map(() => 0);
  }

  /** What is taken when the deliveries are those in `set`; undefined when they cannot cover it. */
  at(set: Slots): Chosen | undefined {
    if (this.#last?.set === set) return this.#last.chosen;
    const own = this.#ownKey(set);
    let chosen = this.#chosen.get(own);
    if (chosen === undefined && !this.#chosen.has(own)) {
      const choice = choosePacks(
        this.item,
        (slot) => holds(set, slot),
        (slot) => this.#weights[slot]!,
        this.#rows,
      );
      chosen = choice && { ...choice, ...goodsOf(this.item, choice.packs) };
      this.#chosen.set(own, chosen);
    }
    this.#last = { set, chosen };
    return chosen;
  }

  #ownKey(set: Slots): number | string {
    if (this.sellers.length > 30) return this.sellers.map((s) => set[s]).join("");
    let bits = 0;
    for (let k = 0; k < this.sellers.length; k++) bits |= set[this.sellers[k]!]! << k;
    return bits;
  }

  /** The same item with prices compared by weights. */
  weighted(weights: readonly number[]): ItemTable {
    if (weights === this.#weights || this.sellers.every((s) => weights[s] === this.#weights[s])) return this;
    const key = this.sellers.map((s) => weights[s]).join(" ");
    const known = this.#weighted.get(key);
    if (known) return known;
    const made = new ItemTable(this.item, weights, this.#rows);
    this.#weighted.set(key, made);
    return made;
  }
}

interface Chosen extends PackChoice {
  /** Price by delivery, unweighted. */
  readonly goods: readonly { readonly slot: number; readonly price: number }[];
  readonly worthLeft: number;
}

function goodsOf(item: ItemNeed, packs: readonly number[]): Pick<Chosen, "goods" | "worthLeft"> {
  const goods = packs.flatMap((count, o) => {
    if (count === 0) return [];
    const { slot, tiers } = item.offers[o]!;
    return [{ slot, price: count * tierPrice(tiers, count) }];
  });
  return { goods, worthLeft: goods.length > 0 ? worthLeft(item, packs) : 0 };
}

/**
 * The order in one set of deliveries with prices compared by weights: its total, who is under a minimum, and the
 * least that any order using just this set can come to.
 */
function evaluate(
  slots: readonly DeliveryTerms[],
  items: readonly ItemTable[],
  set: Slots,
  weights: readonly number[],
): { total: number; least: number; short: number[] } | undefined {
  const goods = new Array<number>(slots.length).fill(0);
  const used = new Array<boolean>(slots.length).fill(false);
  let least = chargesOf(slots, set);
  let total = 0;
  for (const item of items) {
    const choice = item.weighted(weights).at(set);
    if (!choice) return undefined;
    least += choice.bound;
    total -= choice.worthLeft;
    for (const { slot, price } of choice.goods) {
      goods[slot] = goods[slot]! + price;
      used[slot] = true;
    }
  }
  const short: number[] = [];
  slots.forEach(({ minimum, charge }, s) => {
    if (holds(set, s)) least += (1 - weights[s]!) * minimum;
    if (!used[s]) return;
    total += Math.max(goods[s]!, minimum) + charge;
    if (goods[s]! < minimum) short.push(s);
  });
  // Prices are whole numbers, so is every total; weighted sums are not, and are rounded in doubles.
  return { total, least: Math.ceil(least - 1e-12 * Math.abs(least) - 1e-6), short };
}

/** Deliveries no order can do without, as a set, and those there is a choice about. */
function sortedOut(n: number, items: readonly ItemTable[]): { must: Slots; may: number[] } {
  const nobody: Slots = new Uint8Array(n);
  const everyone: Slots = new Uint8Array(n).fill(1);
  const useful = new Set(
    items.filter((item) => item.at(nobody) === undefined).flatMap((item) => item.sellers),
  );
  const needed = [...useful].filter((s) => {
    const without = changed(everyone, [s], 0);
    return items.some((item) => item.sellers.includes(s) && item.at(without) === undefined);
  });
  const may = [...useful].filter((s) => !needed.includes(s));
  return { must: changed(nobody, needed, 1), may };
}

function chargesOf(slots: readonly DeliveryTerms[], set: Slots): number {
  return slots.reduce((total, { charge }, s) => total + (holds(set, s) ? charge : 0), 0);
}

/** Leaves deliveries out one by one as long as that pays. */
function dropWhilePaying(
  slots: readonly DeliveryTerms[],
  items: readonly ItemTable[],
  must: Slots,
  may: readonly number[],
  plain: readonly number[],
): Slots {
  let set = changed(must, may, 1);
  let total = evaluate(slots, items, set, plain)?.total ?? Number.POSITIVE_INFINITY;
  for (let better = true; better; ) {
    better = false;
    for (const s of may) {
      if (!holds(set, s)) continue;
      const without = changed(set, [s], 0);
      const left = evaluate(slots, items, without, plain)?.total;
      if (left === undefined || left >= total) continue;
      set = without;
      total = left;
      better = true;
    }
  }
  return set;
}
