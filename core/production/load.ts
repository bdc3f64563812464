import type { Placement } from "../schedule/problem.ts";
import type { Load } from "./plan-types.ts";
import type { Site } from "./site.ts";
import type { TaskSet } from "./tasks.ts";

type Span = { readonly from: number; readonly to: number };

/**
 * Busy and open minutes of each person and each unit in use, by day (README, P17). A person is open in shifts
 * without breaks; a unit all day, or in the times it is there. Shared time of a unit counts once.
 */
export function loadOf(site: Site, set: TaskSet, placements: readonly Placement[]): Load[] {
  const busy = new Map<string, Span[]>();
  const add = (id: string, from: number, to: number) => {
    if (to <= from) return;
    const list = busy.get(id);
    if (list) list.push({ from, to });
    else busy.set(id, [{ from, to }]);
  };
  placements.forEach((p, i) => {
    for (const person of p.persons) add(person, p.start, p.end);
    set.tasks[i]!.uses.forEach((_, k) => {
      const unit = p.resources[k];
      if (unit !== undefined) add(unit, p.start, p.end);
    });
  });
  const load: Load[] = [];
  const put = (resource: string, open: readonly Span[]) => {
    const used = union(busy.get(resource) ?? []);
    for (const day of daysOf(site, open, used)) {
      const span = site.clock.spanOf(day);
      const openMin = minutesIn(open, span);
      const busyMin = minutesIn(common(used, open), span);
      if (openMin > 0 || busyMin > 0) load.push({ resource, day, busyMin, openMin });
    }
  };
  for (const cook of site.crew) put(cook.id, cook.shifts.flatMap(worked));
  const end = Math.max(0, ...placements.map((p) => p.end));
  for (const unit of site.units.all) {
    if (!busy.has(unit.id)) continue;
    const whole = { from: 0, to: site.clock.spanOf(site.clock.dayOf(end)).to };
    const days = unit.equipment.days?.map((d) => ({
      from: Math.max(0, site.clock.minuteOf(d.from)),
      to: site.clock.minuteOf(d.to),
    }));
    put(unit.id, days ?? [whole]);
  }
  return load;
}

/** A shift without its breaks. */
export function worked(shift: Span & { readonly breaks: readonly Span[] }): Span[] {
  const spans: Span[] = [];
  let from = shift.from;
  for (const pause of shift.breaks) {
    if (pause.from > from) spans.push({ from, to: pause.from });
    from = Math.max(from, pause.to);
  }
  if (shift.to > from) spans.push({ from, to: shift.to });
  return spans;
}

function daysOf(site: Site, ...lists: readonly (readonly Span[])[]): string[] {
  const days = new Map<string, number>();
  for (const list of lists)
    for (const { from, to } of list)
      for (let at = from; at < to; ) {
        const day = site.clock.dayOf(at);
        const span = site.clock.spanOf(day);
        days.set(day, span.from);
        at = span.to;
      }
  return [...days].sort((a, b) => a[1] - b[1]).map(([day]) => day);
}

function union(spans: readonly Span[]): Span[] {
  const out: { from: number; to: number }[] = [];
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    const last = out.at(-1);
    if (last && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else out.push({ ...span });
  }
  return out;
}

function common(a: readonly Span[], b: readonly Span[]): Span[] {
  return a.flatMap((x) =>
    b.map((y) => ({ from: Math.max(x.from, y.from), to: Math.min(x.to, y.to) })).filter((s) => s.from < s.to),
  );
}

function minutesIn(spans: readonly Span[], within: Span): number {
  return spans.reduce(
    (sum, s) => sum + Math.max(0, Math.min(s.to, within.to) - Math.max(s.from, within.from)),
    0,
  );
}
