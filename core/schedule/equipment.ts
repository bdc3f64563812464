import type { Resource } from "./problem.ts";
import { type Equipment, NEVER } from "./ways.ts";

const kinds = new WeakMap<readonly Resource[], ReadonlyMap<string, number>>();

/** Numbers of the cleaning classes that setups name; the same resources have the same. */
export function kindsOf(resources: readonly Resource[]): ReadonlyMap<string, number> {
  const known = kinds.get(resources);
  if (known) return known;
  const numbers = new Map<string, number>();
  const number = (name: string) => {
    if (!numbers.has(name)) numbers.set(name, numbers.size);
  };
  for (const { setups } of resources)
    for (const { from, to } of setups ?? []) {
      number(from);
      number(to);
    }
  kinds.set(resources, numbers);
  return numbers;
}

const views = new WeakMap<readonly Resource[], Map<string, readonly Equipment[]>>();

/**
 * Resources on an axis, as they are whatever asks for them; the same for the same, since a plan is mended many times in
 * the kitchen it was made for.
 */
export function equipmentAlone(
  resources: readonly Resource[],
  end: number,
  mirrored: boolean,
): readonly Equipment[] {
  const known = views.get(resources) ?? new Map<string, readonly Equipment[]>();
  views.set(resources, known);
  const key = `${end} ${mirrored}`;
  const found = known.get(key) ?? resources.map((r) => onAxis(r, kindsOf(resources), end, mirrored));
  known.set(key, found);
  return found;
}

function onAxis(r: Resource, kind: ReadonlyMap<string, number>, end: number, mirrored: boolean): Equipment {
  const steps = stepsOf(r, end, mirrored);
  const setups = setupsOf(r, kind, mirrored);
  const range = r.state ? r.state.highest - r.state.lowest : 0;
  const heating = r.state ? Math.max(r.state.leastMinutes, Math.ceil(r.state.minutesPerUnit * range)) : 0;
  return {
    dimensions: r.capacity.length,
    time: Int32Array.from(steps, (s) => Math.max(0, Math.min(NEVER, s.from))),
    capacity: Int32Array.from(steps.flatMap((s) => [...s.capacity])),
    tolerance: r.state?.tolerance ?? 0,
    minutesPerUnit: r.state?.minutesPerUnit ?? 0,
    leastMinutes: r.state?.leastMinutes ?? 0,
    setups,
    longestGap: setups.reduce((most, minutes) => Math.max(most, minutes), heating),
    pairs: setups.length > 0,
  };
}

interface Step {
  readonly from: number;
  readonly to: number;
  readonly capacity: readonly number[];
}

/** What there is of it, stretch by stretch: nothing outside its calendar. */
function stepsOf(r: Resource, end: number, mirrored: boolean): Step[] {
  const [first, last] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const none = r.capacity.map(() => 0);
  const steps: Step[] = [];
  let at = first;
  for (const c of r.calendar ?? []) {
    if (c.from > at) steps.push({ from: at, to: c.from, capacity: none });
    steps.push(c);
    at = c.to;
  }
  steps.push({ from: at, to: last, capacity: r.calendar ? none : r.capacity });
  const turned = mirrored
    ? steps.map((s) => ({ ...s, from: end - s.to, to: end - s.from })).reverse()
    : steps;
  return turned.filter((s) => s.to > 0);
}

/** Cleaning minutes by class before and after; empty when there are none. */
function setupsOf(r: Resource, kind: ReadonlyMap<string, number>, mirrored: boolean): Int32Array {
  const wanted = (r.setups ?? []).some((s) => s.minutes > 0);
  const matrix = new Int32Array(wanted ? kind.size * kind.size : 0);
  if (wanted)
    for (const { from, to, minutes } of r.setups!) {
      const [a, b] = [kind.get(from)!, kind.get(to)!];
      matrix[mirrored ? b * kind.size + a : a * kind.size + b] = minutes;
    }
  return matrix;
}
