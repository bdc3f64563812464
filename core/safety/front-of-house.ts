import type { Allergen } from "../pantry/schema.ts";
import type { Dish } from "../plating/schema.ts";
import type { Contents, Eaten } from "./contents.ts";
import type { AllergenCell } from "./matrix.ts";

/** What the floor must know of one plate. */
export interface FrontOfHouseLine {
  readonly course: string;
  readonly dish: string;
  readonly name: string;
  readonly variant: string;
  readonly describe: string;
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  /** What may come to it by shared equipment and benches in the plan, beside those; once there is a plan. */
  readonly traces?: readonly Allergen[];
  /** What can be left off, the allergens that are then no ingredient any more, and those of them the plan may still bring. */
  readonly leaveOff: readonly {
    readonly what: string;
    readonly frees: readonly Allergen[];
    readonly traces?: readonly Allergen[];
  }[];
  readonly advisory?: string;
  readonly count: number;
}

/** A plate to be described; `names` gives the words for what lies on it. */
export interface DescribedPlate {
  readonly course: string;
  readonly dish: Dish;
  readonly variant: string;
  readonly placements: readonly (Eaten & { readonly n: number })[];
  readonly count: number;
}

/** Tells the floor what each plate is, what it contains, and what may be left off it. */
export function frontOfHouse(
  contents: Contents,
  plates: readonly DescribedPlate[],
  names: (eaten: Eaten) => string,
): FrontOfHouseLine[] {
  return plates.map((plate) => {
    const { dish, placements } = plate;
    const contains = contents.allergens(placements, ["contains"]);
    const mayContain = contents.allergens(placements, ["may", "unknown"]);
    const leaveOff = placements
      // The heaviest thing on the plate is the dish itself; the rest can be left off one by one.
      .filter((placement) => placement !== mainOf(dish, placements))
      .map((placement) => {
        const rest = placements.filter((other) => other !== placement);
        const left = new Set([...contents.allergens(rest, ["contains", "may", "unknown"])]);
        return {
          what: names(placement),
          frees: [...contains, ...mayContain].filter((allergen) => !left.has(allergen)),
        };
      })
      .filter((one) => one.frees.length > 0);
    const raw = [...new Set(placements.filter((one) => contents.raw(one).size > 0).map(names))];
    const advisory = raw.length > 0 ? advisoryOf(raw) : undefined;
    return {
      course: plate.course,
      dish: dish.id,
      name: dish.name,
      variant: plate.variant,
      describe: [dish.description, ...changesInWords(dish, placements, names)].join(" "),
      contains,
      mayContain,
      leaveOff,
      ...(advisory ? { advisory } : {}),
      count: plate.count,
    };
  });
}

/**
 * The menu advisory: disclosure of what is raw or undercooked, and the reminder in the code's own words (FDA Food Code
 * 2022, 3-603.11(B) and (C)(2)).
 */
export function advisoryOf(raw: readonly string[]): string {
  return `Served raw or undercooked: ${raw.join(", ")}. Consuming raw or undercooked meats, poultry, seafood, shellfish, or eggs may increase your risk of foodborne illness (menu advisory, Food Code 3-603.11).`;
}

/** The same lines with what the plan may bring to each plate. */
export function withTraces(
  lines: readonly FrontOfHouseLine[],
  cells: readonly AllergenCell[],
): FrontOfHouseLine[] {
  return lines.map((line) => {
    const brought = cells.flatMap(({ dish, variant, allergen, shared }) =>
      dish === line.dish && variant === line.variant && allergen !== undefined && shared !== undefined
        ? [allergen]
        : [],
    );
    if (brought.length === 0) return line;
    const traces = brought.filter((one) => !line.contains.includes(one) && !line.mayContain.includes(one));
    const leaveOff = line.leaveOff.map((off) => {
      // Also where it came to what is left off alone: the plate was beside it.
      const still = off.frees.filter((one) => brought.includes(one));
      return still.length > 0 ? { ...off, traces: still } : off;
    });
    return { ...line, leaveOff, ...(traces.length > 0 ? { traces } : {}) };
  });
}

/** What is otherwise on a plate than the dish as written: "Savoy parcel instead of pithivier". */
export function changesOf(
  dish: Dish,
  placements: readonly (Eaten & { readonly n: number })[],
  names: (eaten: Eaten) => string,
): string[] {
  const written = new Map(dish.placements.map((one) => [one.n, names(one)]));
  const served = new Map(placements.map((one) => [one.n, names(one)]));
  const instead = [...served].filter(([n, name]) => written.has(n) && written.get(n) !== name);
  return [
    ...instead.map(([n, name]) => `${name} instead of ${written.get(n)}`),
    ...[...served].filter(([n]) => !written.has(n)).map(([, name]) => `with ${name}`),
    ...[...written].filter(([n]) => !served.has(n)).map(([, name]) => `without ${name}`),
  ];
}

/** The same as a sentence for the floor. */
function changesInWords(...of: Parameters<typeof changesOf>): string[] {
  const words = changesOf(...of);
  return words.length === 0 ? [] : [`For this guest: ${words.join("; ")}.`];
}

function mainOf<T extends { readonly n: number }>(dish: Dish, placements: readonly T[]): T | undefined {
  const grams = (n: number) => {
    const amount = dish.placements.find((p) => p.n === n)?.amount;
    return amount && (amount.unit === "g" || amount.unit === "mL") ? Number(amount.value) : 0;
  };
  return placements.reduce<T | undefined>(
    (best, p) => (!best || grams(p.n) > grams(best.n) ? p : best),
    undefined,
  );
}
