import type { Interval, Person } from "./problem.ts";

const works = new WeakMap<Person, readonly Interval[]>();

/** Working intervals of a person, sorted: the shifts without their breaks. */
export function workOf(person: Person): readonly Interval[] {
  const known = works.get(person);
  if (known) return known;
  const work = workIn(person);
  works.set(person, work);
  return work;
}

function workIn(person: Person): Interval[] {
  const work: Interval[] = [];
  for (const shift of person.shifts) {
    let from = shift.from;
    for (const pause of shift.breaks ?? []) {
      if (pause.from > from) work.push({ from, to: pause.from });
      from = Math.max(from, pause.to);
    }
    if (shift.to > from) work.push({ from, to: shift.to });
  }
  return joined(work);
}

/** Intervals that touch become one; the input is sorted and does not overlap. */
function joined(list: readonly Interval[]): Interval[] {
  const out: Interval[] = [];
  for (const i of list) {
    const last = out[out.length - 1];
    if (last && last.to >= i.from) out[out.length - 1] = { from: last.from, to: Math.max(last.to, i.to) };
    else out.push(i);
  }
  return out;
}

/** The time of two sorted lists of intervals together. */
export function common(a: readonly Interval[], b: readonly Interval[]): Interval[] {
  const out: Interval[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const from = Math.max(a[i]!.from, b[j]!.from);
    const to = Math.min(a[i]!.to, b[j]!.to);
    if (from < to) out.push({ from, to });
    if (a[i]!.to < b[j]!.to) i++;
    else j++;
  }
  return out;
}

/** Minutes of the sorted list that lie in [from, to). */
export function minutesIn(list: readonly Interval[], from: number, to: number): number {
  let sum = 0;
  for (let k = 0; k < list.length && list[k]!.from < to; k++)
    sum += Math.max(0, Math.min(list[k]!.to, to) - Math.max(list[k]!.from, from));
  return sum;
}

/** Shifts that touch count as one. */
export function shiftsOf(person: Person): Interval[] {
  return joined(person.shifts.map(({ from, to }) => ({ from, to })));
}
