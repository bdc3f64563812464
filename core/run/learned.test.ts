import { describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { demoHistory } from "../../data/demo/history.ts";
import { parseBook } from "../book/index.ts";
import { atPointer } from "../book/problem.ts";
import type { Book } from "../book/schema.ts";
import { changeFactor, figureKey } from "../learning/figures.ts";
import { type Estimate, learn } from "../learning/learn.ts";
import { LEARNED_RULES } from "../learning/noted.ts";
import { withLearned, workTimes } from "../learning/overlay.ts";
import type { LearningBody } from "../learning/schema.ts";
import { learnedAt, learnedTrace } from "../learning/trace.ts";
import type { TraceNode } from "../ledger/ledger.ts";
import { Random } from "../numerics/random.ts";
import type { LogLine } from "../safety/log-lines.ts";
import { standing } from "../safety/log-lines.ts";
import { numbersBelow } from "./numbers.ts";

const read = parseBook(demoBook);
if (!read.ok) throw new Error("the demo is no book");
const demo = read.value;

const close = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));

/** What of an estimate's numbers is not proved: without a node, not what its rule gives, not what is written. */
function unproved(book: Book, lines: readonly LogLine[], estimate: Estimate): string[] {
  const nodes = learnedTrace(book, lines, estimate);
  const written = new Map(standing<LearningBody>(lines, KINDS).map(({ first, now }) => [first.id, now.body]));
  const wrong: string[] = [];
  for (const [path, value] of numbersBelow(estimate, learnedAt(estimate.figure))) {
    const node = nodes[path];
    if (!node) wrong.push(`${path} has no node`);
    else if (!close(node.value, value)) wrong.push(`${path} is ${value}, its node says ${node.value}`);
  }
  for (const [path, node] of Object.entries(nodes)) wrong.push(...wrongIn(path, node, nodes, book, written));
  return wrong;
}

const KINDS = ["trim", "cook", "pieces", "time", "accepted"] as const;

function wrongIn(
  path: string,
  node: TraceNode,
  nodes: Readonly<Record<string, TraceNode>>,
  book: Book,
  written: ReadonlyMap<string, unknown>,
): string[] {
  const rule = LEARNED_RULES[node.rule];
  if (!rule) return [`${path} cites ${node.rule}, which is not known`];
  if (node.inputs.some((input) => !nodes[input])) return [`${path} rests on what is not there`];
  const [scheme = "", rest = ""] = path.split(":");
  const [, entry = "", field = ""] = rest.split("/");
  const there =
    scheme === "book"
      ? atPointer(book, rest)
      : scheme === "log"
        ? (written.get(entry) as Record<string, unknown> | undefined)?.[field]
        : node.value;
  if (there !== node.value) return [`${path} is written as ${there}, not ${node.value}`];
  if (node.inputs.length === 0)
    return node.rule === "given" && /^(book|log|const):/.test(path) ? [] : [`${path} rests on nothing`];
  const value = rule(...node.inputs.map((input) => nodes[input]!.value));
  return close(value, node.value) ? [] : [`${path}: ${node.rule} gives ${value}, not ${node.value}`];
}

let count = 0;
function line(body: LearningBody, by: string, more: Partial<LogLine> = {}): LogLine {
  count++;
  const id = `00000000-0000-4000-9000-${String(count).padStart(12, "0")}`;
  const at = new Date(Date.UTC(2027, 0, 1, 8, count)).toISOString();
  return { id, service: "s", at, by, body, ...more };
}

/** One measurement of a figure, drawn at random, by one of the cooks. */
function measured(book: Book, random: Random, cooks: readonly string[]): LogLine | undefined {
  const by = random.pick(cooks);
  const factor = 0.8 + 0.4 * random.next();
  const ingredient = random.pick(book.ingredients);
  const preparation = random.pick(book.preparations);
  const step = random.pick(preparation.steps);
  const at = { preparation: preparation.id, step: step.id };
  const cut = ingredient.cuts.find((one) => one.trimYield < 1);
  switch (random.below(4)) {
    case 0:
      if (!cut) return undefined;
      return line(
        {
          ...{ kind: "trim", ingredient: ingredient.id, cut: cut.id, apG: 2000 },
          epG: Math.min(2000, 2000 * cut.trimYield * factor),
        },
        by,
      );
    case 1: {
      const piece = ingredient.pieces[0];
      if (!piece) return undefined;
      const g = 7 * piece.g * factor;
      return line({ kind: "pieces", ingredient: ingredient.id, piece: piece.name, g, pieces: 7 }, by);
    }
    case 2:
      if (!changeFactor(step)) return undefined;
      return line({ kind: "cook", ...at, inG: 1000, outG: 700 * factor }, by);
    default:
      if (!step.work) return undefined;
      return line({ kind: "time", ...at, plannedMin: 20, actualMin: 20 * factor }, by);
  }
}

/** A log of many months: measured, left out, corrected, taken into the book and measured again. */
function months(seed: number): { readonly book: Book; readonly lines: readonly LogLine[] } {
  const random = Random.of(`months ${seed}`);
  // Few documents, so that the same figure is measured often.
  let book: Book = {
    ...demo,
    ingredients: random.shuffled(demo.ingredients.filter((one) => one.cuts.length > 0)).slice(0, 4),
    preparations: random.shuffled(demo.preparations).slice(0, 3),
  };
  const cooks = ["Ansa", "Jon", "Mira"].slice(0, 1 + random.below(3));
  const lines: LogLine[] = [];
  for (let round = 0; round < 3; round++) {
    for (let k = 0; k < 60; k++) {
      const one = measured(book, random, cooks);
      if (!one) continue;
      lines.push(one);
      const { kind } = one.body as LearningBody;
      if (random.next() < 0.1)
        lines.push(line({ kind: "judged", entry: one.id, counts: false, reason: "spilled" }, "Mira"));
      if (kind === "pieces" && random.next() < 0.2)
        lines.push(
          line({ ...(one.body as Extract<LearningBody, { kind: "pieces" }>), pieces: 8 }, one.by, {
            corrects: one.id,
          }),
        );
    }
    for (const estimate of learn(book, lines)) {
      if (random.next() < 0.6 || estimate.n === 0) continue;
      book = withLearned(book, [estimate]);
      lines.push(
        line(
          {
            ...{ kind: "accepted", figure: figureKey(estimate.figure), n: estimate.n },
            ...{ from: estimate.was, to: estimate.value, sourceBefore: estimate.bookSource },
            ...(estimate.work ? { work: workTimes(estimate.work, estimate.value) } : {}),
          },
          "Mira",
        ),
      );
    }
  }
  return { book, lines };
}

describe("LE13 every number of what was learned has a trace that replays", () => {
  test("in the demo's past", () => {
    const lines = demoHistory();
    const estimates = learn(demo, lines);
    expect(estimates.length).toBeGreaterThan(5);
    for (const one of estimates) expect(unproved(demo, lines, one), figureKey(one.figure)).toEqual([]);
  });

  test("over months of measuring, leaving out, correcting and taking into the book", () => {
    const seen = { figures: 0, several: 0, left: 0, again: 0, kinds: new Set<string>() };
    for (let seed = 1; seed <= 4; seed++) {
      const { book, lines } = months(seed);
      const taken = new Set(lines.flatMap(({ body }) => (body as { figure?: string }).figure ?? []));
      for (const one of learn(book, lines)) {
        expect(unproved(book, lines, one), `${seed} ${figureKey(one.figure)}`).toEqual([]);
        seen.figures++;
        seen.kinds.add(one.figure.kind);
        if (one.cooks.length > 1) seen.several++;
        if (one.measured.some((each) => each.leftOut !== undefined)) seen.left++;
        if (taken.has(figureKey(one.figure))) seen.again++;
      }
    }
    expect(seen.figures).toBeGreaterThan(30);
    expect([...seen.kinds].sort()).toEqual(["cut", "piece", "step", "work"]);
    for (const what of ["several", "left", "again"] as const) expect(seen[what], what).toBeGreaterThan(10);
  });

  test("a number that is off is found", () => {
    const lines = demoHistory();
    const [one] = learn(demo, lines) as [Estimate];
    expect(unproved(demo, lines, { ...one, known: one.known * 1.01 })).toHaveLength(1);
    expect(unproved(demo, lines, { ...one, extra: 3 } as Estimate)).toHaveLength(1);
  });
});
