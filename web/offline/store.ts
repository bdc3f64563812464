import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Served } from "../book/api.ts";
import type { Trial } from "../book/trial.ts";
import type { Entry } from "./entry.ts";

interface Kept extends DBSchema {
  /** The last book that came, under "last". */
  book: { key: string; value: Served };
  /** Changes not yet kept, by "kind/id". */
  trials: { key: string; value: Trial };
  /** Entries of the log and the board, by their own id; `sent` 0 until the server has them. */
  entries: {
    key: string;
    value: Entry & { readonly sent: 0 | 1 };
    indexes: { service: string; sent: number };
  };
  settings: { key: string; value: unknown };
}

let opened: Promise<IDBPDatabase<Kept>> | undefined;

/** What this tablet keeps. Rejects where the browser keeps nothing (a private window); callers go on without. */
export function tablet(): Promise<IDBPDatabase<Kept>> {
  opened ??= open();
  return opened;
}

/** Async, so that a browser that refuses at once is heard like one that refuses later. */
async function open(): Promise<IDBPDatabase<Kept>> {
  return openDB<Kept>("tournant", 1, {
    upgrade(db) {
      db.createObjectStore("book");
      db.createObjectStore("trials");
      db.createObjectStore("settings");
      const entries = db.createObjectStore("entries", { keyPath: "id" });
      entries.createIndex("service", "service");
      entries.createIndex("sent", "sent");
    },
  });
}
