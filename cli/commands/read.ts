import {
  decodeText,
  type Format,
  linkRecipe,
  measuresOf,
  ovensOf,
  readSource,
  shelfBehind,
} from "../../core/intake/index.ts";
import { IngredientSchema } from "../../core/pantry/schema.ts";
import { COUNTRIES, UNIT_SYMBOLS } from "../../core/quantity/index.ts";
import {
  EXIT,
  fileOf,
  type Io,
  Misuse,
  readArgs,
  readBook,
  readFileBytes,
  refuse,
  wholeNumber,
  writeJson,
} from "../io.ts";

const FORMATS: readonly Format[] = ["text", "page", "data", "table"];

const help = `tournant read FILE [--as text|page|data|table] [--book FILE|demo] [--nth N] [--country C] [--draft] [--json]

Reads a recipe: pasted text, a page with schema.org Recipe data (JSON-LD), that data alone, or a table (CSV), in
English, French, Spanish, Italian or German. FILE "-" is standard input. Lines are linked to the pantry of
the book, and what it lacks to the starter pantry.

JSON: {ok, title, format,
  lines   [{text, low, high, unit, ingredient, item, note, doubt, part}]
          text as it stands; low = high if single, null if it cannot be measured; a sum in its smaller unit; item is
          {ingredient, confidence, starter?, also?} or null, starter: true where the book lacks it, also: what else the
          line names ("salt and pepper"); two things with amounts in one line are two lines; note and doubt are "" when there is none; part is a name or null
  parts   [{name, text, lines, steps}]   places in lines and steps
  steps   [{text, minutes, temperatureC, doubt, part}]   times added up, ranges by their long end
  yields  [{text, low, high, unit, what}]
  doubts  [{path, at, ask, choices?}]   all that a person should settle, in one list
  measures {country, sure} or null: whose spoons, cups and pints they are, by the words of the text; units stay as the
          text names them (tbsp, cup) unless --country says, and the draft takes them as that country's
  other   [{at, text}], problems [{at, what, mend}], recipes (how many the file holds; --nth takes another)}
--country us, metric, imperial (British), australian or japanese: whose spoons, cups and pints they are.
--draft adds the preparations as documents of a book, with the ingredients taken from the starter pantry.
Units: "" for what is counted, else one of
${wrapped(UNIT_SYMBOLS.filter((unit) => unit !== "piece" && unit !== "dozen"))}
`;

function wrapped(words: readonly string[]): string {
  const lines: string[] = [""];
  for (const word of words) {
    if (lines.at(-1)!.length + word.length > 105) lines.push("");
    lines[lines.length - 1] += `${lines.at(-1) === "" ? "  " : ", "}${word}`;
  }
  return lines.join(",\n");
}

async function run(args: string[], io: Io): Promise<number> {
  const { words, options } = readArgs(
    args,
    { as: "text", book: "text", nth: "text", country: "text", draft: "flag", json: "flag" },
    { least: 1, most: 1 },
  );
  const format = FORMATS.find((one) => one === options.as);
  if (options.as !== undefined && !format)
    throw new Misuse(`--as is "${options.as}": one of ${FORMATS.join(", ")}`);
  const country = COUNTRIES.find((one) => one === options.country);
  if (options.country !== undefined && !country)
    throw new Misuse(`--country is "${options.country}": one of ${COUNTRIES.join(", ")}`);
  const nth = wholeNumber("nth", options.nth, 1, 100_000) ?? 1;
  const bytes = readFileBytes(fileOf(words[0]!));
  if (!bytes.ok) return refuse(bytes.problems, options.json, io);
  const book = readBook(options.book ?? "demo");
  if (!book.ok) return refuse(book.problems, options.json, io);
  const decoded = decodeText(bytes.value);
  const said = country ? { country } : {};
  const source = readSource(decoded.text, { ...said, ...(format ? { format } : {}) });
  const problems = [...decoded.problems, ...source.problems];
  const read = source.recipes[nth - 1];
  const recipe = read && { ...read, ...said };
  if (!recipe || (recipe.lines.length === 0 && recipe.steps.length === 0)) {
    const found = problems.map(({ at, what, mend }) => ({ path: `line ${at}`, what, mend }));
    const none = {
      path: "",
      what: `there are ${source.recipes.length} recipes, not ${nth}`,
      mend: "give a smaller --nth",
    };
    return refuse(recipe || nth === 1 ? found : [none], options.json, io);
  }
  const pantry = new Map(book.value.ingredients.map((one) => [one.id, one]));
  const { starterPantry } = await import("../../data/pantry/index.ts");
  const shelf = shelfBehind(
    pantry,
    starterPantry.map((one) => IngredientSchema.parse(one)),
  );
  const linked = linkRecipe(recipe, pantry.values(), shelf);
  const partOf = (part: number | null) => (part === null ? null : recipe.parts[part]!.name);
  const placesOf = (list: readonly { part: number | null }[], part: number) =>
    list.flatMap((one, i) => (one.part === part ? [i] : []));
  const answer = {
    ...{ ok: true, title: recipe.title, format: source.format },
    lines: recipe.lines.map(({ text, low, high, unit, ingredient, note, doubt, part }, i) => {
      const link = linked.links[i];
      const item = link
        ? {
            ...{ ingredient: link.ingredient, confidence: link.confidence },
            ...(link.shelf ? { starter: true } : {}),
            ...(link.also ? { also: link.also.map((other) => other.ingredient) } : {}),
          }
        : null;
      return { text, low, high, unit, ingredient, item, note, doubt, part: partOf(part) };
    }),
    parts: recipe.parts.map(({ name, text }, i) => ({
      ...{ name, text, lines: placesOf(recipe.lines, i), steps: placesOf(recipe.steps, i) },
    })),
    steps: recipe.steps.map(({ text, minutes, temperatureC, doubt, part }) => ({
      ...{ text, minutes, temperatureC, doubt, part: partOf(part) },
    })),
    yields: recipe.yields.map(({ text, low, high, unit, what }) => ({ text, low, high, unit, what })),
    measures: measuresOf(recipe) ?? null,
    ...{ doubts: linked.doubts, other: recipe.other, problems, recipes: source.recipes.length },
  };
  const draft = options.draft
    ? await import("../../core/intake/draft.ts").then(({ draftPreparations }) =>
        draftPreparations(linked, new Map([...pantry, ...shelf.ingredients]), new Set(), {
          ovens: ovensOf(book.value.kitchens.flatMap(({ equipment }) => equipment)),
          chosen: {},
        }),
      )
    : undefined;
  if (options.json)
    writeJson(
      draft
        ? {
            ...answer,
            ingredients: linked.links.flatMap((link) =>
              (link ? [link, ...(link.also ?? [])] : []).flatMap((one) =>
                one.shelf ? (shelf.ingredients.get(one.ingredient) ?? []) : [],
              ),
            ),
            preparations: draft.preparations,
            doubts: [...answer.doubts, ...draft.doubts],
          }
        : answer,
      io,
    );
  else {
    io.out(`${answer.title || "(no title)"}\n`);
    for (const made of answer.yields)
      io.out(
        `  makes ${made.low === made.high ? made.low : `${made.low} to ${made.high}`} ${made.unit} ${made.what}\n`,
      );
    for (const line of answer.lines) {
      const amount =
        line.low === null ? "–" : line.low === line.high ? `${line.low}` : `${line.low} to ${line.high}`;
      io.out(
        `  ${`${amount} ${line.unit}`.padEnd(18)}${line.ingredient}${line.note ? `; ${line.note}` : ""}${line.item ? `  [${line.item.ingredient} ${line.item.confidence}]` : ""}\n`,
      );
    }
    for (const [i, step] of answer.steps.entries()) io.out(`  ${i + 1}. ${step.text}\n`);
    for (const { at, ask } of linked.doubts) io.note(`line ${at}: ${ask}\n`);
  }
  for (const { at, what, mend } of problems) io.note(`line ${at}: ${what}. To mend: ${mend}.\n`);
  return EXIT.computed;
}

export default { help, run };
