import { type ReadOptions, readAmount } from "../../quantity/index.ts";
import { countLast } from "./count-last.ts";
import { type Found, measured } from "./found.ts";

/** What is asked of a line that tells of more than one thing. */
export const SEVERAL = "the line names another amount too: give each its own line";

/** "white soy 40g / mirin 25g": the line tells of another thing too. */
const TWO_THINGS =
  /^(\p{L}[^\d/;,]{1,40}\s(?:\d[\d.,]*(?:\/\d+)?|[½¼¾])\s?\p{L}{1,5}\.?)\s*([/+&;,]\s*\p{L}[^\d½¼¾]{1,40}\s(?:\d[\d.,]*(?:\/\d+)?|[½¼¾])\s?\p{L}{1,5}\.?)$/u;

/** "Cardamom - 4, Cloves - 4, Cinnamon - 1 stick". */
const LISTED = /^(\p{L}[^\d,]{1,40}\s[–-]\s\d[^,]{0,16})(,\s+\p{L}[^\d,]{1,40}\s[–-]\s\d.*)$/u;

/** The first of several things with amounts in one line; the others are its note, with a doubt. */
export function firstOfSeveral(body: string, notes: string[], options: ReadOptions): Found | undefined {
  const two = TWO_THINGS.exec(body) ?? LISTED.exec(body);
  if (!two) return undefined;
  const more = two[2]!.replace(/^[;,]\s*/, "");
  const first = readAmount(two[1]!, options);
  const count = first.low === null ? countLast(two[1]!) : undefined;
  if (count) {
    notes.push(more);
    return { ...count, doubt: SEVERAL };
  }
  if (first.low === null || readAmount(two[2]!.replace(/^[/+&;,]\s*/, ""), options).low === null)
    return undefined;
  notes.push(more);
  const found = measured(first, two[1]!, notes);
  return { ...found, doubt: [found.doubt, SEVERAL].filter(Boolean).join("; ") };
}
