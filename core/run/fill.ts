import type { Preparation, Step } from "../formula/schema.ts";
import { fillTarget } from "../heat/fill-target.ts";
import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Documents } from "../production/documents.ts";
import type { FillTarget } from "../production/site.ts";
import { compositionOfStep } from "./composition.ts";

/** Core temperature of what comes from a cold or hot hold, °C, where no heat says more. Common practice, no source. */
const HELD_C = { hot: 63, cold: 4, frozen: -18, ambient: 20 } as const;

/** Answers how long a step's heat target takes in a kitchen at this altitude: the long end of its spread. */
export function targetFiller(docs: Documents, amounts: Amounts): FillTarget {
  const { ledger, kitchen } = amounts;
  const grams = new Map(
    amounts.cells.preparations.flatMap(({ cells }) =>
      cells.lines.map((each) => [`${cells.preparation.id} ${each.line.id}`, each.ep] as const),
    ),
  );
  const gramsOf = (preparation: string, line: string) => ledger.value(grams.get(`${preparation} ${line}`)!);
  return (preparation, step) => {
    const target = step.target!;
    const at = `${docs.pointer("preparations", preparation.id)}/steps/${preparation.steps.indexOf(step)}/target`;
    const massOnly = target.stages.every((stage) => stage.untilMass);
    const composed = massOnly ? undefined : compositionOfStep(docs, gramsOf, preparation, step);
    if (composed && !composed.ok)
      return {
        doubt: `the heat target of "${step.name}" cannot be computed: ${composed.missing} is not known`,
        mend: "give it, or write minutes instead of a target",
      };
    const filled = fillTarget({
      piece: preparation.piece,
      material: composed ? { composition: composed.composition } : undefined,
      target,
      place: { altitudeM: kitchen.altitudeM },
      previousC: previousC(preparation, step),
      paths: { piece: `${docs.pointer("preparations", preparation.id)}/piece`, target: at },
    });
    if ("problems" in filled) return { doubt: filled.problems[0]!.what, mend: filled.problems[0]!.mend };
    return { minutes: filled.minutes.high, path: heatPath(preparation.id, step.id) };
  };
}

function previousC(preparation: Preparation, step: Step): number {
  const ids = step.from.map((from) => (typeof from === "string" ? from : from.step));
  const before = preparation.steps.findLast((one) => ids.includes(one.id) && one.hold);
  return HELD_C[before?.hold?.state ?? "cold"];
}

/** Where the trace says how the minutes of a heat target came. */
const heatPath = (preparation: string, step: string) => `calc:/heat/${preparation}/${step}`;

/** Notes how the minutes of each heat target came: by heat, from the place of the step in the book. */
export function traceHeat(tracer: Tracer, docs: Documents, amounts: Amounts, fill: FillTarget): void {
  const place = (i: number) => {
    const path = `const:/number/${i}`;
    tracer.note(path, { value: i, unit: "", rule: "given", inputs: [] });
    return path;
  };
  for (const id of amounts.preparations.keys()) {
    const preparation = docs.preparations.get(id)!;
    for (const [i, step] of preparation.steps.entries()) {
      if (!step.target) continue;
      const filled = fill(preparation, step, NOTHING);
      if (!("minutes" in filled) || filled.path === undefined) continue;
      const at = Number(docs.pointer("preparations", id).split("/").at(-1));
      const inputs = [place(at), place(i)];
      tracer.note(filled.path, { value: filled.minutes, unit: "min", rule: "heatedMinutes", inputs });
    }
  }
}

/** The rule of what heat answers, for replaying a trace of these documents and amounts. */
export function heatRules(docs: Documents, amounts: Amounts) {
  const preparations = [...docs.preparations.values()];
  return {
    heatedMinutes(preparation: number, step: number): number {
      const of = preparations[preparation]!;
      const filled = targetFiller(docs, amounts)(of, of.steps[step]!, NOTHING);
      if (!("minutes" in filled)) throw new Error(`no minutes for step ${step} of "${of.id}"`);
      return filled.minutes;
    },
  };
}

const NOTHING = { inG: 0, outG: 0, pieces: 0 };
