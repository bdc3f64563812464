import type { Origin } from "./schema.ts";

/** Everything that some guest leaves: what a food of unknown make counts as until somebody says. */
export const everyOrigin: readonly Origin[] = [
  ...(["meat", "pork", "poultry", "fish", "shellfish", "egg", "dairy", "honey", "plant", "fungus"] as const),
  ...(["alcohol", "gelatin", "rennet", "raw-animal", "raw-egg"] as const),
];

/** Food groups of the USDA whose foods have one origin; every other group is of mixed make. */
const GROUPS: Readonly<Record<string, readonly Origin[]>> = {
  "dairy and egg products": ["dairy", "egg"],
  "spices and herbs": ["plant"],
  "poultry products": ["poultry"],
  "fruits and fruit juices": ["plant"],
  "pork products": ["meat", "pork"],
  "vegetables and vegetable products": ["plant"],
  "nut and seed products": ["plant"],
  "beef products": ["meat"],
  "finfish and shellfish products": ["fish", "shellfish"],
  "legumes and legume products": ["plant"],
  "lamb, veal, and game products": ["meat"],
  "cereal grains and pasta": ["plant"],
};

/** Words in a description that add an origin. */
const WORDS: readonly (readonly [RegExp, Origin])[] = [
  [/\b(milk|cream|creamed|butter|cheese|yogurt|whey|lactose)\b/i, "dairy"],
  [/\b(cheese)\b/i, "rennet"],
  [/\beggs?\b/i, "egg"],
  [/\bhoney\b/i, "honey"],
  [/\b(bacon|ham|pork|lard)\b/i, "pork"],
  [/\b(bacon|ham|pork|lard|beef|meat|lamb|veal)\b/i, "meat"],
  [/\b(chicken|turkey|duck|goose)\b/i, "poultry"],
  [/\b(fish|anchovy|tuna|salmon)\b/i, "fish"],
  [/\b(shrimp|crab|oyster|clam)\b/i, "shellfish"],
  [/\bgelatins?\b/i, "gelatin"],
  [/\b(wine|beer|rum|liqueur|brandy|alcoholic|extract)\b/i, "alcohol"],
  [/\bmushrooms?\b/i, "fungus"],
];
const COOKED =
  /\b(cooked|roasted|broiled|grilled|braised|stewed|simmered|boiled|baked|fried|canned|poached|steamed)\b/i;
const FLESH: readonly Origin[] = ["meat", "pork", "poultry", "fish", "shellfish"];

/** What a food comes from, as far as its group and its words say it; `sure` is false when everything is counted. */
export function originOf(
  description: string,
  group: string,
  alcohol: number | undefined,
): { origin: Origin[]; sure: boolean } {
  const known = GROUPS[group.trim().toLowerCase()];
  if (known === undefined) return { origin: [...everyOrigin], sure: false };
  const found = new Set<Origin>(known);
  for (const [words, origin] of WORDS) if (words.test(description)) found.add(origin);
  if ((alcohol ?? 0) > 0) found.add("alcohol");
  const cooked = COOKED.test(description);
  if (!cooked && FLESH.some((flesh) => found.has(flesh))) found.add("raw-animal");
  if (!cooked && found.has("egg")) found.add("raw-egg");
  return { origin: [...found], sure: true };
}
