import { normalQuantile } from "../numerics/normal.ts";

/** Decisions and sums of the order as functions of plain numbers, so that a trace can be replayed. */

/** Prices are compared in millionths, as whole numbers, so that sums of them are exact. */
export const MILLION = 1e6;

/** The mean share left over all uses of a cut; 1 when nothing is used. */
export function meanTrim(epG: number, apG: number): number {
  return apG > 0 ? epG / apG : 1;
}

/** Price of one pack when `packs` are taken, from tiers given as (from, price) pairs, rising. */
export function packPrice(packs: number, ...tiers: number[]): number {
  let price = tiers[1]!;
  for (let i = 0; i + 1 < tiers.length; i += 2) if (packs >= tiers[i]!) price = tiers[i + 1]!;
  return price;
}

/** Grams as purchased still to be bought whole: (EP need, bought of the cut, trim) by cut. */
export function wholeNeed(...cuts: number[]): number {
  let need = 0;
  for (let i = 0; i + 2 < cuts.length; i += 3) need += Math.max(0, cuts[i]! - cuts[i + 1]!) / cuts[i + 2]!;
  return need;
}

/** The part of a need that this line meets, after what other lines have brought. */
export function metBy(boughtG: number, needG: number, broughtG: number): number {
  return Math.min(boughtG, Math.max(0, needG - broughtG));
}

/** Value of what is bought beyond the need: (bought g, need g, price of a pack, pack g) by line. */
export function leftoverValue(...lines: number[]): number {
  let value = 0;
  for (let i = 0; i + 3 < lines.length; i += 4)
    value += ((lines[i]! - lines[i + 1]!) * lines[i + 2]!) / lines[i + 3]!;
  return value;
}

/**
 * How many times the mean must be there so that it is enough with a chance, when what is there varies by a standard deviation of
 * `a` and what is asked for by `k`, both by their means, normal and independent: r times the mean is enough when r·y ≥ c, and
 * r·y − c is normal with mean r − 1 and variance r²a² + k². So (r − 1)² = z²(r²a² + k²), z the normal quantile (the ratio of
 * two normal variables: Geary 1930, Fieller 1932). What varies so much that no amount is enough is counted at a tenth.
 */
function timesForChance(chance: number, a: number, k: number): number {
  const z = normalQuantile(chance);
  const alone = Math.max(0, 1 + z * k);
  if (a === 0) return alone;
  const [a2, k2] = [(z * a) ** 2, (z * k) ** 2];
  if (a2 >= 1) return 10 * alone;
  const root = Math.sqrt(Math.max(0, 1 - (1 - a2) * (1 - k2)));
  return Math.min(10 * alone, Math.max(0, (1 + Math.sign(z) * root) / (1 - a2)));
}

/** Spread of a product of two that vary independently, by their means. */
const both = (a: number, b: number) => Math.sqrt((1 + a ** 2) * (1 + b ** 2) - 1);

/** How cooking varies is never a reason to buy less: for a chance below a half it is left out. */
const cooked = (chance: number, cookSpread: number) => (chance > 0.5 ? cookSpread : 0);

/**
 * What is needed, ready for the pot, so that it is enough with a chance when the covers may miss by a standard deviation of
 * `coversSpread` and what the pots make of it by `cookSpread` (ratios). Without a spread the need itself.
 */
export function needForChance(needG: number, chance: number, coversSpread: number, cookSpread = 0): number {
  return needG * timesForChance(chance, cooked(chance, cookSpread), coversSpread);
}

/**
 * The share left after trimming to count on, so that what is bought for `needForChance` is enough with that chance when
 * the trim yield of the lot, too, varies by a standard deviation of `trimSpread`: trimmed and cooked, a lot varies by
 * √((1 + a²)(1 + c²) − 1). Never below a tenth of the mean.
 */
export function trimForChance(
  trim: number,
  chance: number,
  trimSpread: number,
  coversSpread: number,
  cookSpread = 0,
): number {
  if (trimSpread === 0) return trim;
  const cook = cooked(chance, cookSpread);
  const ratio = timesForChance(chance, both(trimSpread / trim, cook), coversSpread);
  const sure = ratio > 0 ? (trim * timesForChance(chance, cook, coversSpread)) / ratio : 0;
  return Math.min(1, Math.max(trim / 10, sure));
}

/**
 * How far what the pots make of a need varies, by its mean: of each preparation on the way (g of the need that go through it, ready
 * for the pot and as purchased; the spread of its yield as a ratio), independent of each other. What goes through the same pot strays
 * together. Where lines trim the same cut differently the two weigh differently: the larger is counted on.
 */
export function cookSpread(epG: number, apG: number, ...pots: number[]): number {
  if (epG <= 0) return 0;
  let [ep, ap] = [0, 0];
  for (let i = 0; i + 2 < pots.length; i += 3) {
    ep += (pots[i]! * pots[i + 2]!) ** 2;
    ap += (pots[i + 1]! * pots[i + 2]!) ** 2;
  }
  return Math.max(Math.sqrt(ep) / epG, Math.sqrt(ap) / apG);
}

/** How far needs stray on the mean: (g as purchased, how far by its mean) of each. */
export function meanStray(...needs: number[]): number {
  let [g, strayed] = [0, 0];
  for (let i = 0; i + 1 < needs.length; i += 2) {
    g += needs[i]!;
    strayed += needs[i]! * needs[i + 1]!;
  }
  return g > 0 ? strayed / g : 0;
}

/** Lost on one pack too many, when what is left over is worth a share of its price. */
export function lostOnLeft(price: number, worthShare: number): number {
  return price * (1 - worthShare);
}

/**
 * What one too few costs, when a chance of having enough is the right one: the newsvendor's critical ratio is
 * chance = short / (short + left), `left` what is lost on one too many (Arrow, Harris and Marschak 1951), read backwards.
 */
export function costOfShort(left: number, chance: number): number {
  return (left * chance) / (1 - chance);
}

/** So many packs at least, when all come from one offer. */
export function leastPacks(needG: number, packG: number): number {
  return Math.max(1, Math.ceil(needG / packG - 1e-9));
}

/**
 * The share of a pack's nominal weight to count on when packs vary in weight by `packSpread` each, one by one, and n of them are
 * bought: of (trim, spread of the trim, spread of cooking) by need the least. The weight of n packs varies by packSpread / √n,
 * and that times the yield by √((1 + a²)(1 + s²/n) − 1), with a the spread of the yield by its mean: so the same question as for
 * the yield alone (`trimForChance`) with this in its place. 1 where no weight varies.
 */
export function catchShare(
  chance: number,
  coversSpread: number,
  packSpread: number,
  packs: number,
  ...needs: number[]
): number {
  if (packSpread === 0) return 1;
  let share = 1;
  for (let i = 0; i + 2 < needs.length; i += 3) {
    const [trim, spread, cook] = [needs[i]!, needs[i + 1]!, needs[i + 2]!];
    const weighed = both(spread / trim, packSpread / Math.sqrt(packs));
    const sure = trimForChance(trim, chance, spread, coversSpread, cook);
    share = Math.min(share, trimForChance(trim, chance, weighed * trim, coversSpread, cook) / sure);
  }
  return Math.min(1, share);
}

/** What a lot still gives to a need: the lot less what it gave, at most what the need still lacks. */
export function takenOf(lotG: number, givenG: number, needG: number, hadG: number): number {
  return Math.max(0, Math.min(lotG - givenG, needG - hadG));
}

/** A gram of what is left over is worth this share of the cheapest gram: (price of a pack, g of a pack) …. */
export function worthPerGram(share: number, ...packs: number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < packs.length; i += 2) least = Math.min(least, packs[i]! / packs[i + 1]!);
  return share * least;
}

/** What is left over is worth, counted up to as much again as was needed, in whole millionths. */
export function worthOfLeft(perG: number, leftG: number, neededG: number): number {
  return Math.floor(MILLION * perG * Math.min(neededG, leftG)) / MILLION;
}

/** Grams of goods as sold for a need in grams of what they stand in for: one pack holds `packG` and covers `bringsG`. */
export function asSold(needG: number, packG: number, bringsG: number): number {
  return (needG * packG) / bringsG;
}

/** What one gram of a substitute stands for: trimmed, over the factor, as goods purchased whole would be trimmed. */
export function standsFor(packG: number, trim: number, factor: number, insteadTrim: number): number {
  return (packG * trim) / factor / insteadTrim;
}
