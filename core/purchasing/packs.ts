/**
 * How many packs of which offers cover the needs of one ingredient at the least price, exactly: integer packs,
 * price breaks for all packs of an offer in one delivery, goods already cut or to be trimmed here, deliveries that
 * are there for some of the needs only, and what is left over and keeps counted at its worth.
 */

/** One price from so many packs on, for all packs. Money is in whole millionths of the currency. */
export interface Tier {
  readonly from: number;
  readonly price: number;
}

/** An offer in one delivery. */
export interface PackOffer {
  /** Place of the delivery in the order. */
  readonly slot: number;
  /** What one pack covers, g as purchased; of goods already cut, the whole goods they save. */
  readonly brings: number;
  /** The needs it can serve, as bits: need k when bit k is set. */
  readonly serves: number;
  /** From one pack on, rising. */
  readonly tiers: readonly Tier[];
}

export interface ItemNeed {
  /** Needs apart in cut or time, g as purchased, after stock. At most 30. */
  readonly needs: readonly number[];
  readonly offers: readonly PackOffer[];
  /** What a gram left over is worth, millionths; never more than the cheapest gram costs. */
  readonly worth: number;
  /** More than this left over is worth nothing, g. */
  readonly worthMostG: number;
}

export interface PackChoice {
  /** Packs of each offer. */
  readonly packs: readonly number[];
  /** Price of all, weighted where weights were given, less the worth of what is left over. */
  readonly cost: number;
  /** False when the search was cut short: then `bound` is below `cost`. */
  readonly exact: boolean;
  /** No choice costs less. */
  readonly bound: number;
}

/** Needs that must be covered together: only the offers named can bring anything to any of them. */
export interface CoverRow {
  readonly needG: number;
  /** Places of the offers that serve at least one of the needs. */
  readonly offers: readonly number[];
}

/** A crumb of a gram that rounding may leave; far below anything a scale shows. */
export const CRUMB_G = 1e-6;
/** Choices looked at for one ingredient before the search says how far it might be off. */
const MOST_NODES = 20_000;

/** Price of one pack when `packs` are taken. */
export function tierPrice(tiers: readonly Tier[], packs: number): number {
  let price = tiers[0]!.price;
  for (const tier of tiers) if (packs >= tier.from) price = tier.price;
  return price;
}

/**
 * The conditions under which packs cover all needs: for each set of needs, what serves any of them must bring as
 * much as they ask for together (Hall 1935, Gale 1957). Only sets that no further need can join for free matter.
 */
export function coverRows(item: Pick<ItemNeed, "needs" | "offers">): readonly CoverRow[] {
  const known = rowsOf.get(item) ?? rowsAnew(item);
  rowsOf.set(item, known);
  return known;
}

const rowsOf = new WeakMap<object, readonly CoverRow[]>();

function rowsAnew({ needs, offers }: Pick<ItemNeed, "needs" | "offers">): CoverRow[] {
  const wanted = needs.flatMap((needG, k) => (needG > CRUMB_G ? [k] : []));
  const closed = (set: number) => {
    const serving = offers.filter((offer) => (offer.serves & set) !== 0);
    return wanted.reduce((all, k) => {
      const mine = offers.filter((offer) => (offer.serves & (1 << k)) !== 0);
      return mine.every((offer) => serving.includes(offer)) ? all | (1 << k) : all;
    }, set);
  };
  const sets = new Set<number>();
  const open = [0];
  for (let set = open.pop(); set !== undefined; set = open.pop())
    for (const k of wanted) {
      const next = closed(set | (1 << k));
      if (sets.has(next)) continue;
      sets.add(next);
      open.push(next);
    }
  return [...sets]
    .sort((a, b) => a - b)
    .map((set) => ({
      needG: wanted.reduce((sum, k) => ((set & (1 << k)) !== 0 ? sum + needs[k]! : sum), 0),
      offers: offers.flatMap((offer, o) => ((offer.serves & set) !== 0 ? [o] : [])),
    }));
}

/** g still missing when the packs are there: the most that any of the rows lacks. */
export function lackG(item: ItemNeed, packs: readonly number[], rows = coverRows(item)): number {
  const lacks = rows.map(({ needG, offers }) =>
    offers.reduce((left, o) => left - packs[o]! * item.offers[o]!.brings, needG),
  );
  return Math.max(0, ...lacks);
}

/** g that the packs bring beyond the needs. */
export function leftG(item: Pick<ItemNeed, "needs" | "offers">, packs: readonly number[]): number {
  const needed = item.needs.reduce((sum, each) => sum + each, 0);
  return Math.max(0, packs.reduce((sum, count, o) => sum + count * item.offers[o]!.brings, 0) - needed);
}

/** What is left over is worth, in whole millionths. */
export function worthLeft(item: ItemNeed, packs: readonly number[]): number {
  return Math.floor(item.worth * Math.min(item.worthMostG, leftG(item, packs)));
}

/**
 * The cheapest packs among the offers of the deliveries for which `allowed` holds.
 * @param weight multiplies an offer's price; 1 for the price as it is.
 * @returns undefined when they cannot cover the needs.
 */
export function choosePacks(
  item: ItemNeed,
  allowed: (slot: number) => boolean,
  weight: (slot: number) => number = () => 1,
  rows: readonly CoverRow[] = coverRows(item),
): PackChoice | undefined {
  return new PackSearch(item, rows, allowed, weight).run();
}

interface Open {
  readonly offer: PackOffer;
  readonly index: number;
  readonly weight: number;
  /** Least weighted price by gram. */
  readonly unit: number;
}

/** Depth-first over the offers, cheapest gram first, with a bound from the cheapest gram that is left. */
class PackSearch {
  readonly #item: ItemNeed;
  readonly #open: readonly Open[];
  /** By row: what is still missing, g. */
  readonly #left: number[];
  /** By offer: the rows it counts in. */
  readonly #rowsOf: number[][];
  /** By row and offer: the cheapest gram from that offer on; past the last, none. */
  readonly #lowest: number[][];
  readonly #lowestOfAll: number[];
  readonly #neededG: number;
  readonly #packs: number[];
  #boughtG = 0;
  #nodes = 0;
  #best: { packs: number[]; cost: number } | undefined;

  constructor(
    item: ItemNeed,
    rows: readonly CoverRow[],
    allowed: (slot: number) => boolean,
    weight: (slot: number) => number,
  ) {
    this.#item = item;
    this.#open = item.offers
      .map((offer, index): Open => {
        const of = weight(offer.slot);
        return { offer, index, weight: of, unit: (unitPrice(offer) * of) / offer.brings };
      })
      .filter(({ offer }) => allowed(offer.slot))
      .sort((a, b) => a.unit - b.unit || a.index - b.index);
    this.#left = rows.map((row) => row.needG);
    this.#rowsOf = this.#open.map(({ index }) =>
      rows.flatMap((row, r) => (row.offers.includes(index) ? [r] : [])),
    );
    const suffix = (units: number[]) => {
      const lowest = [...units, Number.POSITIVE_INFINITY];
      for (let k = units.length - 1; k >= 0; k--) lowest[k] = Math.min(lowest[k]!, lowest[k + 1]!);
      return lowest;
    };
    this.#lowest = rows.map((_, r) =>
      suffix(
        this.#open.map(({ unit }, k) => (this.#rowsOf[k]!.includes(r) ? unit : Number.POSITIVE_INFINITY)),
      ),
    );
    this.#lowestOfAll = suffix(this.#open.map(({ unit }) => unit));
    this.#neededG = item.needs.reduce((sum, each) => sum + each, 0);
    this.#packs = item.offers.map(() => 0);
  }

  run(): PackChoice | undefined {
    const root = this.#least(0, 0);
    if (root === Number.POSITIVE_INFINITY) return undefined;
    this.#search(0, 0);
    if (!this.#best) return undefined;
    const exact = this.#nodes <= MOST_NODES;
    const { packs, cost } = this.#best;
    return { packs, cost, exact, bound: exact ? cost : Math.min(Math.floor(root), cost) };
  }

  /** No choice among the offers from place k on ends for less than this. */
  #least(k: number, spent: number): number {
    let more = 0;
    for (let r = 0; r < this.#left.length; r++)
      if (this.#left[r]! > CRUMB_G) more = Math.max(more, this.#left[r]! * this.#lowest[r]![k]!);
    const { worth, worthMostG } = this.#item;
    if (worth === 0 || more === Number.POSITIVE_INFINITY) return spent + more;
    const unit = this.#lowestOfAll[k]!;
    let g = unit === Number.POSITIVE_INFINITY ? 0 : unit > 0 ? more / unit : Number.POSITIVE_INFINITY;
    // Where a gram costs less than it is worth afterwards, as many are bought as are worth something.
    if (unit < worth) g = Math.max(g, this.#neededG + worthMostG - this.#boughtG);
    const left = Math.min(worthMostG, Math.max(0, this.#boughtG + g - this.#neededG));
    return (
      spent + Math.max(more, unit === Number.POSITIVE_INFINITY || unit === 0 ? 0 : g * unit) - worth * left
    );
  }

  #search(k: number, spent: number): void {
    const { worth, worthMostG } = this.#item;
    const covered = this.#left.every((left) => left <= CRUMB_G);
    const here = this.#open[k];
    if (covered) {
      const left = Math.min(worthMostG, Math.max(0, this.#boughtG - this.#neededG));
      const cost = spent - Math.floor(worth * left);
      if (!this.#best || cost < this.#best.cost) this.#best = { packs: [...this.#packs], cost };
      if (worth === 0 || !here || this.#lowestOfAll[k]! >= worth) return;
    }
    if (!here || (this.#best && this.#least(k, spent) >= this.#best.cost)) return;
    const { offer, unit } = here;
    const { brings } = offer;
    let enough = 0;
    for (const r of this.#rowsOf[k]!) enough = Math.max(enough, packsFor(this.#left[r]!, brings));
    // More than enough only to reach a price break, or where a pack costs less than it is worth left over.
    const most =
      unit < worth ? Math.max(enough, packsFor(this.#neededG + worthMostG - this.#boughtG, brings)) : enough;
    if (most > 0) for (const { from } of offer.tiers) if (from > most) this.#take(k, from, spent);
    // When nothing cheaper follows, fewer packs only cost more: the first that is too dear ends it.
    const next = this.#lowestOfAll[k + 1]!;
    const cheapest = this.#left.length === 1 && next >= unit && unit >= worth;
    const [left] = this.#left;
    for (let count = most; count >= 0; count--) {
      if (cheapest && this.#best) {
        const bought = Math.min(Math.max(0, left!), count * brings);
        const rest = left! - bought > CRUMB_G ? (left! - bought) * next : 0;
        if (spent + bought * unit + rest - worth * worthMostG >= this.#best.cost) break;
      }
      this.#take(k, count, spent);
      if (this.#nodes > MOST_NODES) break;
    }
  }

  #take(k: number, count: number, spent: number): void {
    if (++this.#nodes > MOST_NODES && this.#best) return;
    const { offer, index, weight } = this.#open[k]!;
    const grams = count * offer.brings;
    this.#packs[index] = count;
    this.#boughtG += grams;
    for (const r of this.#rowsOf[k]!) this.#left[r]! -= grams;
    const paid = spent + count * tierPrice(offer.tiers, count) * weight;
    if (!this.#best || this.#least(k + 1, paid) < this.#best.cost) this.#search(k + 1, paid);
    for (const r of this.#rowsOf[k]!) this.#left[r]! += grams;
    this.#boughtG -= grams;
    this.#packs[index] = 0;
  }
}

function packsFor(grams: number, brings: number): number {
  return Math.max(0, Math.ceil((grams - CRUMB_G) / brings));
}

function unitPrice(offer: PackOffer): number {
  return Math.min(...offer.tiers.map((tier) => tier.price));
}
