import {
  BOOK_FORMAT,
  BOOK_VERSION,
  type Book,
  DOCUMENT_KINDS,
  type DocumentKind,
  mergeDocuments,
  type Problem,
  parseBook,
  parseDocument,
  withDocument,
  withDocuments,
  withoutDocument,
} from "../core/book/index.ts";
import type { BookStore, LogEntry, Saved } from "../persistence/store.ts";

export interface BookAt {
  readonly book: Book;
  readonly revision: number;
}

export type PutAnswer =
  | {
      readonly status: "saved";
      readonly revision: number;
      readonly document: unknown;
      readonly merged: boolean;
    }
  | { readonly status: "refused"; readonly problems: readonly Problem[] }
  | { readonly status: "conflict"; readonly theirs: Saved; readonly clashes: readonly string[] };

/** What happened to the book, for those who listen. */
export interface Change {
  readonly revision: number;
  readonly documents: readonly { readonly kind: DocumentKind; readonly id: string }[];
}

/** What is kept is no book any more: written by another program, or by an older one that judged otherwise. */
export class UnreadableBook extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(`the saved book cannot be read: ${JSON.stringify(problems[0])}`);
    this.problems = problems;
  }
}

/** The book as the server works with it: judged before it is saved, read once a revision, told to listeners. */
export class Desk {
  readonly #store: BookStore;
  readonly #clock: () => Date;
  #book: BookAt | undefined;
  #turn: Promise<unknown> = Promise.resolve();
  readonly #listeners = new Set<(change: Change) => void>();
  readonly #logListeners = new Set<(services: readonly string[]) => void>();

  constructor(store: BookStore, clock: () => Date) {
    this.#store = store;
    this.#clock = clock;
  }

  /** Puts a first book and its log into an empty place; a place with anything in it is left alone. */
  async seed(book: unknown, log: () => readonly LogEntry[] = () => []): Promise<void> {
    if ((await this.#store.revision()) > 0) return;
    const answer = await this.importBook(book, "Tournant");
    if (answer.status === "refused")
      throw new Error(`the first book is refused: ${JSON.stringify(answer.problems[0])}`);
    await this.#store.appendLog(log());
  }

  /** The book as it stands. */
  async book(): Promise<BookAt> {
    const revision = await this.#store.revision();
    if (this.#book?.revision === revision) return this.#book;
    const lists: Record<string, unknown[]> = Object.fromEntries(DOCUMENT_KINDS.map((kind) => [kind, []]));
    for (const saved of await this.#store.all()) lists[saved.kind]!.push(saved.document);
    const read = parseBook({ format: BOOK_FORMAT, version: BOOK_VERSION, ...lists });
    if (!read.ok) throw new UnreadableBook(read.problems);
    this.#book = { book: read.value, revision };
    return this.#book;
  }

  get(kind: DocumentKind, id: string): Promise<Saved | undefined> {
    return this.#store.get(kind, id);
  }

  history(kind: DocumentKind, id: string): Promise<readonly Saved[]> {
    return this.#store.history(kind, id);
  }

  since(revision: number): Promise<readonly Saved[]> {
    return this.#store.since(revision);
  }

  /**
   * Saves a document that someone changed from `baseRevision`. If another saved it since, the two changes are
   * joined when they touch different things; else it is refused with what stands.
   */
  async put(
    kind: DocumentKind,
    id: string,
    document: unknown,
    baseRevision: number,
    by: string,
  ): Promise<PutAnswer> {
    if ((document as { id?: unknown } | null)?.id !== id)
      return refused(
        "/id",
        `the document's id is not "${id}"`,
        "let the id in the address and in the document agree",
      );
    return await this.#inTurn(() => this.#join(kind, id, document, baseRevision, by));
  }

  /**
   * Saves several documents as one revision: all, or none. Refused with what stands if one of them was changed since.
   */
  putAll(
    writes: readonly {
      readonly kind: DocumentKind;
      readonly document: unknown;
      readonly baseRevision: number;
    }[],
    by: string,
  ): Promise<PutAnswer> {
    return this.#inTurn(async () => {
      for (;;) {
        const { book, revision } = await this.book();
        const whole = withDocuments(book, writes);
        if (!whole.ok) return { status: "refused", problems: whole.problems };
        const documents = await Promise.all(
          writes.map(async ({ kind, document, baseRevision }) => {
            const id = String((document as { id: unknown }).id);
            const read = (whole.value[kind] as { id: string }[]).find((each) => each.id === id)!;
            const before = await this.#standing(kind, id, baseRevision);
            return { kind, id, document: read, baseRevision: before?.revision ?? 0 };
          }),
        );
        const answer = await this.#store.save(documents, this.#now(), by, revision);
        if (answer.ok) {
          this.#tell({
            revision: answer.revision,
            documents: documents.map(({ kind, id }) => ({ kind, id })),
          });
          return { status: "saved", revision: answer.revision, document: null, merged: false };
        }
        if ("moved" in answer) continue;
        return { status: "conflict", theirs: answer.conflict[0]!, clashes: [""] };
      }
    });
  }

  async #join(
    kind: DocumentKind,
    id: string,
    document: unknown,
    baseRevision: number,
    by: string,
  ): Promise<PutAnswer> {
    const before = await this.#standing(kind, id, baseRevision);
    let [mine, base, merged] = [document, before?.revision ?? 0, false];
    let wanted: unknown;
    // Another may save between our look and our write; each round has seen one more of theirs.
    for (;;) {
      const read = parseDocument(kind, mine);
      if (!read.ok) return { status: "refused", problems: read.problems };
      // With its defaults filled in, as what was saved has them: a field left out is not a field changed.
      wanted ??= read.value;
      const { book, revision } = await this.book();
      const whole = withDocument(book, kind, read.value);
      if (!whole.ok) return { status: "refused", problems: whole.problems };
      const answer = await this.#store.save(
        [{ kind, id, document: read.value, baseRevision: base }],
        this.#now(),
        by,
        revision,
      );
      if (answer.ok) {
        this.#tell({ revision: answer.revision, documents: [{ kind, id }] });
        return { status: "saved", revision: answer.revision, document: read.value, merged };
      }
      if ("moved" in answer) continue;
      const theirs = answer.conflict[0]!;
      if (theirs.document === null || !before?.document) return { status: "conflict", theirs, clashes: [""] };
      const joined = mergeDocuments(before.document, theirs.document, wanted);
      if (!joined.ok) return { status: "conflict", theirs, clashes: joined.clashes };
      [mine, base, merged] = [joined.value, theirs.revision, true];
    }
  }

  /** The document as it stood when the book was at that revision; undefined when there was none. */
  async #standing(kind: DocumentKind, id: string, revision: number): Promise<Saved | undefined> {
    const last = (await this.#store.history(kind, id)).find((saved) => saved.revision <= revision);
    return last?.document === null ? undefined : last;
  }

  /** Takes a document out, unless another still refers to it or someone has changed it since. */
  remove(kind: DocumentKind, id: string, baseRevision: number, by: string): Promise<PutAnswer> {
    return this.#inTurn(() => this.#take(kind, id, baseRevision, by));
  }

  async #take(kind: DocumentKind, id: string, baseRevision: number, by: string): Promise<PutAnswer> {
    for (;;) {
      const { book, revision } = await this.book();
      const whole = withoutDocument(book, kind, id);
      if (!whole.ok) return { status: "refused", problems: whole.problems };
      const before = await this.#standing(kind, id, baseRevision);
      const write = { kind, id, document: null, baseRevision: before?.revision ?? 0 };
      const answer = await this.#store.save([write], this.#now(), by, revision);
      if (answer.ok) {
        this.#tell({ revision: answer.revision, documents: [{ kind, id }] });
        return { status: "saved", revision: answer.revision, document: null, merged: false };
      }
      // Others may refer to it by now: judged again with what stands.
      if ("moved" in answer) continue;
      return { status: "conflict", theirs: answer.conflict[0]!, clashes: [""] };
    }
  }

  /** Puts a whole book in place of the present one, after judging it. What it replaces stays in the history. */
  async importBook(json: unknown, by: string): Promise<PutAnswer> {
    const read = parseBook(json);
    if (!read.ok) return { status: "refused", problems: read.problems };
    const documents = DOCUMENT_KINDS.flatMap((kind) =>
      read.value[kind].map((document) => ({ kind, id: document.id, document })),
    );
    const revision = await this.#store.replaceAll(documents, this.#now(), by);
    this.#tell({ revision, documents: documents.map(({ kind, id }) => ({ kind, id })) });
    return { status: "saved", revision, document: null, merged: false };
  }

  log(service: string, after: number) {
    return this.#store.log(service, after);
  }

  /** The log of all services after a place. */
  wholeLog(after: number, most: number) {
    return this.#store.wholeLog(after, most);
  }

  async appendLog(entries: readonly LogEntry[]): Promise<number> {
    const added = await this.#store.appendLog(entries);
    if (added > 0) this.#tellLog([...new Set(entries.map((entry) => entry.service))]);
    return added;
  }

  /** Hears of which services' logs grow, by this process or another. Returns how to stop. */
  listenLog(heard: (services: readonly string[]) => void): () => void {
    this.#logListeners.add(heard);
    return () => this.#logListeners.delete(heard);
  }

  /** Hears of each change, also of other processes' on the same server. Returns how to stop. */
  listen(heard: (change: Change) => void): () => void {
    this.#listeners.add(heard);
    return () => this.#listeners.delete(heard);
  }

  /** Begins to hear of what other processes write, where the store can tell. */
  async hearOthers(): Promise<() => Promise<void>> {
    const stop = await this.#store.listen?.(async ({ revision, services }) => {
      if (services) this.#tellLog(services);
      if (revision === undefined) return;
      const known = this.#book?.revision ?? revision - 1;
      const documents = (await this.#store.since(known)).map(({ kind, id }) => ({ kind, id }));
      this.#tell({ revision, documents });
    });
    return stop ?? (async () => {});
  }

  /** One change after the other: the second is judged with what the first has made. */
  #inTurn<T>(change: () => Promise<T>): Promise<T> {
    const done = this.#turn.then(change);
    this.#turn = done.catch(() => {});
    return done;
  }

  #tellLog(services: readonly string[]): void {
    for (const heard of this.#logListeners) heard(services);
  }

  #tell(change: Change): void {
    for (const heard of this.#listeners) heard(change);
  }

  #now(): string {
    return this.#clock().toISOString();
  }
}

function refused(path: string, what: string, mend: string): PutAnswer {
  return { status: "refused", problems: [{ path, what, mend }] };
}
