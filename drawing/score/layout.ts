import { holdMatters } from "./hold.ts";
import { type InLane, inLanes } from "./lanes.ts";
import { type HeatSpan, heatLine } from "./oven.ts";
import type { Stave, TimedTask } from "./staves.ts";
import type { RunTime } from "./time.ts";

/** Measures of a score, in the drawing's length unit (px on the page). */
export interface ScoreMeasures {
  readonly lane: number;
  readonly bar: number;
  readonly gap: number;
  /** Height of an oven's temperature line. */
  readonly heat: number;
  readonly shelf: number;
  readonly head: number;
  /** Room below the last stave, for the hours once more. */
  readonly foot: number;
}

export const PAGE_MEASURES: ScoreMeasures = {
  lane: 26,
  bar: 21,
  gap: 14,
  heat: 48,
  shelf: 8,
  head: 44,
  foot: 24,
};

export interface LaidStave {
  readonly stave: Stave;
  /** Where the stave begins across time, and how much it takes. */
  readonly start: number;
  readonly size: number;
  readonly lanes: number;
  readonly tasks: readonly InLane<TimedTask>[];
  /** With it the stave is an oven's. */
  readonly heat?: {
    readonly spans: readonly HeatSpan[];
    readonly points: readonly (readonly [number, number])[];
    readonly lowC: number;
    readonly highC: number;
    readonly shelves: number;
  };
}

export interface OvenFacts {
  /** Shelves (or other spaces) of one unit. */
  readonly spaces: number;
  /** How many of them so much of a unit's space takes ("6 kg" of a deck that holds 12 kg on two shelves is one). */
  readonly spacesFor: (space: number, unit: string) => number;
  readonly climbMin: (fromC: number, toC: number) => number;
}

/** Lays staves one below the other: lanes by what happens at once, ovens as temperature with shelves below (D8, D9). */
export function layScore(
  list: readonly Stave[],
  time: RunTime,
  measures: ScoreMeasures,
  ovens: ReadonlyMap<string, OvenFacts>,
): { readonly staves: readonly LaidStave[]; readonly size: number } {
  let start = measures.head;
  const laid = list.map((stave) => {
    const oven = stave.kind === "equipment" ? ovens.get(stave.id) : undefined;
    const one = oven ? layOven(stave, oven, start, measures) : layLanes(stave, start, time, measures);
    start += one.size + measures.gap;
    return one;
  });
  return { staves: laid, size: start + measures.foot };
}

function layLanes(stave: Stave, start: number, time: RunTime, measures: ScoreMeasures): LaidStave {
  const { items, lanes } = inLanes(
    stave.tasks.map((entry) => ({
      item: entry,
      from: time.at(entry.from),
      // A short hold keeps its lane, so that its wedge is not run over; so does a task too short to see.
      to: Math.max(
        time.at(entry.from) + 4,
        time.at(holdMatters(entry) ? entry.to + (entry.task.hold?.usedMin ?? 0) : entry.to),
      ),
    })),
  );
  return { stave, start, size: Math.max(1, lanes) * measures.lane, lanes, tasks: items };
}

function layOven(stave: Stave, oven: OvenFacts, start: number, measures: ScoreMeasures): LaidStave {
  const { spans, points } = heatLine(stave.tasks, stave.id, oven.climbMin);
  const { items, lanes } = inLanes(
    stave.tasks.map((entry) => ({
      item: entry,
      from: entry.from,
      to: entry.to,
      tall: spacesOf(entry, stave.id, oven),
    })),
  );
  const shelves = Math.max(oven.spaces, lanes);
  const set = spans.map((span) => span.setC);
  const lowC = Math.min(20, ...set);
  const highC = Math.max(lowC + 40, ...set);
  return {
    stave,
    start,
    size: measures.heat + shelves * measures.shelf + 8,
    lanes,
    tasks: items,
    heat: { spans, points, lowC, highC, shelves },
  };
}

function spacesOf(entry: TimedTask, id: string, oven: OvenFacts): number {
  const use = entry.task.equipment.find((each) => each.id === id);
  return Math.max(1, Math.ceil((use ? oven.spacesFor(use.space, use.unit) : 1) - 1e-9));
}
