import type { ReadOptions } from "../quantity/index.ts";
import type { DecimalMark } from "../quantity/read-number.ts";
import { dataBlocks } from "./html.ts";
import { readJsonLd } from "./json-ld.ts";
import { looksLikeCsv, readCsv } from "./read-csv.ts";
import { readText } from "./read-text.ts";
import type { ReadProblem, ReadRecipe } from "./types.ts";

export type Format = "text" | "page" | "data" | "table";

/** Everything read from one source. */
export interface ReadSource {
  readonly format: Format;
  readonly recipes: readonly ReadRecipe[];
  /** What could not be read, by line of the source; the rest is kept. */
  readonly problems: readonly ReadProblem[];
}

/** Longest source that is read, in characters. */
export const LONGEST_SOURCE = 20_000_000;

/**
 * Reads recipes from a pasted text, a page with schema.org Recipe data, that data alone, or a table (CSV).
 * @param format left out, it is judged by the looks of the source. Never throws; linear in the source.
 */
export function readSource(source: string, options: ReadOptions & { format?: Format } = {}): ReadSource {
  if (source.length > LONGEST_SOURCE) {
    const what = `${source.length} characters: longer than ${LONGEST_SOURCE}`;
    return { format: "text", recipes: [], problems: [{ at: 1, what, mend: "give one recipe at a time" }] };
  }
  const format = options.format ?? formatOf(source);
  const decimal = options.decimal ?? decimalMark(source.slice(0, 50_000));
  if (decimal && !options.decimal) return readSource(source, { ...options, format, decimal });
  switch (format) {
    case "page": {
      const blocks = dataBlocks(source);
      const { recipes, problems } = readJsonLd(blocks, options);
      if (recipes.length === 0)
        problems.push({
          at: blocks[0]?.at ?? 1,
          what: "the page holds no schema.org Recipe data",
          mend: "copy the recipe from the page and paste it as text",
        });
      return { format, recipes, problems: all(problems, recipes) };
    }
    case "data": {
      const { recipes, problems } = readJsonLd([{ text: source, at: 1 }], options);
      if (recipes.length === 0 && problems.length === 0)
        problems.push({
          at: 1,
          what: "this JSON holds no schema.org Recipe",
          mend: "give an object with @type Recipe",
        });
      return { format, recipes, problems: all(problems, recipes) };
    }
    case "table": {
      const recipes = readCsv(source, options);
      return { format, recipes, problems: all([], recipes) };
    }
    case "text": {
      const recipe = readText(source, options);
      const problems = [...recipe.problems];
      if (recipe.lines.length === 0 && recipe.steps.length === 0)
        problems.push({
          at: 1,
          what: "no line of ingredients and no step was found",
          mend: "give one ingredient a line, its amount first",
        });
      return { format, recipes: [recipe], problems };
    }
  }
}

const all = (own: readonly ReadProblem[], recipes: readonly ReadRecipe[]) => [
  ...own,
  ...recipes.flatMap((one) => one.problems),
];

/** The decimal mark that a text plainly uses ("1,5" and never "1.5"); undefined when it does not show. */
function decimalMark(text: string): DecimalMark | undefined {
  const [commas, points] = [
    /(?<![\d.,])\d{1,3},\d{1,2}(?![\d,])/.test(text),
    /(?<![\d.,])\d{1,3}\.\d{1,2}(?![\d.])/.test(text),
  ];
  return commas === points ? undefined : commas ? "," : ".";
}

function formatOf(source: string): Format {
  const start = source.slice(0, 4_000).trimStart();
  if (/^<(?:!doctype|html|head|body|script|\?xml|!--)/i.test(start)) return "page";
  if (/^[{[]\s*["{[]/.test(start)) return "data";
  if (/application\/ld\+json/i.test(source.slice(0, 200_000)) && start.includes("<")) return "page";
  return looksLikeCsv(start) ? "table" : "text";
}
