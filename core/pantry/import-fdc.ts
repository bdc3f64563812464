import {
  type FdcFood,
  type FdcPortion,
  type IngredientInput,
  ingredientOf,
  READ_NUTRIENTS,
} from "./fdc-food.ts";
import { plainNumber, type RowProblem, RowProblems, readRows } from "./import-rows.ts";

/** Ingredients read from a file of the user's, what was left out by line, and what should be asked. */
export interface Imported {
  readonly ingredients: IngredientInput[];
  readonly problems: RowProblem[];
  readonly doubts: { readonly ingredient: string; readonly what: string }[];
}

/** Texts of the CSV download of FoodData Central, by file name; the last three only add names. */
export interface FdcCsvFiles {
  readonly "food.csv": string;
  readonly "food_nutrient.csv": string;
  readonly "food_portion.csv"?: string;
  readonly "measure_unit.csv"?: string;
  readonly "food_category.csv"?: string;
}

/** Kinds of record that are foods one buys; samples and acquisitions behind them are not. */
const FOODS = new Set(["foundation_food", "sr_legacy_food", "survey_fndds_food", "experimental_food"]);

/** Measures by their id in the download, for when measure_unit.csv is not given. */
const UNIT_IDS: Readonly<Record<string, string>> = {
  "1000": "cup",
  "1001": "tablespoon",
  "1002": "teaspoon",
  "1003": "liter",
  "1004": "milliliter",
  "1007": "gallon",
  "1008": "pint",
  "1009": "fl oz",
};
const UNDETERMINED = "9999";

interface Gathered {
  readonly id: string;
  readonly description: string;
  readonly group: string;
  readonly nutrients: Map<string, number>;
  readonly portions: FdcPortion[];
}

/**
 * Reads the CSV download of USDA FoodData Central (an open format, public domain). Branded foods are left out:
 * theirs are per 100 g or per 100 mL without saying which in these files. A bad row is named by file and line and
 * left out; the rest is kept.
 */
export function importFdcCsv(files: FdcCsvFiles): Imported {
  const problems = new RowProblems();
  const groups = names(files["food_category.csv"], "food_category.csv", "description", problems);
  const units = names(files["measure_unit.csv"], "measure_unit.csv", "name", problems);
  const foods = new Map<string, Gathered>();
  const others = new Set<string>();
  readRows(files["food.csv"], "food.csv", ["fdc_id", "data_type", "description"], problems, (row) => {
    const id = row.get("fdc_id");
    const description = row.get("description");
    if (!/^\d+$/.test(id) || foods.has(id) || others.has(id))
      problems.add("food.csv", row.line, `"${id}" is no FDC ID of its own`, "give each food one number");
    else if (!FOODS.has(row.get("data_type"))) others.add(id);
    else if (description === "") problems.add("food.csv", row.line, `food ${id} has no name`, "name it");
    else {
      const category = row.get("food_category_id");
      foods.set(id, {
        ...{ id, description, group: groups.get(category) ?? category },
        ...{ nutrients: new Map(), portions: [] },
      });
    }
  });
  const needed = ["fdc_id", "nutrient_id", "amount"];
  readRows(files["food_nutrient.csv"], "food_nutrient.csv", needed, problems, (row) => {
    const food = foodAt("food_nutrient.csv", row.line, row.get("fdc_id"));
    const nutrient = row.get("nutrient_id").replace(/\.0$/, "");
    if (!food || !READ_NUTRIENTS.has(nutrient) || row.get("amount") === "") return;
    const amount = plainNumber(row.get("amount"));
    if (amount === undefined) {
      const what = `"${row.get("amount")}" is no amount of nutrient ${nutrient} of ${food.description}`;
      problems.add("food_nutrient.csv", row.line, what, "write a number from 0 up");
    } else if (!food.nutrients.has(nutrient)) food.nutrients.set(nutrient, amount);
  });
  if (files["food_portion.csv"] !== undefined)
    readRows(files["food_portion.csv"], "food_portion.csv", ["fdc_id", "gram_weight"], problems, (row) => {
      const food = foodAt("food_portion.csv", row.line, row.get("fdc_id"));
      if (!food) return;
      const unit = row.get("measure_unit_id");
      const unitName = unit === UNDETERMINED ? "" : (units.get(unit) ?? UNIT_IDS[unit] ?? "");
      const words = [unitName, row.get("portion_description"), row.get("modifier")];
      const portion = portionOf(row.get("amount"), words, row.get("gram_weight"));
      if (typeof portion === "string") problems.add("food_portion.csv", row.line, portion, "mend the row");
      else food.portions.push(portion);
    });
  return finish([...foods.values()], problems);

  function foodAt(file: string, line: number, id: string): Gathered | undefined {
    const food = foods.get(id);
    if (!food && !others.has(id))
      problems.add(
        file,
        line,
        `food ${id || "without a number"} is not in food.csv`,
        "take files of one download",
      );
    return food;
  }
}

/**
 * Reads the JSON download of USDA FoodData Central: {"FoundationFoods": […]}, {"SRLegacyFoods": […]} or
 * {"SurveyFoods": […]}. A food that cannot be read is named by its place in the list; the rest is kept.
 */
export function importFdcJson(text: string, file = "foods.json"): Imported {
  const problems = new RowProblems();
  let read: unknown;
  try {
    read = JSON.parse(text.startsWith("\uFEFF") ? text.slice(1) : text);
  } catch (error) {
    problems.add(file, 0, `the file is no JSON: ${(error as Error).message}`, "download it again");
    return finish([], problems);
  }
  const lists = isRecord(read) ? Object.values(read).filter(Array.isArray) : [];
  const list = Array.isArray(read) ? read : lists[0];
  if (list === undefined) {
    problems.add(file, 0, "the file holds no list of foods", "choose a JSON download of FoodData Central");
    return finish([], problems);
  }
  const foods: FdcFood[] = [];
  list.forEach((each: unknown, index: number) => {
    const at = `food ${index + 1} of the list`;
    if (!isRecord(each) || typeof each.description !== "string" || each.description.trim() === "")
      problems.add(file, 0, `${at} has no description`, "name it");
    else if (each.dataType === "Branded")
      problems.add(
        file,
        0,
        `${at}, ${each.description}, is a brand’s: per 100 g or per 100 mL`,
        "enter it by hand",
      );
    else
      foods.push(
        foodOf(each, each.description.trim(), (what) => problems.add(file, 0, `${at}: ${what}`, "mend it")),
      );
  });
  return finish(foods, problems);
}

function foodOf(each: Record<string, unknown>, description: string, tell: (what: string) => void): FdcFood {
  const nutrients = new Map<string, number>();
  for (const entry of listOf(each.foodNutrients)) {
    const nutrient = isRecord(entry.nutrient) ? entry.nutrient : {};
    const id = [nutrient.id, nutrient.number].map(String).find((name) => READ_NUTRIENTS.has(name));
    if (id === undefined || entry.amount === undefined || entry.amount === null) continue;
    if (typeof entry.amount === "number" && entry.amount >= 0 && Number.isFinite(entry.amount)) {
      if (!nutrients.has(id)) nutrients.set(id, entry.amount);
    } else tell(`${JSON.stringify(entry.amount)} is no amount of nutrient ${id} of ${description}`);
  }
  const portions: FdcPortion[] = [];
  for (const entry of listOf(each.foodPortions)) {
    const unit = isRecord(entry.measureUnit) ? textOf(entry.measureUnit.name) : "";
    const words = [
      unit === "undetermined" ? "" : unit,
      textOf(entry.portionDescription),
      textOf(entry.modifier),
    ];
    const portion = portionOf(textOf(entry.amount ?? entry.value), words, textOf(entry.gramWeight));
    if (typeof portion === "string") tell(portion);
    else portions.push(portion);
  }
  const category = isRecord(each.foodCategory) ? each.foodCategory.description : each.foodCategory;
  return { id: textOf(each.fdcId), description, group: textOf(category), nutrients, portions };
}

/** A portion from its texts, or what is wrong with it. A missing amount is one; a modifier of digits is a code. */
function portionOf(amountText: string, words: readonly string[], gramsText: string): FdcPortion | string {
  const written = words.filter((word) => word !== "" && !/^\d+$/.test(word)).join(", ");
  // Survey foods write the amount into the description: "1 cup, sliced".
  const [, inWords, rest] = /^(\d+(?:\.\d+)?)\s+(.*)$/.exec(written) ?? [];
  const amount = amountText !== "" ? plainNumber(amountText) : inWords === undefined ? 1 : Number(inWords);
  const grams = plainNumber(gramsText);
  if (grams === undefined || grams === 0) return `"${gramsText}" is no weight of "${written}"`;
  if (amount === undefined || amount === 0) return `"${amountText}" is no number of "${written}"`;
  return { amount, measure: amountText === "" && rest !== undefined ? rest : written, grams };
}

function names(
  text: string | undefined,
  file: string,
  column: string,
  problems: RowProblems,
): Map<string, string> {
  const found = new Map<string, string>();
  if (text !== undefined)
    readRows(text, file, ["id", column], problems, (row) => found.set(row.get("id"), row.get(column)));
  return found;
}

function finish(foods: readonly FdcFood[], problems: RowProblems): Imported {
  const taken = new Set<string>();
  const read = foods.map((food) => ingredientOf(food, taken));
  const doubts = read.flatMap(({ of, doubts: each }) => each.map((what) => ({ ingredient: of.id, what })));
  return { ingredients: read.map(({ of }) => of), problems: problems.list(), doubts };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function listOf(value: unknown): Record<string, unknown>[] {
  return Array.isArray(value) ? value.filter(isRecord) : [];
}

function textOf(value: unknown): string {
  return typeof value === "string" ? value.trim() : typeof value === "number" ? String(value) : "";
}
