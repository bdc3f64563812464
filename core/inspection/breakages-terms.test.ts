import { describe, expect, test } from "vitest";
import { judged, type Small, toldBy } from "./testing/breaking.ts";

const term = (key: string, value: number) => ({ key, term: key, value, unit: "min", weight: 1 });
const said = (key: string, value: number, more: (s: Small) => unknown = () => {}) =>
  toldBy(
    judged((s) => {
      s.result.plan.objective = [term(key, value)];
      more(s);
    }),
  );

describe("I17 what is better, summed again", () => {
  test("an hour that is no peak is none, and one that is said to be is told", () => {
    expect(said("peaks", 0)).toEqual([]);
    expect(said("peaks", 5)).toEqual([["term", [], 5]]);
  });

  test("from 12:00 to 13:00 Ben alone is there, for 30 min, and works 24: 24 - 0.75 × 30 = 1.5", () => {
    const alone = (s: Small) => {
      const there = (from: string, to: string) => ({ from: `D ${from}`, to: `D ${to}`, breaks: [] });
      const [ana, ben, cas] = s.kitchen.crew;
      ana.shifts = [there("08:00", "12:00"), there("13:00", "22:00")];
      ben.shifts = [there("08:00", "12:30"), there("13:00", "22:00")];
      cas.shifts = [there("18:00", "22:00")];
    };
    expect(said("peaks", 1.5, alone)).toEqual([]);
    expect(said("peaks", 0, alone)).toEqual([["term", [], 1.5]]);
  });

  test("walking: what is said too low or too high is told by how much", () => {
    expect(said("walking", 0, (s) => (s.kitchen.walk = []))).toEqual([]);
    expect(said("walking", 7, (s) => (s.kitchen.walk = []))).toEqual([["term", [], 7]]);
  });

  test("heat-ups: the combi oven at 180 °C for both tarts at once, then at 150", () => {
    expect(said("heatUps", 2)).toEqual([]);
    expect(said("heatUps", 1)).toEqual([["term", [], 1]]);
    const close = (s: Small) => {
      s.step("tart", "bake").uses[0].toleranceC = 30;
      s.step("gratin", "bake").uses[0].toleranceC = 30;
    };
    expect(said("heatUps", 1, close)).toEqual([]);
    expect(said("heatUps", 2, close)).toEqual([["term", [], 1]]);
  });

  test("hands: two mix in 9 min what one mixes in 12, so 18 - 12 beyond the fewest", () => {
    const two = (s: Small) => {
      s.step("tart", "mix").work.hands = { least: 1, most: 2, split: "divides" };
      s.time("tart/mix/1", "12:03", "12:12");
      s.task("tart/mix/1").hands = ["ben", "cas"];
      s.kitchen.crew[2].shifts = structuredClone(s.kitchen.crew[1].shifts);
      s.kitchen.crew[2].skills = structuredClone(s.kitchen.crew[1].skills);
    };
    expect(said("hands", 0)).toEqual([]);
    expect(said("hands", 4)).toEqual([["term", [], 4]]);
    expect(said("hands", 6, two)).toEqual([]);
    expect(said("hands", 0, two)).toEqual([["term", [], 6]]);
    const pinned = (s: Small) => {
      two(s);
      s.service.pins = [{ task: "tart/mix/1", crew: ["ben", "cas"] }];
    };
    expect(said("hands", 0, pinned)).toEqual([]);
  });

  test("breaks: none inside work", () => {
    expect(said("breaks", 0)).toEqual([]);
    expect(said("breaks", 2)).toEqual([["term", [], 2]]);
  });
});
