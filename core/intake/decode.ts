import type { ReadProblem } from "./types.ts";

/** UTF-8 read as Windows-1252 once too often: "Ã©" for "é", "Â½" for "½". */
const MOJIBAKE =
  /[ÃÂâ][\u0080-\u00BF\u20AC\u0192\u2018-\u2022\u2026\u2030\u2039\u203A\u0152\u0153\u0160\u0161\u017D\u017E\u0178\u02C6\u02DC\u2122]/;

/**
 * The text of a file: UTF-8 (with or without its mark), UTF-16 with its mark, otherwise Windows-1252 with a problem
 * that names the first line in question. Never throws; linear.
 */
export function decodeText(bytes: Uint8Array): { text: string; problems: ReadProblem[] } {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return clean(new TextDecoder("utf-16le").decode(bytes));
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return clean(new TextDecoder("utf-16be").decode(bytes));
  try {
    return clean(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    const text = new TextDecoder("windows-1252").decode(bytes);
    const read = clean(text);
    const place = text.search(/[\u0080-\uFFFF]/);
    const what = "this is not UTF-8: read as Windows-1252 (Western European)";
    read.problems.unshift({
      at: lineAt(text, place),
      what,
      mend: "check the accents, or save the file as UTF-8",
    });
    return read;
  }
}

function clean(text: string): { text: string; problems: ReadProblem[] } {
  const problems: ReadProblem[] = [];
  let kept = text.replace(/^\uFEFF/, "");
  const place = kept.search(MOJIBAKE);
  if (place >= 0) {
    const again = kept.split("\n").map(mended).join("\n");
    if (again !== kept) {
      const what = "letters were encoded twice (such as Ã© for é): read as they were meant";
      problems.push({ at: lineAt(kept, place), what, mend: "check the accents" });
      kept = again;
    }
  }
  const nought = kept.indexOf("\0");
  if (nought >= 0) {
    problems.push({
      at: lineAt(kept, nought),
      what: "the file holds NUL characters: they are left out",
      mend: "is it a text file?",
    });
    kept = kept.replaceAll("\0", "");
  }
  return { text: kept, problems };
}

const lineAt = (text: string, place: number) => {
  let line = 1;
  for (let i = text.indexOf("\n"); i >= 0 && i < place; i = text.indexOf("\n", i + 1)) line++;
  return line;
};

/** Windows-1252 has its own letters at 0x80 to 0x9F. */
const HIGH = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";

/** The line with one encoding undone, if that gives good UTF-8 throughout; the line itself otherwise. */
function mended(line: string): string {
  if (!MOJIBAKE.test(line)) return line;
  const bytes = new Uint8Array(line.length);
  for (let i = 0; i < line.length; i++) {
    const code = line.charCodeAt(i);
    const high = code > 0xff ? HIGH.indexOf(line[i]!) : -1;
    if (code > 0xff && high < 0) return line;
    bytes[i] = code > 0xff ? 0x80 + high : code;
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return line;
  }
}
