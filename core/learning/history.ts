import type { LogLine } from "../safety/log-lines.ts";
import { standing } from "../safety/log-lines.ts";
import type { Stated, WorkMinutes } from "./figures.ts";
import { figureKey } from "./figures.ts";
import type { Observation } from "./observations.ts";
import type { Accepted } from "./schema.ts";

/** What measuring starts from: the figure before any of it was learned, and the measurements as seen from there. */
export interface Start {
  readonly stated: Stated;
  /** Observed values, relative to `stated`. */
  readonly values: readonly { readonly observation: Observation; readonly value: number }[];
  /** The book's present figure, in the same terms as `stated.value`. */
  readonly present: number;
  /** How many times a learned figure was taken into the book. */
  readonly accepted: number;
}

/**
 * A figure that was learned must not be learned from twice: as long as the book says what was last accepted, measuring
 * starts from the figure that stood there before. Where someone has changed it since, it starts anew from what stands
 * there now, with what was measured after the last acceptance.
 */
export function startOf(stated: Stated, seen: readonly Observation[], lines: readonly LogLine[]): Start {
  const key = figureKey(stated.figure);
  const accepted = standing<Accepted>(lines, ["accepted"]).filter(({ now }) => now.body.figure === key);
  const last = accepted.at(-1);
  const all = seen.map((observation) => ({ observation, value: observation.value }));
  if (!last) return { stated, values: all, present: stated.value, accepted: 0 };
  if (!same(stated, last.now.body)) {
    const since = all.filter(({ observation }) => observation.at > last.first.at);
    return { stated, values: since, present: stated.value, accepted: 0 };
  }
  const first = accepted[0]!.now.body;
  const before: Stated = { ...stated, value: first.from, source: first.sourceBefore };
  if (stated.figure.kind !== "work")
    return { stated: before, values: all, present: stated.value, accepted: accepted.length };
  // A time is measured against what was planned, and each acceptance has changed what is planned.
  const changed = (until: string) =>
    accepted.reduce((ratio, { first: line, now }) => (line.at < until ? ratio * now.body.to : ratio), 1);
  return {
    stated: { ...before, value: 1 },
    values: seen.map((observation) => ({
      observation,
      value: observation.value * changed(observation.at),
    })),
    present: accepted.reduce((ratio, { now }) => ratio * now.body.to, 1),
    accepted: accepted.length,
  };
}

function same(stated: Stated, { to, work }: Accepted): boolean {
  if (!stated.work) return Math.abs(stated.value - to) <= 1e-9 * to;
  return work !== undefined && sameWork(stated.work, work as WorkMinutes);
}

function sameWork(a: WorkMinutes, b: WorkMinutes): boolean {
  return (["fixedMin", "perKgMin", "perPieceMin", "perBatchMin"] as const).every(
    (part) => Math.abs((a[part] ?? 0) - (b[part] ?? 0)) < 1e-9,
  );
}
