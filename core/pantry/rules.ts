/** Grams of a volume: value × millilitres of its unit × kg/L (= g/mL). */
export function gramsOfVolume(value: number, mlPerUnit: number, kgPerL: number): number {
  return value * mlPerUnit * kgPerL;
}

/** Grams of a count: value × pieces of its unit × grams of one piece. */
export function gramsOfPieces(value: number, piecesPerUnit: number, gPerPiece: number): number {
  return value * piecesPerUnit * gPerPiece;
}

/** Edible portion of an amount as purchased: EP = AP × trim yield, g. */
export function edibleOf(apG: number, trimYield: number): number {
  return apG * trimYield;
}

/** As purchased for an edible portion: AP = EP / trim yield, g. */
export function purchasedFor(epG: number, trimYield: number): number {
  return epG / trimYield;
}
