import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { LogLine } from "./log-lines.ts";
import { doorLimit } from "./lots-door.ts";
import { Recall } from "./lots-recall.ts";
import { DeliverySchema, type LotBody, type LotRef, type Shape, UsedSchema } from "./lots-schema.ts";
import { firstOut, lotKey, stockOf, type Weigh } from "./lots-stock.ts";

const weigh: Weigh = (_, { value, unit }) =>
  unit === "g" ? Number(value) : unit === "kg" ? Number(value) * 1000 : undefined;

let count = 0;
function line(body: LotBody, at: string, service = "s1", more: Partial<LogLine> = {}): LogLine {
  const id = `00000000-0000-4000-8000-${String(++count).padStart(12, "0")}`;
  return { id, service, at, by: "Mira", body, ...more };
}
const at = (day: number, hour = 9) =>
  `2027-03-${String(day).padStart(2, "0")}T${String(hour).padStart(2, "0")}:00:00.000Z`;
const g = (value: number) => ({ value, unit: "g" as const });
const lot = (code: string, ingredient = "celeriac"): LotRef => ({ ingredient, lot: code, supplier: "farm" });
const delivery = (of: LotRef, grams: number, day: number, more: object = {}) =>
  line(
    {
      kind: "delivery",
      of: of as LotRef & { supplier: string },
      amount: g(grams),
      useBy: `2027-03-${String(Math.min(28, day + 7)).padStart(2, "0")}`,
      accepted: true,
      ...more,
    },
    at(day),
  );
const used = (of: LotRef, batch: number, grams: number | undefined, day: number, preparation = "puree") =>
  line(
    {
      kind: "used",
      lot: of,
      into: { preparation, batch },
      ...(grams === undefined ? {} : { amount: g(grams) }),
    },
    at(day, 12),
  );
const shape = (more: Partial<Shape> = {}): Shape => ({
  kind: "shape",
  name: "Supper",
  from: at(9, 6),
  to: at(11, 22),
  made: [
    { preparation: "puree", batches: 2, ingredients: ["celeriac"], preparations: [] },
    { preparation: "soup", batches: 1, ingredients: ["cream"], preparations: ["puree"] },
  ],
  plates: [
    {
      course: "first",
      dish: "soup",
      variant: "standard",
      needs: [],
      count: 12,
      seats: ["1-1", "1-2"],
      ingredients: ["chive"],
      preparations: ["soup"],
    },
  ],
  ...more,
});

describe("stock", () => {
  it("S13 on hand is what came less what went, and a count says by how much the records were off", () => {
    const of = lot("A1");
    const lines = [
      delivery(of, 5000, 1),
      used(of, 1, 1200, 2),
      line({ kind: "discarded", lot: of, amount: g(300), reason: "soft" }, at(3)),
      line({ kind: "counted", lot: of, amount: g(3400) }, at(4)),
      used(of, 2, 400, 5),
    ];
    const found = stockOf(lines, weigh).lots.get(lotKey(of))!;
    expect(found).toMatchObject({ received: 5000, used: 1600, discarded: 300, counted: -100, onHand: 3000 });
    expect(found.movements.map(({ after }) => after)).toEqual([5000, 3800, 3500, 3400, 3000]);
    expect(stockOf(lines, weigh, at(3, 23)).lots.get(lotKey(of))!.onHand).toBe(3500);
  });

  it("S13 more used than ever came is told, not hidden; so is what was not weighed or cannot be", () => {
    const of = lot("A2");
    const told = stockOf([delivery(of, 500, 1), used(of, 1, 800, 2)], weigh);
    expect(told.lots.get(lotKey(of))!.onHand).toBe(-300);
    expect(told.doubts).toContainEqual({ what: "more-used", key: lotKey(of), by: 300, unit: "g" });
    const open = stockOf([delivery(of, 500, 1), used(of, 1, undefined, 2)], weigh);
    expect(open.lots.get(lotKey(of))).toMatchObject({ onHand: 500, atMost: true });
    expect(open.doubts[0]).toMatchObject({ what: "not-weighed" });
    const pieces = line(
      { kind: "used", lot: of, into: { preparation: "puree", batch: 1 }, amount: { value: 3, unit: "head" } },
      at(2),
    );
    expect(stockOf([delivery(of, 500, 1), pieces], weigh).doubts[0]).toMatchObject({ what: "unit" });
    expect(stockOf([used(of, 1, 5, 1)], weigh).doubts[0]).toMatchObject({ what: "never-came" });
  });

  it("S13 mass is never made up: whatever is noted, the sums of the entries are the sums of the stock", () => {
    const move = fc.record({
      kind: fc.constantFrom("delivery", "used", "discarded", "refused", "correct") as fc.Arbitrary<string>,
      code: fc.constantFrom("A", "B", "C"),
      grams: fc.integer({ min: 1, max: 5000 }),
    });
    fc.assert(
      fc.property(fc.array(move, { maxLength: 40 }), (moves) => {
        const lines: LogLine[] = [];
        let [came, went] = [0, 0];
        const firstDelivery = new Map<string, { id: string; grams: number }>();
        moves.forEach(({ kind, code, grams }, i) => {
          const when = `2027-03-01T10:00:${String(i).padStart(2, "0")}.000Z`;
          const of = { ...lot(code), supplier: "farm" };
          const came_ = { kind: "delivery", of, amount: g(grams), useBy: "2027-04-01" } as const;
          if (kind === "delivery") {
            const made = line({ ...came_, accepted: true }, when);
            lines.push(made);
            came += grams;
            if (!firstDelivery.has(code)) firstDelivery.set(code, { id: made.id, grams });
          } else if (kind === "refused")
            lines.push(line({ ...came_, accepted: false, reason: "warm" }, when));
          else if (kind === "correct") {
            const known = firstDelivery.get(code);
            if (!known) return;
            lines.push(line({ ...came_, accepted: true }, when, "s1", { corrects: known.id }));
            came += grams - known.grams;
            known.grams = grams;
          } else {
            went += grams;
            lines.push(
              kind === "used"
                ? line(
                    { kind: "used", lot: of, into: { preparation: "p", batch: 1 }, amount: g(grams) },
                    when,
                  )
                : line({ kind: "discarded", lot: of, amount: g(grams), reason: "old" }, when),
            );
          }
        });
        const { lots, doubts } = stockOf(lines, weigh);
        const all = [...lots.values()];
        const sum = (of: (one: (typeof all)[number]) => number) => all.reduce((s, one) => s + of(one), 0);
        expect(sum(({ received }) => received)).toBe(came);
        expect(sum(({ used: u, discarded }) => u + discarded)).toBe(went);
        expect(sum(({ onHand }) => onHand)).toBe(came - went);
        for (const one of all) {
          expect(one.movements.at(-1)!.after).toBe(one.onHand);
          expect(one.movements.reduce((s, { change }) => s + change, 0)).toBe(one.onHand);
          expect(doubts.some((d) => d.what === "more-used" && d.key === one.key)).toBe(one.onHand < 0);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("S14 the lot to be used first is the one with the earlier date", () => {
    const stock = stockOf(
      [
        delivery(lot("later"), 500, 1, { useBy: "2027-03-20" }),
        delivery(lot("sooner"), 500, 2, { useBy: "2027-03-12" }),
        delivery(lot("empty"), 500, 1, { useBy: "2027-03-05" }),
        used(lot("empty"), 1, 500, 3),
      ],
      weigh,
    );
    expect(firstOut(stock, "celeriac").map(({ ref }) => ref.lot)).toEqual(["sooner", "later"]);
  });

  it("S15 goods at the door: 5 °C for the cold, −18 °C for the frozen, none for dry; a stricter local limit first", () => {
    const cold = { storage: { state: "cold", days: 3 } } as const;
    expect(doorLimit(cold, undefined)?.celsius).toBe(5);
    const local = (value: number) => ({
      localLimits: [{ what: "coldHoldC", value, unit: "°C", doc: "the council" }],
    });
    expect(doorLimit(cold, local(3))).toMatchObject({ celsius: 3, source: { doc: "the council" } });
    expect(doorLimit(cold, local(8))?.celsius).toBe(5);
    expect(doorLimit({ storage: { state: "frozen", days: 90 } }, undefined)?.celsius).toBe(-18);
    expect(doorLimit({ storage: { state: "ambient", days: 90 } }, undefined)).toBeUndefined();
  });

  it("S13 a refusal needs a reason; a use names a lot or a batch", () => {
    const body = delivery(lot("A"), 5, 1).body as object;
    expect(DeliverySchema.safeParse({ ...body, accepted: false }).success).toBe(false);
    expect(DeliverySchema.safeParse({ ...body, accepted: false, reason: "9 °C" }).success).toBe(true);
    expect(UsedSchema.safeParse({ kind: "used", into: { preparation: "p", batch: 1 } }).success).toBe(false);
  });
});

describe("recall", () => {
  const A = lot("A");
  const B = lot("B");
  const base = [delivery(A, 5000, 5), delivery(B, 5000, 8), line(shape(), at(9, 7))];

  it("S16 a noted lot goes with certainty to what has only one way, and back again", () => {
    const recall = new Recall([...base, used(A, 1, 900, 10), used(B, 2, 900, 10)], weigh);
    const forward = recall.forward([lotKey(A)]);
    expect(forward.batches).toContainEqual({
      what: { service: "s1", preparation: "puree", batch: 1 },
      certain: true,
    });
    expect(forward.batches.some(({ what }) => what.batch === 2)).toBe(false);
    // Which of two batches of purée went into the soup nobody noted: both may have.
    expect(forward.plates).toEqual([{ what: { service: "s1", row: 0 }, certain: false }]);
    expect(forward.seats.map(({ what }) => what.seat)).toEqual(["1-1", "1-2"]);
    expect(forward.lots[0]!.onHand).toBe(4100);
    const back = recall.backFromSeat("s1", "1-1");
    expect(back.lots.map(({ what }) => what.ref.lot).sort()).toEqual(["A", "B"]);
    const into = line(
      { kind: "used", batch: { preparation: "puree", batch: 1 }, into: { preparation: "soup", batch: 1 } },
      at(11, 10),
    );
    const noted = new Recall([...base, used(A, 1, 900, 10), used(B, 2, 900, 10), into], weigh);
    expect(noted.forward([lotKey(A)]).seats.every(({ certain }) => certain)).toBe(true);
    expect(noted.forward([lotKey(B)]).seats).toEqual([]);
  });

  it("S17 where no lot was noted, every lot on hand meanwhile is possible; none is left out, none invented", () => {
    const gone = lot("gone");
    const later = lot("later");
    const recall = new Recall(
      [
        ...base,
        delivery(gone, 400, 1),
        line({ kind: "discarded", lot: gone, amount: g(400), reason: "old" }, at(3)),
        delivery(later, 400, 15),
        delivery(lot("C1", "cream"), 2000, 8),
      ],
      weigh,
    );
    const back = recall.backFromPlates("s1", 0);
    expect(back.lots.map(({ what, certain }) => [what.ref.lot, certain])).toEqual(
      expect.arrayContaining([
        ["A", false],
        ["B", false],
        ["C1", false],
      ]),
    );
    expect(back.lots).toHaveLength(3);
    // The chives came from somewhere: said, not passed over.
    expect(back.unexplained.map(({ item }) => item)).toEqual(["chive"]);
  });

  it("S17 a lot whose records contradict themselves stays possible, and so does one that never came by them", () => {
    const recall = new Recall(
      [
        line(shape(), at(9, 7)),
        delivery(A, 500, 1),
        used(A, 1, 900, 2, "other"),
        line({ kind: "counted", lot: B, amount: g(100) }, at(20)),
      ],
      weigh,
    );
    const lots = recall.backFromBatch("s1", "puree", 1).lots;
    expect(lots.map(({ what }) => what.ref.lot).sort()).toEqual(["A", "B"]);
  });

  it("S18 forward and back are inverse, with the same certainty, over invented kitchens", () => {
    const ids = ["a", "b", "c"];
    const world = fc.record({
      lots: fc.array(fc.record({ of: fc.constantFrom(...ids), day: fc.integer({ min: 1, max: 14 }) }), {
        minLength: 1,
        maxLength: 8,
      }),
      preps: fc.array(
        fc.record({
          batches: fc.integer({ min: 1, max: 3 }),
          ingredients: fc.subarray(ids),
          takes: fc.array(fc.nat(4), { maxLength: 2 }),
        }),
        { minLength: 1, maxLength: 5 },
      ),
      rows: fc.array(fc.record({ preps: fc.array(fc.nat(4), { maxLength: 3 }), seats: fc.nat(2) }), {
        maxLength: 3,
      }),
      beside: fc.option(
        fc.record({ ingredients: fc.subarray(ids), preps: fc.array(fc.nat(4), { maxLength: 2 }) }),
        { nil: undefined },
      ),
      uses: fc.array(fc.record({ lot: fc.nat(7), prep: fc.nat(4), batch: fc.integer({ min: 1, max: 3 }) }), {
        maxLength: 6,
      }),
    });
    fc.assert(
      fc.property(world, ({ lots, preps, rows, beside, uses }) => {
        const refs = lots.map(({ of }, i) => lot(`L${i}`, of));
        const made = preps.map(({ batches, ingredients, takes }, i) => ({
          preparation: `p${i}`,
          batches,
          ingredients,
          // Only earlier ones, so that nothing is made of itself.
          preparations: takes.filter((t) => t < i).map((t) => `p${t}`),
        }));
        const plates = rows.map(({ preps: on, seats }, r) => ({
          ...{ course: "c", dish: `d${r}`, variant: "standard", needs: [], count: 4, ingredients: [] },
          seats: Array.from({ length: seats }, (_, s) => `${r}-${s}`),
          preparations: on.filter((p) => p < made.length).map((p) => `p${p}`),
        }));
        // "9-9" sits at no plate.
        const seated = [...plates.flatMap(({ seats }) => seats), "9-9"];
        const table = beside && {
          ...{ covers: 20, seats: seated, ingredients: beside.ingredients },
          preparations: beside.preps.filter((p) => p < made.length).map((p) => `p${p}`),
        };
        const lines = [
          ...refs.map((ref, i) => delivery(ref, 1000, lots[i]!.day)),
          line(shape({ made, plates, ...(table ? { beside: table } : {}) }), at(9)),
          ...uses.flatMap(({ lot: l, prep, batch }) =>
            l < refs.length && prep < made.length && batch <= made[prep]!.batches
              ? [used(refs[l]!, batch, 10, 10, `p${prep}`)]
              : [],
          ),
        ];
        const recall = new Recall(lines, weigh);
        for (const ref of refs) {
          const key = lotKey(ref);
          const forward = recall.forward([key]);
          plates.forEach((_, row) => {
            const there = forward.plates.find(({ what }) => what.row === row);
            const back = recall.backFromPlates("s1", row).lots.find(({ what }) => what.key === key);
            expect(back?.certain).toBe(there?.certain);
          });
          for (const one of made)
            for (let batch = 1; batch <= one.batches; batch++) {
              const there = forward.batches.find(
                ({ what }) => what.preparation === one.preparation && what.batch === batch,
              );
              const back = recall
                .backFromBatch("s1", one.preparation, batch)
                .lots.find(({ what }) => what.key === key);
              expect(back?.certain).toBe(there?.certain);
            }
          // What goes with every cover is at all seats, and only then is it at the one without a plate.
          for (const { certain } of forward.covers)
            for (const seat of seated)
              expect(forward.seats.find(({ what }) => what.seat === seat)?.certain).toSatisfy(
                (sure) => sure === true || sure === certain,
              );
          expect(forward.seats.some(({ what }) => what.seat === "9-9")).toBe(forward.covers.length > 0);
          for (const seat of seated) {
            const there = forward.seats.find(({ what }) => what.seat === seat);
            const back = recall.backFromSeat("s1", seat).lots.find(({ what }) => what.key === key);
            expect(back?.certain).toBe(there?.certain);
          }
        }
        // Every ingredient of every batch is explained by a lot, possible or noted, or told to be unexplained.
        for (const one of made)
          for (let batch = 1; batch <= one.batches; batch++) {
            const back = recall.backFromBatch("s1", one.preparation, batch);
            for (const ingredient of one.ingredients)
              expect(
                back.lots.some(({ what }) => what.ref.ingredient === ingredient) ||
                  back.unexplained.some(({ item }) => item === ingredient),
              ).toBe(true);
          }
      }),
      { numRuns: 120 },
    );
  });

  it("S25 a lot of butter reaches every seat by the bread and butter that go with every cover", () => {
    const made = [
      { preparation: "butter", batches: 1, ingredients: ["cream"], preparations: [] },
      { preparation: "bread", batches: 2, ingredients: ["flour"], preparations: ["butter"] },
    ];
    const beside = {
      ...{ covers: 12, seats: ["1-1", "1-2", "2-1"], ingredients: ["oil"], preparations: ["bread"] },
    };
    const cream = lot("C1", "cream");
    const oil = lot("O1", "oil");
    const recall = new Recall(
      [
        delivery(cream, 2000, 5),
        delivery(oil, 2000, 5),
        line(shape({ made: [...shape().made, ...made], beside }), at(9, 7)),
        used(cream, 1, 900, 10, "butter"),
      ],
      weigh,
    );
    const forward = recall.forward([lotKey(cream)]);
    expect(forward.batches.map(({ what, certain }) => [what.preparation, what.batch, certain])).toEqual(
      expect.arrayContaining([
        ["butter", 1, true],
        ["bread", 1, true],
        ["bread", 2, true],
      ]),
    );
    // Which of two loaves a guest had nobody noted, so that each seat is possible.
    expect(forward.covers).toEqual([{ what: { service: "s1" }, certain: false }]);
    expect(forward.seats.map(({ what }) => what.seat).sort()).toEqual(["1-1", "1-2", "2-1"]);
    expect(recall.forward([lotKey(oil)]).seats).toHaveLength(3);
    const back = recall.backFromSeat("s1", "2-1");
    expect(back.lots.map(({ what }) => what.ref.lot).sort()).toEqual(["C1", "O1"]);
    // Of the flour there is no record: said, not passed over.
    expect(back.unexplained.map(({ item }) => item)).toContain("flour");
  });

  it("S18 agrees with every way walked one by one over what was written, computed another way", () => {
    const recall = new Recall([...base, used(A, 1, 900, 10)], weigh);
    // By hand: A is noted for the first batch; the second may hold A or B; the one soup takes both, and all plates take it.
    const { batches, plates, seats } = recall.forward([lotKey(A)]);
    expect(batches.map(({ what, certain }) => [what.preparation, what.batch, certain])).toEqual([
      ["puree", 1, true],
      ["soup", 1, false],
      ["puree", 2, false],
    ]);
    expect([plates.length, seats.length]).toEqual([1, 2]);
    const b = recall.forward([lotKey(B)]);
    expect(b.batches.map(({ what }) => [what.preparation, what.batch])).toEqual([
      ["puree", 2],
      ["soup", 1],
    ]);
  });
});
