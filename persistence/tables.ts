import type { Generated } from "kysely";

/** Tables as Kysely knows them; JSON is kept as text, so that both databases keep it letter for letter. */
export interface Tables {
  revision: { number: number; at: string; by: string };
  /** Every state of every document; the newest one of each stands. */
  document: {
    kind: string;
    id: string;
    revision: number;
    json: string | null;
    /** Place in the order of first coming, within the book. */
    place: number;
  };
  /** The newest revision of each document: the row that is locked when it is written. */
  head: { kind: string; id: string; revision: number; place: number; gone: number };
  log: {
    seq: Generated<number>;
    id: string;
    service: string;
    at: string;
    by: string;
    corrects: string | null;
    json: string;
  };
  migration: { version: number };
}
