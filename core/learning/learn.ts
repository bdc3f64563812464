import { studentQuantile } from "../numerics/student.ts";
import type { LogLine } from "../safety/log-lines.ts";
import {
  type Documents,
  type Figure,
  figureKey,
  type Stated,
  statedIn,
  type WorkMinutes,
} from "./figures.ts";
import { fitTo } from "./fit.ts";
import { startOf } from "./history.ts";
import { judgements } from "./judgements.ts";
import { type Observation, observations } from "./observations.ts";
import { ODD_BELOW, oddness } from "./odd.ts";
import { PRIOR_LOTS, priorOf } from "./prior.ts";
import { rounded } from "./rules.ts";

/** A measurement beside what it counts for. */
export interface Measured {
  readonly observation: Observation;
  /** In the figure's unit, seen from the figure that stood before anything was learned. */
  readonly value: number;
  /** Chance of one as far off; undefined for one that is left out. */
  readonly p?: number;
  /** Why a person left it out. */
  readonly leftOut?: string;
  /** It is odd, and nobody has said yet whether it counts. */
  readonly asked: boolean;
}

/** What was learned of one figure. Values in the figure's unit: a yield, a factor, grams, a ratio of times. */
export interface Estimate {
  readonly figure: Figure;
  /** As the book has it. For work, the minutes written: 1 when none of it was learned. */
  readonly was: number;
  /** Where the book's figure comes from as it stands. */
  readonly bookSource: Stated["source"];
  /** What it is by the book and by what was measured, at most four figures. */
  readonly value: number;
  /** Standard deviation of `value` itself. */
  readonly known: number;
  /** Standard deviation of one lot. */
  readonly spread: number;
  /** The next lot lies between these, nine times in ten. */
  readonly next: readonly [low: number, high: number];
  /** Measurements that count. */
  readonly n: number;
  /** What the book's figure counts for, in measured lots, and where it came from. */
  readonly prior: { readonly value: number; readonly source: Stated["source"]; readonly lots: number };
  readonly cooks: readonly {
    readonly by: string;
    readonly n: number;
    readonly value: number;
    readonly known: number;
  }[];
  readonly measured: readonly Measured[];
  readonly from: string;
  readonly to: string;
  /** For work: the minutes as the book has them. */
  readonly work?: WorkMinutes;
}

/** Share of lots between the ends of `next`. */
export const NEXT_SHARE = 0.9;

/** Everything the log tells of the book's figures, those furthest from the book first. */
export function learn(docs: Documents, lines: readonly LogLine[]): Estimate[] {
  const { out, kept } = judgements(lines);
  const groups = Map.groupBy(observations(docs, lines), ({ figure }) => figureKey(figure));
  return [...groups.values()]
    .flatMap((seen) => estimate(docs, seen, lines, out, kept) ?? [])
    .sort((a, b) => off(b) - off(a));
}

/** How far the book is off, in standard deviations of what is known. */
function off({ was, value, known }: Estimate): number {
  return known > 0 ? Math.abs(value - was) / known : 0;
}

function estimate(
  docs: Documents,
  seen: readonly Observation[],
  lines: readonly LogLine[],
  out: ReadonlyMap<string, string>,
  kept: ReadonlySet<string>,
): Estimate | undefined {
  const stated = statedIn(docs, seen[0]!.figure);
  if (!stated) return undefined;
  const start = startOf(stated, seen, lines);
  if (start.values.length === 0) return undefined;
  const { scale } = start.stated;
  const prior = priorOf(start.stated);
  const counts = start.values.filter(({ observation }) => !out.has(observation.entry));
  const rows = counts.map(({ observation, value }) => ({ y: scale.to(value), by: observation.by }));
  const found = fitTo(prior, rows);
  const odd = oddness(prior, rows);
  const reach = studentQuantile((1 + NEXT_SHARE) / 2, found.next.nu) * found.next.scale;
  const relative = stated.work ? start.present : 1;
  const there = (y: number) => scale.back(y) / relative;
  const value = rounded(there(found.mean));
  const slope = scale.slope(scale.back(found.mean)) / relative;
  const chance = new Map(counts.map(({ observation }, i) => [observation.entry, odd[i]!]));
  return {
    figure: stated.figure,
    was: stated.value,
    bookSource: stated.source,
    value,
    known: found.meanSd * slope,
    spread: found.lotSd * slope,
    next: [there(found.mean - reach), there(found.mean + reach)],
    n: rows.length,
    prior: {
      value: start.stated.value / relative,
      source: start.stated.source,
      lots: PRIOR_LOTS[start.stated.source],
    },
    cooks: found.cooks.map(({ by, n, mean, sd }) => ({
      by,
      n,
      value: there(mean),
      known: (sd * scale.slope(scale.back(mean))) / relative,
    })),
    measured: start.values.map(({ observation, value: one }) => {
      const p = chance.get(observation.entry);
      const leftOut = out.get(observation.entry);
      return {
        observation,
        value: one / relative,
        ...(p === undefined ? {} : { p }),
        ...(leftOut === undefined ? {} : { leftOut }),
        asked: p !== undefined && p < ODD_BELOW && !kept.has(observation.entry),
      };
    }),
    from: start.values[0]!.observation.at,
    to: start.values.at(-1)!.observation.at,
    ...(stated.work ? { work: stated.work } : {}),
  };
}
