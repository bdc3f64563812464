import type { Larder } from "../formula/larder.ts";
import type { Step } from "../formula/schema.ts";
import { cookedAtC } from "./raw.ts";

/** A point where a hazard is held in check, as it goes into the log. */
export interface ControlPoint {
  readonly preparation: string;
  readonly step: string;
  readonly level: "critical" | "practice";
  readonly hazard: string;
  readonly limit: string;
  readonly monitor: string;
  readonly corrective: string;
  readonly record: string;
  readonly when?: string;
  readonly source?: string;
  readonly note?: string;
}

type Limit = NonNullable<Step["control"]>["limit"];

const WHAT: Readonly<Record<Limit["what"], readonly [string, string]>> = {
  coreC: ["core", "°C"],
  airC: ["air", "°C"],
  minutes: ["time", "min"],
  pH: ["pH", ""],
};
const OP: Readonly<Record<Limit["op"], string>> = {
  ">=": "at least",
  "<=": "at most",
  ">": "above",
  "<": "below",
};

/** A limit in words: "core at least 74 °C". */
export function limitInWords(limit: Limit & { withinMin?: number | undefined }): string {
  const [what, unit] = WHAT[limit.what];
  const within = limit.withinMin === undefined ? "" : ` within ${limit.withinMin} min`;
  return `${what} ${OP[limit.op]} ${limit.value}${unit && ` ${unit}`}${within}`;
}

/**
 * The control points of the preparations made, in their order.
 * @param boilingC boiling point of water in this kitchen, °C: no wet core can pass it
 * @param when moment a step of a preparation is first done, in words; undefined when not planned
 */
export function controlPoints(
  larder: Larder,
  order: readonly string[],
  boilingC: number,
  when: (preparation: string, step: string) => string | undefined,
  raw: (preparation: string) => ReadonlyMap<string, number>,
): ControlPoint[] {
  return order.flatMap((id) => {
    const preparation = larder.preparations.get(id)!;
    return preparation.steps.flatMap((step): ControlPoint[] => {
      const control = step.control;
      if (!control) return [];
      const limits = [control.limit, ...(control.and ?? [])];
      const core = limits.find((limit) => limit.what === "coreC" && limit.op.startsWith(">"));
      const notes: string[] = [];
      if (core && core.value >= boilingC)
        notes.push(`Water boils at ${boilingC.toFixed(1)} °C here: a wet core cannot reach this limit.`);
      const poultry = preparation.lines.some((line) => {
        if ("preparation" in line.item) return false;
        const ingredient = larder.ingredients.get(line.item.ingredient)!;
        return ingredient.origin.includes("poultry") && cookedAtC(ingredient) !== undefined;
      });
      if (core && poultry && core.value < 74 && raw(id).size > 0)
        notes.push(
          "Poultry below 74 °C is outside Food Code 3-401.11(A)(3): it needs a variance and a HACCP plan with an integrated hold; no table names this species.",
        );
      const planned = when(id, step.id);
      return [
        {
          preparation: id,
          step: step.id,
          level: control.level,
          hazard: control.hazard,
          limit: `${limits.map(limitInWords).join("; ")}${control.localLimit ? ` (local: ${control.localLimit})` : ""}`,
          monitor: control.monitor,
          corrective: control.corrective,
          record: control.record,
          ...(planned === undefined ? {} : { when: planned }),
          ...(control.source
            ? { source: [control.source.doc, control.source.table].filter(Boolean).join(", ") }
            : {}),
          ...(notes.length > 0 ? { note: notes.join(" ") } : {}),
        },
      ];
    });
  });
}
