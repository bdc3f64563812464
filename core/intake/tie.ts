import type { Ingredient } from "../pantry/schema.ts";
import type { Offer } from "../purchasing/schema.ts";
import { type Link, PantryIndex } from "./link.ts";
import type { PriceRow } from "./price-list.ts";

/** How a row of a list was tied to an ingredient. */
export type Tie = Omit<Link, "by"> & { readonly by: Link["by"] | "code" | "called"; readonly cut?: string };

/** Brand marks, grades, packs and origins in a description say nothing of the ingredient. */
const NOISE =
  /\b\d+(?:[.,]\d+)?\s?(?:%|°|kg|g|gr|l|lt|ltr|cl|ml|oz|lb|lbs|gal|mm|cm|ct|ea|pcs?|stk|stück|months?|mois|monate|mesi|meses)(?![\p{L}])|\b\d{1,4}\s?[x×/]\s?\d[\d.,]*\s?\p{L}{0,3}|\b(?:no\.?|n°|nr\.?|size|grade|class|klasse|cat|cal|kal)\s?[\dIVX]+(?:[/-]\d+)?\b|\b(?:IQF|PDO|AOP|AOC|DOP|IGP|PGI|UK|EU|FR|DE|IT|ES|NL|BIO)\b|\(\s*\)|["*®™]/giu;

/**
 * Ties rows of a list to ingredients: by the supplier's own number or name in earlier offers, else by what the
 * description says. Null where the pantry has nothing near.
 */
export function tieRows(
  rows: readonly PriceRow[],
  pantry: PantryIndex | Iterable<Ingredient>,
  offers: readonly Offer[] = [],
): (Tie | null)[] {
  const index = pantry instanceof PantryIndex ? pantry : new PantryIndex(pantry);
  const byCode = new Map<string, Offer>();
  const byName = new Map<string, Offer>();
  for (const offer of offers) {
    if (offer.code) byCode.set(offer.code, offer);
    if (offer.called) byName.set(plain(offer.called), offer);
  }
  const known = new Map<string, Tie | null>();
  return rows.map(({ code, description }) => {
    const before = (code && byCode.get(code)) || byName.get(plain(description));
    if (before) {
      const by = code && byCode.get(code) === before ? ("code" as const) : ("called" as const);
      // A number that stands for another article now would be a costly mistake: its name is looked at, too.
      const same = by === "called" || !before.called || plain(before.called) === plain(description);
      const cut = before.cut === undefined ? {} : { cut: before.cut };
      return { ingredient: before.ingredient, ...cut, confidence: same ? 1 : 0.7, by };
    }
    const said = plain(description);
    if (!known.has(said)) known.set(said, byWords(description, index));
    return known.get(said)!;
  });
}

const plain = (text: string) => text.toLowerCase().replace(/\s+/g, " ").trim();

/** The whole description first, then without packs and grades, then up to the first comma. */
function byWords(description: string, index: PantryIndex): Link | null {
  const text = description.slice(0, 200);
  const bare = text.replace(NOISE, " ").replace(/\s+/g, " ").trim();
  const tries = [...new Set([text, bare, bare.split(/[,;(–-]\s|\s[-–]\s/)[0]!.trim()])].filter(Boolean);
  let best: Link | null = null;
  for (const one of tries) {
    const found = index.find(one);
    // A shortened name is a little less sure than what was written.
    const link = found && one !== text ? { ...found, confidence: Math.min(found.confidence, 0.9) } : found;
    if (link && link.confidence > (best?.confidence ?? 0)) best = link;
  }
  return best;
}
