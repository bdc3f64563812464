import { describe, expect, test } from "vitest";
import { changed, cut, ingredient, kg, SMALL_BOOK } from "../../tests/small-book.ts";
import { parseBook } from "../book/parse.ts";
import type { Book } from "../book/schema.ts";
import { inspect } from "../inspection/index.ts";
import { replayTrace } from "./replay.ts";
import type { Result } from "./result.ts";
import { run } from "./run.ts";

const OPTIONS = { plan: false } as const;

/** The small book, in which swede costs next to nothing and may stand in for celeriac in the vegan soup alone. */
function withSwede(more: object = {}, price = "0.10", said: object = {}) {
  return changed((book) => {
    book.ingredients.push(ingredient("swede", { cuts: [cut("peeled", 0.85)], ...more }));
    book.suppliers[0]!.offers!.push({
      ...{ id: "v-swede", ingredient: "swede", inner: kg(1), innerPerPack: 1, price },
    });
    book.services[0]!.kitchen = "fell";
    const soup = book.preparations.find(({ id }) => id === "soup-oat")!;
    soup.lines[0]!.substitutes = [
      { ingredient: "swede", cut: "peeled", factor: 1.25, when: "cheaper", ...said },
    ];
  });
}

/** What the inspector finds, but that there is no plan. */
const judged = (book: Book, result: Result) =>
  inspect(book, result, { service: "small" }).findings.filter(({ rule }) => rule !== "status");

function ran(input: ReturnType<typeof withSwede>) {
  const read = parseBook(input);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const book = read.value;
  const result = run(book, "small", OPTIONS);
  const lines = result.orders.flatMap((order) => order.lines);
  return {
    ...{ book, result, lines },
    bought: (id: string) =>
      lines.filter((line) => line.ingredient === id).reduce((sum, line) => sum + line.bought.value, 0),
    findings: () => judged(book, result),
  };
}

describe("O12 a substitute in one line alone", () => {
  const plain = ran(structuredClone(SMALL_BOOK) as ReturnType<typeof withSwede>);
  const swede = ran(withSwede());

  test("is bought for that line and for no other, at its ratio; the order says where", () => {
    const line = swede.lines.find((each) => each.ingredient === "swede")!;
    expect(line.insteadOf).toEqual({
      ...{ ingredient: "celeriac", name: "celeriac", when: "cheaper" },
      lines: [{ preparation: "soup-oat", line: "celeriac" }],
    });
    const needs = swede.result.needs.find(({ preparation }) => preparation === "soup-oat")!;
    // 1 kg peeled celeriac makes 2 kg of soup; 1.25 g of peeled swede for a gram, at a trim yield of 0.85.
    const swedeG = ((needs.amount.value / 2) * 1.25) / 0.85;
    expect(swede.bought("swede")).toBe(Math.ceil(swedeG / 1000) * 1000);
    // The other soup still has all its own celeriac, though swede costs next to nothing.
    const other = swede.result.needs.find(({ preparation }) => preparation === "soup")!;
    expect(swede.bought("celeriac")).toBeGreaterThanOrEqual(other.amount.value / 2 / 0.8 - 1e-6);
    expect(swede.bought("celeriac")).toBeLessThanOrEqual(plain.bought("celeriac"));
  });

  test("every number replays, the inspector finds nothing", () => {
    expect(replayTrace(swede.book, swede.result, OPTIONS)).toEqual([]);
    expect(swede.findings()).toEqual([]);
  });

  test("the inspector tells when it serves another line, or one that does not allow it", () => {
    const line = swede.lines.find((each) => each.ingredient === "swede")!;
    const bent = (lines: { preparation: string; line: string }[] | undefined) => {
      const result = structuredClone(swede.result);
      const mine = result.orders.flatMap((order) => order.lines).find((each) => each.offer === line.offer)!;
      const { lines: _, ...rest } = mine.insteadOf!;
      Object.assign(mine, { insteadOf: lines ? { ...rest, lines } : rest });
      return judged(swede.book, result).map(({ rule }) => rule);
    };
    expect(bent(line.insteadOf!.lines as { preparation: string; line: string }[])).toEqual([]);
    expect(bent([{ preparation: "soup", line: "celeriac" }])).toContain("order");
    expect(bent(undefined)).toContain("order");
    // Swede for everything, none of the celeriac: too little for the other soup.
    const result = structuredClone(swede.result);
    for (const order of result.orders) {
      const mine = order.lines.find((each) => each.ingredient === "swede");
      if (mine) Object.assign(mine, { packs: 50 });
      Object.assign(order, { lines: order.lines.filter((each) => each.ingredient !== "celeriac") });
    }
    expect(
      judged(swede.book, result)
        .map(({ what }) => what)
        .join(),
    ).toMatch(/celeriac/);
  });

  test("costs less than without; dearer or not missing, it is not taken", () => {
    const total = (of: typeof swede) => of.result.orders.reduce((sum, order) => sum + Number(order.total), 0);
    expect(total(swede)).toBeLessThanOrEqual(total(plain));
    expect(ran(withSwede({}, "50.00")).bought("swede")).toBe(0);
    expect(ran(withSwede({}, "0.10", { when: "missing" })).bought("swede")).toBe(0);
  });

  test("one that brings an allergen or an origin is refused in words, and no plate changes", () => {
    for (const more of [
      { allergens: { status: "known", contains: ["celery"] } },
      { allergens: { status: "unknown" } },
      { origin: ["meat"] },
    ]) {
      const of = ran(withSwede(more));
      expect(of.bought("swede")).toBe(0);
      expect(of.result.warnings.map(({ path, what }) => `${path} ${what}`).join()).toMatch(
        /\/lines\/0\/substitutes\/0 swede never stands in for celeriac/,
      );
    }
    expect(swede.result.allergens).toEqual(plain.result.allergens);
    expect(swede.result.plates).toEqual(plain.result.plates);
  });

  test("what is not there, or stands in for a preparation, is refused with the place", () => {
    const paths = (said: object) => {
      const read = parseBook(withSwede({}, "0.10", said));
      return read.ok ? [] : read.problems.map(({ path }) => path);
    };
    expect(paths({ ingredient: "sweed" })).toEqual(["/preparations/7/lines/0/substitutes/0/ingredient"]);
    const book = changed((input) => {
      input.preparations[1]!.lines[0]!.substitutes = [{ ingredient: "salt" }];
    });
    const read = parseBook(book);
    expect(read.ok ? [] : read.problems.map(({ path }) => path)).toEqual([
      "/preparations/1/lines/0/substitutes",
    ]);
  });
});
