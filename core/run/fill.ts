import type { Preparation, Step } from "../formula/schema.ts";
import { fillTarget } from "../heat/fill-target.ts";
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
    return { minutes: filled.minutes.high, path: `book:${at}` };
  };
}

function previousC(preparation: Preparation, step: Step): number {
  const ids = step.from.map((from) => (typeof from === "string" ? from : from.step));
  const before = preparation.steps.findLast((one) => ids.includes(one.id) && one.hold);
  return HELD_C[before?.hold?.state ?? "cold"];
}
