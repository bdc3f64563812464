import type { IngredientInput } from "./fdc-food.ts";
import type { Imported } from "./import-fdc.ts";
import { freeId, plainNumber, type Row, RowProblems, readRows } from "./import-rows.ts";
import { ALLERGENS, type Allergen, type Composition, IdSchema, ORIGINS, type Origin } from "./schema.ts";

/** Headings of a list of one's own; only `name` is needed, their order is free. Composition is g in 100 g. */
export const LIST_HEADINGS = [
  ...(["name", "id", "other_names", "density_kg_per_l", "piece_g", "trim_yield", "allergens"] as const),
  ...(["may_contain", "origin", "storage", "days", "water", "protein", "fat", "saturated"] as const),
  ...(["carbohydrate", "sugars", "fibre", "ash", "alcohol", "salt", "energy_kcal"] as const),
] as const;
type Heading = (typeof LIST_HEADINGS)[number];

const PARTS = [
  ...(["water", "protein", "fat", "saturated", "carbohydrate", "sugars", "fibre", "ash", "alcohol"] as const),
  ...(["salt"] as const),
] as const;

/** Other words for an allergen; "shellfish" is both kinds, since it does not say which. */
const SPOKEN: Readonly<Record<string, readonly Allergen[]>> = {
  nuts: ["tree-nut"],
  nut: ["tree-nut"],
  "tree nuts": ["tree-nut"],
  "tree nut": ["tree-nut"],
  dairy: ["milk"],
  lactose: ["milk"],
  eggs: ["egg"],
  soya: ["soy"],
  soybean: ["soy"],
  shellfish: ["crustacean", "mollusc"],
  crustaceans: ["crustacean"],
  molluscs: ["mollusc"],
  mollusks: ["mollusc"],
  sulphites: ["sulphite"],
  sulfites: ["sulphite"],
  sulfite: ["sulphite"],
  so2: ["sulphite"],
  peanuts: ["peanut"],
  celeriac: ["celery"],
  barley: ["gluten"],
  rye: ["gluten"],
  oats: ["gluten"],
  wheat: ["gluten", "wheat"],
};
const NONE = /^(none|no|nothing|free|-)$/i;

/**
 * Reads a list of one's own as CSV: headings of LIST_HEADINGS in the first row. A row that cannot be read is named
 * by its line and left out; a doubtful cell is named, and the cautious side is taken: allergens left empty or in an
 * unknown word count as unknown, an empty origin is asked for.
 * @param source who says the figures; "own list" by default.
 */
export function importIngredientList(text: string, file = "list.csv", source = "own list"): Imported {
  const problems = new RowProblems();
  const ingredients: IngredientInput[] = [];
  const doubts: { ingredient: string; what: string }[] = [];
  const taken = new Set<string>();
  const headings = readRows(text, file, ["name"], problems, (row) => {
    const tell = (what: string, mend: string) => problems.add(file, row.line, what, mend);
    const name = row.get("name");
    if (name === "") return tell("the row has no name", "name the ingredient");
    const wanted = row.get("id");
    if (wanted !== "" && (!IdSchema.safeParse(wanted).success || taken.has(wanted)))
      return tell(`the id "${wanted}" is taken or no kebab-case word`, "write another, or leave it empty");
    const read = readCells(row, tell);
    if (!read) return undefined;
    const id = wanted === "" ? freeId(name, taken) : wanted;
    taken.add(id);
    const by = { doc: source, table: `${file}, line ${row.line}`, kind: "memory" as const };
    const { density, piece, trim, parts, allergens, origin, storage, days } = read;
    if (allergens.status === "unknown")
      doubts.push({ ingredient: id, what: "its allergens are unknown: it counts as containing all" });
    ingredients.push({
      id,
      name,
      aliases: wordsOf(row.get("other_names")),
      densities: density === undefined ? [] : [{ state: "plain", kgPerL: density, source: by }],
      pieces: piece === undefined ? [] : [{ name: "piece", g: piece, source: by }],
      cuts: trim === undefined ? [] : [{ id: "trimmed", name: "trimmed", trimYield: trim, source: by }],
      ...(Object.keys(parts).length > 0 ? { composition: { ...parts, source: by } } : {}),
      allergens,
      origin,
      storage: { state: storage, days },
    });
    return undefined;
  });
  const strange = headings.filter((heading) => heading !== "" && !LIST_HEADINGS.includes(heading as Heading));
  if (strange.length > 0)
    problems.add(file, 1, `not read: ${strange.join(", ")}`, `headings are ${LIST_HEADINGS.join(", ")}`);
  return { ingredients, problems: problems.list(), doubts };
}

type Tell = (what: string, mend: string) => void;

/** The cells of a row, or undefined when one of them makes the row unusable (already told). */
function readCells(row: Row, tell: Tell) {
  let usable = true;
  const number = (heading: Heading, least: number, most: number): number | undefined => {
    const text = row.get(heading);
    if (text === "") return undefined;
    const percent = heading === "trim_yield" && text.endsWith("%");
    const value = plainNumber(percent ? text.slice(0, -1) : text);
    const read = value === undefined ? undefined : percent ? value / 100 : value;
    if (read !== undefined && read >= least && read <= most) return read;
    tell(`${heading} is "${text}"`, `write a number from ${least} to ${most}`);
    usable = false;
    return undefined;
  };
  const density = number("density_kg_per_l", 0.005, 5);
  const piece = number("piece_g", 0.001, 200_000);
  const trim = number("trim_yield", 0.001, 1);
  const days = number("days", 0.01, 10_000) ?? 2;
  const parts: Partial<Record<Exclude<keyof Composition, "source">, number>> = {};
  for (const part of PARTS) {
    const value = number(part, 0, 100);
    if (value !== undefined) parts[part] = value;
  }
  const kcal = number("energy_kcal", 0, 950);
  if (kcal !== undefined) parts.energyKcal = kcal;
  const sum = ["water", "protein", "fat", "carbohydrate", "ash", "alcohol"] as const;
  const filled = sum.reduce((all, part) => all + (parts[part] ?? 0), 0);
  if (filled > 105) {
    tell(`its parts add up to ${filled.toFixed(1)} g in 100 g`, "give grams in 100 g of the edible part");
    usable = false;
  }
  const storage = row.get("storage").toLowerCase() || "cold";
  if (storage !== "ambient" && storage !== "cold" && storage !== "frozen") {
    tell(`storage is "${storage}"`, 'write "ambient", "cold" or "frozen"');
    return undefined;
  }
  const origin = originsOf(row.get("origin"), tell);
  if (!usable || !origin) return undefined;
  return { density, piece, trim, parts, allergens: allergensOf(row, tell), origin, storage, days } as const;
}

/** Empty is unknown, "none" is none; one word that is not understood makes the whole unknown. */
function allergensOf(row: Row, tell: Tell): IngredientInput["allergens"] {
  const cell = row.get("allergens");
  const contains = readAllergens("allergens", cell, tell);
  const mayContain = readAllergens("may_contain", row.get("may_contain"), tell);
  const known = cell !== "" && contains.sure && mayContain.sure;
  return { status: known ? "known" : "unknown", contains: contains.found, mayContain: mayContain.found };
}

function readAllergens(heading: Heading, cell: string, tell: Tell): { found: Allergen[]; sure: boolean } {
  const found = new Set<Allergen>();
  let sure = true;
  if (NONE.test(cell)) return { found: [], sure };
  for (const word of wordsOf(cell, /[;,|/]/)) {
    const low = word.toLowerCase();
    const plain = ALLERGENS.find((allergen) => allergen === low.replaceAll(" ", "-"));
    const read = SPOKEN[low] ?? (plain ? [plain] : undefined);
    for (const allergen of read ?? []) found.add(allergen);
    if (read) continue;
    sure = false;
    tell(
      `${heading} has "${word}", which is none of the words: all allergens count as unknown`,
      `use ${ALLERGENS.join(", ")}`,
    );
  }
  return { found: [...found], sure };
}

function originsOf(cell: string, tell: Tell): Origin[] | undefined {
  const words = wordsOf(cell, /[;,|/]/).map((word) => word.toLowerCase().replaceAll(" ", "-"));
  const strange = words.filter((word) => !ORIGINS.includes(word as Origin));
  if (words.length > 0 && strange.length === 0) return words as Origin[];
  tell(
    strange.length > 0 ? `origin has "${strange.join(", ")}"` : "origin is empty",
    `use ${ORIGINS.join(", ")}`,
  );
  return undefined;
}

function wordsOf(cell: string, apart = /[;|]/): string[] {
  return cell
    .split(apart)
    .map((word) => word.trim())
    .filter((word) => word !== "");
}
