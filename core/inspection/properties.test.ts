import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Preparation } from "../formula/schema.ts";
import { lacking } from "./flow.ts";
import { batchesOf } from "./needs.ts";
import { byLargestRemainder } from "./plates.ts";
import { covered, type Span, worstOfStretches } from "./spans.ts";
import { judgeSupply } from "./supply.ts";
import { judged, type Small, toldBy } from "./testing/breaking.ts";
import { smallResult } from "./testing/small-result.ts";

const settings = { seed: 20270130, numRuns: 300 };

describe("I2 the sums of the inspector, against slower ones", () => {
  test("handing over lacks what the worst set of takers lacks (Hall; Ford and Fulkerson)", () => {
    const sizes = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 5 });
    const pairs = fc.array(fc.boolean(), { minLength: 25, maxLength: 25 });
    fc.assert(
      fc.property(sizes, sizes, pairs, (supply, demand, may) => {
        const lack = lacking({
          from: supply.map((amount, item) => ({ item, amount })),
          to: demand.map((amount, item) => ({ item, amount })),
          joined: (f, t) => may[5 * f + t]!,
        });
        let worst = 0;
        for (let set = 0; set < 2 ** demand.length; set++) {
          const inSet = (t: number) => (set & (2 ** t)) !== 0;
          const wanted = demand.reduce((sum, amount, t) => sum + (inSet(t) ? amount : 0), 0);
          const there = supply.reduce(
            (sum, amount, f) => sum + (demand.some((_, t) => inSet(t) && may[5 * f + t]) ? amount : 0),
            0,
          );
          worst = Math.max(worst, wanted - there);
        }
        expect(lack.reduce((a, b) => a + b, 0)).toBe(worst);
      }),
      settings,
    );
  });

  test("largest remainders add back to the whole, each within one of its exact share", () => {
    const weights = fc.array(
      fc.integer({ min: 0, max: 40 }).map((n) => n / 10),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 900 }), weights, (whole, list) => {
        const sum = list.reduce((a, b) => a + b, 0);
        fc.pre(sum > 0);
        const parts = byLargestRemainder(whole, list);
        expect(parts.reduce((a, b) => a + b, 0)).toBe(whole);
        for (const [i, part] of parts.entries())
          expect(Math.abs(part - (whole * list[i]!) / sum)).toBeLessThan(1);
      }),
      settings,
    );
  });

  test("batches hold what is asked, none above its limit, in whole pieces", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60_000 }),
        fc.constantFrom("even", "full-then-rest", "whole-only"),
        fc.option(fc.integer({ min: 1, max: 30 })),
        fc.integer({ min: 1, max: 9 }),
        (askedG, policy, pieces, most) => {
          const preparation = {
            yield: { amount: { value: 1500, unit: "g" }, ...(pieces === null ? {} : { pieces }) },
            batch:
              pieces === null
                ? { policy, maxAmount: { value: most * 1000, unit: "g" } }
                : { policy, maxPieces: most },
          } as unknown as Preparation;
          const batches = batchesOf(preparation, askedG);
          const limitG = pieces === null ? most * 1000 : (most * 1500) / pieces;
          const sum = batches.reduce((total, batch) => total + batch.grams, 0);
          expect(sum).toBeGreaterThanOrEqual(askedG * (1 - 1e-6));
          for (const { grams, pieces: count } of batches) {
            expect(grams).toBeLessThanOrEqual(limitG * (1 + 1e-9));
            if (pieces !== null) expect(Number.isInteger(count)).toBe(true);
          }
          const spare = policy === "whole-only" ? limitG : pieces === null ? 1e-6 * askedG : 1500 / pieces;
          expect(sum - askedG).toBeLessThan(spare);
        },
      ),
      settings,
    );
  });

  test("what spans cover is what is counted minute by minute", () => {
    const minute = fc.integer({ min: 0, max: 40 });
    const spans = fc.array(fc.tuple(minute, minute), { maxLength: 5 });
    fc.assert(
      fc.property(spans, minute, minute, (list, from, to) => {
        let sum = 0;
        for (let at = from; at < to; at++) if (list.some(([a, b]) => a <= at && at < b)) sum += 1;
        expect(covered(list as Span[], from, to)).toBe(sum);
      }),
      settings,
    );
  });

  test("stretches of too much are those counted minute by minute", () => {
    const profile = fc.array(fc.integer({ min: -2, max: 3 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(profile, (over) => {
        const runs: number[][] = [];
        over.forEach((by, at) => {
          if (by <= 0) return;
          if (at > 0 && over[at - 1]! > 0) runs.at(-1)!.push(by);
          else runs.push([by]);
        });
        const told = worstOfStretches(over.keys(), (at) => over[at]!);
        expect(told.map(({ by }) => by)).toEqual(runs.map((each) => Math.max(...each)));
        for (const { at, by } of told) expect(over[at]).toBe(by);
      }),
      settings,
    );
  });

  test("food handed over piece by piece in order is never told, food that no order can serve always is", () => {
    const minute = fc.integer({ min: 0, max: 20 });
    const lots = fc.array(fc.record({ readyMin: minute, life: minute }), { minLength: 1, maxLength: 4 });
    const takes = fc.array(minute, { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(lots, takes, (made, taken) => {
        const findings = judgeSupply(
          made.map(({ readyMin, life }, i) => ({
            task: `lot-${i}`,
            amount: 1,
            readyMin,
            useByMin: readyMin + life,
          })),
          taken.map((at, i) => ({ task: `take-${i}`, amount: 1, takenMin: at, usedMin: at })),
          { ready: "ready", hold: "hold", what: "it" },
        );
        const serves = (lot: (typeof made)[number], at: number) =>
          lot.readyMin <= at && at <= lot.readyMin + lot.life;
        const someOrder = (left: typeof made, rest: readonly number[]): boolean =>
          rest.length === 0 ||
          left.some((lot, i) => serves(lot, rest[0]!) && someOrder(left.toSpliced(i, 1), rest.slice(1)));
        // Units are whole, so that a way by parts exists only where one by units does.
        if (made.length >= taken.length) expect(findings.length === 0).toBe(someOrder(made, taken));
      }),
      settings,
    );
  });
});

describe("I2 the verdict", () => {
  const ids = smallResult().plan.tasks.filter((task) => task.kind !== "milestone");

  test("does not hang on the order of what is judged", () => {
    const shuffle = (s: Small) => {
      s.unit("combi").capacity[0].value = 1;
      s.task("gratin/slice/1").hands = ["cas"];
    };
    const straight = judged(shuffle);
    const turned = judged((s) => {
      shuffle(s);
      s.result.plan.tasks.reverse();
      s.result.plates.reverse();
      s.result.needs.reverse();
    });
    const rules = (report: typeof straight) =>
      toldBy(report)
        .map(([rule, , by]) => `${rule} ${by}`)
        .sort();
    expect(rules(turned)).toEqual(rules(straight));
  });

  test("blames no task but the one that was moved", () => {
    fc.assert(
      fc.property(fc.constantFrom(...ids), fc.integer({ min: -240, max: 60 }), ({ id }, minutes) => {
        const { findings } = judged((s) => s.move(id, minutes));
        for (const finding of findings)
          expect(finding.tasks.join(" ")).toContain(id.replace(/\/(wait|look-\d)$/, ""));
        if (minutes !== 0 && id === "stock/simmer/1") expect(findings.map((f) => f.rule)).toContain("pin");
      }),
      settings,
    );
  });

  test("no minute of work can be shaved off anywhere unseen", () => {
    for (const { id } of ids.filter((task) => task.endMin > task.startMin)) {
      const report = judged((s) =>
        Object.assign(s.task(id), { startMin: s.task(id).startMin + 1, start: "" }),
      );
      expect(report.findings.map((finding) => finding.rule)).toContain("duration");
    }
  });
});
