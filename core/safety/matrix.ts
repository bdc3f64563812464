import { ALLERGENS, type Allergen } from "../pantry/schema.ts";
import { DIETS, type Need } from "../plating/schema.ts";
import type { AllergenState, Contents, Eaten } from "./contents.ts";

/** A plate as served: a dish in one variant ("" is the plain dish) with what lies on it. */
export interface ServedPlate {
  readonly dish: string;
  readonly variant: string;
  readonly placements: readonly (Eaten & { readonly n?: number })[];
}

/** One cell of the matrix: a plate against an allergen, or against a need. */
export interface AllergenCell {
  readonly dish: string;
  readonly variant: string;
  readonly allergen?: Allergen;
  readonly need?: Need;
  /** For an allergen: as it says. For a need: "free" when the plate meets it, else what speaks against it. */
  readonly state: AllergenState;
  /** dish > preparation > … > ingredient, each way by which it arrives. */
  readonly paths: readonly (readonly string[])[];
}

/** Every plate against every allergen and every diet, with the ways by which each arrives. */
export function allergenMatrix(contents: Contents, plates: readonly ServedPlate[]): AllergenCell[] {
  return plates.flatMap((plate) => [
    ...ALLERGENS.map((allergen) => allergenCell(contents, plate, allergen)),
    ...DIETS.map((need) => needCell(contents, plate, need)),
  ]);
}

function allergenCell(contents: Contents, plate: ServedPlate, allergen: Allergen): AllergenCell {
  const state = contents.allergen(plate.placements, allergen);
  const paths =
    state === "free" ? [] : contents.paths(plate.placements, (i) => contents.stateOf(i, allergen) === state);
  return {
    dish: plate.dish,
    variant: plate.variant,
    allergen,
    state,
    paths: paths.map((p) => [plate.dish, ...p]),
  };
}

function needCell(contents: Contents, plate: ServedPlate, need: Need): AllergenCell {
  const against = contents.against(need, plate.placements);
  const onlyDoubt = against.length > 0 && against.every((reason) => /\((may|unknown)\)$/.test(reason.why));
  return {
    dish: plate.dish,
    variant: plate.variant,
    need,
    state: against.length === 0 ? "free" : onlyDoubt ? "may" : "contains",
    paths: against.flatMap((reason) => reason.paths.map((path) => [plate.dish, ...path])),
  };
}
