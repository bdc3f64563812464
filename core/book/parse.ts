import { migrateBook } from "./migrate.ts";
import { type Problem, problemsOf } from "./problem.ts";
import { referenceProblems } from "./references.ts";
import { type Book, BookSchema, DOCUMENT_SCHEMAS, type DocumentKind } from "./schema.ts";

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** How many problems are told at once; a file that is wrong everywhere is told the first of them. */
const MOST_PROBLEMS = 100;

/** Reads a book from a parsed JSON value: shape, then references, then cycles (B1 to B4). Never throws. */
export function parseBook(json: unknown): Parsed<Book> {
  const migrated = migrateBook(json);
  if (!migrated.ok) return migrated;
  const read = BookSchema.safeParse(migrated.value);
  if (!read.success) return refuse(problemsOf(read.error.issues, migrated.value));
  const problems = referenceProblems(read.data);
  return problems.length > 0 ? refuse(problems) : { ok: true, value: read.data };
}

/** Reads a book from text. */
export function parseBookText(text: string): Parsed<Book> {
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^﻿/, ""));
  } catch (error) {
    return refuse([
      {
        path: "",
        what: `this is not JSON: ${(error as Error).message}`,
        mend: "export the book again, or mend the text where the message points",
      },
    ]);
  }
  return parseBook(json);
}

/** Reads one document of a kind; its references are judged with the book it goes into. */
export function parseDocument<K extends DocumentKind>(kind: K, json: unknown): Parsed<Book[K][number]> {
  const read = DOCUMENT_SCHEMAS[kind].safeParse(json);
  return read.success
    ? { ok: true, value: read.data as Book[K][number] }
    : refuse(problemsOf(read.error.issues, json));
}

/** Puts a document into a book (in place of one with its id, else at the end) and judges the whole. */
export function withDocument<K extends DocumentKind>(
  book: Book,
  kind: K,
  document: Book[K][number],
): Parsed<Book> {
  const list = book[kind] as { id: string }[];
  const at = list.findIndex((other) => other.id === document.id);
  const next = at < 0 ? [...list, document] : list.with(at, document);
  const changed = { ...book, [kind]: next } as Book;
  const problems = referenceProblems(changed);
  return problems.length > 0 ? refuse(problems) : { ok: true, value: changed };
}

/** Takes a document out, unless something still refers to it. */
export function withoutDocument(book: Book, kind: DocumentKind, id: string): Parsed<Book> {
  const changed = { ...book, [kind]: (book[kind] as { id: string }[]).filter((d) => d.id !== id) } as Book;
  const problems = referenceProblems(changed);
  return problems.length > 0 ? refuse(problems) : { ok: true, value: changed };
}

function refuse(problems: readonly Problem[]): { ok: false; problems: readonly Problem[] } {
  return { ok: false, problems: problems.slice(0, MOST_PROBLEMS) };
}
