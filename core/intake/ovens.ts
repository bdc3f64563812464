import type { Doubt } from "./doubt.ts";
import type { ReadStep } from "./types.ts";

/** A kind of oven that a kitchen has. */
export interface Oven {
  readonly kind: string;
  readonly name: string;
  /** Set temperatures that it holds, °C. */
  readonly rangeC: readonly [number, number];
}

/** Use of an oven by a step, as a document has it. */
export interface OvenUse {
  readonly kind: string;
  readonly during: "passive";
  readonly space: { readonly value: number; readonly unit: "shelf" };
  readonly per: "batch";
  readonly setC: number;
}

/** Set temperature from which a piece of equipment with shelves is an oven, °C; a hot cabinet holds less. */
const HOT = 180;

/** The kinds of oven among pieces of equipment: with shelves, and hot enough; in their order. */
export function ovensOf(
  equipment: readonly {
    readonly kind: string;
    readonly name: string;
    readonly capacity: readonly { readonly unit: string }[];
    readonly rangeC?: readonly [number, number] | undefined;
  }[],
): Oven[] {
  const found = new Map<string, Oven>();
  for (const { kind, name, capacity, rangeC } of equipment) {
    if (!rangeC || rangeC[1] < HOT || capacity.every(({ unit }) => unit !== "shelf")) continue;
    if (!found.has(kind)) found.set(kind, { kind, name, rangeC });
  }
  return [...found.values()];
}

const OVEN = /\b(?:ovens?|four|hornos?|forno|(?:back)?ofens?|röhre)(?![\p{L}])/iu;
const BAKE =
  /(?<![\p{L}])(?:bak(?:e|es|ed|ing)|roast(?:s|ed|ing)?|enfourne[rz]?|rôti[rs]?s?e?z?|hornea[rd]?\p{L}{0,3}|inforna\p{L}{0,3}|back(?:en|t)|überbacken|gratin\p{L}*)(?![\p{L}])/iu;
/** "Heat the oven to 180 °C" and no more: what is baked comes in a later step. */
const PREHEAT =
  /\b(?:pre-?heat|heat|turn|set|préchauff\p{L}+|chauff\p{L}+|precal\p{L}+|calent\p{L}+|preriscald\p{L}+|scald\p{L}+|vorheizen|vorgeheizt\p{L}*|aufheizen)/iu;
const COOLER = /\b(?:fridge|refrigerat|freez|chill|oil|fryer|deep-fr|water bath|sous vide|bain)/iu;

/**
 * Which steps take an oven: those that name one or bake, with their own temperature or that of the preheating before
 * them. Each takes one shelf of the first oven that holds the temperature, which is asked.
 * @param chosen kind of oven by place of the step, null for none: as a person said.
 */
export function ovenUses(
  steps: readonly ReadStep[],
  ovens: readonly Oven[],
  chosen: Readonly<Record<number, string | null>>,
): { readonly of: ReadonlyMap<number, OvenUse>; readonly doubts: readonly Doubt[] } {
  const of = new Map<number, OvenUse>();
  const doubts: Doubt[] = [];
  let heated: number | null = null;
  steps.forEach(({ text, minutes, temperatureC, at }, i) => {
    const named = OVEN.test(text);
    const bakes = BAKE.test(text);
    const onlyHeats = named && PREHEAT.test(text) && minutes === null;
    if (onlyHeats) {
      heated = temperatureC ?? heated;
      return;
    }
    if (!named && !bakes) return;
    const setC = temperatureC ?? heated;
    if (setC === null || setC < LEAST_C || (COOLER.test(text) && !named)) return;
    const fit = ovens.filter(({ rangeC }) => setC >= rangeC[0] && setC <= rangeC[1]);
    const said = chosen[i];
    if (said === null) return;
    const oven = fit.find(({ kind }) => kind === said) ?? fit[0];
    if (!oven) return;
    of.set(i, {
      ...{ kind: oven.kind, during: "passive", per: "batch", setC: Math.round(setC) },
      space: { value: 1, unit: "shelf" },
    });
    if (said !== undefined) return;
    doubts.push({
      ...{ path: `/steps/${i}`, at, about: "oven" },
      ask: `${oven.name} at ${Math.round(setC)} °C, one shelf for a batch: is it so?`,
      choices: [
        ...fit.map(({ kind, name }) => ({ kind: "oven" as const, oven: kind, name })),
        { kind: "oven" as const, oven: null, name: "" },
      ],
    });
  });
  return { of, doubts };
}

/** Below this it is no baking: a proof or a drying cabinet is not taken for granted, °C. */
const LEAST_C = 60;
