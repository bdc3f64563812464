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

  test("slack: the gratin is wanted by 19:05, a quarter of an hour before its window; out at 19:09 it eats 4", () => {
    const late = (s: Small) => s.time("gratin/bake/1/wait", "18:24", "19:09");
    expect(said("slack", 0)).toEqual([]);
    expect(said("slack", 3)).toEqual([["term", [], 3]]);
    expect(said("slack", 4, late)).toEqual([]);
    expect(said("slack", 0, late)).toEqual([["term", [], 4]]);
  });

  test("slack: of the 25 min it may wait hot 10 are the window, half of the rest leaves 19:12", () => {
    const short = (s: Small) => {
      s.step("gratin", "bake").hold.maxMin = 25;
      s.time("gratin/bake/1/wait", "18:30", "19:15");
    };
    expect(said("slack", 3, short)).toEqual([]);
    expect(said("slack", 0, short)).toEqual([["term", [], 3]]);
  });

  test("slack: what may stand until its plate is wanted so long before the line check, by half of what it may stand beyond it", () => {
    const asked = (s: Small) => {
      s.service.slackMin = 260;
      s.time("tart/mix/1", "12:30", "12:42");
      s.time("tart/bake/1/wait", "14:07", "14:37");
    };
    // Tarts may stand 600 min, 500 of them before a line check at 18:30: wanted by 14:20, 17 eaten. The gratin by 18:40
    // (half of 80), 25 eaten; the sauce by 18:25 (half of 110), 3 eaten.
    expect(said("slack", 45, asked)).toEqual([]);
    expect(said("slack", 0, asked)).toEqual([["term", [], 45]]);
  });

  test("stale: at its best for 20 min the gratin is 1 min beyond it on the meat at 19:26 and 4 on the green at 19:29", () => {
    const best = (id: string, minutes: number) => (s: Small) => {
      s.prep(id).bestWithinMinutes = minutes;
    };
    expect(said("stale", 5, best("gratin", 20))).toEqual([]);
    expect(said("stale", 1, best("gratin", 20))).toEqual([["term", [], 4]]);
    // Stock from 11:25 goes into the sauce at 18:00, 395 min later.
    expect(said("stale", 335, best("stock", 60))).toEqual([]);
    expect(said("stale", 0, best("stock", 60))).toEqual([["term", [], 335]]);
  });

  test("waiting: 395 stock, 58 sauce, 65 + 21 + 24 gratin, 32 + 20 + 2 × 414 tarts, 60 + 72 thawed berries", () => {
    expect(said("waiting", 1575)).toEqual([]);
    expect(said("waiting", 1503)).toEqual([["term", [], 72]]);
    const best = (s: Small) => {
      s.prep("tart").bestWithinMinutes = 400;
    };
    expect(said("waiting", 1575 - 828, best)).toEqual([]);
    expect(said("stale", 28, best)).toEqual([]);
  });

  test("stale: each batch by its own moment", () => {
    const both = (s: Small) => {
      s.prep("tart").bestWithinMinutes = 300;
      s.time("tart/mix/2", "14:30", "14:42");
      s.time("tart/bake/2/wait", "15:04", "15:34");
    };
    // 13:14 to 20:08 is 414 min, 15:34 to 20:08 is 274: only the first batch is too old.
    expect(said("stale", 114, both)).toEqual([]);
  });
});
