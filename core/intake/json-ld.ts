import type { ReadOptions } from "../quantity/index.ts";
import { type DataBlock, plainText } from "./html.ts";
import { readLines } from "./line/pieces.ts";
import { readStep } from "./read-step.ts";
import { readYield } from "./read-yield.ts";
import type { ReadPart, ReadProblem, ReadRecipe, ReadStep, ReadYield } from "./types.ts";
import { PART_KEY } from "./words.ts";

type Json = Readonly<Record<string, unknown>>;

/** Values of one block that are looked at, and how deep sections may be nested. */
const MOST_VALUES = 200_000;
const DEEPEST = 12;
/** Lines or steps of one recipe. */
const MOST_ITEMS = 5_000;

/**
 * Reads every schema.org Recipe of the blocks of data. Never throws: a block that is no JSON is named by its line,
 * the others are read.
 */
export function readJsonLd(
  blocks: readonly DataBlock[],
  options: ReadOptions = {},
): { recipes: ReadRecipe[]; problems: ReadProblem[] } {
  const recipes: ReadRecipe[] = [];
  const problems: ReadProblem[] = [];
  for (const block of blocks) {
    const parsed = parse(block.text);
    if (!parsed.ok) {
      problems.push({
        at: block.at,
        what: `this data is not JSON: ${parsed.why}`,
        mend: "paste the recipe as text instead",
      });
      continue;
    }
    for (const node of recipesIn(parsed.value)) recipes.push(recipeOf(node, block.at, options));
  }
  return { recipes, problems };
}

function parse(text: string): { ok: true; value: unknown } | { ok: false; why: string } {
  const bare = text.trim().replace(/^\/\/\s*<!\[CDATA\[|^<!--|(?:\/\/\s*\]\]>|-->)$/g, "");
  let why = "";
  // Pages often hold raw line breaks inside strings, which JSON forbids.
  const joined = bare.replace(/[\t\r\n\f\v]+/g, " ");
  // … and a comma before the end of a list.
  const trimmed = joined.replace(/,(\s*[}\]])/g, "$1");
  for (const attempt of new Set([bare, joined, trimmed])) {
    try {
      return { ok: true, value: JSON.parse(attempt) };
    } catch (error) {
      why = (error as Error).message.slice(0, 120);
    }
  }
  return { ok: false, why };
}

const isObject = (value: unknown): value is Json =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const listOf = (value: unknown): readonly unknown[] =>
  Array.isArray(value) ? value : value === undefined || value === null ? [] : [value];
const isType = (node: Json, name: string) =>
  listOf(node["@type"]).some((type) => typeof type === "string" && type.split(/[/#:]/).at(-1) === name);

/** Every Recipe in a value, in order, without recursion. */
function recipesIn(root: unknown): Json[] {
  const found: Json[] = [];
  const stack: unknown[] = [root];
  for (let seen = 0; stack.length > 0 && seen < MOST_VALUES; seen++) {
    const value = stack.pop();
    if (Array.isArray(value)) {
      for (let i = Math.min(value.length, MOST_VALUES) - 1; i >= 0; i--) stack.push(value[i]);
    } else if (isObject(value)) {
      if (isType(value, "Recipe")) found.push(value);
      else
        for (const inner of Object.values(value).reverse()) if (typeof inner === "object") stack.push(inner);
    }
  }
  return found;
}

function recipeOf(node: Json, at: number, options: ReadOptions): ReadRecipe {
  const problems: ReadProblem[] = [];
  const parts: ReadPart[] = [];
  const partAt = (name: string, text: string): number => {
    const known = parts.findIndex((part) => part.name.toLowerCase() === name.toLowerCase());
    if (known >= 0) return known;
    parts.push({ name, text, at });
    return parts.length - 1;
  };
  const lines: ReadRecipe["lines"][number][] = [];
  let part: number | null = null;
  for (const text of textsOf(node.recipeIngredient ?? node.ingredients)) {
    if (lines.length >= MOST_ITEMS) {
      problems.push({
        at,
        what: `more than ${MOST_ITEMS} ingredients: the rest is not read`,
        mend: "part the recipe",
      });
      break;
    }
    const plain = plainText(text).replace(/\s+/g, " ").trim();
    if (plain === "") continue;
    const heading = headingOf(plain);
    if (heading) part = partAt(heading, text);
    else {
      const read = readLines(plain, options);
      const own = read.length > 1 ? {} : { text: text.trim() };
      for (const line of read) lines.push({ ...line, ...own, at, part });
    }
  }
  const steps = stepsOf(node.recipeInstructions, at, partAt, problems);
  const title = typeof node.name === "string" ? plainText(node.name).trim() : "";
  const other = ["description", "prepTime", "cookTime", "totalTime"].flatMap((key) =>
    typeof node[key] === "string" ? [{ at, text: `${key}: ${duration(plainText(node[key]).trim())}` }] : [],
  );
  return {
    title,
    yields: yieldsOf(node.recipeYield ?? node.yield, at, options),
    parts,
    lines,
    steps,
    other,
    problems,
  };
}

/** A duration of ISO 8601 ("PT1H30M") in words; any other text as it stands. */
export function duration(text: string): string {
  const [whole, days, hours, minutes, seconds] =
    /^P(?:(\d{1,4})D)?(?:T(?:(\d{1,5})H)?(?:(\d{1,6})M)?(?:(\d{1,6})(?:\.\d+)?S)?)?$/.exec(text) ?? [];
  if (whole === undefined) return text;
  const said = [
    [days, "day"],
    [hours, "h"],
    [minutes, "min"],
    [seconds, "s"],
  ].filter(([number]) => number !== undefined && Number(number) > 0);
  return said.map(([number, unit]) => `${Number(number)} ${unit}`).join(" ") || text;
}

function headingOf(text: string): string | undefined {
  if (text.length > 60 || /\d/.test(text)) return undefined;
  const colon = /:$/.test(text);
  const key = PART_KEY.exec(text);
  if (!colon && !(key && text.split(/\s+/).length <= 6 && !text.includes(","))) return undefined;
  return text.slice(key?.[0].length ?? 0).replace(/[\s:]+$/, "") || undefined;
}

/** The texts of a list, of a text with line breaks, or of objects with a name or text. */
function textsOf(value: unknown): string[] {
  return listOf(value).flatMap((one) => {
    if (typeof one === "string") return Array.isArray(value) ? [one] : plainText(one).split(/\n+/);
    if (typeof one === "number") return [String(one)];
    if (isObject(one))
      return [one.text, one.name, one.itemListElement].find((t) => typeof t === "string")
        ? [String(one.text ?? one.name)]
        : [];
    return [];
  });
}

function stepsOf(
  instructions: unknown,
  at: number,
  partAt: (name: string, text: string) => number,
  problems: ReadProblem[],
): ReadStep[] {
  const steps: ReadStep[] = [];
  const stack: { value: unknown; part: number | null; depth: number }[] = [
    { value: instructions, part: null, depth: 0 },
  ];
  for (let seen = 0; stack.length > 0; seen++) {
    const { value, part, depth } = stack.pop()!;
    if (seen > MOST_VALUES || steps.length >= MOST_ITEMS || depth > DEEPEST) {
      problems.push({
        at,
        what: "instructions too many or too deeply nested: the rest is not read",
        mend: "paste the method as text",
      });
      break;
    }
    if (typeof value === "string") {
      for (const text of plainText(value).split(/\n+/))
        if (text.trim()) steps.push({ ...readStep(text), at, part });
    } else if (Array.isArray(value)) {
      for (let i = Math.min(value.length, MOST_ITEMS) - 1; i >= 0; i--)
        stack.push({ value: value[i], part, depth: depth + 1 });
    } else if (isObject(value)) {
      const inner = value.itemListElement ?? value.steps;
      const name = typeof value.name === "string" ? plainText(value.name).trim() : "";
      if (inner !== undefined) {
        const bare = name.replace(/[\s:]+$/, "").replace(PART_KEY, "");
        const of = isType(value, "HowToSection") && bare ? partAt(bare, name) : part;
        stack.push({ value: inner, part: of, depth: depth + 1 });
      } else
        stack.push({ value: typeof value.text === "string" ? value.text : name, part, depth: depth + 1 });
    }
  }
  return steps;
}

function yieldsOf(value: unknown, at: number, options: ReadOptions): ReadYield[] {
  const yields: ReadYield[] = [];
  for (const one of listOf(value).slice(0, 10)) {
    const said = isObject(one)
      ? `${one.value ?? ""} ${one.unitText ?? ""}`
      : typeof one === "object"
        ? ""
        : String(one ?? "");
    const text = plainText(said).trim();
    const read = readYield(text, options) ?? readYield(`Yield: ${text}`, options);
    // ["4", "4 servings"] says one thing twice; the fuller one stays.
    const same = yields.findIndex((other) => other.low === read?.low && other.high === read.high);
    if (!read) continue;
    if (same < 0) yields.push({ ...read, text, at });
    else if (yields[same]!.what === "portions") yields[same] = { ...read, text, at };
  }
  return yields;
}
