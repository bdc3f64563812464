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
 * What is needed so that it is enough with a chance when the covers may miss by a standard deviation of
 * `coversSpread` (ratio): need × (1 + z × spread), z the normal quantile. Without a spread the need itself.
 */
export function needForChance(needG: number, chance: number, coversSpread: number): number {
  return coversSpread > 0 ? needG * Math.max(0, 1 + normalQuantile(chance) * coversSpread) : needG;
}

/**
 * The share left after trimming to count on, so that what is bought for `needForChance` is enough with that chance when
 * the trim yield, too, varies from lot to lot by a standard deviation of `trimSpread`. Both normal and independent, one
 * lot: bought r times the mean need is enough when r·y ≥ ȳ·c, y the yield and c the covers by their means, and
 * r·y/ȳ − c is normal with mean r − 1 and variance r²a² + k², a = trimSpread/ȳ, k = coversSpread. So
 * (r − 1)² = z²(r²a² + k²) (the ratio of two normal variables: Geary 1930, Fieller 1932). A yield that varies so much that no
 * amount is enough is counted at a tenth of its mean.
 */
export function trimForChance(
  trim: number,
  chance: number,
  trimSpread: number,
  coversSpread: number,
): number {
  if (trimSpread === 0) return trim;
  const z = normalQuantile(chance);
  const a2 = (z * trimSpread) ** 2 / trim ** 2;
  const k2 = (z * coversSpread) ** 2;
  if (a2 >= 1) return trim / 10;
  const root = Math.sqrt(Math.max(0, 1 - (1 - a2) * (1 - k2)));
  const ratio = (1 + Math.sign(z) * root) / (1 - a2);
  return Math.min(1, Math.max(trim / 10, (trim * Math.max(0, 1 + z * coversSpread)) / ratio));
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
 * bought: of (trim, spread) by cut the least. The weight of n packs varies by packSpread / √n, and that times the yield by
 * √((1 + a²)(1 + s²/n) − 1), with a the spread of the yield by its mean: so the same question as for the yield alone
 * (`trimForChance`) with this in its place. 1 where no weight varies.
 */
export function catchShare(
  chance: number,
  coversSpread: number,
  packSpread: number,
  packs: number,
  ...cuts: number[]
): number {
  if (packSpread === 0) return 1;
  let share = 1;
  for (let i = 0; i + 1 < cuts.length; i += 2) {
    const trim = cuts[i]!;
    const a = cuts[i + 1]! / trim;
    const both = Math.sqrt((1 + a ** 2) * (1 + packSpread ** 2 / packs) - 1);
    const sure = trimForChance(trim, chance, cuts[i + 1]!, coversSpread);
    share = Math.min(share, trimForChance(trim, chance, both * trim, coversSpread) / sure);
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
