import type { Preparation, Step } from "../formula/schema.ts";
import { ALLERGENS, type Allergen, type Ingredient, type Item, type Origin } from "../pantry/schema.ts";
import type { Need, Placement } from "../plating/schema.ts";
import type { Offer } from "../purchasing/schema.ts";
import type { AllergenState } from "../run/result.ts";
import { named } from "./named.ts";
import type { Scope } from "./scope.ts";

/** An ingredient as it reaches the guest, by one way: dish > preparation > … > ingredient. */
interface Arrival {
  readonly ingredient: Ingredient;
  readonly raw: boolean;
  readonly way: readonly string[];
}

const FLESH: readonly Origin[] = [
  "meat",
  "pork",
  "poultry",
  "fish",
  "shellfish",
  "gelatin",
  "insect",
  "raw-animal",
];
const LAND_FLESH: readonly Origin[] = ["meat", "pork", "poultry", "gelatin", "insect"];

/** What each need forbids (trade.md "Guests and numbers"; gluten: Regulation (EU) 1169/2011, Annex II, 1). */
const FORBIDDEN: Readonly<
  Record<string, { origins?: readonly Origin[]; allergens?: readonly Allergen[]; raw?: true }>
> = {
  vegetarian: { origins: [...FLESH, "rennet"] },
  vegan: {
    origins: [...FLESH, "rennet", "egg", "raw-egg", "dairy", "unpasteurised", "honey"],
    allergens: ["milk", "egg"],
  },
  pescatarian: { origins: [...LAND_FLESH, "rennet"] },
  coeliac: { allergens: ["gluten"] },
  "no-alcohol": { origins: ["alcohol"] },
  pregnant: { origins: ["alcohol"], raw: true },
  "no-pork": { origins: ["pork", "gelatin"] },
  "no-shellfish": { origins: ["shellfish"], allergens: ["crustacean", "mollusc"] },
};

/** Allergens of which a guest with this need must have no traces either: an allergy or coeliac disease, not a diet. */
export function tracesForbidden(need: Need): readonly Allergen[] {
  if (need === "coeliac") return ["gluten"];
  if (need === "no-shellfish") return ["crustacean", "mollusc"];
  return FORBIDDEN[need] ? [] : [need.slice("no-".length) as Allergen];
}

/** Allergens that an item has, may have, or of which nobody has spoken, at any depth. */
export function allergensOf(scope: Scope, item: Item): readonly Allergen[] {
  const arrivals =
    "preparation" in item
      ? arrivalsIn(scope, scope.preparations.get(item.preparation)!)
      : [bought(scope.ingredients.get(item.ingredient)!)];
  return ALLERGENS.filter((allergen) =>
    arrivals.some(({ ingredient }) => mayHold(scope, ingredient, allergen)),
  );
}

/** Why a guest with this need must not get what lies on the plate; undefined when nothing speaks against it. */
export function speaksAgainst(
  scope: Scope,
  need: Need,
  placements: readonly Placement[],
): string | undefined {
  const rule = FORBIDDEN[need] ?? { allergens: [need.slice("no-".length) as Allergen] };
  for (const placement of placements)
    for (const arrival of arrivalsOn(scope, placement)) {
      const { ingredient, raw, way } = arrival;
      const by = way.map((id) => named(id, id === ingredient.id ? "ingredient" : "preparation")).join(" > ");
      const origin = rule.origins?.find((each) => ingredient.origin.includes(each));
      if (origin) return `${by} is ${origin}`;
      const allergen = rule.allergens?.find((each) => mayHold(scope, ingredient, each));
      if (allergen) return `${by} has or may have ${allergen}`;
      if (rule.raw && raw) return `${by} stays raw`;
    }
  return undefined;
}

/** Contained, perhaps contained, or not known: all three speak against. */
const mayHold = (scope: Scope, ingredient: Ingredient, allergen: Allergen) =>
  stateIn(scope, ingredient, allergen) !== "free";

/** What is told of an allergen in an ingredient, by itself and by who sells it. Wheat is gluten. */
function stateIn(scope: Scope, ingredient: Ingredient, allergen: Allergen): AllergenState {
  const words = [ingredient.allergens];
  for (const supplier of scope.suppliers)
    for (const offer of supplier.offers)
      if (offer.ingredient === ingredient.id && offer.allergens && isOpen(offer, scope.service.priceAsOf))
        words.push({ status: "known", ...offer.allergens });
  const names = (list: readonly Allergen[]) =>
    list.includes(allergen) || (allergen === "gluten" && list.includes("wheat"));
  if (words.some((each) => names(each.contains))) return "contains";
  if (ingredient.allergens.status === "unknown") return "unknown";
  return words.some((each) => names(each.mayContain)) ? "may" : "free";
}

/** The worst that is told of an allergen on a plate: contained, then not known, then perhaps. */
export function stateOn(scope: Scope, allergen: Allergen, placements: readonly Placement[]): AllergenState {
  const all = placements.flatMap((placement) => arrivalsOn(scope, placement));
  const states = all.map((arrival) => stateIn(scope, arrival.ingredient, allergen));
  return (["contains", "unknown", "may"] as const).find((state) => states.includes(state)) ?? "free";
}

/** Whether an offer could be bought on a date: any of them may come. */
const isOpen = (offer: Offer, date: string) =>
  (offer.from === undefined || offer.from <= date) && (offer.until === undefined || offer.until >= date);

function arrivalsOn(scope: Scope, placement: Placement): readonly Arrival[] {
  if (placement.preparation !== undefined)
    return arrivalsIn(scope, scope.preparations.get(placement.preparation)!);
  const ingredient = scope.ingredients.get(placement.ingredient!)!;
  return [{ ingredient, raw: cookedAtC(ingredient) !== undefined, way: [ingredient.id] }];
}

const known = new WeakMap<Scope, Map<string, readonly Arrival[]>>();

/** Every ingredient in a preparation, each once raw and once cooked at most, by the first way found. */
function arrivalsIn(scope: Scope, preparation: Preparation): readonly Arrival[] {
  const cache = known.get(scope) ?? new Map<string, readonly Arrival[]>();
  known.set(scope, cache);
  const before = cache.get(preparation.id);
  if (before) return before;
  const found = new Map<string, Arrival>();
  for (const line of preparation.lines) {
    const entering: readonly Arrival[] =
      "preparation" in line.item
        ? arrivalsIn(scope, scope.preparations.get(line.item.preparation)!)
        : [bought(scope.ingredients.get(line.item.ingredient)!)];
    for (const each of entering) {
      const limit = cookedAtC(each.ingredient);
      const raw = each.raw && limit !== undefined && staysBelow(preparation, line.step, limit);
      const arrival = { ...each, raw, way: [preparation.id, ...each.way] };
      found.set(`${each.ingredient.id} ${raw}`, found.get(`${each.ingredient.id} ${raw}`) ?? arrival);
    }
  }
  const all = [...found.values()];
  cache.set(preparation.id, all);
  return all;
}

const bought = (ingredient: Ingredient): Arrival => ({
  ingredient,
  raw: cookedAtC(ingredient) !== undefined,
  way: [ingredient.id],
});

/**
 * Core temperature, °C, that ends an ingredient's being raw: FDA Food Code 2022, 3-401.11 (poultry 74, eggs not for
 * at once 68, fish and whole meat 63); milk 72 (21 CFR 1240.61). Undefined when it is not raw as bought.
 */
function cookedAtC(ingredient: Ingredient): number | undefined {
  const is = new Set<Origin>(ingredient.origin);
  if (is.has("raw-animal") && is.has("poultry")) return 74;
  if (is.has("unpasteurised")) return 72;
  if (is.has("raw-egg")) return 68;
  return is.has("raw-animal") ? 63 : undefined;
}

/** Whether some way from this step to the end of the method passes no step held to a core of `limitC`. */
function staysBelow(preparation: Preparation, stepId: string, limitC: number): boolean {
  const step = preparation.steps.find((each) => each.id === stepId)!;
  if (coreC(step) >= limitC) return false;
  const next = preparation.steps.filter((each) =>
    each.from.some((from) => (typeof from === "string" ? from : from.step) === stepId),
  );
  const leaves = next.length === 0 || shareTaken(preparation, stepId) < 1 - 1e-9;
  return leaves || next.some((each) => staysBelow(preparation, each.id, limitC));
}

function coreC(step: Step): number {
  const limits = step.control ? [step.control.limit, ...(step.control.and ?? [])] : [];
  const held = limits.filter((l) => l.what === "coreC" && (l.op === ">=" || l.op === ">"));
  const reached = (step.target?.stages ?? []).map((stage) => stage.untilCoreC ?? -Infinity);
  return Math.max(-Infinity, ...held.map((l) => l.value), ...reached);
}

function shareTaken(preparation: Preparation, stepId: string): number {
  let taken = 0;
  for (const step of preparation.steps)
    for (const from of step.from)
      if (typeof from === "string") taken += from === stepId ? 1 : 0;
      else taken += from.step === stepId ? from.share : 0;
  return taken;
}
