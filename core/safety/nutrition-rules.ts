/**
 * Sums of nutrition. Figures are g (mg, µg) in 100 g of food, masses g, shares as ratios. Each takes numbers and gives
 * a number, so that a trace can be replayed.
 */

/** Carbohydrate that is no sugar, fibre with it: it stays where sugars leave with a drained liquid. */
export function starchOf(carbohydrate: number, sugars: number): number {
  return Math.max(0, carbohydrate - sugars);
}

/** Sugars as part of the carbohydrate; tables from two samples may print more of the part than of the whole. */
export function sugarsWithin(carbohydrate: number, sugars: number): number {
  return Math.min(carbohydrate, sugars);
}

/** Share of what was in a step that goes on from it: what is kept in the change, less what is taken away after. */
export function keptThrough(changeFactor: number, discarded: number): number {
  return changeFactor * (1 - discarded);
}

/**
 * Share of everything else that goes where a step takes away lines by name: what is taken away (`discardedG`, the share
 * `factor` of what is there) less what of the named lines goes, over what is there besides them. (Grams put in, share
 * that comes so far, share that stays) of each.
 */
export function goneOfOthers(discardedG: number, factor: number, ...named: number[]): number {
  let [there, gone] = [0, 0];
  for (let i = 0; i + 2 < named.length; i += 3) {
    const g = named[i]! * named[i + 1]!;
    there += g;
    gone += g * (1 - named[i + 2]!);
  }
  const others = discardedG / factor - there;
  return others > 0 ? Math.min(1, Math.max(0, (discardedG - gone) / others)) : 0;
}

/** The same for fat where fat is what is lost: of so many g of fat, so many g are taken. */
export function keptOfFat(fatG: number, takenG: number, changeFactor: number, discarded: number): number {
  const left = fatG > 0 ? Math.max(0, 1 - takenG / fatG) : 1;
  return left * keptThrough(changeFactor, discarded);
}

/** Share that reaches the yield from the beginning of a step: its own × (what is left here + share × onwards …). */
export function keptOnwards(own: number, left: number, ...next: number[]): number {
  let onwards = left;
  for (let i = 0; i + 1 < next.length; i += 2) onwards += next[i]! * next[i + 1]!;
  return own * onwards;
}

/** Fat in a step, g: (grams, in 100 g) of what enters as lines, over 100, and (fat, share) of what came before. */
export function fatEntering(lines: number, ...numbers: number[]): number {
  let fat = 0;
  for (let i = 0; i < lines; i++) fat += (numbers[2 * i]! * numbers[2 * i + 1]!) / 100;
  for (let i = 2 * lines; i + 1 < numbers.length; i += 2) fat += numbers[i]! * numbers[i + 1]!;
  return fat;
}

/** In 100 g of a preparation: Σ grams × in 100 g × kept of its lines, over its yield. */
export function inHundred(yieldG: number, ...lines: number[]): number {
  let sum = 0;
  for (let i = 0; i + 2 < lines.length; i += 3) sum += lines[i]! * lines[i + 1]! * lines[i + 2]!;
  return sum / yieldG;
}

/** On a plate: Σ grams × in 100 g, over 100. */
export function onPlate(...parts: number[]): number {
  let sum = 0;
  for (let i = 0; i + 1 < parts.length; i += 2) sum += (parts[i]! * parts[i + 1]!) / 100;
  return sum;
}

/** In 100 g of a plate. */
export function ofHundred(perPortion: number, portionG: number): number {
  return portionG > 0 ? (perPortion / portionG) * 100 : 0;
}

/** Share of the mass of which a nutrient is known: Σ grams × known, over Σ grams. */
export function shareKnown(...parts: number[]): number {
  let [known, mass] = [0, 0];
  for (let i = 0; i + 1 < parts.length; i += 2) {
    known += parts[i]! * parts[i + 1]!;
    mass += parts[i]!;
  }
  return mass > 0 ? known / mass : 1;
}

/** The least of several shares known: what is made of several figures is known no better than the worst. */
export function leastKnown(...shares: number[]): number {
  return Math.min(...shares);
}

/** Carbohydrate as it is eaten: starch and sugars. */
export function carbohydrateOf(starch: number, sugars: number): number {
  return starch + sugars;
}

/** Carbohydrate that is metabolised, as EU labels count it: without fibre. */
export function withoutFibre(carbohydrate: number, fibre: number): number {
  return Math.max(0, carbohydrate - fibre);
}

/** Sodium in mg of salt in g: salt is sodium × 2.5 (Regulation (EU) 1169/2011, Annex I, 11). */
export function sodiumOfSalt(salt: number): number {
  return (salt / 2.5) * 1000;
}

/** Energy in kcal by the general factors 4, 4 and 9 (21 CFR 101.9(c)(1)(i)(B)), and 7 for alcohol. */
export function energyByGeneralFactors(
  protein: number,
  carbohydrate: number,
  fat: number,
  alcohol: number,
): number {
  return 4 * protein + 4 * carbohydrate + 9 * fat + 7 * alcohol;
}

/** Energy in kcal by Regulation (EU) 1169/2011, Annex XIV; carbohydrate without fibre. */
export function energyKcalAnnexXIV(
  protein: number,
  carbohydrate: number,
  fat: number,
  fibre: number,
  alcohol: number,
): number {
  return 4 * protein + 4 * carbohydrate + 9 * fat + 2 * fibre + 7 * alcohol;
}

/** Energy in kJ by Regulation (EU) 1169/2011, Annex XIV: by its own factors, not from the kcal. */
export function energyKjAnnexXIV(
  protein: number,
  carbohydrate: number,
  fat: number,
  fibre: number,
  alcohol: number,
): number {
  return 17 * protein + 17 * carbohydrate + 37 * fat + 8 * fibre + 29 * alcohol;
}
