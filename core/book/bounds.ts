import { MOST_PROBLEMS, type Problem, pointerOf } from "./problem.ts";

/** Deeper than any document, and far from what a recursive reader can bear. */
const DEEPEST = 50;
/** A long method of a preparation has a few thousand characters. */
const LONGEST_TEXT = 20_000;
/** Above every amount, time and price of a kitchen; sums and products of such numbers stay finite. */
const LARGEST_NUMBER = 1e9;

/** Controls but tab and line ends; marks that turn the direction of what follows; halves of a character. */
const UNPRINTABLE =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufeff]|\p{Surrogate}/u;

interface Node {
  readonly value: unknown;
  readonly key: string | number;
  readonly in: Node | undefined;
  readonly depth: number;
}

/**
 * What no document may hold, whatever its kind (B8): nesting, texts and numbers beyond all use, and characters that
 * make a text read otherwise than it is. Without recursion, so that hostile nesting cannot exhaust the stack.
 */
export function boundsProblems(json: unknown): Problem[] {
  const found: Problem[] = [];
  const open: Node[] = [{ value: json, key: "", in: undefined, depth: 0 }];
  while (open.length > 0 && found.length < MOST_PROBLEMS) {
    const node = open.pop()!;
    const { value, depth } = node;
    const say = (what: string, mend: string) => found.push({ path: pathOf(node), what, mend });
    if (typeof value === "string") judgeText(value, say);
    else if (typeof value === "number") {
      if (!(Math.abs(value) <= LARGEST_NUMBER))
        say(
          "this number is larger than any in a kitchen",
          `write one between -${LARGEST_NUMBER} and ${LARGEST_NUMBER}`,
        );
    } else if (typeof value === "object" && value !== null) {
      if (depth >= DEEPEST) {
        say("this is nested too deep", "take it out: no document is so deep");
        continue;
      }
      const entries = Array.isArray(value) ? value.entries() : Object.entries(value);
      const first = open.length;
      for (const [key, inner] of entries) {
        if (inner !== null && typeof inner !== "boolean")
          open.push({ value: inner, key, in: node, depth: depth + 1 });
        if (typeof key === "string" && UNPRINTABLE.test(key) && found.length < MOST_PROBLEMS)
          say(`a field's name ${unprintable(key)}`, "correct its spelling or take it out");
      }
      // Taken from the end: turned about, so that problems come in the order of the file.
      reverseFrom(open, first);
    }
  }
  return found;
}

function judgeText(text: string, say: (what: string, mend: string) => void): void {
  if (text.length > LONGEST_TEXT)
    say(`this text has ${text.length} characters`, `make it at most ${LONGEST_TEXT} long`);
  else if (UNPRINTABLE.test(text)) say(`this text ${unprintable(text)}`, "write it again without it");
}

function unprintable(text: string): string {
  const code = UNPRINTABLE.exec(text)![0].codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0");
  return `holds a character that cannot be printed (U+${code})`;
}

function pathOf(node: Node): string {
  const keys: (string | number)[] = [];
  for (let at: Node | undefined = node; at?.in; at = at.in) keys.push(at.key);
  return pointerOf(keys.reverse());
}

function reverseFrom(list: unknown[], first: number): void {
  for (let i = first, j = list.length - 1; i < j; i++, j--) [list[i], list[j]] = [list[j], list[i]];
}
