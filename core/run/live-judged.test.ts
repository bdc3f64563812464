import { beforeAll, describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { parseBook } from "../book/parse.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import type { LiveMade } from "../production/live.ts";
import type { PlanTask } from "../production/plan-types.ts";
import { type OpenLive, openLive } from "./live.ts";
import { run } from "./run.ts";
import { LiveDay } from "./testing/live-day.ts";

const read = parseBook(demoBook);
if (!read.ok) throw new Error("the demo is no book");

let open: OpenLive;
beforeAll(() => {
  const { plan } = run(read.value, "demo", { schedules: 8, remedies: false, trace: false });
  open = openLive(read.value, "demo", plan);
}, 60_000);

const rules = (live: OpenLive, made: LiveMade, now: number) => live.unsaid(made, now).map(({ rule }) => rule);
/** An answer with one task of it otherwise, and nothing said of it. */
const with_ = (made: LiveMade, id: string, change: Partial<PlanTask>): LiveMade => {
  const tasks = made.live.plan.tasks.map((task) => (task.id === id ? { ...task, ...change } : task));
  return { ...made, live: { ...made.live, plan: { ...made.live.plan, tasks } } };
};

describe("I19 the inspector in the middle of a service", () => {
  test("P25 the live plan keeps apart what the plan kept apart", () => {
    expect(open.base.problem.resources!.some(({ id }) => id.startsWith("bench/"))).toBe(true);
  });

  test("what an answer breaks it says: events of each kind on the demo", () => {
    const day = new LiveDay(open, open.base.site.clock.minuteOf("D 16:00"));
    expect(rules(open, day.made, day.now)).toEqual([]);
    const under = open.base.plan.tasks.filter(
      (t) => t.startMin < day.now && t.endMin > day.now + 5 && t.kind === "work" && t.hands.length > 0,
    );
    const [a, b = a] = under;
    const events: object[] = [
      { kind: "late", task: a!.id, edge: "end", byMin: 10, to: day.text(a!.endMin + 10) },
      { kind: "closed", unit: "combi-1", from: day.text(day.now + 5), to: day.text(day.now + 45) },
      { kind: "done", task: b!.id },
      { kind: "absent", person: a!.hands[0]!, from: day.text(day.now + 12) },
    ];
    for (const event of events) {
      day.now += 4;
      const made = day.say(event);
      expect(rules(open, made, day.now)).toEqual([]);
    }
  });

  test("one planted fault is found: in the past, away, out, the past moved, in two places", () => {
    const { clock } = open.base.site;
    const day = new LiveDay(open, clock.minuteOf("D 16:00"));
    const tasks = open.base.plan.tasks;
    const later = tasks.find((t) => t.startMin > day.now + 20 && t.kind === "work" && t.hands.length === 1)!;
    const early = day.now - 1 - later.startMin;
    const moved = {
      ...{ startMin: later.startMin + early, endMin: later.endMin + early },
      ...{ start: clock.textOf(later.startMin + early), end: clock.textOf(later.endMin + early) },
    };
    expect(rules(open, with_(day.made, later.id, moved), day.now)).toContain("now");
    const begun = tasks.find((t) => t.startMin < day.now && t.endMin > day.now)!;
    const shifted = { startMin: begun.startMin - 3, start: clock.textOf(begun.startMin - 3) };
    expect(rules(open, with_(day.made, begun.id, shifted), day.now)).toContain("past");
    const other = tasks.find(
      (t) => t.hands.length > 0 && t.startMin < day.now && t.endMin > day.now + 5 && t.id !== later.id,
    )!;
    const at = { startMin: day.now + 1, endMin: day.now + 1 + later.endMin - later.startMin };
    const twice = {
      ...at,
      start: clock.textOf(at.startMin),
      end: clock.textOf(at.endMin),
      hands: other.hands,
    };
    expect(rules(open, with_(day.made, later.id, twice), day.now)).toContain("busy");

    const person = later.hands[0]!;
    const away = day.say({ kind: "absent", person, from: day.text(day.now + 1) });
    const back = with_(away, later.id, { hands: [person] });
    expect(rules(open, back, day.now)).toContain("away");

    const hot = tasks.find((t) => t.startMin > day.now + 30 && t.equipment.length > 0)!;
    const shut = new LiveDay(open, day.now);
    const made = shut.say({
      kind: "closed",
      unit: hot.equipment[0]!.id,
      from: shut.text(shut.now),
      to: shut.text(shut.now + 240),
    });
    const silent: LiveMade = { ...made, live: { ...made.live, plan: { ...made.live.plan, broken: [] } } };
    expect(rules(open, with_(silent, hot.id, hot), shut.now)).toContain("out");
  });

  test.each([1, 4, 8, 9])("random book %i: what holds, holds for the inspector", (seed) => {
    const random = randomBook(seed, 3 + ((seed * 7) % 13));
    const { plan } = run(random, "service-1", { schedules: 4, remedies: false, trace: false });
    if (plan.status === "none" || plan.tasks.length === 0) return;
    const live = openLive(random, "service-1", plan);
    let state = seed * 7919 + 13;
    const next = (below: number) => {
      state = (state * 1103515245 + 12345) % 2147483648;
      return Math.floor((state / 2147483648) * below);
    };
    const first = Math.min(...plan.tasks.map((t) => t.startMin));
    const last = Math.max(...plan.tasks.map((t) => t.endMin));
    for (let k = 0; k < 7; k++) {
      const day = new LiveDay(live, first + next(Math.max(1, last - first)));
      const near = plan.tasks.filter((t) => Math.abs(t.startMin - day.now) < 90);
      const task = (near.length > 0 ? near : plan.tasks)[next(near.length || plan.tasks.length)]!;
      const until = { from: day.text(day.now), to: day.text(day.now + 5 + next(60)) };
      const [id, unit] = [task.hands[0], task.equipment[0]?.id];
      const late = { edge: "end", byMin: 10, to: day.text(Math.max(day.now, task.endMin) + 10) };
      const body = [
        { kind: "late", task: task.id, ...late },
        id === undefined ? { kind: "done", task: task.id } : { kind: "absent", person: id, ...until },
        unit === undefined ? { kind: "started", task: task.id } : { kind: "closed", unit, ...until },
      ][next(3)]!;
      const made = day.say(body);
      if (made.live.plan.status !== "feasible") continue;
      held++;
      expect(live.unsaid(made, day.now), JSON.stringify(body)).toEqual([]);
    }
  });
  let held = 0;

  test("they were not dull", () => {
    expect(held).toBeGreaterThan(8);
  });
});
