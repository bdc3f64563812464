import { describe, expect, test } from "vitest";
import { bookJsonSchema, parseBook, parseBookText } from "./index.ts";

const salt = {
  id: "sea-salt",
  name: "Sea salt",
  allergens: { status: "known" },
  origin: ["mineral"],
  storage: { state: "ambient", days: 700 },
};
const step = { id: "mix", name: "Mix", text: "Mix." };
const prep = (id: string, item: object, more: object = {}) => ({
  id,
  name: id,
  yield: { amount: { value: 100, unit: "g" } },
  lines: [{ id: "a", item, amount: { value: 100, unit: "g" }, step: "mix" }],
  steps: [step],
  ...more,
});
const book = (more: object) => ({ format: "tournant-book", version: 1, ingredients: [salt], ...more });
const problems = (json: unknown) => {
  const read = parseBook(json);
  return read.ok ? [] : read.problems;
};

describe("book", () => {
  test("B1 a book with a preparation is read, defaults filled", () => {
    const read = parseBook(book({ preparations: [prep("brine", { ingredient: "sea-salt" })] }));
    expect(read).toMatchObject({
      ok: true,
      value: { preparations: [{ yield: { tolerance: 0.02 }, batch: { policy: "even" } }] },
    });
  });

  test("B1 anything else is refused in words, not thrown", () => {
    for (const json of [
      null,
      3,
      [],
      {},
      { format: "x" },
      { format: "tournant-book", version: 2 },
      { format: "tournant-book", version: "1" },
    ]) {
      const found = problems(json);
      expect(found.length).toBeGreaterThan(0);
      for (const p of found) expect(p.mend).not.toBe("");
    }
    const text = parseBookText("{ not json");
    expect(text.ok).toBe(false);
  });

  test("B2 an unknown field is refused with its path", () => {
    expect(
      problems(book({ preparations: [prep("brine", { ingredient: "sea-salt" }, { colour: "grey" })] })),
    ).toEqual([
      {
        path: "/preparations/0/colour",
        what: 'the field "colour" is not known here',
        mend: "correct its spelling or take it out",
      },
    ]);
  });

  test("B2 a missing and a wrong value are told with path and mend", () => {
    const wrong = { ...salt, name: 7, storage: { state: "warm", days: 3 }, origin: undefined };
    const paths = problems(book({ ingredients: [wrong] })).map((p) => p.path);
    expect(paths.sort()).toEqual([
      "/ingredients/0/name",
      "/ingredients/0/origin",
      "/ingredients/0/storage/state",
    ]);
  });

  test("B3 references that lead nowhere and ids that stand twice are refused", () => {
    const found = problems(
      book({
        preparations: [prep("brine", { ingredient: "sea-sal" }), prep("brine", { ingredient: "sea-salt" })],
      }),
    );
    expect(found.map((p) => p.path)).toEqual([
      "/preparations/1/id",
      "/preparations/0/lines/0/item/ingredient",
    ]);
    expect(found[1]!.mend).toContain('"sea-salt"');
  });

  test("B3 a line taken away by name is one of the preparation, already in the food, and named once", () => {
    const taken = (...lines: string[]) =>
      problems(
        book({
          preparations: [
            prep(
              "baked",
              { ingredient: "sea-salt" },
              {
                steps: [
                  {
                    ...{ ...step, id: "early" },
                    discard: {
                      ...{ factor: 0.5, as: "trim" },
                      lines: lines.map((line) => ({ line, takenUp: 0 })),
                    },
                  },
                  { ...step, from: ["early"] },
                ],
              },
            ),
          ],
        }),
      ).map(({ path, what }) => [path.split("/discard")[1], what]);
    expect(taken("b")).toEqual([["/lines/0/line", 'there is no line "b"']]);
    expect(taken("a")).toEqual([["/lines/0/line", '"a" is not yet in the food at step "early"']]);
    expect(taken("a", "a").at(-1)).toEqual(["/lines/1/line", '"a" is taken away twice in this step']);
    const fat = {
      ...step,
      discard: { factor: 0.5, as: "fat", lines: [{ line: "a", takenUp: 0 }] },
    };
    const found = problems(
      book({ preparations: [prep("off", { ingredient: "sea-salt" }, { steps: [fat] })] }),
    );
    expect(found.map(({ path }) => path)).toEqual(["/preparations/0/steps/0/discard/lines"]);
  });

  test("B4 a circle of preparations is refused with the whole path", () => {
    const found = problems(
      book({
        preparations: [
          prep("a", { preparation: "b" }),
          prep("b", { preparation: "c" }),
          prep("c", { preparation: "a" }),
        ],
      }),
    );
    expect(found[0]!.what).toBe("preparations turn in a circle: a > b > c > a");
  });

  test("B4 a very deep chain of preparations is read", () => {
    const chain = Array.from({ length: 20_000 }, (_, i) =>
      prep(`p-${i}`, i === 0 ? { ingredient: "sea-salt" } : { preparation: `p-${i - 1}` }),
    );
    expect(parseBook(book({ preparations: chain.reverse() })).ok).toBe(true);
  });

  test("B5 export and import give the same book", () => {
    const read = parseBook(book({ preparations: [prep("brine", { ingredient: "sea-salt" })] }));
    if (!read.ok) throw new Error("not read");
    const again = parseBookText(JSON.stringify(read.value));
    expect(again).toEqual(read);
  });

  test("B2 the published JSON Schema comes from the same source", () => {
    const schema = bookJsonSchema() as { properties: Record<string, unknown> };
    expect(Object.keys(schema.properties)).toContain("preparations");
  });
});
