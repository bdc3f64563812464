import { describe, expect, it } from "vitest";
import { checkSchedule } from "./check.ts";
import { findConflict, proves } from "./conflict.ts";
import type { ConflictPart, Lag, Placement, Problem, Task } from "./problem.ts";
import { Random } from "./random.ts";
import { refuted } from "./refute.ts";

const HORIZON = 9;

/** Two to four short tasks with one or two pairs of hands, a stove of two places, dates and waits: tight. */
function tight(seed: number): Problem {
  const random = new Random(seed);
  const one = (from: number, to: number) => from + random.below(to - from + 1);
  const ids = ["a", "b", "c", "d"].slice(0, one(2, 4));
  const tasks = ids.map((id): Task => {
    const passive = random.below(4) === 0;
    const duration = one(1, 4);
    return {
      id,
      ...(random.below(3) === 0 ? { release: one(1, 4) } : {}),
      ...(random.below(2) === 0 ? { deadline: one(Math.max(3, duration), 8) } : {}),
      modes: [
        {
          duration,
          ...(passive ? {} : { people: [{ count: 1, ...(random.below(3) === 0 ? { skill: "fry" } : {}) }] }),
          ...(random.below(2) === 0 ? { resources: [{ of: ["stove"], amount: [one(1, 2)] }] } : {}),
        },
      ],
    };
  });
  const lags = ids.slice(1).flatMap((id, i): Lag[] =>
    random.below(2) === 0
      ? []
      : [
          {
            ...{ from: { task: ids[i]!, at: "end" }, to: { task: id, at: "start" }, rule: `wait ${i}` },
            ...(random.below(3) > 0 ? { least: one(0, 2) } : {}),
            ...(random.below(2) === 0 ? { most: one(2, 3) } : { least: one(0, 2) }),
          },
        ],
  );
  const shift = () => [{ from: one(0, 2), to: one(6, HORIZON) }];
  return {
    ...{ horizon: HORIZON, tasks, lags, resources: [{ id: "stove", capacity: [2] }] },
    persons: [
      { id: "ann", skills: ["fry"], shifts: shift() },
      ...(random.below(2) === 0 ? [] : [{ id: "bob", skills: [], shifts: shift() }]),
    ],
  };
}

const only = (problem: Problem, kept: ReadonlySet<string>): Problem => ({
  ...problem,
  tasks: problem.tasks.filter(({ id }) => kept.has(id)),
  lags: problem.lags!.filter(({ from, to }) => kept.has(from.task) && kept.has(to.task)),
});

/** Whether any plan keeps every rule: every start and everybody for each task, one after the other, judged as far as placed. */
function hasPlan(problem: Problem): boolean {
  const { tasks, persons = [] } = problem;
  const place = (placed: readonly Placement[]): boolean => {
    if (placed.length === tasks.length) return true;
    const task = tasks[placed.length]!;
    const part = only(problem, new Set(tasks.slice(0, placed.length + 1).map(({ id }) => id)));
    const [mode] = task.modes;
    const teams = mode!.people ? persons.map(({ id }) => [id]) : [[]];
    for (let start = 0; start + mode!.duration <= problem.horizon; start++)
      for (const team of teams) {
        const next = [
          ...placed,
          {
            ...{ task: task.id, start, end: start + mode!.duration, mode: 0, persons: team },
            resources: mode!.resources?.map(() => "stove") ?? [],
          },
        ];
        if (checkSchedule(part, { placements: next, spans: [] }).length === 0 && place(next)) return true;
      }
    return false;
  };
  return place([]);
}

/** Every rule of a problem that could be given up, as a conflict names it. */
function partsOf({ tasks, lags, resources, persons }: Problem): ConflictPart[] {
  const asked = new Set(tasks.flatMap(({ modes }) => modes[0]!.people?.map(({ skill = "" }) => skill) ?? []));
  return [
    ...tasks.flatMap(({ id, deadline, release }): ConflictPart[] => [
      ...(deadline === undefined ? [] : [{ kind: "deadline" as const, tasks: [id] }]),
      ...(release === undefined ? [] : [{ kind: "release" as const, tasks: [id] }]),
    ]),
    ...lags!.flatMap(({ from, to, least, most, rule: on }): ConflictPart[] => [
      ...(least === undefined ? [] : [{ kind: "least" as const, tasks: [from.task, to.task], on: on! }]),
      ...(most === undefined ? [] : [{ kind: "most" as const, tasks: [from.task, to.task], on: on! }]),
    ]),
    ...resources!.map(({ id: on }) => ({ kind: "capacity" as const, tasks: [], on })),
    ...persons!.map(({ id: on }) => ({ kind: "hours" as const, tasks: [], on })),
    ...[...asked].map((on) => ({ kind: "hands" as const, tasks: [], on })),
  ];
}

/** The problem with one rule given up, written without a look at how the search gives it up. */
function without(problem: Problem, { kind, tasks: [first], on }: ConflictPart, minutes = 0): Problem {
  const task = (edit: (t: Task) => Task) => problem.tasks.map((t) => (t.id === first ? edit(t) : t));
  switch (kind) {
    case "deadline":
      return { ...problem, tasks: task(({ deadline: _, ...rest }) => rest) };
    case "release":
      return { ...problem, tasks: task(({ release: _, ...rest }) => rest) };
    case "least":
      return {
        ...problem,
        lags: problem.lags!.map(({ least, ...lag }) =>
          lag.rule === on || least === undefined ? lag : { ...lag, least },
        ),
      };
    case "most":
      return {
        ...problem,
        lags: problem.lags!.map(({ most, ...lag }) =>
          lag.rule === on || most === undefined ? lag : { ...lag, most },
        ),
      };
    case "capacity":
      return {
        ...problem,
        resources: problem.resources!.map((r) => (r.id === on ? { ...r, capacity: [99] } : r)),
      };
    case "hours":
      return {
        ...problem,
        persons: problem.persons!.map((p) =>
          p.id === on ? { ...p, shifts: [{ from: 0, to: problem.horizon }] } : p,
        ),
      };
    case "hands": {
      const more = problem.tasks.map((_, i) => ({
        ...{ id: `more ${on}${i}`, skills: on ? [on] : [], shifts: [{ from: 0, to: problem.horizon }] },
      }));
      return { ...problem, persons: [...problem.persons!, ...more] };
    }
    case "duration":
      return {
        ...problem,
        tasks: task((t) => ({ ...t, modes: t.modes.map((m) => ({ ...m, duration: minutes })) })),
      };
    case "horizon":
      return stretched(problem, 0, 2 * HORIZON);
    case "now":
      return stretched(problem, 2 * HORIZON, 0);
    default:
      throw new Error(`no such rule here: ${kind}`);
  }
}

/** The axis made longer at either end; who was there all the time is there all the time. */
function stretched(problem: Problem, before: number, after: number): Problem {
  const horizon = before + problem.horizon + after;
  const later = (minute: number | undefined, key: string) =>
    minute === undefined ? {} : { [key]: minute + before };
  return {
    ...problem,
    horizon,
    tasks: problem.tasks.map((t) => ({
      ...t,
      ...later(t.release, "release"),
      ...later(t.deadline, "deadline"),
    })),
    persons: problem.persons!.map((p) => ({
      ...p,
      shifts: p.shifts.map(({ from, to }) =>
        from === 0 && to === problem.horizon
          ? { from: 0, to: horizon }
          : { from: from + before, to: to + before },
      ),
    })),
  };
}

const same = (a: ConflictPart, b: ConflictPart) =>
  a.kind === b.kind && a.on === b.on && a.tasks.join() === b.tasks.join();

describe("S19 on small tight problems, by trying everything", () => {
  it("S19 there is a conflict where there is no plan and none where there is one; it rules a plan out, and no rule of it is idle", () => {
    const seen = { fits: 0, conflicts: 0, rules: 0, refuted: 0, proved: 0 };
    for (let seed = 1; seed <= 160; seed++) {
      const problem = tight(seed);
      const conflict = findConflict(problem);
      expect(hasPlan(problem), `seed ${seed}`).toBe(conflict === null);
      // S24: what is refuted has no plan, whatever the search says.
      if (refuted(problem)) {
        expect(conflict, `seed ${seed}`).not.toBeNull();
        seen.refuted++;
      }
      if (!conflict) {
        seen.fits++;
        continue;
      }
      seen.conflicts++;
      expect(conflict.irreducible).toBe(true);
      const named = only(problem, new Set(conflict.tasks));
      // Where dates alone clash the minutes of a task are one of the rules; else they are what is planned.
      const minutes = named.tasks.map(({ id }) => ({ kind: "duration" as const, tasks: [id] }));
      const all = [...partsOf(named), ...(conflict.by === undefined ? [] : minutes)];
      const idle = all.filter((part) => !conflict.parts.some((kept) => same(kept, part)));
      const core = idle.reduce((rest, part) => without(rest, part), named);
      expect(hasPlan(core), `seed ${seed}: ${conflict.rules.join("; ")}`).toBe(false);
      if (proves(problem, conflict)) seen.proved++;
      for (const part of conflict.parts) {
        const ways =
          part.kind === "duration" ? Array.from({ length: HORIZON }, (_, minutes) => minutes) : [0];
        expect(
          ways.some((minutes) => hasPlan(without(core, part, minutes))),
          `seed ${seed} without ${JSON.stringify(part)} of ${conflict.rules.join("; ")}`,
        ).toBe(true);
        seen.rules++;
      }
    }
    expect(Math.min(seen.fits, seen.conflicts)).toBeGreaterThan(30);
    expect(seen.rules / seen.conflicts).toBeGreaterThan(2);
    expect(Math.min(seen.refuted, seen.proved)).toBeGreaterThan(20);
  });
});
