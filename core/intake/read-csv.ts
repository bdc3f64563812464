import type { ReadOptions } from "../quantity/index.ts";
import { type CsvRow, columnWord, csvRows, MOST_ROWS } from "./csv.ts";
import { readLine } from "./read-line.ts";
import { readStep } from "./read-step.ts";
import { readYield } from "./read-yield.ts";
import type { ReadLine, ReadPart, ReadProblem, ReadRecipe, ReadStep, ReadYield } from "./types.ts";

type Column = "recipe" | "part" | "amount" | "unit" | "ingredient" | "note" | "step" | "yield";

const COLUMNS: Readonly<Record<Column, RegExp>> = {
  amount:
    /^(?:amount|amt|quantity|qty|qte|quantite|menge|anzahl|cantidad|cant|quantita|qta|weight|gewicht|poids|peso|gross|net)$/,
  unit: /^(?:units?|uom|u m|measure|einheit|unite|unites|unidad|unidades|unita|mesure|medida|misura)$/,
  ingredient:
    /^(?:ingredients?|items?|product|products|ingredient name|zutat|zutaten|ingrediente|ingredientes|ingredienti|produit|produits|producto|prodotto|artikel|description|commodity)$/,
  note: /^(?:notes?|comments?|remarks?|prep|cut|form|bemerkung|hinweis|remarques?|notas?|observaciones|preparation notes?)$/,
  part: /^(?:parts?|section|component|sub ?recipe|group|teil|partie|parte|componente|gruppe)$/,
  recipe:
    /^(?:recipe|recipe name|dish|title|preparation|rezept|recette|receta|ricetta|gericht|plat|plato|piatto|name)$/,
  step: /^(?:steps?|method|instructions?|directions|procedure|zubereitung|etapes?|pasos?|procedimento|procedimiento)$/,
  yield: /^(?:yields?|serves|servings|portions?|portionen|raciones|porzioni|rendement|rendimiento|resa)$/,
};

/** Which column holds what, from the row of headings; undefined when the row is none. */
function headings(row: CsvRow): Map<Column, number> | undefined {
  const found = new Map<Column, number>();
  row.cells.forEach((cell, i) => {
    const word = columnWord(cell);
    for (const [column, pattern] of Object.entries(COLUMNS) as [Column, RegExp][])
      if (!found.has(column) && pattern.test(word)) found.set(column, i);
  });
  return found.has("ingredient") || (found.has("amount") && found.has("recipe")) ? found : undefined;
}

/** True when the first rows look like a table of ingredients with headings. */
export function looksLikeCsv(text: string): boolean {
  const { rows } = csvRows(text.slice(0, 4_000));
  return rows.slice(0, 5).some((row) => row.cells.length >= 2 && (headings(row)?.size ?? 0) >= 2);
}

/** Reads recipes from a table: one row a line; a column of recipe names parts several. Never throws. */
export function readCsv(
  text: string,
  options: ReadOptions = {},
): (ReadRecipe & { problems: ReadProblem[] })[] {
  const { rows, cut } = csvRows(text);
  const top = rows.slice(0, 10).findIndex((row) => headings(row) !== undefined);
  const columns = top < 0 ? new Map<Column, number>() : headings(rows[top]!)!;
  const recipes = new Map<string, Building>();
  let name = "";
  for (const row of rows.slice(top + 1)) {
    const cell = (column: Column) => row.cells[columns.get(column) ?? -1] ?? "";
    name = cell("recipe") || name;
    let building = recipes.get(name);
    if (!building) {
      building = new Building(name);
      recipes.set(name, building);
    }
    building.add(row, cell, columns.size > 0, options);
  }
  const read = [...recipes.values()].map((one) => one.recipe());
  if (cut && read[0])
    read[0].problems.push({
      at: rows.at(-1)!.at,
      what: `more than ${MOST_ROWS} rows: the rest is not read`,
      mend: "part the file",
    });
  return read;
}

class Building {
  private readonly title: string;
  private readonly yields: ReadYield[] = [];
  private readonly parts: ReadPart[] = [];
  private readonly lines: ReadLine[] = [];
  private readonly steps: ReadStep[] = [];
  private readonly problems: ReadProblem[] = [];

  constructor(title: string) {
    this.title = title;
  }

  add(row: CsvRow, cell: (column: Column) => string, headed: boolean, options: ReadOptions): void {
    const { at } = row;
    const part = this.partAt(cell("part"), at);
    const made =
      cell("yield") && (readYield(cell("yield"), options) ?? readYield(`Yield: ${cell("yield")}`, options));
    if (made && this.yields.every((known) => known.text !== made.text)) this.yields.push({ ...made, at });
    if (cell("step")) this.steps.push({ ...readStep(cell("step")), at, part });
    let words: string[] = headed ? [cell("amount"), cell("unit"), cell("ingredient")] : [...row.cells];
    if (headed && cell("ingredient") === "") {
      if (cell("amount"))
        this.problems.push({
          at,
          what: `an amount (${cell("amount").slice(0, 40)}) without an ingredient`,
          mend: "name the ingredient in this row",
        });
      return;
    }
    const text = row.raw.trim();
    if (/^[-−]\s*\d/.test(cell("amount"))) {
      this.problems.push({
        at,
        what: `the amount ${cell("amount").slice(0, 40)} is negative`,
        mend: "give an amount of 0 or more",
      });
      words = [cell("ingredient")];
    }
    const read = readLine(words.filter(Boolean).join(" "), options);
    const note = [read.note, cell("note")].filter(Boolean).join(", ");
    this.lines.push({ ...read, text, note, at, part });
  }

  private partAt(name: string, at: number): number | null {
    if (name === "") return null;
    const known = this.parts.findIndex((part) => part.name === name);
    if (known >= 0) return known;
    this.parts.push({ name, text: name, at });
    return this.parts.length - 1;
  }

  recipe(): ReadRecipe & { problems: ReadProblem[] } {
    const { title, yields, parts, lines, steps, problems } = this;
    return { title, yields, parts, lines, steps, other: [], problems };
  }
}
