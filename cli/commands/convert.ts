import { convertText } from "../../core/quantity/index.ts";
import { findIngredient, ingredientBridge } from "../find-ingredient.ts";
import { EXIT, type Io, Misuse, readArgs, readBook, refuse, writeJson } from "../io.ts";

const help = `tournant convert AMOUNT --to UNIT [--of INGREDIENT] [--book FILE|demo|pantry] [--density KG_PER_L] [--piece GRAMS] [--json]

  tournant convert "1 3/4 cup" --of "bread flour" --to g
  tournant convert "2-3 Tbsp" --density 0.92 --to g

Reads an amount as a cook writes it and gives it in another unit. Mass, volume and count cross only by a density
or a piece weight: of an ingredient in the book (by id, name or alias), or given here.

JSON: {input, of, value, high?, unit, exact?, text, via, source?, doubt?} or {input, error}; a refusal exits 1.
`;

function run(args: string[], io: Io): number {
  const { words, options } = readArgs(
    args,
    { to: "text", of: "text", book: "text", density: "text", piece: "text", json: "flag" },
    { least: 1, most: 1 },
  );
  if (options.to === undefined) throw new Misuse("say the wanted unit with --to");
  const density = positive("density", options.density, 100);
  const piece = positive("piece", options.piece, 1e6);
  const book = readBook(options.book ?? "demo");
  if (!book.ok) return refuse(book.problems, options.json, io);
  const found = options.of === undefined ? undefined : findIngredient(book.value, options.of);
  if (options.of !== undefined && !found && density === undefined && piece === undefined) {
    const problem = {
      path: "",
      what: `there is no ingredient "${options.of}" in this book`,
      mend: "use an id, name or alias of the book, or give --density or --piece",
    };
    return refuse([problem], options.json, io);
  }
  const answer = convertText(
    words[0]!,
    (unit, rest) => ({
      ...(found ? ingredientBridge(found, unit, rest) : { of: options.of }),
      ...(density === undefined ? {} : { densityKgPerL: density }),
      ...(piece === undefined ? {} : { gPerPiece: piece }),
    }),
    options.to,
  );
  if (options.json) writeJson({ ...answer, ...(found ? { of: found.id } : {}) }, io);
  if (answer.error !== undefined) {
    io.note(`${answer.input}: ${answer.error}\n`);
    return EXIT.refused;
  }
  if (!options.json) io.out(`${answer.input} = ${answer.text}${found ? ` of ${found.name}` : ""}\n`);
  if (answer.doubt) io.note(`doubt: ${answer.doubt}\n`);
  return EXIT.computed;
}

function positive(name: string, text: string | undefined, most: number): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  // Nothing in a kitchen is lighter than a ten-thousandth of water or of a gram.
  if (!(value >= 1e-4 && value <= most))
    throw new Misuse(`--${name} is "${text}": give a number from 0.0001 to ${most}`);
  return value;
}

export default { help, run };
