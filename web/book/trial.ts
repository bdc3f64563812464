import type { Book, DocumentKind } from "../../core/book/schema.ts";
import type { Served } from "./api.ts";

/** One document of a kind. */
export type DocumentOf<K extends DocumentKind> = Book[K][number];
export type AnyDocument = DocumentOf<DocumentKind>;

/** A change being tried: the document as it would be, and the revision it grew from. */
export interface Trial {
  readonly kind: DocumentKind;
  readonly id: string;
  readonly document: AnyDocument;
  readonly baseRevision: Served["revision"];
}

export function trialKey(kind: DocumentKind, id: string): string {
  return `${kind}/${id}`;
}

/** The book with the trials laid over it; new documents stand at the end. */
export function withTrials(book: Book, trials: readonly Trial[]): Book {
  if (trials.length === 0) return book;
  const lists: Partial<Record<DocumentKind, AnyDocument[]>> = {};
  for (const trial of trials) {
    lists[trial.kind] ??= [...(book[trial.kind] as AnyDocument[])];
    const list = lists[trial.kind]!;
    const at = list.findIndex((document) => document.id === trial.id);
    if (at < 0) list.push(trial.document);
    else list[at] = trial.document;
  }
  return { ...book, ...lists } as Book;
}

/** How many written values differ between two documents; a removed or added branch counts once. */
export function countChanges(before: unknown, after: unknown): number {
  if (Object.is(before, after)) return 0;
  if (before === null || after === null || typeof before !== "object" || typeof after !== "object") return 1;
  if (Array.isArray(before) !== Array.isArray(after)) return 1;
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  let sum = 0;
  for (const key of keys) {
    const a = (before as Record<string, unknown>)[key];
    const b = (after as Record<string, unknown>)[key];
    sum += a === undefined || b === undefined ? (a === b ? 0 : 1) : countChanges(a, b);
  }
  return sum;
}
