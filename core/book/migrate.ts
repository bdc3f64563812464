import { type Problem, quote } from "./problem.ts";
import { BOOK_FORMAT, BOOK_VERSION } from "./schema.ts";

type Json = Record<string, unknown>;

/** One step a version: `MIGRATIONS[n]` takes a book of version n to n + 1, without gaps (B6). */
export const MIGRATIONS: Readonly<Record<number, (book: Json) => Json>> = {};

/** Brings a book file up to the present version, or says why it cannot be read. */
export function migrateBook(
  json: unknown,
):
  | { readonly ok: true; readonly value: Json }
  | { readonly ok: false; readonly problems: readonly Problem[] } {
  if (json === null || typeof json !== "object" || Array.isArray(json)) {
    return refuse(
      "",
      "a book is one JSON object",
      `start it with {"format": "${BOOK_FORMAT}", "version": ${BOOK_VERSION}, …}`,
    );
  }
  let book = json as Json;
  if (book.format !== BOOK_FORMAT) {
    return refuse(
      "/format",
      `this is not a book: its format is ${formatOf(book)}`,
      `write "format": "${BOOK_FORMAT}"`,
    );
  }
  if (typeof book.version !== "number" || !Number.isInteger(book.version) || book.version < 1) {
    return refuse("/version", "the version is not a whole number from 1", `write "version": ${BOOK_VERSION}`);
  }
  if (book.version > BOOK_VERSION) {
    return refuse(
      "/version",
      `this book is of version ${book.version}; this program reads up to ${BOOK_VERSION}`,
      "open it with a newer Tournant",
    );
  }
  while ((book.version as number) < BOOK_VERSION) {
    const version = book.version as number;
    const step = MIGRATIONS[version];
    if (!step) throw new Error(`book: no migration from version ${version}`);
    book = { ...step(book), version: version + 1 };
  }
  return { ok: true, value: book };
}

function formatOf(book: Json): string {
  if (book.format === undefined) return "not given";
  return typeof book.format === "string" ? quote(book.format) : "not a text";
}

function refuse(path: string, what: string, mend: string) {
  return { ok: false, problems: [{ path, what, mend }] } as const;
}
