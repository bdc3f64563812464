import { readdirSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { decodeText } from "../../core/intake/index.ts";
import { importFile } from "../../core/pantry/import-file.ts";
import { EXIT, fileOf, type Io, readArgs, readFileBytes, refuse, writeJson } from "../io.ts";

const help = `tournant import FILE [FILE …] [--json]

Reads ingredients from files of your own: a list (CSV with a column "name"), or a download of USDA FoodData Central:
its JSON file, or food.csv and food_nutrient.csv (and the others) together, or the folder that holds them.

JSON: {ok, ingredients (documents of a book), doubts [{ingredient, what}], problems [{at, what, mend}]}
Rows that cannot be read are named and the rest is kept; allergens not said are unknown. Nothing is written.
`;

/** The files the words mean: a folder is its CSV and JSON files. */
function filesOf(words: readonly string[]): string[] {
  return words.flatMap((word) => {
    const folder = statSync(word, { throwIfNoEntry: false })?.isDirectory();
    return folder
      ? readdirSync(word)
          .filter((name) => /\.(?:csv|json)$/i.test(name))
          .map((name) => join(word, name))
      : [word];
  });
}

function run(args: string[], io: Io): number {
  const { words, options } = readArgs(args, { json: "flag" }, { least: 1, most: 50 });
  const files: { name: string; text: string }[] = [];
  for (const path of filesOf(words)) {
    const bytes = readFileBytes(fileOf(path));
    if (!bytes.ok) return refuse(bytes.problems, options.json, io);
    files.push({ name: basename(path), text: decodeText(bytes.value).text });
  }
  const { ingredients, doubts, problems } = importFile(files);
  if (ingredients.length === 0) {
    const told = problems.map(({ at, what, mend }) => ({ path: at, what, mend }));
    const none = {
      path: "",
      what: "no ingredient was found",
      mend: "give a CSV with a column name, or a download",
    };
    return refuse(told.length > 0 ? told : [none], options.json, io);
  }
  if (options.json) writeJson({ ok: true, ingredients, doubts, problems }, io);
  else {
    for (const { id, name, allergens } of ingredients)
      io.out(`  ${id}: ${name}${allergens.status === "unknown" ? "  (allergens unknown)" : ""}\n`);
    io.out(`${ingredients.length} ingredients, ${doubts.length} doubts\n`);
    for (const { ingredient, what } of doubts.slice(0, 100)) io.note(`${ingredient}: ${what}\n`);
  }
  for (const { at, what, mend } of problems) io.note(`${at}: ${what}. To mend: ${mend}.\n`);
  return EXIT.computed;
}

export default { help, run };
