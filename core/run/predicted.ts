import type { Tracer } from "../ledger/tracer.ts";
import type { Controlled, ControlPart, ControlPoint, Predicted } from "../safety/control.ts";
import type { HeatOutcome } from "./heat-outcome.ts";

/** What was computed for a part of a limit: the value at its worst end and where it stands below the outcome. */
interface Found {
  readonly value: number;
  readonly at: string;
}

/** Control points with what heat computed for their steps: each limit at its own worst end, with its margin. */
export function withHeat(points: readonly Controlled[], outcomes: readonly HeatOutcome[]): ControlPoint[] {
  return points.map(({ point }) => {
    const outcome = outcomeOf(point, outcomes)?.outcome;
    if (!outcome) return point;
    const parts = point.parts.map((part): ControlPart => {
      const found = judged(part, point, outcome);
      return found ? { ...part, predicted: found.value, margin: marginOf(part, found.value) } : part;
    });
    const predicted = predictedOf(outcome);
    return { ...point, parts, ...(predicted ? { predicted } : {}), ...noteOf(point, parts, outcome) };
  });
}

/** Notes where the figures of control points came from: book, stated limit, heat. */
export function traceControl(
  tracer: Tracer,
  points: readonly ControlPoint[],
  controlled: readonly Controlled[],
  outcomes: readonly HeatOutcome[],
): void {
  points.forEach((point, i) => {
    const found = outcomeOf(point, outcomes);
    const heat = `/heat/${found?.index}`;
    const same = (path: string, value: number, unit: string, input: string) => {
      if (input.startsWith("const:")) tracer.note(input, { value, unit, rule: "given", inputs: [] });
      tracer.note(path, { value, unit, rule: "given", inputs: [input] });
    };
    point.parts.forEach((part, k) => {
      const at = `/control/${i}/parts/${k}`;
      const paths = controlled[i]!.paths[k]!;
      const unit = unitOf(part);
      same(`${at}/value`, part.value, unit, paths.value);
      if (part.withinMin !== undefined) same(`${at}/withinMin`, part.withinMin, "min", paths.withinMin!);
      if (part.forSeconds !== undefined) same(`${at}/forSeconds`, part.forSeconds, "s", paths.forSeconds!);
      const got = found && judged(part, point, found.outcome);
      if (!got) return;
      const timed = part.withinMin !== undefined;
      same(`${at}/predicted`, got.value, timed ? "min" : unit, `${heat}${got.at}`);
      const sides = [`${at}/predicted`, `${at}/${timed ? "withinMin" : "value"}`];
      const inputs = part.op.startsWith(">") ? sides : sides.reverse();
      tracer.note(`${at}/margin`, {
        value: part.margin!,
        unit: timed ? "min" : unit,
        rule: "minus",
        inputs,
      });
    });
    for (const key of ["minutes", "coreC", "log10"] as const)
      for (const [end, value] of Object.entries(point.predicted?.[key] ?? {}))
        same(`/control/${i}/predicted/${key}/${end}`, value, UNITS[key], `${heat}/${key}/${end}`);
  });
}

const UNITS = { minutes: "min", coreC: "°C", log10: "log10" } as const;
const unitOf = ({ what }: ControlPart) =>
  what === "coreC" || what === "airC" ? "°C" : what === "minutes" ? "min" : what;

/** Cooking and cooling have what was computed for their step; the rest is watched, not computed. */
function outcomeOf(point: ControlPoint, outcomes: readonly HeatOutcome[]) {
  const index = outcomes.findIndex((one) => one.preparation === point.preparation && one.step === point.step);
  const outcome = outcomes[index];
  if (!outcome || point.act.startsWith("hold") || point.act === "serve-raw") return undefined;
  return outcome.kind === "cooling" && point.act === "cook" ? undefined : { outcome, index };
}

function judged(part: ControlPart, point: ControlPoint, outcome: HeatOutcome): Found | undefined {
  if (point.act === "cool") {
    const k = outcome.limits.findIndex((limit) => limit.toC === part.value && part.withinMin !== undefined);
    const value = outcome.limits[k]?.value;
    return value === undefined ? undefined : { value, at: `/limits/${k}/value` };
  }
  const upward = part.op.startsWith(">");
  if (part.what === "coreC" && part.withinMin === undefined && outcome.peakC)
    return upward
      ? { value: outcome.peakC.slow, at: "/peakC/slow" }
      : { value: outcome.peakC.quick, at: "/peakC/quick" };
  if (part.what === "log10" && outcome.log10) return { value: outcome.log10.slow, at: "/log10/slow" };
  // A time asked for beside a core is the time held at that core.
  const core = point.parts.find((one) => one.what === "coreC" && one.op.startsWith(">"));
  if (part.what === "minutes" && upward && outcome.held && outcome.held.atC === core?.value)
    return { value: outcome.held.slowMin, at: "/held/slowMin" };
  return undefined;
}

function marginOf(part: ControlPart, predicted: number): number {
  const limit = part.withinMin ?? part.value;
  return part.op.startsWith(">") ? predicted - limit : limit - predicted;
}

function predictedOf({ minutes, coreC, log10, driver, kind }: HeatOutcome): Predicted | undefined {
  const { low, mid, high } = minutes;
  const whole = low !== undefined && mid !== undefined && high !== undefined ? { low, mid, high } : undefined;
  if (!whole && !coreC) return undefined;
  return {
    ...(whole ? { minutes: whole } : {}),
    ...(coreC && kind === "heating" ? { coreC } : {}),
    ...(log10 ? { log10 } : {}),
    driver,
  };
}

/** What a cook should read beside the limit: a miss that was computed, or that nothing was. */
function noteOf(point: ControlPoint, parts: readonly ControlPart[], outcome: HeatOutcome) {
  const said: string[] = [];
  // The mesh is true to a few hundredths: less than that is not a miss.
  const own = outcome.limits.filter((limit) => (limit.toC !== undefined) === (point.act === "cool"));
  if (parts.some((part) => (part.margin ?? 0) < -0.05) || own.some((limit) => !limit.met))
    said.push("By what was computed the limit is not kept at the slow end.");
  if (outcome.curve.length === 0 && outcome.notes[0]) said.push(outcome.notes[0]);
  if (outcome.countedBy) said.push(`Reductions counted by ${outcome.countedBy}.`);
  if (outcome.curve.length > 0) said.push("A calibrated thermometer decides.");
  const note = [point.note, ...said].filter(Boolean).join(" ");
  return note === "" ? {} : { note };
}
