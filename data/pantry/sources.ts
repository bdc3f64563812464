import type { Allergen } from "../../core/pantry/schema.ts";
import type { Source } from "../../core/quantity/schema.ts";

/** USDA National Nutrient Database for Standard Reference, Release 28 (2015), by NDB number. */
export function sr(ndb: string, note?: string): Source {
  return { doc: "USDA SR28", table: note ? `NDB ${ndb}: ${note}` : `NDB ${ndb}`, kind: "published" };
}

/** A value of the usual food tables, remembered and not looked up. */
export const memory: Source = { doc: "from memory", kind: "memory" };

/** A remembered value of which something more is known; `doc` says it. */
export function memoryOf(doc: string): Source {
  return { doc, kind: "memory" };
}

/** What a working kitchen keeps after trimming; more is lost than by the light paring of the tables. */
export const practice: Source = { doc: "common practice, no source", kind: "memory" };

/** Allergens are known, and these are in it. */
export function known(...contains: Allergen[]) {
  return { status: "known" as const, contains };
}

/** Allergens are known: what is in it, and what may come in by the same mill or site. */
export function knownAndMaybe(contains: Allergen[], mayContain: Allergen[]) {
  return { status: "known" as const, contains, mayContain };
}

/**
 * Recipes of makers differ: these are in it for sure, and until somebody has read the label it counts as containing
 * every allergen.
 */
export function readLabel(...contains: Allergen[]) {
  return { status: "unknown" as const, contains };
}
