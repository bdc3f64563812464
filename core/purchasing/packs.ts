/**
 * How many packs of which offers cover the need of one ingredient at the least price, exactly: integer packs,
 * price breaks for all packs of an offer, goods already cut or to be trimmed here.
 */

/** One price from so many packs on, for all packs. Prices are whole numbers of the smallest unit counted in. */
export interface Tier {
  readonly from: number;
  readonly price: number;
}

export interface PackOffer {
  /** Place of the supplier in the order. */
  readonly supplier: number;
  /** Place of the cut it is sold in; -1 as purchased, for any cut. */
  readonly cut: number;
  readonly packG: number;
  /** From one pack on, rising. */
  readonly tiers: readonly Tier[];
}

export interface ItemNeed {
  /** On hand as purchased, g; serves any cut. */
  readonly onHandG: number;
  /** Still needed by cut, g EP, and the share left when it is cut here. */
  readonly cuts: readonly { readonly epG: number; readonly trim: number }[];
  readonly offers: readonly PackOffer[];
}

export interface PackChoice {
  /** Packs of each offer. */
  readonly packs: readonly number[];
  /** Price of all, weighted where weights were given. */
  readonly cost: number;
  /** False when the search was cut short: then `bound` is below `cost`. */
  readonly exact: boolean;
  /** No choice costs less. */
  readonly bound: number;
}

/** A crumb of a gram that rounding may leave; far below anything a scale shows. */
const CRUMB_G = 1e-6;
/** Choices looked at for one ingredient before the search says how far it might be off. */
const MOST_NODES = 200_000;

/** Price of one pack when `packs` are taken. */
export function tierPrice(tiers: readonly Tier[], packs: number): number {
  let price = tiers[0]!.price;
  for (const tier of tiers) if (packs >= tier.from) price = tier.price;
  return price;
}

/**
 * The cheapest packs among the offers for which `allowed` holds.
 * @param weight multiplies an offer's price; 1 for the price as it is.
 * @returns undefined when they cannot cover the need.
 */
export function choosePacks(
  item: ItemNeed,
  allowed: (supplier: number) => boolean,
  weight: (supplier: number) => number = () => 1,
): PackChoice | undefined {
  const packs = item.offers.map(() => 0);
  if (uncutNeed(item, packs) <= CRUMB_G) return { packs, cost: 0, exact: true, bound: 0 };
  const open = item.offers
    .map((offer, index) => ({ offer, index, unit: unitPrice(offer) * weight(offer.supplier) }))
    .filter(({ offer }) => allowed(offer.supplier));
  // Goods already cut first (they leave less to be bought whole), then by price for a gram.
  open.sort(
    (a, b) => Number(a.offer.cut < 0) - Number(b.offer.cut < 0) || a.unit - b.unit || a.index - b.index,
  );

  // From each place on, the lowest price for a gram as purchased; goods in a cut count for the whole they save.
  const units = open.map(({ offer, unit }) => (offer.cut < 0 ? unit : unit * item.cuts[offer.cut]!.trim));
  const lowestFrom = [...units, Number.POSITIVE_INFINITY];
  for (let k = units.length - 1; k >= 0; k--) lowestFrom[k] = Math.min(units[k]!, lowestFrom[k + 1]!);

  /** No choice among the offers from place k on brings what is left for less. */
  const lowest = (k: number, left: number): number => (left <= CRUMB_G ? 0 : left * lowestFrom[k]!);
  const start = uncutNeed(item, packs);
  const root = lowest(0, start);
  let best: { packs: number[]; cost: number } | undefined;
  let nodes = 0;
  const take = (k: number, count: number, cost: number, left: number): void => {
    if (++nodes > MOST_NODES) return;
    const { offer, index } = open[k]!;
    packs[index] = count;
    const spent = cost + count * tierPrice(offer.tiers, count) * weight(offer.supplier);
    const still = offer.cut < 0 ? left - count * offer.packG : uncutNeed(item, packs);
    if (!best || spent + lowest(k + 1, still) < best.cost) search(k + 1, spent, still);
  };
  const search = (k: number, cost: number, left: number): void => {
    if (left <= CRUMB_G) {
      if (!best || cost < best.cost) best = { packs: [...packs], cost };
      return;
    }
    const here = open[k];
    if (!here || (best && cost + lowest(k, left) >= best.cost)) return;
    const { offer, index } = here;
    const need = offer.cut < 0 ? left : stillFor(item, packs, offer.cut);
    const enough = Math.max(0, Math.ceil((need - CRUMB_G) / offer.packG));
    // More than enough only to reach a price break.
    if (enough > 0) for (const { from } of offer.tiers) if (from > enough) take(k, from, cost, left);
    // When nothing cheaper follows, fewer packs only cost more: the first that is too dear ends it.
    const cheapest = offer.cut < 0 && lowestFrom[k + 1]! >= units[k]!;
    for (let count = enough; count >= 0; count--) {
      if (cheapest && best) {
        const bought = Math.min(left, count * offer.packG);
        const least = cost + bought * units[k]! + (left - bought) * lowestFrom[k + 1]!;
        if (least >= best.cost) break;
      }
      take(k, count, cost, left);
      if (nodes > MOST_NODES) break;
    }
    packs[index] = 0;
  };
  search(0, 0, start);
  if (!best) return undefined;
  const exact = nodes <= MOST_NODES;
  return { ...best, exact, bound: exact ? best.cost : Math.min(root, best.cost) };
}

/** g as purchased still missing when the packs are there: what cut goods leave open, whole, less what is whole. */
export function uncutNeed(item: ItemNeed, packs: readonly number[]): number {
  let whole = -item.onHandG;
  for (let c = 0; c < item.cuts.length; c++) whole += stillFor(item, packs, c) / item.cuts[c]!.trim;
  for (let i = 0; i < packs.length; i++) {
    const offer = item.offers[i]!;
    if (offer.cut < 0) whole -= packs[i]! * offer.packG;
  }
  return whole;
}

/** g still missing of a cut (EP), or as purchased for cut -1. */
function stillFor(item: ItemNeed, packs: readonly number[], cut: number): number {
  if (cut < 0) return uncutNeed(item, packs);
  let still = item.cuts[cut]!.epG;
  for (let i = 0; i < packs.length; i++) {
    const offer = item.offers[i]!;
    if (offer.cut === cut) still -= packs[i]! * offer.packG;
  }
  return Math.max(0, still);
}

function unitPrice(offer: PackOffer): number {
  return Math.min(...offer.tiers.map((tier) => tier.price)) / offer.packG;
}
