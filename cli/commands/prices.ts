import type { Book } from "../../core/book/index.ts";
import {
  type Confirmed,
  missingOffers,
  PantryIndex,
  PRICE_COLUMNS,
  type PriceColumn,
  readListFile,
  SURE,
  takeList,
  tieList,
  usualCuts,
} from "../../core/intake/index.ts";
import {
  EXIT,
  fileOf,
  type Io,
  Misuse,
  readArgs,
  readBook,
  readFileBytes,
  refuse,
  writeJson,
} from "../io.ts";

const help = `tournant prices FILE [--supplier ID] [--from DATE] [--sheet NAME] [--columns LIST] [--book FILE|demo] [--json]

Reads a supplier's price list (CSV or XLSX; "-" is standard input) and sets it beside the book. Columns are guessed
and may be said: --columns "price=4,pack=2,code=none", places from 0. With --supplier the rows stand beside that
supplier's offers on DATE (today unless said), and the offers as they would be are given.

JSON: {ok, format, sheet, sheets, headings, columns: {NAME: {index, heading, confidence} | null},
  rows    [{at, code, description, group, pack, innerPerPack, inner, catchWeight, price, currency, unitPrice,
           item: {ingredient, confidence, by} | null, state: new|same|changed|null, old, usablePerKg,
           oldUsablePerKg, changePercent, doubt}]   usable: of an edible kilogram, in the cut the book mostly uses
  doubts  [{path, at, ask}], problems [{at, what, mend}], missing (ids of offers no row names), offers}
Only rows tied with confidence ${SURE} or more go into "offers". Nothing is written.
`;

async function run(args: string[], io: Io): Promise<number> {
  const { words, options } = readArgs(
    args,
    { supplier: "text", from: "text", sheet: "text", columns: "text", book: "text", json: "flag" },
    { least: 1, most: 1 },
  );
  const confirmed = columnsOf(options.columns);
  const from = options.from ?? new Date().toISOString().slice(0, 10);
  if (!/^\d{4}-\d\d-\d\d$/.test(from) || Number.isNaN(Date.parse(from)))
    throw new Misuse(`--from is "${from}": write a date such as 2027-01-31`);
  const bytes = readFileBytes(fileOf(words[0]!));
  if (!bytes.ok) return refuse(bytes.problems, options.json, io);
  const read = readBook(options.book ?? "demo");
  if (!read.ok) return refuse(read.problems, options.json, io);
  const book = read.value;
  const supplier = book.suppliers.find((one) => one.id === options.supplier);
  if (options.supplier !== undefined && !supplier) {
    const what = `the book has no supplier "${options.supplier}"`;
    const mend = `give one of ${book.suppliers.map((one) => one.id).join(", ") || "none: add one first"}`;
    return refuse([{ path: "/suppliers", what, mend }], options.json, io);
  }
  const list = await readListFile(bytes.value, {
    ...(options.sheet === undefined ? {} : { sheet: options.sheet }),
    confirmed,
  });
  if (options.sheet !== undefined && list.sheet !== options.sheet) {
    const what = `there is no sheet "${options.sheet}"`;
    const mend = `give one of ${list.sheets.map((one) => `"${one.name}"`).join(", ") || "none: it is no workbook"}`;
    return refuse([{ path: "", what, mend }], options.json, io);
  }
  if (list.rows.length === 0) {
    const problems = list.problems.map(({ at, what, mend }) => ({ path: `line ${at}`, what, mend }));
    const none = {
      path: "",
      what: "no row could be read as an offer",
      mend: "say the columns with --columns",
    };
    return refuse(problems.length > 0 ? problems : [none], options.json, io);
  }
  const offers = supplier?.offers ?? [];
  const currency = currencyOf(book, supplier?.id);
  const tied = tieList(list.rows, {
    index: new PantryIndex(book.ingredients),
    pantry: new Map(book.ingredients.map((one) => [one.id, one])),
    ...{ offers, from, cutOf: usualCuts(book), ...(currency ? { currency } : {}) },
  });
  const sure = tied.lines.flatMap(({ row, tie }) =>
    tie && tie.confidence >= SURE
      ? [{ row, ingredient: tie.ingredient, ...(tie.cut ? { cut: tie.cut } : {}) }]
      : [],
  );
  const answer = {
    ...{ ok: true, format: list.format, sheet: list.sheet, sheets: list.sheets },
    ...{ headings: list.headings, columns: list.columns },
    rows: tied.lines.map(({ row: { packText, ...row }, tie, compared }) => ({
      ...{ ...row, pack: packText, item: tie },
      ...{ state: compared?.state ?? null, old: compared?.old ?? null },
      usablePerKg: compared?.usable?.perKg ?? null,
      oldUsablePerKg: compared?.oldUsable?.perKg ?? null,
      changePercent: compared?.changePercent ?? null,
      doubt: [row.doubt, compared?.doubt].filter(Boolean).join("; "),
    })),
    ...{ doubts: tied.doubts, problems: list.problems },
    ...(supplier
      ? {
          missing: missingOffers(offers, sure, from).map((one) => one.id),
          offers: takeList(offers, sure, from),
        }
      : {}),
  };
  if (options.json) writeJson(answer, io);
  else {
    for (const row of answer.rows) {
      const usable = row.usablePerKg === null ? "" : `, ${row.usablePerKg.toFixed(2)} a usable kg`;
      const change = row.changePercent === null ? "" : ` (${signed(row.changePercent)} %)`;
      const item = row.item ? `  [${row.item.ingredient} ${row.item.confidence}]` : "";
      io.out(`  ${row.description}: ${row.pack} at ${row.price}${usable}${change}${item}\n`);
    }
    for (const { at, ask } of tied.doubts) io.note(`line ${at}: ${ask}\n`);
  }
  for (const { at, what, mend } of list.problems) io.note(`line ${at}: ${what}. To mend: ${mend}.\n`);
  return EXIT.computed;
}

const signed = (percent: number) => `${percent < 0 ? "−" : "+"}${Math.abs(percent).toFixed(1)}`;

/** The currency of the first kitchen that buys from the supplier. */
function currencyOf(book: Book, supplier: string | undefined): string | undefined {
  const buys = book.kitchens.find(
    (kitchen) => supplier !== undefined && kitchen.suppliers.includes(supplier),
  );
  return buys?.currency;
}

/** "price=4,code=none" as places of columns. */
function columnsOf(text: string | undefined): Confirmed {
  const confirmed: Confirmed = {};
  for (const one of text?.split(",") ?? []) {
    const [name, place] = one.split("=").map((word) => word.trim());
    const index = place === "none" ? null : Number(place);
    const known = PRICE_COLUMNS.includes(name as PriceColumn);
    if (
      !known ||
      place === undefined ||
      (index !== null && !(Number.isInteger(index) && index >= 0 && index < 100))
    )
      throw new Misuse(`--columns has "${one}": write ${PRICE_COLUMNS.join("|")}=PLACE from 0, or =none`);
    confirmed[name as PriceColumn] = index;
  }
  return confirmed;
}

export default { help, run };
