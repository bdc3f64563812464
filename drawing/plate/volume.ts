import type { Preparation } from "../../core/formula/schema.ts";
import type { Ingredient } from "../../core/pantry/schema.ts";
import type { Placement } from "../../core/plating/schema.ts";
import { toBase } from "../../core/quantity/index.ts";

/** What is laid on plates, by id. */
export interface Laid {
  readonly preparations: ReadonlyMap<string, Preparation>;
  readonly ingredients: ReadonlyMap<string, Ingredient>;
}

/** Taken where no density is written: as heavy as water. Its error of a fifth is one of a fifteenth in length. */
const AS_WATER_KG_PER_L = 1;

/** Volume of a placement (all its pieces) in mL, for drawing only; undefined for what is counted without a weight. */
export function placementVolume(
  placement: Placement,
  { preparations, ingredients }: Laid,
): number | undefined {
  const amount = toBase(placement.amount);
  if (amount.dimension === "volume") return amount.value;
  const preparation =
    placement.preparation === undefined ? undefined : preparations.get(placement.preparation);
  const ingredient = placement.ingredient === undefined ? undefined : ingredients.get(placement.ingredient);
  const density = preparation?.density?.kgPerL ?? ingredient?.densities[0]?.kgPerL ?? AS_WATER_KG_PER_L;
  if (amount.dimension === "mass") return amount.value / density;
  if (amount.dimension !== "count") return undefined;
  const gEach = ingredient?.pieces[0]?.g ?? gOfPiece(preparation);
  return gEach === undefined ? undefined : (amount.value * gEach) / density;
}

function gOfPiece(preparation: Preparation | undefined): number | undefined {
  if (preparation?.yield.pieces === undefined) return undefined;
  const whole = toBase(preparation.yield.amount);
  return whole.dimension === "mass" ? whole.value / preparation.yield.pieces : undefined;
}
