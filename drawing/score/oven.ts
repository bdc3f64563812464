import type { TimedTask } from "./staves.ts";

/** A stretch at a set temperature. */
export interface HeatSpan {
  readonly from: number;
  readonly to: number;
  readonly setC: number;
}

/**
 * The set temperature of one oven along time: stretches of tasks at the same temperature joined; between two
 * temperatures the line climbs or falls (`climbMin` before the later one, as far as there is room).
 */
export function heatLine(
  tasks: readonly TimedTask[],
  ovenId: string,
  climbMin: (fromC: number, toC: number) => number,
): {
  readonly spans: readonly HeatSpan[];
  readonly points: readonly (readonly [minute: number, celsius: number])[];
} {
  const spans: { from: number; to: number; setC: number }[] = [];
  for (const { task, from, to } of tasks) {
    const setC = task.equipment.find((use) => use.id === ovenId && use.setC !== undefined)?.setC;
    if (setC === undefined) continue;
    const last = spans.at(-1);
    if (last && last.setC === setC) last.to = Math.max(last.to, to);
    else if (last && from < last.to) {
      // Shared within tolerance: the oven stands at what was set first.
      last.to = Math.max(last.to, to);
    } else spans.push({ from, to, setC });
  }
  const points: [number, number][] = [];
  spans.forEach((span, i) => {
    const before = spans[i - 1];
    if (before) {
      const climb = Math.min(climbMin(before.setC, span.setC), span.from - before.to);
      points.push([span.from - climb, before.setC]);
    }
    points.push([span.from, span.setC], [span.to, span.setC]);
  });
  return { spans, points };
}
