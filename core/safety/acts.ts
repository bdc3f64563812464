import type { Preparation, Step } from "../formula/schema.ts";
import type { Handled } from "../heat/control-points.ts";
import { cookRules } from "../heat/limits-data.ts";
import type { Eaten } from "./contents.ts";
import type { Foods, RawFood, StepFood } from "./foods.ts";
import { stepCoreC } from "./raw.ts";

/** Something the trade asks a control point for, at a step. */
export interface Act {
  readonly step: Step;
  readonly handled: Handled;
  /** The law asks for a plan of its own: it stays critical whatever else is. */
  readonly special: boolean;
}

/**
 * What the trade asks to be watched in a preparation, from what is cooked in it (README, S10): cooking of what is
 * raw, cooling of what was hot, reheating, hot and cold holding, packing without air, nitrite.
 * @param boilingC the kitchen's boiling point of water, °C
 */
export function actsOf(foods: Foods, preparation: Preparation, boilingC: number): Act[] {
  const acts: Act[] = [];
  const sour = isSour(preparation);
  let airless: StepFood | undefined;
  for (const food of foods.stepsOf(preparation.id)) {
    const { step } = food;
    const add = (handled: Handled, special = false) =>
      acts.push({ step, handled: { boilingC, ...handled }, special });
    const cooked = food.heats ? cookedHere(food) : undefined;
    if (cooked) {
      const coreC = stepCoreC(step);
      const least = leastC(cooked);
      const low = coreC !== undefined && coreC < least;
      add(
        {
          food: cooked.food,
          act: "cook",
          ...(cooked.species === undefined ? {} : { species: cooked.species }),
          ...(coreC === undefined ? {} : { coreC }),
          ...(food.reducedOxygen ? { reducedOxygen: true } : {}),
        },
        low || food.reducedOxygen,
      );
    }
    if (food.nitrite) add({ food: "other", act: "cure", nitrite: true }, true);
    if (food.cools && !sour) add({ food: food.grain ? "rice" : "other", act: "cool" });
    if (food.heats && food.cookedColdIn && !food.hotIn && food.endsHot && !cooked && !sour)
      add({ food: "other", act: "reheat" });
    if (food.last && food.held === "hot" && !sour) add({ food: "other", act: "hold-hot" });
    if (food.last && food.held === "cold" && !sour) add({ food: "other", act: "hold-cold" });
    const kept = (one: StepFood) => one.step.hold?.maxMin ?? 0;
    if (food.reducedOxygen && food.held === "cold" && (!airless || kept(food) > kept(airless)))
      airless = food;
  }
  if (airless) {
    const food = worst(airless.rawIn)?.food ?? "other";
    acts.push({
      step: airless.step,
      handled: { food, act: "hold-cold", reducedOxygen: true },
      special: true,
    });
  }
  return acts;
}

/** What guests are served raw of something on their plates: at the step where it came in, or as it was bought. */
export function servedRaw(
  foods: Foods,
  on: Eaten & { readonly cut?: string | undefined },
): { raw: RawFood; handled: Handled }[] {
  const asBought = on.ingredient === undefined ? undefined : foods.rawOnPlate(on.ingredient, on.cut);
  const all = on.preparation === undefined ? (asBought ? [asBought] : []) : foods.rawAtEnd(on.preparation);
  return all.map((raw) => ({
    raw,
    handled: {
      food: raw.food,
      act: "serve-raw",
      ...(raw.food === "fish" && raw.frozen ? { parasites: "frozen" as const } : {}),
    },
  }));
}

/** The raw food that is done here: where the step names its core, else where no later step heats it. */
function cookedHere(food: StepFood): RawFood | undefined {
  if (food.rawIn.length === 0) return undefined;
  if (stepCoreC(food.step) === undefined && food.heatedLater) return undefined;
  return worst(food.rawIn);
}

const worst = (raw: readonly RawFood[]): RawFood | undefined =>
  raw.reduce<RawFood | undefined>((most, one) => (!most || one.untilC > most.untilC ? one : most), undefined);

function leastC(raw: RawFood): number {
  return cookRules[raw.food === "shellfish" ? "fish" : raw.food].options[0]!.celsius;
}

/** Sour enough that spores and pathogens do not grow: pH 4.2 or less, by its specification (Food Code 1-201.10). */
export function isSour(preparation: Preparation): boolean {
  return preparation.specification.some(
    (reading) => reading.what.toLowerCase() === "ph" && reading.most !== undefined && reading.most <= 4.2,
  );
}
