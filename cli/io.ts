import { closeSync, openSync, readSync } from "node:fs";
import { parseArgs } from "node:util";
import { type Book, type Parsed, type Problem, parseBook, parseBookText } from "../core/book/index.ts";
import { demoBook } from "../data/demo/book.ts";
import { pantryBook } from "../data/pantry/book.ts";

export const EXIT = { computed: 0, refused: 1, misuse: 2, strict: 3 } as const;

/** Where a command writes: `out` is standard output, `note` standard error. */
export interface Io {
  out(text: string): void;
  note(text: string): void;
}

/** The call's own words are off; the command's help is shown with it. */
export class Misuse extends Error {}

/** Options by name: "text" takes a word, "flag" takes none. */
export type Shape = Readonly<Record<string, "text" | "flag">>;

/** Reads the words of a call. @throws Misuse for an unknown option or a wrong number of plain words. */
export function readArgs<S extends Shape>(args: string[], shape: S, words: { least: number; most: number }) {
  let read: ReturnType<typeof parseArgs>;
  try {
    read = parseArgs({
      args: withSigned(args, shape),
      allowPositionals: true,
      options: Object.fromEntries(
        Object.entries(shape).map(([name, kind]) => [
          name,
          { type: kind === "flag" ? "boolean" : "string" } as const,
        ]),
      ),
    });
  } catch (error) {
    throw new Misuse((error as Error).message.split(". To specify")[0]!);
  }
  const count = read.positionals.length;
  if (count < words.least) throw new Misuse("a word is missing");
  if (count > words.most)
    throw new Misuse(`"${read.positionals[words.most]}" is one word too many; quote what belongs together`);
  return {
    words: read.positionals,
    options: read.values as { [K in keyof S]?: S[K] extends "flag" ? boolean : string },
  };
}

/** A number below zero after an option is its value, and no option. */
function withSigned(args: readonly string[], shape: Shape): string[] {
  const out: string[] = [];
  for (const word of args) {
    const last = out.at(-1);
    if (/^-\d/.test(word) && last?.startsWith("--") && shape[last.slice(2)] === "text")
      out[out.length - 1] = `${last}=${word}`;
    else out.push(word);
  }
  return out;
}

/** A whole number from an option. @throws Misuse when it is none or out of range. */
export function wholeNumber(
  name: string,
  text: string | undefined,
  least: number,
  most: number,
): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!Number.isInteger(value) || value < least || value > most)
    throw new Misuse(`--${name} is "${text}": give a whole number from ${least} to ${most}`);
  return value;
}

/** No book, recipe or problem is longer; what is, is a slip or has no end at all. */
const LONGEST_FILE = 256 * 1024 * 1024;

/** The bytes of a file (standard input for 0), read by pieces so that one without end is refused. @throws as fs does */
function readBytes(path: string | 0): Uint8Array {
  const file = path === 0 ? 0 : openSync(path, "r");
  const pieces: Buffer[] = [];
  try {
    for (let length = 0; ; ) {
      const piece = Buffer.allocUnsafe(1024 * 1024);
      const read = readSync(file, piece);
      if (read === 0) return Buffer.concat(pieces, length);
      pieces.push(piece.subarray(0, read));
      length += read;
      if (length > LONGEST_FILE) throw Object.assign(new Error("too large"), { code: "larger than 256 MB" });
    }
  } finally {
    if (path !== 0) closeSync(file);
  }
}

/** A text as it may be shown at a terminal: what would move the cursor, colour or turn the line is spelled out. */
export function shown(text: string): string {
  return text.replaceAll(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g,
    (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}

/** What a command reads: a file, or standard input for "-". */
export const fileOf = (word: string): string | 0 => (word === "-" ? 0 : word);

/** The bytes of a file (standard input for 0), or in words why there are none. */
export function readFileBytes(file: string | 0): Parsed<Uint8Array> {
  const path = file === 0 ? "-" : file;
  try {
    return { ok: true, value: readBytes(file) };
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const what = code === "ENOENT" ? `there is no file ${path}` : `${path} cannot be read (${code})`;
    return { ok: false, problems: [{ path: "", what, mend: "check the name and the rights of the file" }] };
  }
}

/** Reads a text file, or tells in words why it cannot be read. */
export function readText(path: string | 0): Parsed<string> {
  const bytes = readFileBytes(path);
  return bytes.ok ? { ok: true, value: Buffer.from(bytes.value).toString("utf8") } : bytes;
}

/** The book in a file, the demo's for "demo", or one with only the starter pantry for "pantry". */
export function readBook(name: string): Parsed<Book> {
  if (name === "demo") return parseBook(demoBook);
  if (name === "pantry") return parseBook(pantryBook);
  const text = readText(name);
  return text.ok ? parseBookText(text.value) : text;
}

/** Tells what was refused: as JSON alone on standard output when asked for, in words on standard error always. */
export function refuse(problems: readonly Problem[], json: boolean | undefined, io: Io): number {
  if (json) io.out(`${JSON.stringify({ ok: false, problems }, null, 2)}\n`);
  for (const { path, what, mend } of problems)
    io.note(`${path || "(whole file)"}: ${what}. To mend: ${mend}.\n`);
  return EXIT.refused;
}

export function writeJson(value: unknown, io: Io): void {
  io.out(`${JSON.stringify(value, null, 2)}\n`);
}
