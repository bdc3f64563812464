import { atPointer } from "../book/problem.ts";
import type { Book } from "../book/schema.ts";
import type { Rule, TraceNode } from "../ledger/ledger.ts";
import { numericValue } from "../quantity/convert.ts";
import { numbersBelow } from "./numbers.ts";
import type { Result } from "./result.ts";
import * as rules from "./rules.ts";
import { contextRules, type RunOptions } from "./run.ts";

/** A node of the trace that does not hold, and why. */
export interface Unproved {
  readonly path: string;
  readonly why: string;
}

/**
 * Replays a whole trace: each rule on the values of its inputs must give its value again, each number read from the
 * book must stand there, and each number of the result must have a node. What the search and heat decided is
 * computed once more from the same book, options and seed.
 * @returns what does not hold; empty when every number is proved.
 */
export function replayTrace(book: Book, result: Result, options: RunOptions = {}): Unproved[] {
  const again = contextRules(book, result.summary.service, options);
  const known: Readonly<Record<string, Rule>> = { ...(rules as unknown as Record<string, Rule>), ...again };
  const wrong: Unproved[] = [];
  const say = (path: string, why: string) => wrong.push({ path, why });
  for (const [path, value] of numbersIn(result)) {
    const node = result.trace[path];
    if (!node) say(path, "has no node in the trace");
    else if (!close(node.value, value)) say(path, `is ${value}, its node says ${node.value}`);
  }
  for (const [path, node] of Object.entries(result.trace))
    proveNode(path, node, result.trace, known, book, say);
  return wrong;
}

function proveNode(
  path: string,
  node: TraceNode,
  trace: Result["trace"],
  known: Readonly<Record<string, Rule>>,
  book: Book,
  say: (path: string, why: string) => void,
): void {
  const rule = known[node.rule];
  if (!rule) {
    say(path, `cites the rule "${node.rule}", which is not known`);
    return;
  }
  const missing = node.inputs.find((input) => !trace[input] && numberAt(book, input) === undefined);
  if (missing !== undefined) {
    say(path, `rests on ${missing}, which is not in the trace`);
    return;
  }
  if (path.startsWith("book:")) {
    const written = numberAt(book, path);
    if (written === undefined) say(path, "is not written in the book");
    else if (!close(written, node.value)) say(path, `is ${written} in the book, ${node.value} in the trace`);
  }
  if (node.rule === "given" && node.inputs.length === 0) return;
  const inputs = node.inputs.map((input) => trace[input]?.value ?? numberAt(book, input)!);
  const value = rule(...inputs);
  if (!close(value, node.value))
    say(path, `${node.rule}(${inputs.slice(0, 8).join(", ")}) gives ${value}, not ${node.value}`);
}

/** The number at a pointer into the book; exact texts and money texts are read, absent ones are undefined. */
function numberAt(book: Book, path: string): number | undefined {
  if (!path.startsWith("book:")) return undefined;
  const value = atPointer(book, path.slice("book:".length));
  if (typeof value === "number") return value;
  if (typeof value !== "string") return undefined;
  try {
    return numericValue(value);
  } catch {
    return undefined;
  }
}

function close(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));
}

/** Every number of a result outside its trace, by JSON Pointer. */
function* numbersIn(result: Result): Generator<[string, number]> {
  const { trace: _, ...rest } = result;
  yield* numbersBelow(rest, "");
}
