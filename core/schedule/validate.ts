import { leastCycle } from "./cycle.ts";
import type { Moment, PeopleNeed, Problem, Resource, ResourceNeed } from "./problem.ts";
import type { Refusal } from "./refusal.ts";

/**
 * Reads a problem and says everything in it that makes no sense: figures that are not whole minutes, names
 * nobody bears, demands nothing can serve, calendars without a working minute, least lags in a circle.
 * An empty list means the engine can work on it (which does not mean that everything fits).
 */
export function validateProblem(problem: Problem): Refusal[] {
  const v = new Reader(problem);
  v.figures();
  problem.resources?.forEach((r, i) => {
    v.resource(r, `resources[${i}]`);
  });
  v.persons();
  v.tasks();
  v.lags();
  problem.spans?.forEach((s, i) => {
    v.moment(s.from, `spans[${i}].from`);
    v.moment(s.to, `spans[${i}].to`);
    v.need(s.need, `spans[${i}].need`, s.id);
  });
  if (v.refusals.length === 0) {
    const cycle = leastCycle(problem);
    if (cycle)
      v.refuse(
        "lags",
        `${cycle.join(" > ")} wait for each other in a circle`,
        "take one of these least lags out",
      );
  }
  return v.refusals;
}

class Reader {
  readonly refusals: Refusal[] = [];
  private readonly problem: Problem;
  private readonly resources = new Map<string, Resource>();
  private readonly taskIds: Set<string>;

  constructor(problem: Problem) {
    this.problem = problem;
    this.taskIds = new Set(problem.tasks.map((t) => t.id));
    for (const r of problem.resources ?? []) this.resources.set(r.id, r);
    this.unique(problem.tasks, "tasks");
    this.unique(problem.resources ?? [], "resources");
    this.unique(problem.persons ?? [], "persons");
    this.unique(problem.spans ?? [], "spans");
  }

  refuse(path: string, what: string, mend: string): void {
    this.refusals.push({ path: `/${path.replace(/\[(\d+)\]/g, "/$1").replaceAll(".", "/")}`, what, mend });
  }

  private unique(list: readonly { readonly id: string }[], path: string): void {
    const seen = new Map<string, number>();
    list.forEach((item, i) => {
      const first = seen.get(item.id);
      if (first !== undefined)
        this.refuse(`${path}[${i}].id`, `"${item.id}" is also ${path} ${first}`, "give it an id of its own");
      else seen.set(item.id, i);
    });
  }

  /** A whole number within [least, most]. */
  private whole(value: number | undefined, path: string, least: number, most = MOST): void {
    if (value === undefined) return;
    if (!Number.isInteger(value))
      this.refuse(
        path,
        `${value} is not a whole number`,
        "round it to whole minutes, or count in a smaller unit",
      );
    else if (value < least || value > most)
      this.refuse(
        path,
        `${value} is outside ${least} to ${most}`,
        `give a whole number from ${least} to ${most}`,
      );
  }

  private cost(value: number | undefined, path: string): void {
    if (value !== undefined && !(value >= 0 && value <= DEAREST))
      this.refuse(path, `${value} is not a cost`, `give a number from 0 to ${DEAREST}`);
  }

  figures(): void {
    const p = this.problem;
    this.whole(p.horizon, "horizon", 1);
    this.whole(p.now, "now", 0, p.horizon);
    const { peak, ...weights } = p.objective ?? {};
    for (const [term, weight] of Object.entries(weights)) this.cost(weight, `objective.${term}`);
    if (peak) {
      this.cost(peak.weight, "objective.peak.weight");
      this.cost(peak.share, "objective.peak.share");
      this.whole(peak.every, "objective.peak.every", 1);
      this.whole(peak.from, "objective.peak.from", 0, peak.every - 1);
      if (peak.every >= 1 && p.horizon / peak.every > STRETCHES)
        this.refuse(
          "objective.peak.every",
          `${peak.every} min cut the horizon in more than ${STRETCHES} stretches`,
          "make them longer, or the horizon shorter",
        );
    }
    p.walks?.forEach((w, i) => {
      this.whole(w.minutes, `walks[${i}].minutes`, 0);
    });
  }

  resource(r: Resource, path: string): void {
    if (r.capacity.length === 0)
      this.refuse(`${path}.capacity`, "has no dimension", "give one figure a dimension");
    r.capacity.forEach((c, d) => {
      this.whole(c, `${path}.capacity[${d}]`, 0);
    });
    r.calendar?.forEach((c, i) => {
      this.interval(c, `${path}.calendar[${i}]`);
      c.capacity.forEach((x, d) => {
        this.whole(x, `${path}.calendar[${i}].capacity[${d}]`, 0);
      });
      if (c.capacity.length !== r.capacity.length)
        this.refuse(
          `${path}.calendar[${i}].capacity`,
          `has ${c.capacity.length} dimensions, the resource "${r.id}" ${r.capacity.length}`,
          "give one figure for each dimension",
        );
    });
    this.apart(r.calendar ?? [], `${path}.calendar`);
    if (
      r.calendar &&
      !r.calendar.some((c) => c.from < this.problem.horizon && c.to > 0 && c.capacity.some((x) => x > 0))
    )
      this.refuse(`${path}.calendar`, `"${r.id}" is never available`, "give it an interval, or take it out");
    if (r.state) {
      const s = r.state;
      if (!(s.lowest <= s.highest))
        this.refuse(`${path}.state`, `lowest ${s.lowest} is above highest ${s.highest}`, "swap them");
      this.cost(s.tolerance, `${path}.state.tolerance`);
      this.cost(s.minutesPerUnit, `${path}.state.minutesPerUnit`);
      this.whole(s.leastMinutes, `${path}.state.leastMinutes`, 0);
    }
    r.setups?.forEach((s, i) => {
      this.whole(s.minutes, `${path}.setups[${i}].minutes`, 0);
    });
  }

  private interval(i: { readonly from: number; readonly to: number }, path: string): void {
    this.whole(i.from, `${path}.from`, -MOST);
    this.whole(i.to, `${path}.to`, -MOST);
    if (!(i.from < i.to))
      this.refuse(path, `ends at ${i.to}, not after ${i.from}`, "let it end after it begins");
  }

  private apart(list: readonly { readonly from: number; readonly to: number }[], path: string): void {
    for (let i = 1; i < list.length; i++)
      if (list[i]!.from < list[i - 1]!.to)
        this.refuse(
          `${path}[${i}]`,
          "begins before the one before it ends",
          "put them in order, without overlap",
        );
  }

  persons(): void {
    this.problem.persons?.forEach((p, i) => {
      const path = `persons[${i}]`;
      this.apart(p.shifts, `${path}.shifts`);
      let works = 0;
      p.shifts.forEach((s, j) => {
        this.interval(s, `${path}.shifts[${j}]`);
        works += Math.max(0, Math.min(s.to, this.problem.horizon) - Math.max(s.from, 0));
        s.breaks?.forEach((b, k) => {
          this.interval(b, `${path}.shifts[${j}].breaks[${k}]`);
          if (b.from < s.from || b.to > s.to)
            this.refuse(
              `${path}.shifts[${j}].breaks[${k}]`,
              "lies outside its shift",
              "move it inside the shift",
            );
          works -= Math.max(0, Math.min(b.to, this.problem.horizon) - Math.max(b.from, 0));
        });
        this.apart(s.breaks ?? [], `${path}.shifts[${j}].breaks`);
      });
      if (works <= 0)
        this.refuse(
          `${path}.shifts`,
          `"${p.id}" has no working minute`,
          "give a shift, or take the person out",
        );
    });
  }

  tasks(): void {
    const p = this.problem;
    p.tasks.forEach((t, i) => {
      const path = `tasks[${i}]`;
      this.whole(t.release, `${path}.release`, 0, p.horizon);
      this.whole(t.deadline, `${path}.deadline`, 0);
      this.whole(t.due, `${path}.due`, 0);
      this.cost(t.late, `${path}.late`);
      this.cost(t.early, `${path}.early`);
      this.cost(t.criticality, `${path}.criticality`);
      if (t.modes.length === 0)
        this.refuse(`${path}.modes`, `"${t.id}" has no way to be done`, "give it a mode");
      t.modes.forEach((m, j) => {
        if (m.duration < 0)
          this.refuse(
            `${path}.modes[${j}].duration`,
            `"${t.id}" lasts ${m.duration} min`,
            "give the minutes it takes, 0 or more",
          );
        else this.whole(m.duration, `${path}.modes[${j}].duration`, 0);
        this.cost(m.cost, `${path}.modes[${j}].cost`);
        m.people?.forEach((need, k) => {
          this.people(need, `${path}.modes[${j}].people[${k}]`, t.id);
        });
        m.resources?.forEach((need, k) => {
          this.need(need, `${path}.modes[${j}].resources[${k}]`, t.id);
        });
      });
      this.pin(i, path);
    });
  }

  private pin(i: number, path: string): void {
    const t = this.problem.tasks[i]!;
    const pin = t.pin;
    if (t.status === "started" && pin?.start === undefined)
      this.refuse(`${path}.pin`, `"${t.id}" is started but has no start`, "give pin.start");
    if (t.status === "done" && (pin?.start === undefined || pin.end === undefined))
      this.refuse(`${path}.pin`, `"${t.id}" is done but has no start and end`, "give pin.start and pin.end");
    if (!pin) return;
    if (pin.end !== undefined && pin.start === undefined)
      this.refuse(`${path}.pin.end`, "an end is pinned without a start", "give pin.start too");
    this.whole(pin.start, `${path}.pin.start`, 0, this.problem.horizon);
    this.whole(pin.end, `${path}.pin.end`, pin.start ?? 0, this.problem.horizon);
    this.whole(pin.mode, `${path}.pin.mode`, 0, Math.max(0, t.modes.length - 1));
    if (pin.mode === undefined && t.modes.length > 1 && (pin.persons || pin.resources))
      this.refuse(`${path}.pin.mode`, "persons or resources are pinned but the mode is not", "give pin.mode");
    const known = new Set((this.problem.persons ?? []).map((q) => q.id));
    pin.persons?.forEach((id, k) => {
      if (!known.has(id))
        this.refuse(`${path}.pin.persons[${k}]`, `nobody is called "${id}"`, "name a person");
    });
    pin.resources?.forEach((id, k) => {
      if (!this.resources.has(id))
        this.refuse(`${path}.pin.resources[${k}]`, `no resource is called "${id}"`, "name a resource");
    });
    const mode = t.modes[pin.mode ?? 0];
    if (!mode) return;
    const heads = (mode.people ?? []).reduce((sum, n) => sum + n.count, 0);
    if (pin.persons && pin.persons.length !== heads)
      this.refuse(
        `${path}.pin.persons`,
        `names ${pin.persons.length}, the mode needs ${heads}`,
        "name them all",
      );
    if (pin.resources && pin.resources.length !== (mode.resources ?? []).length)
      this.refuse(
        `${path}.pin.resources`,
        `names ${pin.resources.length}, the mode needs ${(mode.resources ?? []).length}`,
        "name one for each need",
      );
  }

  private people(need: PeopleNeed, path: string, who: string): void {
    this.whole(need.count, `${path}.count`, 1);
    const all = this.problem.persons ?? [];
    need.among?.forEach((id, k) => {
      if (!all.some((p) => p.id === id))
        this.refuse(`${path}.among[${k}]`, `nobody is called "${id}"`, "name a person");
    });
    const able = all.filter(
      (p) =>
        (need.skill === undefined || p.skills.includes(need.skill)) &&
        (!need.among || need.among.includes(p.id)),
    ).length;
    const skill = need.skill === undefined ? "" : ` with the skill "${need.skill}"`;
    if (able < need.count)
      this.refuse(
        path,
        `"${who}" needs ${need.count}${skill}, there are ${able}`,
        "ask for fewer, or add persons or the skill",
      );
  }

  need(need: ResourceNeed, path: string, who: string): void {
    if (need.of.length === 0) this.refuse(`${path}.of`, "names no resource", "name at least one");
    need.amount.forEach((a, d) => {
      this.whole(a, `${path}.amount[${d}]`, 0);
    });
    let serves = false;
    need.of.forEach((id, k) => {
      const r = this.resources.get(id);
      if (!r) this.refuse(`${path}.of[${k}]`, `no resource is called "${id}"`, "name a resource");
      else if (servesNeed(r, need)) serves = true;
    });
    if (!serves && need.of.every((id) => this.resources.has(id)) && need.of.length > 0)
      this.refuse(
        path,
        `"${who}": ${whyNot(this.resources.get(need.of[0]!)!, need)}`,
        need.amount.length > this.resources.get(need.of[0]!)!.capacity.length
          ? "give one figure for each dimension"
          : "ask for less, or name another resource",
      );
  }

  moment(m: Moment, path: string): void {
    if (!this.taskIds.has(m.task))
      this.refuse(`${path}.task`, `no task is called "${m.task}"`, "name a task");
  }

  lags(): void {
    this.problem.lags?.forEach((lag, i) => {
      const path = `lags[${i}]`;
      this.moment(lag.from, `${path}.from`);
      this.moment(lag.to, `${path}.to`);
      this.whole(lag.least, `${path}.least`, -MOST);
      this.whole(lag.most, `${path}.most`, -MOST);
      this.whole(lag.best, `${path}.best`, -MOST);
      this.cost(lag.cost, `${path}.cost`);
      if (lag.least === undefined && lag.most === undefined && lag.best === undefined)
        this.refuse(path, "says nothing", "give least, most or best");
      if (lag.least !== undefined && lag.most !== undefined && lag.least > lag.most)
        this.refuse(path, `least ${lag.least} is above most ${lag.most}`, "lower least or raise most");
      if (lag.from.task === lag.to.task && lag.from.at === lag.to.at)
        this.refuse(path, `runs from "${lag.from.task}" to itself`, "name two moments");
    });
  }
}

/** Largest figure read: keeps every sum inside 32-bit whole numbers. */
const MOST = 100_000_000;

/** Dearest minute: a sum over every task stays a number. */
const DEAREST = 1_000_000_000_000;
/** Most stretches a peak is looked for in. */
const STRETCHES = 1_000_000;

/** Whether resource r, empty, could ever hold the need. */
export function servesNeed(r: Resource, need: ResourceNeed): boolean {
  return whyNot(r, need) === "";
}

function whyNot(r: Resource, need: ResourceNeed): string {
  if (need.amount.length > r.capacity.length)
    return `"${r.id}" has ${r.capacity.length} dimensions, the need names ${need.amount.length}`;
  for (let d = 0; d < need.amount.length; d++) {
    const most = r.calendar ? Math.max(0, ...r.calendar.map((c) => c.capacity[d] ?? 0)) : r.capacity[d]!;
    if (need.amount[d]! > most)
      return `needs ${need.amount[d]} of ${r.dimensions?.[d] ?? `dimension ${d}`}, "${r.id}" has ${most}`;
  }
  if (!need.state) return "";
  if (!r.state) return `"${r.id}" has no state to set`;
  if (need.state.set < r.state.lowest || need.state.set > r.state.highest)
    return `needs the state ${need.state.set}, "${r.id}" reaches ${r.state.lowest} to ${r.state.highest}`;
  return "";
}
