import { describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { demoHistory } from "../../data/demo/history.ts";
import { parseBook } from "../book/index.ts";
import { atPointer } from "../book/problem.ts";
import { cameBy } from "../learning/came.ts";
import { courseForecast } from "../learning/course-forecast.ts";
import { coversOf } from "../learning/forecast.ts";
import { COVERS_AT, courseAt, courseTrace, coversTrace } from "../learning/forecast-trace.ts";
import { LEARNED_RULES } from "../learning/noted.ts";
import type { Covers } from "../learning/schema.ts";
import type { TraceNode } from "../ledger/ledger.ts";
import { Random } from "../numerics/random.ts";
import type { LogLine } from "../safety/log-lines.ts";
import { standing } from "../safety/log-lines.ts";
import { numbersBelow } from "./numbers.ts";

const read = parseBook(demoBook);
if (!read.ok) throw new Error("the demo is no book");
const demo = read.value;
const menu = demo.menus.find(({ id }) => id === "first-light")!;
const course = menu.courses.find(({ id }) => id === "main")!;
const service = demo.services[0]!;

const close = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));

/** What of a forecast is not proved: a number without a node, a rule that gives another, a figure not written so. */
function unproved(
  told: unknown,
  at: string,
  nodes: Readonly<Record<string, TraceNode>>,
  lines: readonly LogLine[],
): string[] {
  const written = new Map(standing<Covers>(lines, ["covers"]).map(({ first, now }) => [first.id, now.body]));
  const wrong: string[] = [];
  for (const [path, value] of numbersBelow(told, at))
    if (!nodes[path] || !close(nodes[path].value, value)) wrong.push(`${path} is ${value}`);
  for (const [path, node] of Object.entries(nodes)) {
    const [scheme = "", rest = ""] = path.split(":");
    const [, entry = "", ...field] = rest.split("/");
    if (scheme === "book" && atPointer(demo, rest) !== node.value) wrong.push(`${path} is not in the book`);
    if (scheme === "log" && atPointer(written.get(entry), `/${field.join("/")}`) !== node.value)
      wrong.push(`${path} is not in the log`);
    if (node.inputs.length === 0 && !/^(book|log|const|asked):/.test(path))
      wrong.push(`${path} rests on nothing`);
    const inputs = node.inputs.map((input) => nodes[input]?.value ?? Number.NaN);
    const value = node.inputs.length === 0 ? node.value : LEARNED_RULES[node.rule]!(...inputs);
    if (!close(value, node.value)) wrong.push(`${path}: ${node.rule} gives ${value}, not ${node.value}`);
  }
  return wrong;
}

let count = 0;
function covers(body: Omit<Covers, "kind">, of: string): LogLine {
  count++;
  const id = `00000000-0000-4000-8000-${String(count).padStart(12, "0")}`;
  return {
    ...{ id, service: of, at: new Date(Date.UTC(2027, 0, 1, 8, count)).toISOString(), by: "Mira" },
    body: { kind: "covers", ...body },
  };
}

/** Past services drawn by chance: some alike, some far apart, some without a guarantee, in one or two courses. */
function past(seed: number): LogLine[] {
  const random = Random.of(`forecast ${seed}`);
  const wild = random.below(2) === 0;
  return Array.from({ length: random.below(7) }, (_, s) => s).flatMap((s) => {
    const n = 30 + random.below(60);
    const first = Math.round(n * (wild ? random.next() : 0.6));
    const guaranteed = random.below(4) === 0 ? {} : { guaranteed: n + random.below(9) };
    const dishes = course.options
      .slice(0, 2)
      .map(({ dish }, i) => ({ dish, count: i === 0 ? first : n - first }));
    const other = menu.courses.find(({ id }) => id !== course.id)!;
    return [
      covers({ menu: menu.id, course: course.id, dishes, ...guaranteed }, `s${s}`),
      ...(random.below(2) === 0
        ? [
            covers(
              { menu: menu.id, course: other.id, dishes: [{ dish: other.options[0]!.dish, count: n }] },
              `s${s}`,
            ),
          ]
        : []),
    ];
  });
}

function both(lines: readonly LogLine[], guaranteed: number) {
  const { past: all, came } = cameBy(lines);
  const asked = { menu, course, service, covers: guaranteed, past: all };
  const at = [demo.menus.indexOf(menu), demo.services.indexOf(service)];
  return {
    covers: { told: coversOf(came, guaranteed), nodes: coversTrace(came, guaranteed) },
    course: {
      told: courseForecast(asked),
      nodes: courseTrace(asked, `/menus/${at[0]}`, `/services/${at[1]}`),
    },
  };
}

describe("LE13 every number of a forecast has a trace that replays", () => {
  test("by the demo's past", () => {
    const lines = demoHistory();
    const { covers: of, course: dishes } = both(lines, service.covers);
    expect(of.told.services).toBeGreaterThan(2);
    expect(unproved(of.told, COVERS_AT, of.nodes, lines)).toEqual([]);
    expect(unproved(dishes.told, courseAt(course.id), dishes.nodes, lines)).toEqual([]);
  });

  test("by pasts drawn by chance, none among them, alike and far apart", () => {
    const seen = { none: 0, apart: 0, alike: 0 };
    for (let seed = 1; seed <= 60; seed++) {
      const lines = past(seed);
      const { covers: of, course: dishes } = both(lines, 40 + seed);
      expect(unproved(of.told, COVERS_AT, of.nodes, lines), `${seed}`).toEqual([]);
      expect(unproved(dishes.told, courseAt(course.id), dishes.nodes, lines), `${seed}`).toEqual([]);
      if (lines.length === 0) seen.none++;
      else seen[dishes.told.dispersion > 1 ? "apart" : "alike"]++;
    }
    for (const [what, times] of Object.entries(seen)) expect(times, what).toBeGreaterThan(2);
  });

  test("a number that is off is found", () => {
    const lines = demoHistory();
    const { covers: of, course: dishes } = both(lines, service.covers);
    expect(unproved({ ...of.told, low: of.told.low + 1 }, COVERS_AT, of.nodes, lines)).toHaveLength(1);
    const bent = { ...dishes.told, came: dishes.told.came + 1 };
    expect(unproved(bent, courseAt(course.id), dishes.nodes, lines)).toHaveLength(1);
  });
});
