import { type ReadOptions, readAmount } from "../../quantity/index.ts";
import { columns } from "./columns.ts";
import { countLast } from "./count-last.ts";
import { type Found, measured, NONE } from "./found.ts";
import { noMeasure, unmeasured } from "./loose.ts";
import { amountInside, countInside, heldAmount, labelled, PURPOSE, wordsLast } from "./name-first.ts";
import { firstOfSeveral } from "./several.ts";

/** "butter 250g x 4": so many of a size. */
const SIZE_TIMES =
  /^(\p{L}[^\d]{1,60}?)\s+(\d+(?:[.,]\d+)?\s?(?:k?g|ml|cl|dl|l|oz|lb)\b)(\s\p{L}{3,10})?\s*[x×]\s*(\d{1,3})$/iu;

const PERCENT_AFTER = /[\s–—-]+(\d{1,4}(?:[.,]\d{1,3})?\s?%)$/u;

/** The amount of a line wherever it stands: in columns, first, last, between, in words. Notes are added to. */
export function readWhole(body: string, notes: string[], options: ReadOptions): Found {
  if (body === "") return { ...NONE, rest: "" };
  const early = noMeasure(body, notes) ?? firstOfSeveral(body, notes, options);
  if (early) return early;
  const times = SIZE_TIMES.exec(body);
  if (times) return readWhole(`${times[4]} x ${times[2]}${times[3] ?? ""} ${times[1]}`, notes, options);
  const table = columns(body, notes, options);
  if (table) return table;
  const percent = /^\p{L}/u.test(body) ? PERCENT_AFTER.exec(body) : null;
  if (percent) {
    const read = readAmount(body.slice(0, percent.index), options);
    if (read.low !== null) {
      notes.push(percent[1]!);
      return measured(read, body.slice(0, percent.index), notes);
    }
  }
  const read = readAmount(body, options);
  if (read.low !== null) return measured(read, body, notes);
  return (
    amountInside(body, notes, options) ??
    countInside(body, notes) ??
    wordsLast(body, notes, options) ??
    heldAmount(body, notes, options) ??
    (PURPOSE.test(body) ? labelled(body, notes, options) : undefined) ??
    countLast(body) ??
    labelled(body, notes, options) ??
    unmeasured(read, body, notes)
  );
}
