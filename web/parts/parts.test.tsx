import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { Plan, PlanTask } from "../../core/run/result.ts";
import { tightTasks } from "../../drawing/index.ts";
import { draw } from "../../drawing/tree.ts";
import { words } from "../../words/catalogue.ts";
import type { Names } from "../app/names.ts";
import { readSearch } from "../app/search.ts";
import { judge, limitOf } from "../places/log/limit.ts";
import { readMoment } from "../places/run/service-entries.tsx";
import { readTyped } from "./amount-entry.tsx";
import { Drawing } from "./drawing.tsx";
import { idOf } from "./id-of.ts";
import { pathWords } from "./path-words.ts";
import { isMark, searchWords } from "./search-words.ts";

describe("typed amounts", () => {
  it("A3 reads what a cook writes; a bare number keeps its unit", () => {
    expect(readTyped("1 3/4 cup", "g")).toEqual({ amount: { value: "1 3/4", unit: "cup" } });
    expect(readTyped("250", "g")).toEqual({ amount: { value: 250, unit: "g" } });
    expect(readTyped("1,5 kg", "g")).toMatchObject({ amount: { unit: "kg" } });
    expect(readTyped("½", "cup")).toMatchObject({ amount: { unit: "cup" } });
  });
  it("A3 refuses what is no single amount", () => {
    expect(readTyped("", "g")).toEqual({ wrong: "empty" });
    expect(readTyped("a splash", "g")).toHaveProperty("wrong");
    expect(readTyped("250 g flour", "g")).toHaveProperty("wrong");
    expect(readTyped("2-3 tbsp", "g")).toHaveProperty("wrong");
    expect(readTyped("12 bananas", "g")).toHaveProperty("wrong");
  });
});

describe("moments, ids, addresses", () => {
  it("A3 reads a moment of the calendar and no other", () => {
    expect(readMoment("2027-01-30 19:30")).toBe("2027-01-30T19:30");
    expect(readMoment("2027-01-30T9:05")).toBe("2027-01-30T09:05");
    expect(readMoment("2027-02-30 19:30")).toBeUndefined();
    expect(readMoment("2027-01-30 24:30")).toBeUndefined();
    expect(readMoment("tomorrow")).toBeUndefined();
  });
  it("makes ids of names", () => {
    expect(idOf("Crème fraîche, 30 %")).toBe("creme-fraiche-30");
    expect(idOf("…")).toBe("");
  });
  it("leaves out of an address what makes no sense", () => {
    expect(readSearch({ service: "x", covers: "80", kitchen: 3 })).toEqual({
      service: "x",
      covers: 80,
      kitchen: undefined,
    });
    expect(readSearch({ covers: "-4" }).covers).toBeUndefined();
    expect(readSearch({ covers: "7.5" }).covers).toBeUndefined();
  });
});

describe("limits", () => {
  type Part = Parameters<typeof limitOf>[0]["parts"][number];
  const core = (op: Part["op"], value: number, withinMin?: number): Part => ({
    ...{ what: "coreC", op, value },
    ...(withinMin === undefined ? {} : { withinMin }),
  });
  const judged = (value: number, minutes: number, ...parts: Part[]) =>
    judge(value, limitOf({ parts })!, minutes);
  it("knows on which side harm lies, and takes the strictest of several", () => {
    expect(judged(62.9, 0, core(">=", 63))).toBe("beyond");
    expect(judged(63, 0, core(">=", 63))).toBe("within");
    expect(judged(63, 0, core(">", 63))).toBe("beyond");
    expect(judged(63.1, 0, core("<=", 63))).toBe("beyond");
    expect(judged(64, 0, core(">=", 63), core(">=", 74))).toBe("beyond");
  });
  it("judges what the trade adds by its parts: two stages of cooling (Food Code 3-501.14)", () => {
    const cooling = [core("<=", 21, 120), core("<=", 5, 360)];
    expect(judged(40, 0, ...cooling)).toBe("on the way");
    expect(judged(21, 120, ...cooling)).toBe("on the way");
    expect(judged(22, 120, ...cooling)).toBe("beyond");
    expect(judged(5, 300, ...cooling)).toBe("within");
    expect(judged(6, 360, ...cooling)).toBe("beyond");
    expect(judged(30, 0, core("<=", 5), ...cooling)).toBe("on the way");
    expect(judged(60, 10, core(">=", 74, 120))).toBe("on the way");
    expect(judged(60, 120, core(">=", 74, 120))).toBe("beyond");
  });
  it("holds no reading against a document or a log reduction", () => {
    expect(limitOf({ parts: [] })).toBeUndefined();
    expect(limitOf({ parts: [{ what: "log10", op: ">=", value: 6.5 }] })).toBeUndefined();
  });
});

describe("tight tasks", () => {
  const task = (id: string, slackMin: number, hold?: PlanTask["hold"]) =>
    ({ id, kind: "work", slackMin, startMin: 0, ...(hold ? { hold } : {}) }) as PlanTask;
  const plan = (tasks: PlanTask[]) => ({ tasks }) as unknown as Plan;
  const easy = ["a", "b", "c", "d", "e"].map((id) => task(id, 60));
  it("names those with little slack, and those whose hold is nearly used", () => {
    const held = task("h", 90, { state: "hot", maxMin: 60, usedMin: 58 });
    expect(tightTasks(plan([...easy, task("x", 3), held]), 15).map((t) => t.id)).toEqual(["x", "h"]);
  });
  it("a mark most tasks would carry is left out", () => {
    expect(tightTasks(plan(easy), 90)).toEqual([]);
  });
});

describe("words for a path", () => {
  const names = {
    preparation: (id: string) => id.toUpperCase(),
    item: (id: string) => id,
    dish: (id: string) => id,
    ingredient: (id: string) => id,
  } as unknown as Names;
  const book = {
    preparations: [
      { name: "Velouté", lines: [{ item: { ingredient: "celeriac" }, amount: { value: 1200 } }] },
    ],
  };
  const result = { needs: [{ preparation: "veloute", name: "Velouté", amount: { value: 1 } }] };
  const known = { book, result, names } as never;
  it("A5 names every step that has a name, and the field", () => {
    expect(pathWords("book:/preparations/0/lines/0/amount/value", known)).toBe("Velouté, celeriac, amount");
    expect(pathWords("/needs/0/amount/value", known)).toBe("Velouté, amount");
    expect(pathWords("calc:/plates/withSpare", known)).toBe("plates, with spare");
  });
});

describe("what a plan was found from", () => {
  const { say } = words("en");
  it("A5 tells in words what the search was given, and no number that only marks it", () => {
    expect(searchWords("calc:/plan/problem", say)).toBe("the tasks, hands and equipment of this service");
    expect(searchWords("calc:/plan/asked", say)).toBe("plans the search may try");
    expect(searchWords("const:/number/12", say)).toBe("place in the list");
    expect(searchWords("/needs/0/amount/value", say)).toBeUndefined();
    expect(["calc:/plan/problem", "calc:/plan/asked", "/plan/seed"].map(isMark)).toEqual([
      true,
      false,
      false,
    ]);
  });
});

describe("drawing on the page", () => {
  it("writes SVG that React knows, text escaped", () => {
    const html = renderToStaticMarkup(
      <Drawing
        of={draw("svg", { viewBox: "0 0 1 1", "stroke-width": 2 }, draw("text", { "data-task": "t" }, "<b>"))}
      />,
    );
    expect(html).toBe('<svg viewBox="0 0 1 1" stroke-width="2"><text data-task="t">&lt;b&gt;</text></svg>');
  });
});
