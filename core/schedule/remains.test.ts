import { describe, expect, it } from "vitest";
import { Agenda } from "./people.ts";
import type { Problem, Schedule, Task } from "./problem.ts";
import { remainsOf } from "./remains.ts";
import { repair } from "./repair.ts";

const person = { id: "p", skills: [], shifts: [{ from: 0, to: 400 }] };
const work = (id: string, more: Partial<Task> = {}): Task => ({
  ...{ id, modes: [{ duration: 30, people: [{ count: 1 }] }] },
  ...more,
});
const done = (id: string, start: number, more: Partial<Task> = {}) =>
  work(id, { status: "done", pin: { start, end: start + 30 }, ...more });
const at = (task: string, start: number, end = start + 30) => ({
  ...{ task, start, end, mode: 0, persons: ["p"], resources: [] },
});
const lag = (from: string, to: string, least = 0) => ({
  ...{ from: { task: from, at: "end" as const }, to: { task: to, at: "start" as const }, least },
});

describe("S20: what is over and touches nothing is left out of the mending", () => {
  const named = (id: string, start: number) =>
    done(id, start, { modes: [{ duration: 30, people: [{ count: 1, same: "team" }] }] });
  const problem: Problem = {
    ...{ horizon: 400, now: 150, persons: [person] },
    tasks: [
      done("long-over", 0),
      done("before", 30),
      named("team-1", 60),
      work("under", { status: "started", pin: { start: 140, end: 190, persons: ["p"] } }),
      work("next"),
      work("team-2", { modes: [{ duration: 30, people: [{ count: 1, same: "team" }] }] }),
    ],
    lags: [lag("long-over", "before"), lag("before", "next", 100), lag("team-1", "under", 90)],
  };
  const old: Schedule = {
    placements: [
      ...[at("long-over", 0), at("before", 30), at("team-1", 60)],
      ...[at("under", 140, 170), at("next", 170), at("team-2", 200)],
    ],
    spans: [],
  };

  it("what an open task hangs on, or shares a name with, stays; lags between fixed moments do not", () => {
    const remains = remainsOf(problem, old);
    expect(remains.problem.tasks.map(({ id }) => id)).toEqual([
      ...["before", "team-1", "under", "next", "team-2"],
    ]);
    expect(remains.problem.lags).toEqual([lag("before", "next", 100)]);
    expect(remains.whole(remains.old).placements.map(({ task }) => task)).toEqual(
      problem.tasks.map(({ id }) => id),
    );
  });

  it("the whole is judged, and what has happened alone has broken moves nothing", () => {
    const mended = repair(problem, old);
    expect(mended.schedule.placements[0]).toEqual(at("long-over", 0));
    // Begun 10 min too soon after what it waits for: told, and no reason to move what comes.
    expect(mended.violations).toMatchObject([]);
    const late: Problem = { ...problem, lags: [...problem.lags!, lag("under", "team-2", 5)] };
    const pushed = repair(late, old);
    expect(pushed.violations).toEqual([]);
    expect(pushed.schedule.placements.at(-1)!.start).toBeGreaterThanOrEqual(195);
  });

  it("two begun at once by one person: told, and the rest stays where it was", () => {
    const twice: Problem = {
      ...problem,
      tasks: problem.tasks.map((task) =>
        task.id === "next"
          ? { ...task, status: "started", pin: { start: 145, end: 175, persons: ["p"] } }
          : task,
      ),
    };
    const told: Schedule = {
      ...old,
      placements: old.placements.map((p) => (p.task === "under" ? at("under", 140, 190) : p)),
    };
    const { violations, changes } = repair(twice, told);
    expect(violations.map(({ rule, tasks }) => [rule, ...tasks])).toContainEqual([
      ...["person-busy", "under", "next"],
    ]);
    expect(changes.map(({ task }) => task)).toEqual(["next"]);
  });

  it("minutes given to one task are not another's, though both stand there", () => {
    const agenda = new Agenda({
      work: Int32Array.from([0, 400]),
      shiftEnd: Int32Array.from([400]),
      skills: 0,
    });
    agenda.give(10, 20, 1);
    agenda.force(10, 20, 2);
    expect([agenda.has(10, 20, 1), agenda.has(10, 20, 2)]).toEqual([true, false]);
  });
});
