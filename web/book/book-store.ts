import type { Book, DocumentKind } from "../../core/book/schema.ts";
import { tablet } from "../offline/store.ts";
import { fetchBook, type Kept, putDocument, putDocuments, type Served } from "./api.ts";
import { type AnyDocument, type DocumentOf, type Trial, trialKey, withTrials } from "./trial.ts";

export interface BookState {
  readonly status: "loading" | "ready" | "unreachable";
  /** The book with the trials in it; undefined until one came. */
  readonly book: Book | undefined;
  /** The book as the server has it. */
  readonly kept: Book | undefined;
  readonly trials: ReadonlyMap<string, Trial>;
  /** The book comes from this tablet, not from the server. */
  readonly offline: boolean;
  /** Grows with every change of `book`. */
  readonly version: number;
  /** Documents that changed on the server while they are being tried here. */
  readonly changedElsewhere: ReadonlySet<string>;
}

type Listener = () => void;

/** The book, with what is being tried on it (A4). */
export class BookStore {
  #served: Served | undefined;
  #trials = new Map<string, Trial>();
  #steps: {
    readonly key: string;
    readonly before: Trial | undefined;
    readonly gesture: string | undefined;
  }[] = [];
  #state: BookState = {
    status: "loading",
    book: undefined,
    kept: undefined,
    trials: new Map(),
    offline: false,
    version: 0,
    changedElsewhere: new Set(),
  };
  readonly #listeners = new Set<Listener>();

  readonly subscribe = (listener: Listener): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): BookState => this.#state;

  /** Loads the book: the server's, else the tablet's last. */
  async load(): Promise<void> {
    try {
      const trials = await (await tablet()).getAll("trials");
      for (const trial of trials)
        if (!this.#trials.has(trialKey(trial.kind, trial.id)))
          this.#trials.set(trialKey(trial.kind, trial.id), trial);
    } catch {
      // Nothing kept here.
    }
    try {
      const served = await fetchBook();
      this.#take(served, false);
      void tablet()
        .then((db) => db.put("book", served, "last"))
        .catch(() => undefined);
    } catch {
      if (this.#served) return this.#set({ offline: true });
      const last = await tablet()
        .then((db) => db.get("book", "last"))
        .catch(() => undefined);
      if (last) this.#take(last, true);
      else this.#set({ status: "unreachable" });
    }
  }

  /**
   * Tries a changed document.
   * @param gesture edits of one gesture (a drag) share a value and are taken back together.
   */
  edit<K extends DocumentKind>(kind: K, document: DocumentOf<K>, gesture?: string): void {
    const key = trialKey(kind, document.id);
    const before = this.#trials.get(key);
    if (gesture === undefined || this.#steps.at(-1)?.gesture !== gesture)
      this.#steps.push({ key, before, gesture });
    if (this.#steps.length > 200) this.#steps.shift();
    this.#setTrial(key, {
      kind,
      id: document.id,
      document,
      baseRevision: before?.baseRevision ?? this.#served?.revision ?? 0,
    });
  }

  /** Takes the last change back. */
  undo(): void {
    const step = this.#steps.pop();
    if (step) this.#setTrial(step.key, step.before);
  }

  get canUndo(): boolean {
    return this.#steps.length > 0;
  }

  /** Forgets what was tried on a document. */
  putBack(kind: DocumentKind, id: string): void {
    const key = trialKey(kind, id);
    this.#steps = this.#steps.filter((step) => step.key !== key);
    this.#setTrial(key, undefined);
  }

  /** Keeps a trial: writes it to the server. On "changed elsewhere" nothing is lost: the trial stays. */
  async keep(kind: DocumentKind, id: string, over = false): Promise<Kept> {
    const key = trialKey(kind, id);
    const trial = this.#trials.get(key);
    if (!trial || !this.#served) return { outcome: "kept", revision: undefined };
    const done = await putDocument(
      kind,
      id,
      trial.document,
      over ? this.#served.revision : trial.baseRevision,
    );
    if (done.outcome === "changed elsewhere") {
      await this.load();
      this.#set({ changedElsewhere: new Set([...this.#state.changedElsewhere, key]) });
    }
    if (done.outcome === "kept") {
      const list = this.#served.book[kind] as AnyDocument[];
      const at = list.findIndex((document) => document.id === id);
      const stands = (done.document ?? trial.document) as AnyDocument;
      const next = at < 0 ? [...list, stands] : list.with(at, stands);
      const elsewhere = new Set(this.#state.changedElsewhere);
      elsewhere.delete(key);
      this.#served = {
        book: { ...this.#served.book, [kind]: next } as Book,
        revision: done.revision ?? this.#served.revision,
      };
      this.#state = { ...this.#state, changedElsewhere: elsewhere };
      this.#steps = this.#steps.filter((step) => step.key !== key);
      this.#setTrial(key, undefined);
    }
    return done;
  }

  /**
   * Keeps several documents together, all or none. Without the server, or when one was changed elsewhere, they are
   * tried here instead: nothing is lost, and each can be kept or put back.
   */
  async keepAll(documents: readonly { kind: DocumentKind; document: AnyDocument }[]): Promise<Kept> {
    const revision = this.#served?.revision ?? 0;
    const done = await putDocuments(documents.map((one) => ({ ...one, baseRevision: revision })));
    if (done.outcome === "kept") {
      for (const { kind, document } of documents) this.#trials.delete(trialKey(kind, document.id));
      await this.load();
    } else if (done.outcome !== "refused")
      for (const { kind, document } of documents) this.edit(kind, document);
    return done;
  }

  #take(served: Served, offline: boolean): void {
    const changed = this.#served?.revision !== served.revision;
    this.#served = served;
    if (changed) this.#publish({ status: "ready", offline });
    else this.#set({ status: "ready", offline });
  }

  #setTrial(key: string, trial: Trial | undefined): void {
    if (trial) this.#trials.set(key, trial);
    else this.#trials.delete(key);
    void tablet()
      .then(async (db) => {
        if (trial) await db.put("trials", trial, key);
        else await db.delete("trials", key);
      })
      .catch(() => undefined);
    this.#publish({});
  }

  #publish(more: Partial<BookState>): void {
    const kept = this.#served?.book;
    this.#trials = new Map(this.#trials);
    this.#set({
      ...more,
      kept,
      book: kept && withTrials(kept, [...this.#trials.values()]),
      trials: this.#trials,
      version: this.#state.version + 1,
    });
  }

  #set(more: Partial<BookState>): void {
    this.#state = { ...this.#state, ...more };
    for (const listener of this.#listeners) listener();
  }
}
