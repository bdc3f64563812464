/** What is wrong with the place where the book is kept, and how to mend it. */
export interface Trouble {
  readonly what: string;
  readonly mend: string;
}

/** By SQLite's primary result codes (https://www.sqlite.org/rescode.html). */
const SQLITE: Readonly<Record<number, Trouble>> = {
  5: { what: "another program holds the book", mend: "end the other program, or wait and try again" },
  6: { what: "another program holds the book", mend: "end the other program, or wait and try again" },
  8: {
    what: "the data folder may not be written to",
    mend: "give it rights to write, or choose another with --data",
  },
  10: { what: "the disk does not answer", mend: "check the disk; what was confirmed before is kept" },
  11: {
    what: "the book's file is damaged",
    mend: "put a backup of the data folder in its place, or move it away",
  },
  13: { what: "the disk is full: nothing of this was saved", mend: "make room and try again" },
  14: { what: "the book's file cannot be opened", mend: "check the data folder and its rights" },
  26: {
    what: "the book's file is not a book",
    mend: "put a backup of the data folder in its place, or move it away",
  },
};

const SYSTEM: Readonly<Record<string, Trouble>> = {
  EACCES: SQLITE[8]!,
  EPERM: SQLITE[8]!,
  EROFS: SQLITE[8]!,
  ENOENT: {
    what: "the data folder cannot be made",
    mend: "check its name and rights, or choose another with --data",
  },
  ENOSPC: SQLITE[13]!,
  EEXIST: { what: "the data folder is a file", mend: "choose a folder with --data" },
  ENOTDIR: { what: "the data folder is a file", mend: "choose a folder with --data" },
  ECONNREFUSED: { what: "the database server does not answer", mend: "start it, or mend DATABASE_URL" },
  ENOTFOUND: { what: "there is no such database server", mend: "mend DATABASE_URL" },
};

/** A failure of the place itself in words; undefined when the error is of another kind. */
export function troubleOf(error: unknown): Trouble | undefined {
  const { errcode, code } = (error ?? {}) as { errcode?: number; code?: string };
  // The low byte is the primary code; the rest says more of it.
  if (typeof errcode === "number") return SQLITE[errcode & 0xff];
  return code === undefined || !Object.hasOwn(SYSTEM, code) ? undefined : SYSTEM[code];
}
