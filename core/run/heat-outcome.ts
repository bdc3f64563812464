import { type CoolingJudgement, judgeCooling, longestAbove, minuteAtOrBelow } from "../heat/cooling.ts";
import type { Filled } from "../heat/fill-target.ts";
import type { CurvePoint } from "../heat/heat.ts";
import { killRateOfTable, reductionOver, tableLog10 } from "../heat/lethality.ts";
import { coolingRules } from "../heat/limits-data.ts";
import type { LethalityTableRef } from "../heat/schema.ts";

/** What was computed of the heat in a step, for the slow piece, the one as asked for, and the quick one. */
export interface HeatOutcome {
  readonly preparation: string;
  readonly step: string;
  /** heating: a step with a target. cooling: a step that chills what was hot, its minutes as written. */
  readonly kind: "heating" | "cooling";
  /** Minutes to the target, or from 57 °C to the last limit of cooling; left out where it is never reached. */
  readonly minutes: { readonly low?: number; readonly mid?: number; readonly high?: number };
  /** At the end, when it is given the plan's minutes. */
  readonly coreC?: Three;
  readonly peakC?: Three;
  /** log10 reductions by `countedBy`. */
  readonly log10?: Three;
  /** Minutes the slow piece is at or above the core asked for, without a break. */
  readonly held?: { readonly atC: number; readonly slowMin: number };
  /** At most forty points. */
  readonly curve: readonly {
    readonly minute: number;
    readonly slowC: number;
    readonly coreC: number;
    readonly quickC: number;
    readonly surfaceC: number;
  }[];
  readonly limits: readonly HeatLimit[];
  /** The input that matters most. */
  readonly driver: string;
  readonly countedBy?: string;
  readonly source?: string;
  readonly notes: readonly string[];
}

export interface Three {
  readonly slow: number;
  readonly mid: number;
  readonly quick: number;
}

/** A limit judged at its own worst end. Of cooling: minutes from 57 °C until the core is at `toC`. */
export interface HeatLimit {
  readonly what: string;
  readonly op: ">=" | "<=";
  readonly limit: number;
  readonly toC?: number;
  /** Left out where it is not reached in what was computed. */
  readonly value?: number;
  readonly margin?: number;
  readonly at: "slow" | "quick";
  readonly met: boolean;
}

/** Of a target that was filled. `table` counts the reductions where food is raw; `atC` is the core asked for. */
export function heatingOutcome(
  preparation: string,
  step: string,
  filled: Filled,
  asked: {
    readonly table: LethalityTableRef | undefined;
    readonly atC: number | undefined;
    readonly killed: boolean;
  },
): HeatOutcome {
  const { table, atC } = asked;
  const curves = { slow: filled.slowCurve, mid: filled.curve, quick: filled.quickCurve };
  const counted = (curve: readonly CurvePoint[]) => reductionOver(coreOf(curve), killRateOfTable(table!));
  const computed = filled.curve.length > 0;
  const log10 =
    table && computed
      ? { slow: counted(curves.slow), mid: counted(curves.mid), quick: counted(curves.quick) }
      : filled.log10;
  const limits: HeatLimit[] = filled.limits.map(({ what, op, limit, value, at, margin, met }) => ({
    ...{ what: what === "peakCoreC" ? "coreC" : what, op, limit, value, margin, at, met },
  }));
  if (table && computed) {
    const margin = log10.slow - tableLog10(table);
    const judged = { limit: tableLog10(table), value: log10.slow, margin, met: margin >= 0 };
    limits.push({ what: "log10", op: ">=", at: "slow", ...judged });
  }
  limits.push(...chilledWithin(curves.slow));
  return {
    ...{ preparation, step, kind: "heating" },
    minutes: filled.minutes,
    coreC: filled.coreC,
    peakC: filled.peakCoreC,
    ...(asked.killed && computed ? { log10 } : {}),
    ...(atC === undefined || !computed
      ? {}
      : { held: { atC, slowMin: longestAbove(coreOf(curves.slow), atC) / 60 } }),
    curve: thinned(curves),
    limits,
    driver: filled.driver,
    ...(asked.killed && computed ? { countedBy: table ? tableName(table) : filled.judgedBy } : {}),
    ...(table ? { source: "FSIS-GD-2021-14" } : {}),
    notes: filled.notes.filter((note) => !(table && note.code === "counted-by")).map((note) => note.text),
  };
}

/** The limits of cooling, where a target heats and then chills. */
function chilledWithin(slow: readonly CurvePoint[]): HeatLimit[] {
  const [first] = coolingRules[0]!.stages;
  const hot = slow.some((point) => point.coreC >= first!.fromC);
  const chills = hot && slow.at(-1)!.coreC <= first!.toC;
  return chills ? limitsOf(judgeCooling(coreOf(slow), coolingRules[0]!)) : [];
}

function limitsOf({ stages }: CoolingJudgement): HeatLimit[] {
  return stages.map(({ toC, withinMin, minutes, spareMin, state }) => ({
    ...{ what: "minutes", op: "<=", limit: withinMin, toC },
    ...(minutes === null ? {} : { value: minutes, margin: spareMin }),
    ...{ at: "slow", met: state === "met" },
  }));
}

/** Notes that say nothing of cooling. */
const OF_COOKING = new Set(["counted-by", "usual-spread", "worst-elsewhere", "carry-over"]);

/** Of a step that chills: judged against the Food Code's two stages on the slow piece. */
export function coolingOutcome(
  preparation: string,
  step: string,
  filled: Filled,
  writtenMin: number,
): HeatOutcome {
  const rule = coolingRules[0]!;
  const curves = { slow: filled.slowCurve, mid: filled.curve, quick: filled.quickCurve };
  const judged = judgeCooling(coreOf(curves.slow), rule);
  const last = rule.stages.at(-1)!.toC;
  const to = (curve: readonly CurvePoint[]) => {
    const stage = judgeCooling(coreOf(curve), rule).stages.at(-1)!;
    return stage.minutes ?? undefined;
  };
  const [low, mid, high] = [to(curves.quick), to(curves.mid), to(curves.slow)];
  const notes = filled.notes.filter((note) => !OF_COOKING.has(note.code)).map((note) => note.text);
  const atEnd = at(curves.slow, writtenMin, "coreC");
  if (writtenMin > 0 && atEnd > last)
    notes.push(
      `After the ${writtenMin} min written the core of the slow piece is at ${Math.round(atEnd)} °C; the rest is counted in the cold store.`,
    );
  if (judged.state !== "met")
    notes.push(
      "By what was computed the two stages are not kept: spread it thinner, stir, or use ice before the chiller.",
    );
  return {
    ...{ preparation, step, kind: "cooling" },
    minutes: {
      ...(low === undefined ? {} : { low }),
      ...(mid === undefined ? {} : { mid }),
      ...(high === undefined ? {} : { high }),
    },
    curve: thinned(curves, (minuteAtOrBelow(coreOf(curves.slow), last) ?? Number.POSITIVE_INFINITY) * 1.1),
    limits: limitsOf(judged),
    driver: filled.driver,
    source: `${rule.source.doc}, ${rule.source.table}`,
    notes: [
      "Computed from 63 °C through and through, as if nothing stirred it.",
      ...notes,
      "A calibrated thermometer decides.",
    ],
  };
}

/** What could not be computed, and what would let it. */
export function notComputed(
  preparation: string,
  step: string,
  kind: HeatOutcome["kind"],
  why: string,
): HeatOutcome {
  const nothing = { minutes: {}, curve: [], limits: [], driver: "none" } as const;
  return { ...{ preparation, step, kind }, ...nothing, notes: [why] };
}

const coreOf = (curve: readonly CurvePoint[]) =>
  curve.map(({ minute, coreC }) => ({ minute, celsius: coreC }));

/** A curve's value at a minute, straight between its points. */
function at(curve: readonly CurvePoint[], minute: number, key: "coreC" | "surfaceC"): number {
  const after = curve.findIndex((point) => point.minute >= minute);
  if (after < 0) return curve.at(-1)?.[key] ?? 0;
  const b = curve[after]!;
  const a = curve[after - 1];
  if (!a || b.minute === a.minute) return b[key];
  return a[key] + ((minute - a.minute) / (b.minute - a.minute)) * (b[key] - a[key]);
}

const POINTS = 40;

function thinned(
  {
    slow,
    mid,
    quick,
  }: { readonly slow: CurvePoint[]; readonly mid: CurvePoint[]; readonly quick: CurvePoint[] },
  untilMin = Number.POSITIVE_INFINITY,
): HeatOutcome["curve"] {
  if (mid.length === 0) return [];
  const total = Math.min(mid.at(-1)!.minute, untilMin);
  return Array.from({ length: POINTS }, (_, i) => {
    const minute = (total * i) / (POINTS - 1);
    return {
      minute,
      slowC: at(slow, minute, "coreC"),
      coreC: at(mid, minute, "coreC"),
      quickC: at(quick, minute, "coreC"),
      surfaceC: at(mid, minute, "surfaceC"),
    };
  });
}

function tableName({ table, fatPercent }: LethalityTableRef): string {
  const species = table.split("-")[1];
  const fat = table.startsWith("fsis-meat") ? "" : `, ${fatPercent ?? 12} % fat`;
  return `FSIS-GD-2021-14, ${species === "poultry" ? "the longer of chicken and turkey" : species}${fat}`;
}
