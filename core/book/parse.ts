import { boundsProblems } from "./bounds.ts";
import { migrateBook } from "./migrate.ts";
import { MOST_PROBLEMS, type Problem, problemsOf } from "./problem.ts";
import { referenceProblems } from "./references.ts";
import { type Book, BookShellSchema, DOCUMENT_KINDS, DOCUMENT_SCHEMAS, type DocumentKind } from "./schema.ts";

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a book from a parsed JSON value: bounds, shape, references, cycles (B1 to B4, B8). Never throws. */
export function parseBook(json: unknown): Parsed<Book> {
  const migrated = migrateBook(json);
  if (!migrated.ok) return migrated;
  const beyond = boundsProblems(migrated.value);
  if (beyond.length > 0) return refuse(beyond);
  const read = readDocuments(migrated.value);
  if (!read.ok) return read;
  const problems = referenceProblems(read.value);
  return problems.length > 0 ? refuse(problems) : read;
}

/** Reads document by document, and ends when there is enough to tell: a large file may be wrong everywhere. */
function readDocuments(json: Readonly<Record<string, unknown>>): Parsed<Book> {
  const shell = BookShellSchema.safeParse(json);
  const problems = shell.success ? [] : problemsOf(shell.error.issues, json);
  const lists: Record<string, unknown[]> = {};
  for (const kind of DOCUMENT_KINDS) {
    const given = Object.hasOwn(json, kind) ? json[kind] : undefined;
    const list: unknown[] = Array.isArray(given) ? given : [];
    const documents: unknown[] = [];
    for (const [i, document] of list.entries()) {
      if (problems.length >= MOST_PROBLEMS) break;
      const read = DOCUMENT_SCHEMAS[kind].safeParse(document);
      if (read.success) documents.push(read.data);
      else problems.push(...problemsOf(read.error.issues, document).map((one) => within(one, kind, i)));
    }
    lists[kind] = documents;
  }
  if (!shell.success || problems.length > 0) return refuse(problems);
  return { ok: true, value: { ...shell.data, ...lists } as Book };
}

function within(problem: Problem, kind: DocumentKind, i: number): Problem {
  return { ...problem, path: `/${kind}/${i}${problem.path}` };
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
  const beyond = boundsProblems(json);
  if (beyond.length > 0) return refuse(beyond);
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

/** Reads several documents and puts them into a book together, each as `withDocument`; judged as a whole. */
export function withDocuments(
  book: Book,
  documents: readonly { readonly kind: DocumentKind; readonly document: unknown }[],
): Parsed<Book> {
  const lists = new Map<DocumentKind, Map<string, unknown>>();
  const problems: Problem[] = [];
  for (const [i, { kind, document }] of documents.entries()) {
    const read = parseDocument(kind, document);
    if (!read.ok)
      problems.push(...read.problems.map((one) => ({ ...one, path: `/documents/${i}${one.path}` })));
    if (problems.length >= MOST_PROBLEMS) break;
    if (!read.ok) continue;
    const list = lists.get(kind) ?? new Map(book[kind].map((each) => [each.id, each]));
    lists.set(kind, list.set(read.value.id, read.value));
  }
  if (problems.length > 0) return refuse(problems);
  const changed = { ...book } as Record<string, unknown>;
  for (const [kind, list] of lists) changed[kind] = [...list.values()];
  const broken = referenceProblems(changed as unknown as Book);
  return broken.length > 0 ? refuse(broken) : { ok: true, value: changed as unknown as Book };
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
