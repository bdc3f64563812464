import type { Mode, Person, Problem } from "./problem.ts";
import type { Decided, Way, Worker } from "./ways.ts";

/** Minutes a moment may fall on by shifts alone: from, to, from, to …, both belonging to it, sorted. */
export type Minutes = Int32Array;

/** By moment the minutes its task's people could keep with nothing else to do; null where any would do. */
export type Hours = readonly (Minutes | null)[];

/**
 * When each task could start and end if its people had nothing else to do: in any of its ways, as many of those
 * who can do it as it needs are at work the whole time. What shifts alone forbid need not be tried.
 */
export function hoursOf(
  ways: readonly (readonly Way[])[],
  workers: readonly Worker[],
  decided: readonly (Decided | null)[],
  axis: Axis,
): Hours {
  const { tasks } = axis.problem;
  const before = new Before(axis);
  const known = new Map<string, readonly [Minutes, Minutes]>();
  const hours: (Minutes | null)[] = [];
  const lists = new Map<readonly number[], number>();
  const groups = new Groups(workers);
  ways.forEach((list, i) => {
    const d = decided[i];
    const open = d && d.mode >= 0 ? [list[d.mode]!] : list;
    const free = open.some((w) => w.heads === 0 || w.duration === 0);
    // What is decided to the minute or has begun answers to nobody's shifts.
    if (free || (d && (d.status !== "open" || (d.start >= 0 && d.end >= 0)))) {
      hours.push(null, null);
      return;
    }
    const alike = d ? undefined : before.get(tasks[i]!.modes);
    if (alike) {
      hours.push(alike[0], alike[1]);
      return;
    }
    const key = open.map((w) => signature(w, d?.persons ?? null, lists)).join("|");
    let found = known.get(key);
    if (!found) {
      const of = (ends: boolean) => union(open.flatMap((w) => spansOf(w, groups, d?.persons ?? null, ends)));
      found = [of(false), of(true)];
      known.set(key, found);
    }
    if (!d) before.keep(tasks[i]!.modes, found);
    hours.push(found[0], found[1]);
  });
  return hours;
}

/** What a model is seen on. */
interface Axis {
  readonly problem: Problem;
  readonly mirrored: boolean;
  readonly end: number;
}

/** When work of some modes can start, and when it can end. */
type StartsAndEnds = readonly [Minutes, Minutes];
type OfModes = WeakMap<readonly Mode[], StartsAndEnds>;

/** Hours as time runs, and by the end of the axis as it runs backward. */
interface Views {
  readonly forward: OfModes;
  readonly mirrored: Map<number, OfModes>;
}

const ofPeople = new WeakMap<readonly Person[], Map<number, Views>>();

/**
 * Hours of the same people: a plan that is mended all day asks for the same at each event, and looked at from the end
 * they are the same read backward.
 */
class Before {
  private readonly mirrored: boolean;
  private readonly end: number;
  private readonly forward: OfModes;
  private readonly here: OfModes;

  constructor({ problem, mirrored, end }: Axis) {
    this.mirrored = mirrored;
    this.end = end;
    const { persons = [] } = problem;
    const known = ofPeople.get(persons) ?? new Map<number, Views>();
    ofPeople.set(persons, known);
    // An axis longer than all shifts changes nothing.
    const last = persons.reduce((most, { shifts }) => shifts.reduce((m, s) => Math.max(m, s.to), most), 0);
    const clipped = Math.min(end, last);
    const views: Views = known.get(clipped) ?? { forward: new WeakMap(), mirrored: new Map() };
    known.set(clipped, views);
    this.forward = views.forward;
    this.here = mirrored ? (views.mirrored.get(end) ?? new WeakMap()) : views.forward;
    if (mirrored) views.mirrored.set(end, this.here);
  }

  get(modes: readonly Mode[]): StartsAndEnds | undefined {
    const found = this.here.get(modes);
    if (found || !this.mirrored) return found;
    const forward = this.forward.get(modes);
    if (!forward) return undefined;
    const turned = this.turned(forward);
    this.here.set(modes, turned);
    return turned;
  }

  keep(modes: readonly Mode[], found: StartsAndEnds): void {
    this.here.set(modes, found);
    if (this.mirrored) this.forward.set(modes, this.turned(found));
  }

  /** What starts one way round ends the other way. */
  private turned([starts, ends]: StartsAndEnds): StartsAndEnds {
    return [backward(ends, this.end), backward(starts, this.end)];
  }
}

function backward(minutes: Minutes, end: number): Minutes {
  return minutes.map((_, k) => end - minutes[minutes.length - 1 - k]!);
}

/** Ways with one signature have the same hours. Needs that ask for the same people share one list, numbered here. */
function signature(
  way: Way,
  persons: readonly number[] | null,
  lists: Map<readonly number[], number>,
): string {
  const numbered = (able: readonly number[]) => {
    if (!lists.has(able)) lists.set(able, lists.size);
    return lists.get(able)!;
  };
  const people = persons
    ? `by ${persons}`
    : way.people.map((n) => `${n.count} of ${numbered(n.able)}`).join(";");
  return `${way.duration} ${way.interrupt} ${people}`;
}

/** From, to (both belonging to it) and how many people it is of. */
type Span = readonly [from: number, to: number, heads: number];

/** People of the same hours count together: a brigade has few patterns of shifts. */
class Groups {
  readonly workers: readonly Worker[];
  /** By worker the first one of the same hours. */
  private readonly like: readonly number[];
  private readonly counted = new Map<readonly number[], ReadonlyMap<number, number>>();

  constructor(workers: readonly Worker[]) {
    this.workers = workers;
    const first = new Map<string, number>();
    this.like = workers.map(({ work, shiftEnd }, p) => {
      const key = `${work} ${shiftEnd}`;
      if (!first.has(key)) first.set(key, p);
      return first.get(key)!;
    });
  }

  /** By hours how many of these people keep them. */
  of(able: readonly number[]): ReadonlyMap<number, number> {
    const known = this.counted.get(able);
    if (known) return known;
    const heads = new Map<number, number>();
    for (const p of able) heads.set(this.like[p]!, (heads.get(this.like[p]!) ?? 0) + 1);
    this.counted.set(able, heads);
    return heads;
  }
}

/** Starts (or ends) of one way at which each of its needs finds people enough. */
function spansOf(way: Way, groups: Groups, persons: readonly number[] | null, ends: boolean): Span[] {
  const needs = persons
    ? persons.map((p) => ({ count: 1, able: [p] }))
    : way.people.map(({ count, able }) => ({ count, able }));
  let left: Span[] | null = null;
  for (const { count, able } of needs) {
    const each: Span[] = [];
    for (const [p, heads] of groups.of(able))
      alone(groups.workers[p]!, way.duration, way.interrupt, ends, heads, each);
    const here = whereAtLeast(each, count);
    left = left === null ? here : meet(left, here);
  }
  return left ?? [];
}

/** Adds the starts (or ends) of work by each of so many people of the same hours. */
function alone(
  { work, shiftEnd }: Worker,
  minutes: number,
  interrupt: 0 | 1 | 2,
  ends: boolean,
  heads: number,
  out: Span[],
): void {
  const count = work.length >> 1;
  const length = (w: number) => work[2 * w + 1]! - work[2 * w]!;
  for (let w = 0; w < count; w++) {
    // Work that may pause has the other intervals, of the shift or of all shifts, on top of this one.
    let beyond = 0;
    if (interrupt > 0)
      for (let v = ends ? 0 : w + 1; v < (ends ? w : count); v++)
        if (interrupt === 2 || shiftEnd[v] === shiftEnd[w]) beyond += length(v);
    const here = Math.max(1, minutes - beyond);
    if (here > length(w)) continue;
    if (ends) out.push([work[2 * w]! + here, work[2 * w + 1]!, heads]);
    else out.push([work[2 * w]!, Math.min(work[2 * w + 1]! - here, work[2 * w + 1]! - 1), heads]);
  }
}

/** Minutes that at least `count` of the people share. */
function whereAtLeast(spans: readonly Span[], count: number): Span[] {
  const rise = [...spans].sort((a, b) => a[0] - b[0]);
  const fall = [...spans].sort((a, b) => a[1] - b[1]);
  const out: Span[] = [];
  let since = -1;
  let there = 0;
  for (let begun = 0, ended = 0; ended < fall.length; ) {
    const t = Math.min(rise[begun]?.[0] ?? Number.POSITIVE_INFINITY, fall[ended]![1] + 1);
    for (; begun < rise.length && rise[begun]![0] === t; begun++) there += rise[begun]![2];
    for (; ended < fall.length && fall[ended]![1] + 1 === t; ended++) there -= fall[ended]![2];
    if (there >= count && since < 0) since = t;
    if (there < count && since >= 0) {
      out.push([since, t - 1, 1]);
      since = -1;
    }
  }
  return out;
}

function meet(a: readonly Span[], b: readonly Span[]): Span[] {
  return whereAtLeast([...a, ...b], 2);
}

function union(spans: readonly Span[]): Minutes {
  return Int32Array.from(whereAtLeast(spans, 1).flatMap(([from, to]) => [from, to]));
}

/** First minute from t on that is among them; `none` if there is none. */
export function snapUp(minutes: Minutes, t: number, none: number): number {
  let a = 0;
  let b = minutes.length >> 1;
  while (a < b) {
    const mid = (a + b) >> 1;
    if (minutes[2 * mid + 1]! >= t) b = mid;
    else a = mid + 1;
  }
  return 2 * a < minutes.length ? Math.max(t, minutes[2 * a]!) : none;
}

/** Last minute up to t that is among them; -1 if there is none. */
export function snapDown(minutes: Minutes, t: number): number {
  let a = 0;
  let b = minutes.length >> 1;
  while (a < b) {
    const mid = (a + b) >> 1;
    if (minutes[2 * mid]! <= t) a = mid + 1;
    else b = mid;
  }
  return a === 0 ? -1 : Math.min(t, minutes[2 * a - 1]!);
}
