import { type FdcCsvFiles, importFdcCsv, importFdcJson } from "./import-fdc.ts";
import { importIngredientList } from "./import-list.ts";
import { type Ingredient, IngredientSchema } from "./schema.ts";

/** Ingredients of a file, complete, with all that is doubtful or was left out. */
export interface ImportedFile {
  readonly ingredients: Ingredient[];
  readonly doubts: { readonly ingredient: string; readonly what: string }[];
  readonly problems: { readonly at: string; readonly what: string; readonly mend: string }[];
}

/** Files of the CSV download of FoodData Central that are read. */
const FDC_FILES = new Set([
  ...["food.csv", "food_nutrient.csv", "food_portion.csv", "measure_unit.csv", "food_category.csv"],
]);

/**
 * Reads ingredients from a person's own files: the JSON or CSV download of USDA FoodData Central, or a list of one's
 * own (CSV). Which it is, is judged by name and content. Never throws.
 */
export function importFile(files: readonly { readonly name: string; readonly text: string }[]): ImportedFile {
  const ingredients: Ingredient[] = [];
  const doubts: ImportedFile["doubts"] = [];
  const problems: ImportedFile["problems"] = [];
  const byName = new Map(files.map(({ name, text }) => [name.toLowerCase().split(/[/\\]/).at(-1)!, text]));
  const [food, nutrients] = [byName.get("food.csv"), byName.get("food_nutrient.csv")];
  if (food !== undefined && nutrients !== undefined)
    take(importFdcCsv(Object.fromEntries(byName) as unknown as FdcCsvFiles));
  for (const [name, text] of byName) {
    if (FDC_FILES.has(name)) {
      if (food === undefined || nutrients === undefined)
        problems.push({
          ...{ at: name, what: "this file of FoodData Central says nothing alone" },
          mend: "give food.csv and food_nutrient.csv of one download together",
        });
      continue;
    }
    take(/^\s*[{[]/.test(text) ? importFdcJson(text, name) : importIngredientList(text, name));
  }
  return { ingredients, doubts, problems };

  function take(read: ReturnType<typeof importFdcJson>): void {
    for (const one of read.ingredients) {
      const whole = IngredientSchema.safeParse(one);
      if (whole.success) ingredients.push(whole.data);
      else
        problems.push({
          ...{
            at: one.id,
            what: `${one.name}: ${whole.error.issues[0]?.message ?? "cannot be an ingredient"}`,
          },
          mend: "mend its row and read the file again",
        });
    }
    doubts.push(...read.doubts);
    for (const { file, line, what, mend } of read.problems)
      problems.push({ at: line > 0 ? `${file}, line ${line}` : file, what, mend });
  }
}
