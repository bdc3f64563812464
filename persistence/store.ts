import type { DocumentKind } from "../core/book/index.ts";

/** A document as saved: which revision of the book last changed it. */
export interface Saved {
  readonly kind: DocumentKind;
  readonly id: string;
  readonly revision: number;
  /** Null when it was taken out. */
  readonly document: unknown | null;
  /** ISO instant given by the caller's clock. */
  readonly at: string;
  readonly by: string;
}

/** One document to be written; null takes it out. */
export interface Write {
  readonly kind: DocumentKind;
  readonly id: string;
  readonly document: unknown | null;
  /** Revision the writer has seen of this document; 0 for a new one. */
  readonly baseRevision: number;
}

export type SaveAnswer =
  | { readonly ok: true; readonly revision: number }
  /** Another was quicker: nothing was written; `theirs` is what stands now. */
  | { readonly ok: false; readonly conflict: readonly Saved[] }
  /** The book has moved on since `seen`: nothing was written; judge again with the book as it is now. */
  | { readonly ok: false; readonly moved: number };

/** One line of the log. The client makes the id, so that an entry sent twice is kept once. */
export interface LogEntry {
  readonly id: string;
  readonly service: string;
  /** ISO instant at which it was read or done, by the client's clock. */
  readonly at: string;
  readonly by: string;
  /** Id of the entry this one corrects; the first value stays. */
  readonly corrects?: string | undefined;
  readonly body: unknown;
}

/** A log entry with its place in the log. */
export interface Logged extends LogEntry {
  readonly seq: number;
}

/**
 * Where a book is kept. Every implementation passes one acceptance suite (`acceptance.ts`).
 * An acknowledged write is on the disk.
 */
/** What another process has written: the book's newest revision, or services whose log has grown. */
export interface Heard {
  readonly revision?: number;
  readonly services?: readonly string[];
}

export interface BookStore {
  /** Newest revision of the book, 0 when nothing was ever saved. */
  revision(): Promise<number>;
  /** All documents that stand, in the order they were first put in. */
  all(): Promise<readonly Saved[]>;
  get(kind: DocumentKind, id: string): Promise<Saved | undefined>;
  /**
   * Writes all or nothing as one new revision. With `seen`, only while the whole book is still at that revision:
   * what was judged together with other documents must not meet others than those.
   */
  save(writes: readonly Write[], at: string, by: string, seen?: number): Promise<SaveAnswer>;
  /** Puts these documents in place of all that stand, as one new revision. */
  replaceAll(
    documents: readonly { readonly kind: DocumentKind; readonly id: string; readonly document: unknown }[],
    at: string,
    by: string,
  ): Promise<number>;
  /** Every state a document had, newest first. */
  history(kind: DocumentKind, id: string): Promise<readonly Saved[]>;
  /** What changed after a revision, oldest first, each document once with its newest state. */
  since(revision: number): Promise<readonly Saved[]>;
  /** Appends entries; those whose id is known are left as they are. Returns how many were new. */
  appendLog(entries: readonly LogEntry[]): Promise<number>;
  /** The log of a service after a place, in order. */
  log(service: string, afterSeq?: number): Promise<readonly Logged[]>;
  /** The log of all services after a place, in order, at most so many lines. */
  wholeLog(afterSeq: number, most: number): Promise<readonly Logged[]>;
  /** Place of the newest line of the log, 0 when there is none. */
  newestLog(): Promise<number>;
  /** Tells what another process has written; undefined where no other process can be heard of. */
  listen?(heard: (what: Heard) => void): Promise<() => Promise<void>>;
  close(): Promise<void>;
}
