import { describe, expect, test } from "vitest";
import type { Plan } from "../../../core/run/result.ts";
import { stepsOnce, toldApart } from "./told-tasks.ts";

const task = (id: string, name: string, start: string) => ({ id, name, start });
const plan = {
  tasks: [
    task("rib/braise/1", "Rib: Braise", "D 14:00"),
    task("rib/braise/1/wait", "Rib: Braise", "D 14:10"),
    task("rib/braise/2", "Rib: Braise", "D 15:00"),
    task("kale/blanch/1", "Kale: Blanch", "D 16:00"),
  ],
} as unknown as Plan;
const ids = (...list: string[]) => stepsOnce(plan, list).map(({ id }) => id);

describe("tasks told in a list", () => {
  test("a step stands there once, by its waiting; what is not in the plan does not", () => {
    expect(ids("rib/braise/1", "rib/braise/1/wait", "kale/blanch/1", "kale/blanch/1", "gone/x/1")).toEqual([
      "rib/braise/1/wait",
      "kale/blanch/1",
    ]);
    expect(ids("rib/braise/1")).toEqual(["rib/braise/1"]);
  });

  test("two of one name are told apart by the clock", () => {
    const told = toldApart(
      stepsOnce(
        plan,
        plan.tasks.map(({ id }) => id),
      ),
      (text) => text,
    );
    expect(told.map(({ text }) => text)).toEqual([
      "Rib: Braise, D 14:10",
      "Rib: Braise, D 15:00",
      "Kale: Blanch",
    ]);
  });
});
