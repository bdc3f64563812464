import { ALLERGENS } from "../pantry/schema.ts";
import { DIETS, type Placement } from "../plating/schema.ts";
import type { AllergenCell, AllergenState, PlateCount } from "../run/result.ts";
import { belowPlate, exposedTo } from "./contact.ts";
import { speaksAgainst, stateOn, tracesForbidden } from "./contents.ts";
import { namedForm } from "./forms.ts";
import { named } from "./named.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

/** From what nobody need fear to what somebody must not get; perhaps and not known weigh the same. */
const WEIGHT: Readonly<Record<AllergenState, number>> = { free: 0, may: 1, unknown: 1, contains: 2 };

/** Judges the matrix: each plate served stands against each allergen and diet, as its ingredients say. */
export function judgeMatrix(
  scope: Scope,
  plates: readonly PlateCount[],
  cells: readonly AllergenCell[],
  parts: Parts | undefined,
): Finding[] {
  const exposed = parts ? exposedTo(scope, parts) : undefined;
  const found: Finding[] = [];
  const told = new Map(
    cells.map((cell) => [keyOf(cell.dish, cell.variant, cell.allergen ?? cell.need), cell]),
  );
  const say = (what: string) => found.push({ rule: "matrix", tasks: [], by: 1, unit: "cell", what });
  const served = new Map<string, { row: PlateCount; form: Placement[] }>();
  for (const row of plates)
    if (row.count + row.spare > 0)
      served.set(keyOf(row.dish, row.variant), {
        row,
        form: namedForm(scope.dishes.get(row.dish)!, row.variant)!,
      });
  for (const { row, form } of served.values()) {
    const { dish, variant } = row;
    const traces = new Set(
      exposed && [...belowPlate(scope, row)].flatMap((id) => [...(exposed.get(id) ?? [])]),
    );
    for (const allergen of ALLERGENS) {
      const cell = told.get(keyOf(dish, variant, allergen));
      const within = stateOn(scope, allergen, form);
      const state = within === "free" && traces.has(allergen) ? "may" : within;
      if (!cell || WEIGHT[cell.state] !== WEIGHT[state])
        say(
          `${named(dish, "dish")} (${variant}): ${allergen} is told as "${cell?.state ?? "nothing"}", what lies on it comes to "${state}"`,
        );
    }
    for (const need of DIETS) {
      const cell = told.get(keyOf(dish, variant, need));
      const trace = tracesForbidden(need).find((one) => traces.has(one));
      const why = speaksAgainst(scope, need, form) ?? (trace && `it is exposed to ${trace} in the plan`);
      if (!cell || (cell.state === "free") !== (why === undefined))
        say(
          `${named(dish, "dish")} (${variant}): ${need} is told as "${cell?.state ?? "nothing"}"; ${why ?? "nothing speaks against"}`,
        );
    }
  }
  return found;
}

const keyOf = (...words: readonly (string | undefined)[]) => words.join(" ");
