import Papa from "papaparse";

/** What is wrong with one row of a file, by its line there; the rest of the file is kept. */
export interface RowProblem {
  readonly file: string;
  /** Line in the file, 1 for the headings; 0 when the whole file is meant. */
  readonly line: number;
  readonly what: string;
  readonly mend: string;
}

/** A row by its headings: small letters, with every other sign as "_". */
export interface Row {
  readonly line: number;
  get(heading: string): string;
}

/** More than these are counted, not listed. */
const MOST_LISTED = 500;

/** Problems of an import, in the order found; beyond the first 500 they are only counted. */
export class RowProblems {
  readonly #list: RowProblem[] = [];
  #more = 0;

  add(file: string, line: number, what: string, mend: string): void {
    if (this.#list.length < MOST_LISTED) this.#list.push({ file, line, what, mend });
    else this.#more += 1;
  }

  list(): RowProblem[] {
    if (this.#more === 0) return this.#list;
    const what = `${this.#more} further rows have problems`;
    return [...this.#list, { file: "", line: 0, what, mend: "mend the first ones and read the file again" }];
  }
}

/** A heading as it is compared: "Density (kg/L)" is "density_kg_l". */
export function headingOf(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "_")
    .replace(/^_+|_+$/g, "");
}

/**
 * Goes through the rows of a CSV text with headings in its first row; comma, semicolon or tab apart. A row of
 * another length than the headings, or with letters that its encoding broke, is a problem and is left out.
 * @param needed headings without which the file is another one: then no row is read.
 * @returns the headings found.
 */
export function readRows(
  text: string,
  file: string,
  needed: readonly string[],
  problems: RowProblems,
  each: (row: Row) => void,
): string[] {
  let headings: string[] | undefined;
  let line = 1;
  let from = 0;
  const body = text.startsWith("\uFEFF") ? text.slice(1) : text;
  Papa.parse<string[]>(body, {
    delimitersToGuess: [",", ";", "\t"],
    step({ data, meta }, parser) {
      const at = line;
      for (; from < meta.cursor; from += 1) if (body.charCodeAt(from) === 10) line += 1;
      if (data.every((cell) => cell.trim() === "")) return;
      if (headings === undefined) {
        headings = data.map(headingOf);
        const missing = needed.filter((heading) => !headings!.includes(heading));
        if (missing.length === 0) return;
        problems.add(file, at, `the headings lack ${missing.join(", ")}`, "choose the file of that name");
        parser.abort();
        return;
      }
      if (data.length !== headings.length) {
        const what = `the row has ${data.length} cells, the headings have ${headings.length}`;
        problems.add(file, at, what, "check quotation marks and separators in it");
        return;
      }
      if (data.some((cell) => cell.includes("\uFFFD"))) {
        problems.add(file, at, "letters were broken by the encoding", "save the file as UTF-8");
        return;
      }
      const names = headings;
      each({ line: at, get: (heading) => data[names.indexOf(heading)]?.trim() ?? "" });
    },
  });
  if (headings === undefined) problems.add(file, 0, "the file is empty", "choose another file");
  return headings ?? [];
}

/** A number that is not negative, with a point or a comma; undefined for anything else. */
export function plainNumber(text: string): number | undefined {
  return /^(\d{1,12}([.,]\d{0,12})?|[.,]\d{1,12})(e[+-]?\d{1,2})?$/i.test(text.trim())
    ? Number(text.trim().replace(",", "."))
    : undefined;
}

/** An id for a name, kebab-case, not among those taken; it is added to them. */
export function freeId(name: string, taken: Set<string>): string {
  const stem =
    name
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .slice(0, 60)
      .replace(/^-+|-+$/g, "") || "ingredient";
  let id = stem;
  for (let n = 2; taken.has(id); n += 1) id = `${stem}-${n}`;
  taken.add(id);
  return id;
}
