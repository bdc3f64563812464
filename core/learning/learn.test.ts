import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cut, ingredient, step } from "../../tests/small-book.ts";
import { PreparationSchema } from "../formula/schema.ts";
import { Random } from "../numerics/random.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import type { LogLine } from "../safety/log-lines.ts";
import type { Documents } from "./figures.ts";
import { fitTo } from "./fit.ts";
import { type Estimate, learn } from "./learn.ts";
import { withLearned } from "./overlay.ts";
import { priorOf } from "./prior.ts";
import { LOGIT } from "./scale.ts";
import { LEARNING_BODIES, type LearningBody } from "./schema.ts";

const work = {
  fixedMin: 4,
  perKgMin: 10,
  hands: { least: 1, most: 2, split: "divides" },
  skill: "prep",
  station: "larder",
} as const;
const docs: Documents = {
  ingredients: [
    IngredientSchema.parse(
      ingredient("celeriac", {
        cuts: [
          cut("peeled", 0.75),
          { ...cut("diced", 0.6), source: { doc: "a handbook", kind: "published" } },
          cut("whole", 1),
        ],
        pieces: [{ name: "head", g: 900, source: { doc: "remembered", kind: "memory" } }],
      }),
    ),
  ],
  preparations: [
    PreparationSchema.parse({
      id: "puree",
      name: "Purée",
      yield: { amount: { value: 1, unit: "kg" } },
      lines: [
        {
          id: "root",
          item: { ingredient: "celeriac", cut: "peeled" },
          amount: { value: 1, unit: "kg" },
          step: "steam",
        },
      ],
      steps: [
        step("steam", {
          change: { factor: 0.9, as: "evaporated", source: { doc: "remembered", kind: "memory" } },
          discard: { factor: 0.1, as: "strain" },
          work,
        }),
      ],
    }),
  ],
};

let count = 0;
const id = () => `00000000-0000-4000-8000-${String(++count).padStart(12, "0")}`;
const line = (body: LearningBody, more: Partial<LogLine> = {}): LogLine => ({
  id: id(),
  service: "s",
  at: `2027-02-${String(1 + (count % 27)).padStart(2, "0")}T10:00:${String(count % 60).padStart(2, "0")}Z`,
  by: "Ansa",
  body,
  ...more,
});
const trim = (yieldOf: number, more: Partial<LogLine> = {}, part = "peeled") =>
  line({ kind: "trim", ingredient: "celeriac", cut: part, apG: 1000, epG: 1000 * yieldOf }, more);
const only = (lines: LogLine[]): Estimate => {
  const found = learn(docs, lines);
  expect(found).toHaveLength(1);
  return found[0]!;
};

describe("learning", () => {
  it("LE3 an invented figure gives way to the first lots, a published one holds out longer", () => {
    const invented = only([trim(0.5), trim(0.5)]);
    const published = only([trim(0.5, {}, "diced"), trim(0.5, {}, "diced")]);
    expect(invented.value).toBeLessThan(0.56);
    expect(published.value).toBeGreaterThan(0.55);
    expect(published.value).toBeLessThan(0.6);
    expect(invented.prior).toEqual({ value: 0.75, source: "invented", lots: 0.5 });
  });

  it("LE3 with one cook the estimate is the weighted mean on the logit scale, worked by hand", () => {
    const { value, n, cooks } = only([trim(0.7), trim(0.8)]);
    const logit = (y: number) => Math.log(y / (1 - y));
    const y = (0.5 * logit(0.75) + logit(0.7) + logit(0.8)) / 2.5;
    expect(value).toBeCloseTo(1 / (1 + Math.exp(-y)), 3);
    expect([n, cooks.length]).toEqual([2, 1]);
  });

  it("LE3 the estimate lies between the book and what was measured, and nears it with every lot", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 0.97, noNaN: true }), (truth) => {
        let before = Math.abs(0.75 - truth) + 1e-3;
        for (const lots of [1, 4, 16, 64]) {
          const { value } = only(Array.from({ length: lots }, () => trim(truth)));
          const distance = Math.abs(value - truth);
          expect(distance).toBeLessThanOrEqual(before + 1e-3);
          expect(value).toBeGreaterThanOrEqual(Math.min(0.75, truth) - 1e-3);
          expect(value).toBeLessThanOrEqual(Math.max(0.75, truth) + 1e-3);
          before = distance;
        }
        expect(before).toBeLessThan(0.01);
      }),
      { numRuns: 30 },
    );
  });

  it("LE2 each cook has a figure of his own, drawn towards the kitchen's; few lots are drawn further", () => {
    const lines = [
      ...Array.from({ length: 12 }, (_, i) => trim(0.8 + (i % 3) * 0.01, { by: "Ansa" })),
      ...Array.from({ length: 12 }, (_, i) => trim(0.68 + (i % 3) * 0.01, { by: "Jon" })),
      trim(0.6, { by: "Mira" }),
    ];
    const { cooks, value } = only(lines);
    const of = (by: string) => cooks.find((cook) => cook.by === by)!;
    expect(of("Ansa").value).toBeCloseTo(0.81, 1);
    expect(of("Jon").value).toBeCloseTo(0.69, 1);
    expect(of("Mira").value - 0.6).toBeGreaterThan(of("Jon").value - 0.69);
    expect(of("Mira").known).toBeGreaterThan(of("Jon").known);
    expect(value).toBeGreaterThan(of("Jon").value);
    expect(value).toBeLessThan(of("Ansa").value);
  });

  it("LE4 nine lots in ten lie in the interval of the next lot, over many invented kitchens", () => {
    const random = Random.of("kitchens");
    const normal = () => random.normal();
    const stated = { value: 0.75, source: "memory", scale: LOGIT, lotSpread: 0.25 } as const;
    const prior = priorOf({ ...stated, figure: { kind: "cut", of: "", part: "" } });
    for (const cooks of [1, 3]) {
      let inside = 0;
      const kitchens = 400;
      for (let k = 0; k < kitchens; k++) {
        const spread = 0.2 + 0.1 * random.next();
        const mean = prior.mean + (normal() * spread) / Math.sqrt(prior.meanCount);
        const own = Array.from({ length: cooks }, () => mean + normal() * 0.1);
        const seen = Array.from({ length: 9 }, (_, i) => ({
          y: own[i % cooks]! + normal() * spread,
          by: `cook ${i % cooks}`,
        }));
        const { next } = fitTo(prior, seen);
        const y = own[k % cooks]! + normal() * spread;
        // 1.812 at 10 degrees of freedom, 1.782 at 12 and more: the printed 95 % points.
        if (Math.abs(y - next.mean) < (next.nu < 11 ? 1.812 : 1.771) * next.scale) inside++;
      }
      // Three standard deviations of 400 draws at 0.9 are 4.5 points.
      expect(inside / kitchens).toBeGreaterThan(0.855);
      expect(inside / kitchens).toBeLessThan(0.955);
    }
  });

  it("LE5 an odd lot is asked about, counts until someone says otherwise, and is never dropped", () => {
    const lines = [0.74, 0.76, 0.75, 0.73, 0.77, 0.75, 0.76, 0.74].map((y) => trim(y));
    const odd = trim(0.38);
    const with_ = only([...lines, odd]);
    expect(with_.measured.filter(({ asked }) => asked).map((m) => m.observation.entry)).toEqual([odd.id]);
    expect(with_.n).toBe(9);
    expect(with_.value).toBeLessThan(0.73);
    const said = line({ kind: "judged", entry: odd.id, counts: false, reason: "the other cut" });
    const without = only([...lines, odd, said]);
    expect(without.n).toBe(8);
    expect(without.value).toBeCloseTo(only(lines).value, 10);
    expect(without.measured.find((m) => m.observation.entry === odd.id)).toMatchObject({
      leftOut: "the other cut",
      asked: false,
    });
    const kept = only([...lines, odd, line({ kind: "judged", entry: odd.id, counts: true })]);
    expect(kept.measured.some(({ asked }) => asked)).toBe(false);
    expect(kept.value).toBe(with_.value);
  });

  it("LE6 a correction counts in place of what it corrects; the first value stays in the log", () => {
    const first = trim(0.38);
    const right = trim(0.78, { corrects: first.id, at: "2027-03-01T10:00:00Z" });
    const corrected = only([first, right]);
    expect(corrected.n).toBe(1);
    expect(corrected.measured[0]!.observation).toMatchObject({ entry: first.id, value: 0.78 });
    const again = trim(0.79, { corrects: right.id, at: "2027-03-02T10:00:00Z" });
    expect(only([first, right, again]).measured[0]!.observation.value).toBe(0.79);
  });

  it("LE7 what was accepted is not learned from twice", () => {
    const lines = [0.7, 0.68, 0.71].map((y) => trim(y));
    const learned = only(lines);
    const book = withLearned(docs, [learned]);
    expect(book.ingredients[0]!.cuts[0]).toMatchObject({
      trimYield: learned.value,
      source: { kind: "measured" },
    });
    const accepted = line(
      {
        kind: "accepted",
        figure: "cut/celeriac/peeled",
        from: 0.75,
        to: learned.value,
        sourceBefore: "invented",
        n: 3,
      },
      { at: "2027-03-01T10:00:00Z" },
    );
    const after = learn(book, [...lines, accepted])[0]!;
    expect(after.value).toBe(learned.value);
    expect(after.was).toBe(learned.value);
    // Someone writes another figure by hand: measuring starts anew from it.
    const byHand = {
      ...book,
      ingredients: [
        { ...book.ingredients[0]!, cuts: [{ ...book.ingredients[0]!.cuts[0]!, trimYield: 0.9 }] },
      ],
    };
    expect(learn(byHand, [...lines, accepted])).toEqual([]);
  });

  it("LE7 times are learned against what was planned when they were taken", () => {
    const time = (plannedMin: number, actualMin: number, at: string) =>
      line({ kind: "time", preparation: "puree", step: "steam", plannedMin, actualMin }, { at });
    const lines = [time(20, 30, "2027-02-01T10:00:00Z"), time(10, 15, "2027-02-02T10:00:00Z")];
    const learned = only(lines);
    expect(learned.was).toBe(1);
    expect(learned.value).toBeGreaterThan(1.2);
    const book = withLearned(docs, [learned]);
    const now = book.preparations[0]!.steps[0]!.work!;
    expect(now.perKgMin).toBeCloseTo(10 * learned.value, 2);
    const accepted = line(
      {
        kind: "accepted",
        figure: "work/puree/steam",
        from: 1,
        to: learned.value,
        sourceBefore: "memory",
        n: 2,
        work: { fixedMin: now.fixedMin, perKgMin: now.perKgMin },
      },
      { at: "2027-02-03T10:00:00Z" },
    );
    expect(learn(book, [...lines, accepted])[0]!.value).toBeCloseTo(1, 3);
    // The next time is as long as the first ones were, and is planned so by now: nothing changes.
    const next = time(20 * learned.value, 20 * 1.5, "2027-02-04T10:00:00Z");
    const later = learn(book, [...lines, accepted, next])[0]!;
    expect(later.value * learned.value).toBeCloseTo(
      only([...lines, time(20, 30, "2027-02-04T10:00:00Z")]).value,
      3,
    );
  });

  it("LE8 a cook tells the step's own change, before what is strained off", () => {
    const learned = only([
      line({ kind: "cook", preparation: "puree", step: "steam", inG: 1000, outG: 720 }),
      line({ kind: "cook", preparation: "puree", step: "steam", inG: 2000, outG: 1440 }),
    ]);
    for (const { value } of learned.measured) expect(value).toBeCloseTo(0.8, 12);
    const change = withLearned(docs, [learned]).preparations[0]!.steps[0]!.change;
    expect(change).toMatchObject({ factor: learned.value, source: { kind: "measured" } });
    expect(docs.preparations[0]!.steps[0]!.change).toMatchObject({ factor: 0.9 });
  });

  it("LE8 an overlay is a book as any other, and without estimates the same one", () => {
    const learned = learn(docs, [
      trim(0.7),
      line({ kind: "pieces", ingredient: "celeriac", piece: "head", g: 4200, pieces: 5 }),
      line({ kind: "time", preparation: "puree", step: "steam", plannedMin: 20, actualMin: 24 }),
      line({ kind: "cook", preparation: "puree", step: "steam", inG: 1000, outG: 700 }),
    ]);
    expect(learned).toHaveLength(4);
    const book = withLearned(docs, learned);
    expect(IngredientSchema.parse(book.ingredients[0])).toEqual(book.ingredients[0]);
    expect(PreparationSchema.parse(book.preparations[0])).toEqual(book.preparations[0]);
    expect(book.ingredients[0]!.cuts[0]!.spread).toBeGreaterThan(0);
    expect(book.preparations[0]!.steps[0]!.work!.spread).toBeGreaterThan(0);
    expect(withLearned(docs, [])).toEqual(docs);
  });

  it("LE9 what the book does not have, and a cut that throws nothing away, is not learned", () => {
    expect(learn(docs, [trim(0.7, {}, "gone"), trim(0.99, {}, "whole")])).toEqual([]);
    expect(learn({ ingredients: [], preparations: [] }, [trim(0.7)])).toEqual([]);
  });

  it("LE9 a scale that shows no trim at all still gives a finite yield", () => {
    const { value, next } = only([trim(1), trim(1)]);
    expect(value).toBeLessThan(1);
    expect(next[1]).toBeLessThan(1);
  });

  it("LE10 a body says what is wrong with it", () => {
    const schema = (kind: string) => LEARNING_BODIES.find((one) => one.shape.kind.value === kind)!;
    const wrong = schema("trim").safeParse({ kind: "trim", ingredient: "a", cut: "b", apG: 100, epG: 120 });
    expect(wrong.error?.issues[0]?.message).toContain("which of the two");
    expect(schema("judged").safeParse({ kind: "judged", entry: id(), counts: false }).success).toBe(false);
    expect(
      schema("cook").safeParse({ kind: "cook", preparation: "p", step: "s", inG: 0, outG: 1 }).success,
    ).toBe(false);
  });
});
