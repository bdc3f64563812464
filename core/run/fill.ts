import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Documents } from "../production/documents.ts";
import type { FillTarget } from "../production/site.ts";
import type { HeatOutcome } from "./heat-outcome.ts";
import { numbersBelow } from "./numbers.ts";
import type { StepHeats } from "./step-heats.ts";

/** Answers how long a step's heat target takes here: the long end of each of its stages, in whole minutes. */
export function targetFiller(heats: StepHeats): FillTarget {
  return (preparation, step) => {
    const filled = heats.filled(preparation, step);
    if ("doubt" in filled) return filled;
    const minutes = filled.stages.reduce((sum, stage) => sum + Math.ceil(stage.minutes.high - 1e-6), 0);
    return { minutes, path: `calc:/heat/${preparation.id}/${step.id}` };
  };
}

/** What the heat of each step of the preparations made comes to. */
export function heatResult(heats: StepHeats, docs: Documents, made: Iterable<string>): HeatOutcome[] {
  return [...made].flatMap((id) => {
    const preparation = docs.preparations.get(id)!;
    return preparation.steps.flatMap((step) => heats.outcome(preparation, step) ?? []);
  });
}

/** Notes how the figures of heat came: by heat, from the place of the step in the book. */
export function traceHeat(
  tracer: Tracer,
  docs: Documents,
  amounts: Amounts,
  heats: StepHeats,
  outcomes: readonly HeatOutcome[],
): void {
  const place = (i: number) => {
    const path = `const:/number/${i}`;
    tracer.note(path, { value: i, unit: "", rule: "given", inputs: [] });
    return path;
  };
  const placesOf = (id: string, step: string) => [
    place(Number(docs.pointer("preparations", id).split("/").at(-1))),
    place(docs.preparations.get(id)!.steps.findIndex((one) => one.id === step)),
  ];
  const fill = targetFiller(heats);
  for (const id of amounts.preparations.keys()) {
    const preparation = docs.preparations.get(id)!;
    for (const step of preparation.steps) {
      if (!step.target) continue;
      const filled = fill(preparation, step, NOTHING);
      if (!("minutes" in filled) || filled.path === undefined) continue;
      const inputs = placesOf(id, step.id);
      tracer.note(filled.path, { value: filled.minutes, unit: "min", rule: "heatedMinutes", inputs });
    }
  }
  outcomes.forEach((outcome, i) => {
    const places = placesOf(outcome.preparation, outcome.step);
    [...numbersBelow(outcome, `/heat/${i}`)].forEach(([path, value], k) => {
      const unit = unitOf(path);
      tracer.note(path, { value, unit, rule: "heatFigure", inputs: [...places, place(k)] });
    });
  });
}

/** Of a figure of heat, by its key. */
function unitOf(path: string): string {
  if (/\/minutes\/|\/minute$|Min$/.test(path)) return "min";
  return /log10/.test(path) ? "log10" : "°C";
}

/** The rules of what heat answers, for replaying a trace of these documents and amounts. */
export function heatRules(docs: Documents, heats: StepHeats) {
  const preparations = [...docs.preparations.values()];
  const fill = targetFiller(heats);
  const figures = new Map<HeatOutcome, number[]>();
  return {
    /** Whole minutes the plan takes for the target of a step, by the places of preparation and step in the book. */
    heatedMinutes(preparation: number, step: number): number {
      const of = preparations[preparation]!;
      const filled = fill(of, of.steps[step]!, NOTHING);
      if (!("minutes" in filled)) throw new Error(`no minutes for step ${step} of "${of.id}"`);
      return filled.minutes;
    },
    /** The k-th figure of what the heat of a step comes to. */
    heatFigure(preparation: number, step: number, k: number): number {
      const of = preparations[preparation]!;
      const outcome = heats.outcome(of, of.steps[step]!);
      if (!outcome) throw new Error(`no heat in step ${step} of "${of.id}"`);
      const all = figures.get(outcome) ?? [...numbersBelow(outcome, "")].map(([, value]) => value);
      figures.set(outcome, all);
      return all[k] ?? Number.NaN;
    },
  };
}

const NOTHING = { inG: 0, outG: 0, pieces: 0 };
