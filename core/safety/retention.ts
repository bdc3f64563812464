import type { Line, Step } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Carried } from "./nutrients.ts";
import type { Known, Notes } from "./nutrition-notes.ts";
import { RETENTION, RETENTION_SOURCE, type RetentionRow, type RetentionWay } from "./retention-table.ts";

/** The nutrients of a label that the USDA table has; vitamin D is not among them. */
const COLUMNS = { calciumMg: 1, ironMg: 2, potassiumMg: 3 } as const satisfies Partial<
  Record<Carried, keyof RetentionRow>
>;
export type Retained = keyof typeof COLUMNS;
export const isRetained = (nutrient: Carried): nutrient is Retained => nutrient in COLUMNS;

/** What cooking in a step leaves of a mineral of a line. */
export interface Cooked {
  readonly share: Known;
  /** The factor holds what goes with the drained liquid: it takes the place of the loss the step states. */
  readonly drainedWithin: boolean;
}

/**
 * The factor of the table for a line in a step that says how it cooks; 1 with the reason where the food is heated and no
 * factor is known. Undefined where nothing cooks, and for a preparation put in: it lost what it lost where it was made,
 * and by the table reheating takes none of the three.
 */
export function cookedShare(
  step: Step,
  { item }: Line,
  ingredient: Ingredient | undefined,
  nutrient: Retained,
  heats: boolean,
  again: boolean,
  notes: Notes,
): Cooked | undefined {
  if ("preparation" in item) return undefined;
  const { cooks } = step;
  if (!cooks) return heats ? none(notes, "not-said", "no step says how it cooks") : undefined;
  const group = ingredient?.retentionGroup;
  if (group === undefined) return none(notes, "no-group", "the food is in no group of the table");
  const way = wayOf(step);
  const row = RETENTION[group][way];
  if (row === undefined) return none(notes, `${group}/${way}`, `no row for ${group}, ${way}`);
  const [code] = row;
  const factor = row[COLUMNS[nutrient]] / 100;
  const table = `code ${code}${again ? "; cooked before: multiplied, which no table says" : ""}`;
  const path = `const:/nutrition/retention/${code}/${nutrient}${again ? "/again" : ""}`;
  return {
    share: notes.stated(path, factor, "ratio", { ...RETENTION_SOURCE, table }),
    drainedWithin: !way.endsWith("-kept") && cooks.liquid !== "kept",
  };
}

function none(notes: Notes, key: string, why: string): Cooked {
  const source = { ...RETENTION_SOURCE, table: `no factor applied: ${why}` };
  return {
    share: notes.stated(`const:/nutrition/retention/none/${key}`, 1, "ratio", source),
    drainedWithin: false,
  };
}

/** The liquid is drained where the step says so, or loses it; else it is eaten too. */
function wayOf({ cooks, change, discard }: Step): RetentionWay {
  const { by, liquid } = cooks!;
  if (by !== "boil" && by !== "braise") return by;
  const as = change !== undefined && change !== "none" && "as" in change ? change.as : undefined;
  const loses = as === "drained" || as === "rendered" || discard?.as === "rinse";
  return `${by}-${liquid ?? (loses ? "drained" : "kept")}`;
}
