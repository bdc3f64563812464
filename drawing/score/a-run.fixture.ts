import type { PlanTask } from "../../core/run/result.ts";

/** A short run made by hand, for pictures: a braise, a chill, an oven with two temperatures, a service at 19:30. */
const HORIZON = -2 * 1440 + 360;
export const MIDNIGHT = -HORIZON;

export function task(
  id: string,
  name: string,
  from: number,
  to: number,
  more: Partial<PlanTask> & Pick<PlanTask, "kind">,
): PlanTask {
  return {
    id,
    preparation: id.split("/")[0]!,
    step: "s",
    batch: 1,
    name,
    start: "",
    end: "",
    startMin: from - HORIZON,
    endMin: to - HORIZON,
    hands: [],
    equipment: [],
    earliest: "",
    latest: "",
    slackMin: 60,
    after: [],
    ...more,
  };
}

const day = (d: number, h: number, m = 0) => d * 1440 + h * 60 + m;

export const RUN: readonly PlanTask[] = [
  task("short-rib/salt", "Salt the short rib", day(-2, 14), day(-2, 14, 50), {
    kind: "work",
    station: "meat",
    hands: ["ana"],
    hold: { state: "cold", maxMin: 1440, usedMin: 1070 },
  }),
  task("short-rib/rest", "Short rib rests salted", day(-2, 14, 50), day(-1, 8), {
    kind: "passive",
    equipment: [{ id: "cold-room", space: 2, unit: "position" }],
  }),
  task("short-rib/sear", "Sear the short rib", day(-1, 8), day(-1, 9, 5), {
    kind: "work",
    station: "meat",
    hands: ["ana", "ben"],
  }),
  task("short-rib/braise", "Braise", day(-1, 9, 10), day(-1, 15, 10), {
    kind: "passive",
    equipment: [{ id: "combi", space: 4, unit: "shelf", setC: 120 }],
  }),
  task("veloute/sweat", "Sweat celeriac", day(-1, 9), day(-1, 9, 40), {
    kind: "work",
    station: "garnish",
    hands: ["cleo"],
  }),
  task("veloute/blend", "Blend the velouté", day(-1, 11), day(-1, 11, 35), {
    kind: "work",
    station: "garnish",
    hands: ["cleo"],
  }),
  task("rye/dry", "Dry the rye crumb", day(0, 9), day(0, 11), {
    kind: "passive",
    equipment: [{ id: "combi", space: 2, unit: "shelf", setC: 95 }],
  }),
  task("tart/bake", "Bake tart shells", day(0, 11, 30), day(0, 12, 10), {
    kind: "passive",
    equipment: [{ id: "combi", space: 3, unit: "shelf", setC: 165 }],
  }),
  task("tart/fill", "Fill tarts", day(0, 12, 20), day(0, 13), {
    kind: "work",
    station: "pastry",
    hands: ["dov"],
    slackMin: 4,
  }),
  task("salsify/roast", "Roast salsify", day(0, 17, 30), day(0, 18, 10), {
    kind: "passive",
    slackMin: 0,
    equipment: [{ id: "combi", space: 5, unit: "shelf", setC: 175 }],
    hold: { state: "hot", maxMin: 60, usedMin: 58 },
  }),
  task("salsify/peel", "Peel salsify under lemon water", day(0, 15), day(0, 16, 20), {
    kind: "work",
    station: "garnish",
    hands: ["cleo"],
  }),
  task("kale/pick", "Pick kale", day(0, 15, 30), day(0, 15, 50), {
    kind: "work",
    station: "garnish",
    hands: ["ben"],
  }),
  task("jus/reduce", "Reduce the jus", day(0, 16), day(0, 17, 10), {
    kind: "work",
    station: "meat",
    hands: ["ana"],
    hold: { state: "hot", maxMin: 240, usedMin: 140 },
  }),
  task("check", "Line check", day(0, 18, 30), day(0, 18, 30), { kind: "milestone", station: "garnish" }),
  task("plate/char", "Plate the char", day(0, 19, 30), day(0, 19, 52), {
    kind: "plate",
    station: "garnish",
    hands: ["ben", "cleo"],
  }),
];

export const STATIONS = new Map([
  ["meat", "Meat and sauces"],
  ["garnish", "Garnish"],
  ["pastry", "Pastry"],
]);
