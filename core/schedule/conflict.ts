import { clashOfDates } from "./clash.ts";
import { withEnds } from "./facts.ts";
import type { Conflict, ConflictPart, Problem, ResourceNeed, Task } from "./problem.ts";
import { type RefuteOptions, refuted } from "./refute.ts";
import { solve } from "./solve.ts";

export interface ConflictOptions {
  readonly seed?: number;
  /** Schedules allowed for each trial. Default 60. */
  readonly schedules?: number;
  /** True ends the search with the smallest set so far. */
  readonly stop?: () => boolean;
}

/**
 * A small set of rules that can't all be kept, or null when a plan keeps them all. First dates and waits alone,
 * by their longest circle: that is proof. Else tasks are left out, then rules, as long as what stays still finds
 * no plan within the schedules allowed (QuickXplain, Junker 2004): then `irreducible` is sure, because every
 * set with one rule less was planned, and the clash itself is as sure as the search.
 */
export function findConflict(problem: Problem, options: ConflictOptions = {}): Conflict | null {
  const facts = withEnds(problem);
  const waits = clashOfDates(facts);
  if (waits) return waits;
  const fits = (p: Problem) => {
    const { status } = solve(p, { seed: options.seed ?? 1, schedules: options.schedules ?? 60 });
    return status === "feasible" || status === "optimal";
  };
  const stop = options.stop ?? (() => false);
  if (fits(facts)) return null;
  const tasks = smallest(
    facts.tasks.map((t) => t.id),
    (kept) => !fits(onlyTasks(facts, new Set(kept))),
    stop,
  );
  const core = onlyTasks(facts, new Set(tasks));
  const rules = rulesOf(core);
  const kept = smallest(
    rules.map((_, k) => k),
    (some) => !fits(withRules(core, rules, new Set(some))),
    stop,
  );
  const needed = kept.map((k) => rules[k]!);
  return {
    tasks,
    rules: needed.map((rule) => rule.name),
    parts: needed.map((rule) => rule.part),
    irreducible: !stop(),
  };
}

/**
 * Whether a conflict found in a problem is proved: dates and waits by their circle; else its tasks with its rules alone are
 * refuted (`refuted`). False says nothing.
 */
export function proves(problem: Problem, conflict: Conflict, options: RefuteOptions = {}): boolean {
  if (conflict.by !== undefined) return true;
  const core = onlyTasks(withEnds(problem), new Set(conflict.tasks));
  const named = new Set(conflict.parts.map(keyOf));
  const rules = rulesOf(core);
  const kept = new Set(rules.flatMap(({ part }, k) => (named.has(keyOf(part)) ? [k] : [])));
  return refuted(withRules(core, rules, kept), options);
}

const keyOf = ({ kind, tasks, on }: ConflictPart) => JSON.stringify([kind, tasks, on]);

/** QuickXplain: a smallest-by-inclusion part of the list for which `clash` holds; it holds for the whole. */
function smallest<T>(list: readonly T[], clash: (part: readonly T[]) => boolean, stop: () => boolean): T[] {
  const halve = (base: readonly T[], added: boolean, rest: readonly T[]): T[] => {
    if (stop()) return [...rest];
    if (added && clash(base)) return [];
    if (rest.length <= 1) return [...rest];
    const middle = rest.length >> 1;
    const first = rest.slice(0, middle);
    const second = rest.slice(middle);
    const fromSecond = halve([...base, ...first], first.length > 0, second);
    const fromFirst = halve([...base, ...fromSecond], fromSecond.length > 0, first);
    return [...fromFirst, ...fromSecond];
  };
  if (clash([])) return [];
  const found = new Set(halve([], false, list));
  return list.filter((x) => found.has(x));
}

/** The problem with some of its tasks and what lies between them: it asks for less than the whole. */
function onlyTasks(problem: Problem, kept: ReadonlySet<string>): Problem {
  return {
    ...problem,
    tasks: problem.tasks.filter((t) => kept.has(t.id)),
    lags: (problem.lags ?? []).filter((l) => kept.has(l.from.task) && kept.has(l.to.task)),
    spans: (problem.spans ?? []).filter((s) => kept.has(s.from.task) && kept.has(s.to.task)),
  };
}

/** One rule that can be given up, by name. */
interface Given {
  readonly name: string;
  readonly part: ConflictPart;
  readonly without: (p: Problem) => Problem;
}

function rulesOf(problem: Problem): Given[] {
  const rules: Given[] = [];
  const editTask = (id: string, edit: (t: Task) => Task) => (p: Problem) => ({
    ...p,
    tasks: p.tasks.map((t) => (t.id === id ? edit(t) : t)),
  });
  for (const t of problem.tasks) {
    const name = t.label ?? t.id;
    if (t.deadline !== undefined)
      rules.push({
        name: `deadline of ${name}`,
        part: { kind: "deadline", tasks: [t.id] },
        without: editTask(t.id, ({ deadline: _, ...rest }) => rest),
      });
    if (t.release !== undefined)
      rules.push({
        name: `release of ${name}`,
        part: { kind: "release", tasks: [t.id] },
        without: editTask(t.id, ({ release: _, ...rest }) => rest),
      });
    if (t.pin && (t.status ?? "open") === "open")
      rules.push({
        name: `pin of ${name}`,
        part: { kind: "pin", tasks: [t.id] },
        without: editTask(t.id, ({ pin: _, ...rest }) => rest),
      });
  }
  problem.lags?.forEach((lag, k) => {
    const name = lag.rule ?? `${lag.from.task} ${lag.from.at} to ${lag.to.task} ${lag.to.at}`;
    const edit = (part: "least" | "most") => (p: Problem) => ({
      ...p,
      // Kept in place, without the figure, so that positions stay.
      lags: p.lags!.map((l, x) =>
        x === k ? { ...l, [part]: part === "least" ? -p.horizon : 2 * p.horizon } : l,
      ),
    });
    const part = (kind: ConflictPart["kind"]) => ({
      ...{ kind, tasks: [lag.from.task, lag.to.task] },
      ...(lag.rule === undefined ? {} : { on: lag.rule }),
    });
    if (lag.least !== undefined)
      rules.push({ name: `least wait: ${name}`, part: part("least"), without: edit("least") });
    if (lag.most !== undefined)
      rules.push({ name: `longest wait: ${name}`, part: part("most"), without: edit("most") });
  });
  for (const r of problem.resources ?? []) {
    const freed = (need: ResourceNeed): ResourceNeed =>
      need.of.length === 1 && need.of[0] === r.id
        ? { of: need.of, amount: need.amount, ...(need.same === undefined ? {} : { same: need.same }) }
        : need;
    rules.push({
      name: `capacity and states of ${r.label ?? r.id}`,
      part: { kind: "capacity", tasks: [], on: r.id },
      without: (p) => ({
        ...p,
        resources: p.resources!.map((x) =>
          x.id === r.id
            ? {
                id: x.id,
                capacity: x.capacity.map(() => 10_000_000),
                ...(x.state ? { state: { ...x.state, tolerance: 1e9 } } : {}),
              }
            : x,
        ),
        tasks: p.tasks.map((t) => ({
          ...t,
          modes: t.modes.map((m) => ({
            ...m,
            resources: (m.resources ?? []).map(freed),
          })),
        })),
        spans: (p.spans ?? []).map((s) => ({ ...s, need: freed(s.need) })),
      }),
    });
  }
  for (const person of problem.persons ?? [])
    rules.push({
      name: `hours of ${person.label ?? person.id}`,
      part: { kind: "hours", tasks: [], on: person.id },
      without: (p) => ({
        ...p,
        persons: p.persons!.map((x) =>
          x.id === person.id ? { ...x, shifts: [{ from: 0, to: p.horizon }] } : x,
        ),
      }),
    });
  for (const [skill, count] of handsAsked(problem))
    rules.push({
      name: `number of hands${skill === "" ? "" : ` with ${skill}`}`,
      part: { kind: "hands", tasks: [], on: skill },
      without: (p) => ({
        ...p,
        persons: [...(p.persons ?? []), ...helpers(skill, count, p.horizon)],
      }),
    });
  return rules;
}

/** By skill ("" for any) the hands that all tasks ask for together: with so many more nobody waits for another. */
function handsAsked(problem: Problem): Map<string, number> {
  const asked = new Map<string, number>();
  for (const task of problem.tasks) {
    const needs = new Map<string, number>();
    for (const mode of task.modes)
      for (const need of mode.people ?? []) {
        if (need.among) continue;
        const skill = need.skill ?? "";
        needs.set(skill, Math.max(needs.get(skill) ?? 0, need.count));
      }
    for (const [skill, count] of needs) asked.set(skill, (asked.get(skill) ?? 0) + count);
  }
  return asked;
}

function helpers(skill: string, count: number, horizon: number) {
  return Array.from({ length: count }, (_, n) => ({
    id: `more ${skill} ${n}`,
    skills: skill === "" ? [] : [skill],
    shifts: [{ from: 0, to: horizon }],
  }));
}

function withRules(problem: Problem, rules: readonly Given[], kept: ReadonlySet<number>): Problem {
  return rules.reduce((p, rule, k) => (kept.has(k) ? p : rule.without(p)), problem);
}
