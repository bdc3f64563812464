import { ALLERGENS, type Allergen } from "../pantry/schema.ts";
import { DIETS, type Need } from "../plating/schema.ts";
import { tracesOf } from "./apart.ts";
import type { AllergenState, Contents, Eaten } from "./contents.ts";
import { type Exposure, exposuresOn } from "./shared.ts";

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
  /** Ways by which traces may come to it from other food in the plan, over equipment and benches they share. */
  readonly shared?: readonly SharedWay[];
}

/** Traces on the way: what lay beside or before it, where and when. */
export interface SharedWay {
  /** dish > … > preparation that was exposed. */
  readonly path: readonly string[];
  readonly place: string;
  readonly placeName: string;
  readonly how: Exposure["how"];
  /** preparation > … > ingredient that brings it. */
  readonly from: readonly string[];
  /** Clock. */
  readonly at: string;
  /** Tasks of the plan: what was exposed, what brought it. */
  readonly tasks: readonly [string, string];
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

/** How many shared ways are told of one cell; the state never depends on this. */
const MOST_SHARED = 12;

/**
 * The matrix with what the plan adds: a plate free of an allergen may contain traces of it where one of its
 * preparations was exposed. It never makes a cell better than it was.
 */
export function withShared(
  contents: Contents,
  plates: readonly ServedPlate[],
  cells: readonly AllergenCell[],
  exposures: readonly Exposure[],
): AllergenCell[] {
  const byPreparation = Map.groupBy(exposures, (one) => one.preparation);
  const plateOf = new Map(plates.map((plate) => [`${plate.dish} ${plate.variant}`, plate]));
  const found = new Map<ServedPlate, ReturnType<typeof exposuresOn>>();
  return cells.map((cell) => {
    const plate = plateOf.get(`${cell.dish} ${cell.variant}`)!;
    const on = found.get(plate) ?? exposuresOn(contents, plate.placements, byPreparation);
    found.set(plate, on);
    const watched = cell.allergen ? [cell.allergen] : tracesOf(cell.need!);
    const ways = on.flatMap(({ way, exposure }): SharedWay[] => {
      const passed = exposure.allergens.find((one) => watched.includes(one));
      return passed === undefined ? [] : [sharedWay(contents, cell.dish, way, exposure, passed)];
    });
    if (ways.length === 0) return cell;
    return { ...cell, state: cell.state === "free" ? "may" : cell.state, shared: ways.slice(0, MOST_SHARED) };
  });
}

function sharedWay(
  contents: Contents,
  dish: string,
  way: readonly string[],
  exposure: Exposure,
  allergen: Allergen,
): SharedWay {
  const { place, placeName, how, at, from, task, fromTask } = exposure;
  const [source] = contents.paths(
    [{ preparation: from }],
    (ingredient) => contents.stateOf(ingredient, allergen) !== "free",
  );
  return {
    path: [dish, ...way],
    ...{ place, placeName, how, from: source ?? [from], at, tasks: [task, fromTask] },
  };
}
