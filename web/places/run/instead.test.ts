import { expect, test } from "vitest";
import type { PlanTask } from "../../../core/run/result.ts";
import { pinOf } from "./instead.ts";

const task = { id: "a/mix/1", startMin: 60, hands: ["ann", "bob"] } as unknown as PlanTask;
const write = (minute: number) => `D 0${minute / 60}:00`;

test("a task put elsewhere is pinned by what was changed of it, and by nothing else", () => {
  expect(pinOf({ task, startMin: 60 }, write)).toEqual({ task: "a/mix/1", start: "D 01:00" });
  const person = { kind: "person", from: "bob", to: "cas" } as const;
  expect(pinOf({ task, startMin: 60, instead: person }, write)).toEqual({
    task: "a/mix/1",
    crew: ["ann", "cas"],
  });
  const unit = { kind: "equipment", from: "oven#1", to: "oven#2" } as const;
  expect(pinOf({ task, startMin: 120, instead: unit }, write)).toEqual({
    ...{ task: "a/mix/1", start: "D 02:00" },
    equipment: ["oven#2"],
  });
});
