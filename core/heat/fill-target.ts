import { answer, type CurvePoint, type Profile, type Refusal, trial } from "./heat.ts";
import { airOf, type Place } from "./media.ts";
import { prepare, type Question, type Ready } from "./prepare.ts";
import { type Note, plain, refuse } from "./problem.ts";
import { burnerEfficiency, reductionTime } from "./reduction.ts";
import { type Run, runStages, type Shift } from "./run-stages.ts";
import type { Material, Piece, Spread, Target } from "./schema.ts";
import { fineness, type Range, type SpreadInput } from "./spread.ts";

/** Tolerances taken where a target names none. Common practice, no source. */
export const usualSpread = (thicknessMm: number): Required<Spread> => ({
  thicknessMm: Math.min(Math.max(1, 0.05 * thicknessMm), thicknessMm / 4),
  startC: 1,
  mediumC: 1,
  coefficient: 0.2,
});

/** A limit that the target itself sets, judged where it is hardest to keep when the plan's minutes are given. */
export type TargetLimit = {
  stage: number;
  what: "coreC" | "surfaceC" | "meanC" | "log10" | "peakCoreC";
  op: ">=" | "<=";
  limit: number;
  /** The value at its own worst end: the slow piece for what must be reached, the quick one for what not to pass. */
  value: number;
  at: "slow" | "quick";
  margin: number;
  met: boolean;
};

export type Filled = {
  /** The plan takes `high`. */
  minutes: { low: number; mid: number; high: number };
  stages: { minutes: { low: number; mid: number; high: number } }[];
  /** At the end, when every stage is given the plan's minutes: quick piece, as asked for, slow piece. */
  coreC: { slow: number; mid: number; quick: number };
  log10: { slow: number; mid: number; quick: number };
  peakCoreC: { slow: number; mid: number; quick: number };
  /** Curves of the plan's minutes: of the piece as asked for and of the slow and the quick one. */
  curve: CurvePoint[];
  slowCurve: CurvePoint[];
  quickCurve: CurvePoint[];
  profiles: Profile[];
  limits: TargetLimit[];
  driver: SpreadInput | "none";
  judgedBy: string;
  notes: Note[];
};

export type TargetQuestion = {
  piece: Piece | undefined;
  material: Material | undefined;
  target: Target;
  place: Place;
  /** Core temperature in °C at which the step before left the piece; needed for `startC: "from previous"`. */
  previousC?: number | undefined;
  /** Where the target and the piece stand in the caller's document. */
  paths?: { piece?: string; target?: string };
};

/**
 * The minutes a target takes for this piece in this kitchen, as a band, and what comes of giving it the plan's
 * minutes, the long end. Reductions (`untilMass`) need no piece. Refusals are values, with their paths.
 */
export function fillTarget(q: TargetQuestion): Filled | Refusal {
  return answer(() => (q.target.stages.some((stage) => stage.untilMass) ? reduced(q) : filled(q)));
}

function filled(q: TargetQuestion): Filled {
  const targetPath = q.paths?.target ?? "/target";
  const { target } = q;
  if (!q.piece)
    refuse(
      q.paths?.piece ?? "/piece",
      "a target in °C needs the shape of the piece",
      "give piece, or minutes",
    );
  const startC = target.startC === "from previous" ? q.previousC : target.startC;
  if (startC === undefined)
    refuse(
      `${targetPath}/startC`,
      "no step before says how warm the piece comes",
      "give startC in °C, or a target to the step before",
    );
  const question: Question = {
    piece: q.piece,
    material: q.material,
    startC,
    stages: target.stages,
    place: q.place,
    paths: {
      piece: q.paths?.piece ?? "/piece",
      stages: `${targetPath}/stages`,
      spread: `${targetPath}/spread`,
    },
  };
  const spread = target.spread ?? usualSpread(sizeMm(q.piece));
  const result = trial(question, spread);
  const ready = prepare(question);
  const notes = [...result.notes];
  if (!target.spread)
    notes.push({
      code: "usual-spread",
      text: `Usual tolerances taken: thickness ± ${plain(spread.thicknessMm ?? 0)} mm, start and medium ± 1 °C, coefficient ± 20 %.`,
    });
  const band = result.band!;
  const whole = (range: Range) => ({ low: range.low, mid: range.mid, high: range.high ?? range.mid });
  const stages = band.stages.map((stage) => ({ minutes: whole(stage.minutes) }));
  // The plan is in whole minutes, durations rounded up: what follows is of the minutes it will give.
  const fixed = stages.map((stage) => 60 * Math.ceil(stage.minutes.high - 1e-6));
  const at = (side: 1 | 0 | -1): Run => {
    const shift: Shift = { thickness: side, start: side, medium: side, coefficient: side };
    return runStages(ready, fineness(ready), spread, shift, fixed);
  };
  const runs = { slow: at(1), mid: at(0), quick: at(-1) };
  const three = (of: (run: Run) => number) => ({
    slow: of(runs.slow),
    mid: of(runs.mid),
    quick: of(runs.quick),
  });
  return {
    minutes: whole(band.totalMinutes),
    stages,
    coreC: three((run) => last(run).coreC),
    log10: three((run) => last(run).worstLog10),
    peakCoreC: three((run) => Math.max(...run.stages.map((s) => s.peakCoreC))),
    curve: pointsOf(runs.mid),
    slowCurve: pointsOf(runs.slow),
    quickCurve: pointsOf(runs.quick),
    profiles: result.profiles,
    limits: ready.stages.flatMap((_, i) => limitOf(ready, i, runs)),
    driver: band.driver,
    judgedBy: result.judgedBy,
    notes,
  };
}

function limitOf(ready: Ready, i: number, runs: { slow: Run; quick: Run }): TargetLimit[] {
  const { end, around } = ready.stages[i]!;
  if (end.by === "minutes") return [];
  const slow = runs.slow.stages[i]!;
  const quickPeak = Math.max(...runs.quick.stages.map((s) => s.peakCoreC));
  const slowPeak = Math.max(...runs.slow.stages.map((s) => s.peakCoreC));
  const judged = (
    what: TargetLimit["what"],
    op: TargetLimit["op"],
    limit: number,
    value: number,
    at: TargetLimit["at"],
  ): TargetLimit => {
    const margin = op === ">=" ? value - limit : limit - value;
    // The mesh is true to a few hundredths: less than that is not a miss.
    return { stage: i, what, op, limit, value, at, margin, met: margin >= -0.05 };
  };
  if (end.by === "log10") return [judged("log10", ">=", end.log10, slow.end.worstLog10, "slow")];
  if (end.by === "doneness")
    return [
      judged("coreC", ">=", end.lowC, slow.end.coreC, "slow"),
      judged("peakCoreC", "<=", end.highC, quickPeak, "quick"),
    ];
  if (end.by === "peak") return [judged("peakCoreC", ">=", end.celsius, slowPeak, "slow")];
  const what = `${end.by}C` as "coreC" | "surfaceC" | "meanC";
  const op = around.mediumC > end.celsius ? ">=" : "<=";
  return [judged(what, op, end.celsius, slow.end[what], "slow")];
}

function last(run: Run) {
  return run.stages[run.stages.length - 1]!.end;
}

function pointsOf(run: Run): CurvePoint[] {
  const out: CurvePoint[] = [];
  let before = 0;
  for (const stage of run.stages) {
    for (const { seconds, coreC, surfaceC, meanC, log10, worstLog10 } of stage.samples)
      out.push({ minute: before + seconds / 60, coreC, surfaceC, meanC, log10, worstLog10 });
    before += stage.seconds / 60;
  }
  return out;
}

function sizeMm(piece: Piece): number {
  if (piece.kind === "slab") return piece.thicknessMm;
  if (piece.kind === "brick") return Math.min(...piece.sidesMm);
  return piece.diameterMm;
}

/** A target that is only reductions: minutes by power, the band by the coefficient's tolerance on the power. */
function reduced(q: TargetQuestion): Filled {
  const targetPath = q.paths?.target ?? "/target";
  const { boilingC } = airOf(q.place);
  const notes: Note[] = [];
  const tolerance = q.target.spread?.coefficient ?? 0.25;
  const stages = q.target.stages.map((stage, i) => {
    const path = `${targetPath}/stages/${i}`;
    const asked = stage.untilMass;
    if (!asked)
      refuse(path, "reductions and pieces do not mix in one target", "put them in steps of their own");
    const startC = i > 0 ? boilingC : q.target.startC === "from previous" ? q.previousC : q.target.startC;
    const efficiency = asked.efficiency ?? burnerEfficiency.gas.usual;
    if (asked.efficiency === undefined)
      notes.push({
        code: "efficiency-assumed",
        text: "40 % of the burner's power is taken to reach the liquid, as of a gas burner.",
      });
    const time = (factor: number) =>
      reductionTime(
        {
          fromKg: asked.fromKg,
          toKg: asked.toKg,
          powerKW: asked.powerKW * factor,
          efficiency,
          boilingC,
          startC: startC ?? boilingC,
        },
        `${path}/untilMass`,
      ).minutes;
    return { minutes: { low: time(1 + tolerance), mid: time(1), high: time(1 - tolerance) } };
  });
  const sum = (key: "low" | "mid" | "high") => stages.reduce((total, s) => total + s.minutes[key], 0);
  notes.push({ code: "weigh", text: "A reduction is ended by weighing the pan, not by the clock." });
  const atBoil = { slow: boilingC, mid: boilingC, quick: boilingC };
  const nothing = { slow: 0, mid: 0, quick: 0 };
  return {
    minutes: { low: sum("low"), mid: sum("mid"), high: sum("high") },
    stages,
    coreC: atBoil,
    log10: nothing,
    peakCoreC: atBoil,
    curve: [],
    slowCurve: [],
    quickCurve: [],
    profiles: [],
    limits: [],
    driver: "coefficient",
    judgedBy: "mass",
    notes,
  };
}
