import { describe, expect, test } from "vitest";
import { boundsProblems } from "./bounds.ts";
import { parseBook, parseBookText, parseDocument } from "./index.ts";

const salt = {
  id: "sea-salt",
  name: "Sea salt",
  allergens: { status: "known" },
  origin: ["mineral"],
  storage: { state: "ambient", days: 700 },
};
const prep = (id: string, item: object) => ({
  id,
  name: id,
  yield: { amount: { value: 100, unit: "g" } },
  lines: [{ id: "a", item, amount: { value: 100, unit: "g" }, step: "mix" }],
  steps: [{ id: "mix", name: "Mix", text: "Mix." }],
});
const book = (more: object) => ({ format: "tournant-book", version: 1, ingredients: [salt], ...more });
const problems = (json: unknown) => {
  const read = parseBook(json);
  return read.ok ? [] : read.problems;
};
const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;

describe("hostile books", () => {
  test("B8 nesting without end is refused with its path, wherever it stands", () => {
    for (const text of [
      deep,
      `{"format":${deep},"version":1}`,
      `{"format":"tournant-book","version":1,"ingredients":[${deep}]}`,
      `{"format":"tournant-book","version":1,"preparations":[{"lines":[{"item":${deep},"amount":{"value":1,"unit":${deep}}}]}]}`,
    ]) {
      const read = parseBookText(text);
      expect(read.ok).toBe(false);
      if (!read.ok) for (const one of read.problems) expect(one.mend).not.toBe("");
    }
    const read = parseDocument("ingredients", { ...salt, notes: JSON.parse(deep) });
    expect(read).toMatchObject({ ok: false, problems: [{ what: "this is nested too deep" }] });
  });

  test("B8 numbers beyond all use are refused, also those JSON reads as infinite", () => {
    const text = JSON.stringify(book({ preparations: [prep("brine", { ingredient: "sea-salt" })] }));
    for (const number of ["1e999", "-1e999", "1e308", "1000000001"]) {
      const read = parseBookText(text.replace('"days":700', `"days":${number}`));
      expect(read).toMatchObject({ ok: false, problems: [{ path: "/ingredients/0/storage/days" }] });
    }
    expect(parseBookText(text.replace('"days":700', '"days":1000000000')).ok).toBe(true);
  });

  test("B8 characters that hide or turn a text are refused; other scripts and line ends are not", () => {
    for (const name of ["salt\u202Edoof", "\u2066x\u2069", "a\u0000b", "\u001b[31mred", "\ud800", "\u009b2J"])
      expect(problems(book({ ingredients: [{ ...salt, name }] }))).toMatchObject([
        { path: "/ingredients/0/name" },
      ]);
    for (const name of [
      "ملح البحر",
      "מלח\u200f",
      "海塩",
      "sel\n\tde mer",
      "🧂",
      "jalapen\u0303o",
      "👩\u200d🍳",
    ])
      expect(problems(book({ ingredients: [{ ...salt, name }] }))).toEqual([]);
  });

  test("B8 a field's name is judged like a text, a text has an end", () => {
    expect(problems(book({ "\u001b[2J": 1 }))[0]!.what).toContain("U+001B");
    expect(problems(book({ ingredients: [{ ...salt, notes: "x".repeat(20_001) }] }))).toMatchObject([
      { path: "/ingredients/0/notes" },
    ]);
    expect(problems(book({ ingredients: [{ ...salt, notes: "x".repeat(20_000) }] }))).toEqual([]);
  });

  test("B8 problems come in the order of the file, a hundred at most", () => {
    const found = boundsProblems(
      Array.from({ length: 500 }, (_, i) => (i % 2 === 0 ? "\u0000" : ["\u0000"])),
    );
    expect(found).toHaveLength(100);
    expect(found.slice(0, 3).map((one) => one.path)).toEqual(["/0", "/1/0", "/2"]);
  });

  test("B2 names that objects carry by nature are fields like others", () => {
    const text = JSON.stringify(book({})).replace(
      '"id":',
      '"__proto__":{"polluted":1},"constructor":1,"id":',
    );
    const read = parseBookText(text);
    expect(read.ok ? [] : read.problems.map((one) => one.path).sort()).toEqual([
      "/ingredients/0/__proto__",
      "/ingredients/0/constructor",
    ]);
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });

  test("B3 a large book that is wrong everywhere is refused within seconds", { timeout: 10_000 }, () => {
    const many = (item: (i: number) => object) =>
      book({ preparations: Array.from({ length: 30_000 }, (_, i) => prep(`p${i}`, item(i))) });
    expect(problems(many((i) => ({ preparation: `q${i}` })))).toHaveLength(100);
    expect(problems(book({ preparations: Array.from({ length: 30_000 }, () => ({})) }))).toHaveLength(100);
  });

  test("B8 days that are in no calendar are refused", () => {
    const at = (day: string) => parseDocument("services", { ...service, at: `${day}T19:30` });
    const service = {
      ...{ id: "s", name: "S", menu: "m", kitchen: "k", horizon: "D-1 08:00" },
      ...{ covers: 2, priceAsOf: "2027-01-01" },
    };
    for (const day of ["2027-02-31", "2027-02-29", "0000-01-01", "9999-12-31", "2027-13-01"])
      expect(at(day)).toMatchObject({ ok: false, problems: [{ path: "/at" }] });
    expect(at("2028-02-29").ok).toBe(true);
  });

  test("B4 of a very long circle its beginning and end are named", () => {
    const circle = Array.from({ length: 5000 }, (_, i) =>
      prep(`p${i}`, { preparation: `p${(i + 1) % 5000}` }),
    );
    const what = problems(book({ preparations: circle }))[0]!.what;
    expect(what.length).toBeLessThan(1000);
    expect(what).toContain("p0 > p1");
    expect(what).toContain("p4999 > p0");
  });

  test("B4 paths that double forty times are read", () => {
    const doubled = Array.from({ length: 40 }, (_, i) => {
      const item = i === 0 ? { ingredient: "sea-salt" } : { preparation: `d${i - 1}` };
      const one = prep(`d${i}`, item);
      return { ...one, lines: [one.lines[0], { ...one.lines[0], id: "b" }] };
    });
    expect(problems(book({ preparations: doubled }))).toEqual([]);
  });
});
