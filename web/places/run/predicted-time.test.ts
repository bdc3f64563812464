import { describe, expect, it } from "vitest";
import type { Entry } from "../../offline/entry.ts";
import { placed } from "./predicted-time.ts";

const at = (hour: string) => `2027-01-30T${hour}:00Z`;
const minute = (hour: string) => Date.parse(at(hour)) / 60_000;
const reading = (hour: string, value: number) => {
  const first: Entry = { id: hour, service: "s", kind: "reading", at: at(hour), value };
  return { first, corrections: [], value };
};
const tasks = [{ id: "t1", start: minute("18:00") }];

describe("readings beside the computed curve", () => {
  it("counts from the start marked on the board, else from the planned one", () => {
    const started: Entry = { id: "e", service: "s", kind: "started", at: at("18:20"), task: "t1" };
    expect(placed([reading("18:30", 50)], [started], tasks, 60).inside).toEqual([[10, 50]]);
    expect(placed([reading("18:30", 50)], [], tasks, 60).inside).toEqual([[30, 50]]);
  });
  it("only counts what was read at another time", () => {
    const told = placed([reading("09:00", 50), reading("23:00", 60)], [], tasks, 60);
    expect(told).toEqual({ inside: [], outside: 2 });
  });
});
