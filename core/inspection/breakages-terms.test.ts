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

  test("breaks: none inside work", () => {
    expect(said("breaks", 0)).toEqual([]);
    expect(said("breaks", 2)).toEqual([["term", [], 2]]);
  });
});
