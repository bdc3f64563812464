import { describe, expect, it } from "vitest";
import { type Entry, fromSent, lastMarks, readings, stateOf, toSent } from "./entry.ts";

const entry = (id: string, more: Partial<Entry> & Pick<Entry, "kind">): Entry => ({
  id,
  service: "s",
  at: `2027-01-30T12:00:0${id}Z`,
  ...more,
});

const state = (list: readonly Entry[], task: string) => stateOf(lastMarks(list).get(task));

describe("entries", () => {
  it("A6 what is sent comes back as it was", () => {
    const whole = entry("1", {
      kind: "reading",
      preparation: "p",
      step: "s",
      value: 58.5,
      unit: "°C",
      by: "Ansa",
      corrects: "0",
    });
    expect(fromSent(toSent(whole))).toEqual(whole);
    const anonymous = entry("2", { kind: "done", task: "t" });
    expect(toSent(anonymous).by).not.toBe("");
    expect(fromSent(toSent(anonymous))).toEqual(anonymous);
  });
  it("the last mark of a task counts", () => {
    const list = [entry("1", { kind: "started", task: "t" }), entry("2", { kind: "done", task: "t" })];
    expect(state(list, "t")).toBe("done");
    expect(state([...list, entry("3", { kind: "undone", task: "t" })], "t")).toBe("open");
    expect(state(list, "other")).toBe("open");
  });
  it("A7 a correction of a correction belongs to the first reading, which stays", () => {
    const list = [
      entry("1", { kind: "reading", value: 58 }),
      entry("2", { kind: "reading", value: 63, corrects: "1" }),
      entry("3", { kind: "reading", value: 70 }),
      entry("4", { kind: "reading", value: 64, corrects: "2" }),
    ];
    const [first, second] = readings(list);
    expect(first?.first.value).toBe(58);
    expect(first?.corrections.map((c) => c.value)).toEqual([63, 64]);
    expect(first?.value).toBe(64);
    expect(second?.value).toBe(70);
    expect(readings(list).length).toBe(2);
  });
});
