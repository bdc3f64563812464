import { describe, expect, test } from "vitest";
import type { Plan } from "../../../../core/run/result.ts";
import type { Entry } from "../../../offline/entry.ts";
import { movedBy, unseen } from "./moves.ts";

const task = (id: string, start: string, end: string) => ({ id, start, end, hands: ["mira"], equipment: [] });
const plan = {
  tasks: [task("kale/wash/1", "D 16:00", "D 16:10"), task("kale/blanch/1", "D 16:10", "D 16:30")],
} as unknown as Plan;
const place = (id: string, start: string, end: string) => ({
  ...{ task: id, start, end, hands: ["mira"], units: [] },
});
let turn = 0;
const entry = (id: string, body: Partial<Entry>): Entry =>
  ({ id, at: "2027-01-30T16:00:00Z", service: "s", turn: ++turn, ...body }) as Entry;

const begun = entry("begun", { kind: "started", task: "kale/wash/1" });
const placed = entry("placed", {
  ...{ kind: "placed", because: "begun" },
  places: [place("kale/wash/1", "D 15:55", "D 16:05"), place("kale/blanch/1", "D 16:05", "D 16:25")],
});
const alone = entry("alone", { ...placed, places: [place("kale/wash/1", "D 15:55", "D 16:05")] });

describe("L12 what moved is told", () => {
  test("who begins a task is told of others that moved, not of that one", () => {
    const [moved] = movedBy(plan, [begun, placed], false, []);
    expect(moved!.moves.map((move) => move.task)).toEqual(["kale/blanch/1"]);
    expect(movedBy(plan, [begun, alone], false, [])).toEqual([]);
  });

  test("L3 what was taken back is no move any more; who had seen it is told once that it is back", () => {
    const heard = (of: string) => entry(`heard-${turn}`, { kind: "heard", of, station: "range" });
    const told = (log: Entry[], gone: string[]) =>
      unseen(movedBy(plan, log, false, gone), log, "range").map(({ id, back }) => [id, back]);
    const log = [begun, placed];
    expect(told(log, [])).toEqual([["placed", false]]);
    expect(told(log, ["begun"])).toEqual([]);
    const seen = [...log, heard("placed")];
    expect(told(seen, [])).toEqual([]);
    expect(told(seen, ["begun"])).toEqual([["placed", true]]);
    expect(told([...seen, heard("placed")], ["begun"])).toEqual([]);
  });

  test("L3 a later move is told from where the task stands, not from where it had been for a while", () => {
    const late = entry("late", { kind: "late", task: "kale/blanch/1" });
    const again = entry("again", {
      ...{ kind: "placed", because: "late", places: [place("kale/blanch/1", "D 16:40", "D 17:00")] },
    });
    const [moved] = movedBy(plan, [begun, placed, late, again], false, ["begun"]);
    expect(moved!.moves[0]!.before!.start).toBe("D 16:10");
  });
});
