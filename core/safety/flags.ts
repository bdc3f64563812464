import type { Ingredient, Origin } from "../pantry/schema.ts";
import type { GuestFlag } from "../production/schema.ts";
import type { Contents, Eaten } from "./contents.ts";

/** A flag at one plate: what is found that speaks against it, each with its way. Never a certificate. */
export interface FlagAt {
  readonly flag: GuestFlag;
  readonly against: readonly { readonly why: string; readonly path: readonly string[] }[];
}

/**
 * What a person who knows the rules would look at first (common practice, no source; a certifying person decides): of
 * meat how it was slaughtered is never known here, so that it always speaks against.
 */
const LOOKED_AT: Readonly<Record<GuestFlag, readonly (readonly [Origin, string])[]>> = {
  "halal-style": [
    ["pork", "pork"],
    ["alcohol", "alcohol"],
    ["gelatin", "gelatin, its animal not known"],
    ["rennet", "animal rennet"],
    ["meat", "meat, its slaughter not known"],
    ["poultry", "poultry, its slaughter not known"],
    ["insect", "insects"],
  ],
  "kosher-style": [
    ["pork", "pork"],
    ["shellfish", "shellfish"],
    ["gelatin", "gelatin, its animal not known"],
    ["rennet", "animal rennet"],
    ["meat", "meat, its slaughter not known"],
    ["poultry", "poultry, its slaughter not known"],
    ["insect", "insects"],
    ["alcohol", "wine or spirit, its making not known"],
  ],
};

/** What is found against a flag on a plate; each reason once, by its first way. */
export function flagAt(contents: Contents, flag: GuestFlag, eaten: readonly Eaten[]): FlagAt {
  const is = (origin: Origin) => (ingredient: Ingredient) => ingredient.origin.includes(origin);
  const against = LOOKED_AT[flag].flatMap(([origin, why]) => {
    const [path] = contents.paths(eaten, is(origin));
    return path ? [{ why, path }] : [];
  });
  if (flag === "kosher-style") {
    const [meat] = contents.paths(eaten, (one) => is("meat")(one) || is("poultry")(one));
    const [dairy] = contents.paths(eaten, is("dairy"));
    if (meat && dairy) against.push({ why: "meat and dairy on one plate", path: dairy });
  }
  return { flag, against };
}
