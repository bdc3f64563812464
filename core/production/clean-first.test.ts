import { describe, expect, test } from "vitest";
import { preparation, smallSite, step } from "../../tests/small-kitchen.ts";
import { cleanFirst } from "./clean-first.ts";
import type { Planned } from "./planned.ts";
import type { Site } from "./site.ts";

const site: Site = {
  ...smallSite({
    preparations: ["bread", "more-bread", "guest", "plain"].map((id) => preparation(id, [step("mix")])),
  } as unknown as Parameters<typeof smallSite>[0]),
  apart: {
    carried: (id) => new Set(id.endsWith("bread") ? (["gluten"] as const) : []),
    keptFrom: (id) => new Set(id === "guest" ? (["gluten"] as const) : []),
  },
};

/** Hands at one bench, one preparation after another. */
const inTurn = (...ids: readonly string[]) =>
  ids.map((id, i): Planned => {
    const task = {
      id: `${id}/mix/${i}`,
      preparation: id,
      step: "mix",
      kind: "work",
      station: "range",
      uses: [],
    };
    return { task, plan: { startMin: 60 * i, endMin: 60 * i + 30, equipment: [] } } as unknown as Planned;
  });
const told = (...ids: readonly string[]) => [...cleanFirst(site, inTurn(...ids)).keys()];

describe("P18 clean first", () => {
  test("what a guest must not have traces of was there before", () => {
    expect(told("bread", "guest")).toEqual(["guest/mix/1"]);
    expect(cleanFirst(site, inTurn("bread", "guest")).get("guest/mix/1")).toEqual([
      { noTraceOf: ["gluten"] },
    ]);
  });

  test("also where something else was there between, and again when it comes back", () => {
    expect(told("bread", "plain", "guest")).toEqual(["guest/mix/2"]);
    expect(told("bread", "guest", "more-bread", "guest")).toEqual(["guest/mix/1", "guest/mix/3"]);
  });

  test("not before it has come, not twice in a row, not for what nobody depends on", () => {
    expect(told("guest", "bread", "plain")).toEqual([]);
    expect(told("bread", "guest", "guest")).toEqual(["guest/mix/1"]);
  });
});
