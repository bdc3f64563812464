import { type ReadOptions, readAmount, unitWord } from "../../quantity/index.ts";
import { countLast } from "./count-last.ts";
import { type Found, measured } from "./found.ts";

const FIGURE = /^\d[\d.,/ ]*$|^[½¼¾⅓⅔⅛]$/u;

const CELL_UNIT_FIRST = /^(kg|grs?|gr?|ml|cl|dl|lt?|lb|oz)\.?\s?(\d[\d.,]*)$/iu;

const PIECES = /^\d+(?:[.,]\d+)?\s?(?:ea|each|pcs?|pces?|nos?|stk|pz|uds?)\.?$/iu;
const COUNTED = /^(?:[1-9]\d{0,2}|\d\s?\/\s?\d|[½¼¾])$/u;

/** "Water 1    1750 g    70%": the name, the amount and what else stands in columns. */
export function columns(body: string, notes: string[], options: ReadOptions): Found | undefined {
  const cells = body.split(/\s{2,}/);
  if (cells.length < 2 || !/^\p{L}/u.test(body)) return undefined;
  for (let i = 1; i < cells.length; i++) {
    // "Carottes    kg    0,200": the measure has a column of its own, before the number or after it.
    const [cell, next] = [cells[i]!, cells[i + 1] ?? ""];
    const [unit, figure] = FIGURE.test(next) ? [cell, next] : FIGURE.test(cell) ? [next, cell] : ["", ""];
    const [, bare = "", size] = /^([\p{L}.°º#]{1,12})(?:\s(\d\/\d))?$/u.exec(unit) ?? [];
    const paired = figure !== "" && unitWord(bare) !== undefined;
    // "1 lb   8 oz": pounds and ounces in columns of their own.
    const both = /\d\s?lbs?\.?$/iu.test(cell) && /^(?:\d|1[0-5])(?:[.½¼¾]\d*)?\s?oz\.?$/iu.test(next);
    const said = paired
      ? `${figure} ${bare}`
      : both
        ? `${cell} ${next}`
        : cell.replace(CELL_UNIT_FIRST, "$2 $1");
    const read = readAmount(said, options);
    if (read.low === null || (read.unit === "piece" && !paired && !PIECES.test(cell)) || read.rest !== "")
      continue;
    if (paired && size) notes.push(size);
    notes.push(...cells.slice(i + (paired || both ? 2 : 1)));
    return measured({ ...read, rest: cells.slice(0, i).join(" ") }, body, notes);
  }
  // "Garlic cloves, peeled   4   4": counted, in each of its columns.
  const at = cells.findIndex((cell, i) => i > 0 && COUNTED.test(cell));
  const sure = at > 0 && at < cells.length - 1 && cells.slice(at + 1).every((cell) => /^[\d£$€]/u.test(cell));
  const [name, ...said] = (cells[0] ?? "").split(/,\s*/);
  const count = sure ? countLast(`${name}  ${cells[at]}`) : undefined;
  if (!count) return undefined;
  notes.push(...said, ...cells.slice(1, at), ...cells.slice(at + 1));
  return { ...count, loose: false };
}
