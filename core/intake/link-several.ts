import { type Link, SURE } from "./link.ts";
import { SEASONING } from "./split-note.ts";
import type { ReadLine } from "./types.ts";

const AND = /\s*(?:,|&|\+|(?<=\s)(?:and|et|y|e|und)(?=\s))\s*/u;

/** Beside salt, pepper is the ground spice, never the vegetable. */
const PEPPER =
  /^(?:(?:freshly|fresh|ground|milled|cracked)\s)*(?:pepper|poivre|pfeffer|pimienta|pepe)(?:\s(?:du moulin|negra|nero|noir|molida|macinato))?$/iu;

/**
 * "Salt and pepper": a line without an amount that names several things, each surely known, is linked to all of them.
 * What follows a comma counts only where it is a seasoning, since it is mostly said of the first.
 * @returns undefined where one of them is not surely known, or there is only one.
 */
export function linkSeveral(
  { low, ingredient, note }: ReadLine,
  find: (said: string) => Link | null,
): Link | undefined {
  if (low !== null) return undefined;
  const said = note.split(AND).filter((one) => SEASONING.test(one));
  const names = [...ingredient.split(AND), ...said].map((one) => one.trim()).filter(Boolean);
  if (names.length < 2 || names.length > 6) return undefined;
  const links = names.map((name) => find(PEPPER.test(name) ? "black pepper" : name));
  if (!links.every((link): link is Link => link !== null && link.confidence >= SURE)) return undefined;
  const [first, ...also] = links;
  if (!first || new Set(links.map((link) => link.ingredient)).size < 2) return undefined;
  return { ...first, confidence: Math.min(...links.map((link) => link.confidence)), also };
}
