import { describe, expect, test } from "vitest";
import type { Plan } from "../../../core/run/result.ts";
import { ghostsShown, MOST_GHOSTS } from "./ghosts.ts";

const task = (id: string, ...after: string[]) => ({ id, after });
const tasks = [task("a"), task("b", "a"), task("b/wait", "b"), task("b/look-1"), task("c", "b")];
const rest = Array.from({ length: MOST_GHOSTS }, (_, k) => task(`other-${k}`));
const plan = { tasks: [...tasks, ...rest] } as unknown as Plan;
const place = { startMin: 0, endMin: 1 };
const of = (list: readonly { readonly id: string }[]) => new Map(list.map(({ id }) => [id, place]));
const ids = (shown: ReadonlyMap<string, unknown>) => [...shown.keys()];

describe("ghosts of another plan", () => {
  test("few are all drawn, whatever is chosen", () => {
    const few = of(rest);
    expect(ghostsShown(few, plan, undefined)).toBe(few);
  });

  test("of many only those of the chosen task, with what comes before and after it and its own waiting", () => {
    const many = of([...tasks, ...rest]);
    expect(ids(ghostsShown(many, plan, undefined))).toEqual([]);
    expect(ids(ghostsShown(many, plan, "b"))).toEqual(["a", "b", "b/wait", "b/look-1", "c"]);
    expect(ids(ghostsShown(many, plan, "other-3"))).toEqual(["other-3"]);
    expect(ids(ghostsShown(many, plan, "b/wait"))).toEqual(["b", "b/wait", "b/look-1"]);
  });
});
