import { compare, toNumber, toText } from "../../numerics/rational.ts";
import { pieceName, readAmount } from "../../quantity/index.ts";
import { readNumber } from "../../quantity/read-number.ts";
import { type Found, measured, NONE, PART_OF_NAME } from "./found.ts";

/** "Eggs 3", "Uova  2 (medie)", "Radicchio, 2 cespi", "Bay leaves  6 no.". */
const COUNT_LAST =
  /^([^\d]{2,80}?)(\s{2,}|\s*[,:–—]\s+|\s+-\s+|\s)([1-9]\d{0,3}|\d\s?\/\s?\d|[½¼¾⅓⅔])(?:\s*(?:-|–|to|bis|à|o|or)\s*([1-9]\d{0,3}))?(?:\s*(?:nos?|nr|stk|stück|ea|each|pcs?|pzs?|pzas?|uds?|unid|x)\.?)?(?:\s+(\p{L}{2,20}))?(?:\s*\(([^()]*)\))?\.?$/iu;

const COUNT_IN_BRACKETS = /^([^\d()]{2,80})\((\d{1,3})\)$/u;

const FLOUR = /flour|farine|harina|farina|mehl/iu;

/** "Flour type 55" ends in a number that counts nothing; "bacon 200" may count, with a doubt. */
function tooMany(digits: string, kind: string | undefined, name: string): boolean {
  if (Number(digits) <= 24) return false;
  return FLOUR.test(name) || (kind === undefined && !/^[1-9]\d*[05]$/.test(digits));
}

/** A count after the name, where `readAmount` wants a measure. */
export function countLast(body: string): Found | undefined {
  const last = COUNT_LAST.exec(body);
  const held = last ? null : COUNT_IN_BRACKETS.exec(body);
  const [name, digits] = last ? [last[1]!, last[3]!] : held ? [held[1]!, held[2]!] : [];
  if (name === undefined || digits === undefined) return undefined;
  // "Flour type 55" ends in a number that counts nothing: behind a single space only a few are counted.
  if (
    last &&
    last[2] === " " &&
    (tooMany(digits, last[5], name) ||
      /(?:^|[\s-])(?:type|typ|tipo|no|nr|t|n°|size|grade|factor)\.?$/iu.test(name))
  )
    return undefined;
  const from = readNumber(digits, 0)?.value;
  const to = last?.[4] === undefined ? from : readNumber(last[4], 0)?.value;
  if (!from || !to || compare(from, to) > 0) return undefined;
  // "Garlic cloves 4" counts cloves, as "4 garlic cloves" does.
  const again = readAmount(`${digits} ${name.trim()}`);
  if (!last?.[4] && !last?.[5] && again.unit && pieceName(again.unit) && !PART_OF_NAME.has(again.unit))
    return { ...measured(again, name, []), ...(last?.[6] ? { bracket: last[6] } : {}) };
  const [kind, bracket] = [last?.[5], last?.[6]];
  const rest = kind ? `${name.trim()}, ${kind}` : name.trim();
  const exact = { low: toText(from), high: toText(to) };
  const many = last && Number(digits) >= 50 && !last[5] && last[2] === " ";
  const doubt = many ? `no measure after ${digits}: read as that many pieces` : "";
  const count = { ...NONE, low: toNumber(from), high: toNumber(to), exact, doubt };
  return { ...count, rest, loose: last?.[2] === " ", ...(bracket ? { bracket } : {}) };
}
