import type { Preparation, Step } from "../formula/schema.ts";
import { type Filled, fillTarget, type TargetQuestion } from "../heat/fill-target.ts";
import type { Refusal } from "../heat/heat.ts";
import type { LethalityTableRef, Material, Target } from "../heat/schema.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Documents } from "../production/documents.ts";
import { STORES } from "../production/units.ts";
import { isSour } from "../safety/acts.ts";
import { chillMedium } from "../safety/food-words.ts";
import type { Foods, RawFood } from "../safety/foods.ts";
import { stepCoreC } from "../safety/raw.ts";
import { compositionOfStep } from "./composition.ts";
import { coolingOutcome, type HeatOutcome, heatingOutcome, notComputed } from "./heat-outcome.ts";

/** Core temperature of what comes from a cold or hot hold, °C, where no heat says more. Common practice, no source. */
const HELD_C = { hot: 63, cold: 4, frozen: -18, ambient: 20 } as const;

/** Minutes over which cooling is followed: beyond the six hours of the last limit. */
const FOLLOWED_MIN = 480;

export type FilledStep = Filled | { readonly doubt: string; readonly mend: string };

/** The heat of the steps of a service in its kitchen. It does not depend on the covers: each step is asked once. */
export class StepHeats {
  readonly #docs: Documents;
  readonly #amounts: Amounts;
  readonly #foods: Foods;
  readonly #grams: (preparation: string, line: string) => number;
  readonly #filled = new Map<string, FilledStep>();
  readonly #outcomes = new Map<string, HeatOutcome | undefined>();

  constructor(docs: Documents, amounts: Amounts, foods: Foods) {
    this.#docs = docs;
    this.#amounts = amounts;
    this.#foods = foods;
    const { ledger } = amounts;
    const grams = new Map(
      amounts.cells.preparations.flatMap(({ cells }) =>
        cells.lines.map((each) => [`${cells.preparation.id} ${each.line.id}`, each.ep] as const),
      ),
    );
    this.#grams = (preparation, line) => ledger.value(grams.get(`${preparation} ${line}`)!);
  }

  /** The target of a step, filled for this kitchen; or why it cannot be. */
  filled(preparation: Preparation, step: Step): FilledStep {
    const key = `${preparation.id}/${step.id}`;
    const known = this.#filled.get(key);
    if (known) return known;
    const made = this.#fill(preparation, step);
    this.#filled.set(key, made);
    return made;
  }

  /** What the heat of a step comes to, where it has a target or chills what was hot; else undefined. */
  outcome(preparation: Preparation, step: Step): HeatOutcome | undefined {
    const key = `${preparation.id}/${step.id}`;
    if (!this.#outcomes.has(key))
      this.#outcomes.set(
        key,
        step.target ? this.#heated(preparation, step) : this.#cooled(preparation, step),
      );
    return this.#outcomes.get(key);
  }

  #fill(preparation: Preparation, step: Step): FilledStep {
    const target = step.target!;
    const massOnly = target.stages.every((stage) => stage.untilMass);
    const material = massOnly ? undefined : this.#material(preparation, step);
    if (material && "missing" in material)
      return {
        doubt: `the heat target of "${step.name}" cannot be computed: ${material.missing} is not known`,
        mend: "give it, or write minutes instead of a target",
      };
    const at = this.#docs.pointer("preparations", preparation.id);
    const filled = askedOnce({
      piece: preparation.piece,
      material,
      target,
      place: { altitudeM: this.#amounts.kitchen.altitudeM },
      previousC: this.#previousC(preparation, step),
      paths: { piece: `${at}/piece`, target: `${at}/steps/${preparation.steps.indexOf(step)}/target` },
    });
    return "problems" in filled ? doubtOf(filled) : filled;
  }

  #material(preparation: Preparation, step: Step): Material | { missing: string } {
    const composed = compositionOfStep(this.#docs, this.#grams, preparation, step);
    return composed.ok ? { composition: composed.composition } : { missing: composed.missing };
  }

  /** How warm the piece comes: as the step before leaves it, by its own heat, else by how it is held. */
  #previousC(preparation: Preparation, step: Step): number {
    const ids = step.from.map((from) => (typeof from === "string" ? from : from.step));
    const before = preparation.steps.filter((one) => ids.includes(one.id));
    const heated = before.findLast((one) => one.target && !one.hold);
    if (heated) {
      const filled = this.filled(preparation, heated);
      if ("coreC" in filled) return filled.coreC.mid;
    }
    return HELD_C[before.findLast((one) => one.hold)?.hold?.state ?? "cold"];
  }

  #heated(preparation: Preparation, step: Step): HeatOutcome {
    const filled = this.filled(preparation, step);
    if ("doubt" in filled)
      return notComputed(
        preparation.id,
        step.id,
        "heating",
        `Not computed: ${filled.doubt}; ${filled.mend}.`,
      );
    const raw = this.#foodOf(preparation, step)?.rawIn ?? [];
    const judged = step.target!.stages.some((stage) => stage.untilLog10 ?? stage.untilTable);
    return heatingOutcome(preparation.id, step.id, filled, {
      table: judged ? undefined : tableOf(raw),
      atC: stepCoreC(step),
      killed: judged || raw.length > 0,
    });
  }

  /** The middle of what a cold store of this kitchen is kept at, °C; a chiller says it by its use. */
  #storeC(kind: string): number | undefined {
    if (!Object.values(STORES).some((kinds) => kinds.includes(kind))) return undefined;
    const range = this.#amounts.kitchen.equipment.find((one) => one.kind === kind)?.rangeC;
    return range && (range[0] + range[1]) / 2;
  }

  #foodOf(preparation: Preparation, step: Step) {
    return this.#foods.stepsOf(preparation.id).find((food) => food.step.id === step.id);
  }

  /** Chilling of what was hot, in what the step uses for the minutes it writes, then in the cold store. */
  #cooled(preparation: Preparation, step: Step): HeatOutcome | undefined {
    if (!this.#foodOf(preparation, step)?.cools || isSour(preparation)) return undefined;
    const not = (why: string) => notComputed(preparation.id, step.id, "cooling", `Not predicted: ${why}`);
    const chill = step.uses.find((use) => use.kind !== undefined && chillMedium(use.kind));
    if (!chill) return not("say in what it is chilled (a use of a chiller, an ice sink or a cold room).");
    const depthMm = Math.max(0, ...step.uses.map((use) => use.depthMm ?? 0));
    const piece = depthMm > 0 ? ({ kind: "slab", thicknessMm: depthMm } as const) : preparation.piece;
    if (!piece) return not("give the depth (depthMm of the use that chills) or the piece.");
    const material = this.#material(preparation, step);
    if ("missing" in material) return not(`${material.missing} is not known.`);
    const medium = chillMedium(chill.kind!)!;
    const written = writtenMin(step);
    const setC = chill.setC ?? this.#storeC(chill.kind!);
    const first = { medium, ...(setC === undefined ? {} : { mediumC: setC }) };
    const frozen = step.hold?.state === "frozen";
    const storeC = STORES[frozen ? "frozen" : "cold"]
      .map((kind) => this.#storeC(kind))
      .find((c) => c !== undefined);
    const store = {
      medium: frozen ? "freezer" : "walk-in",
      ...(storeC === undefined ? {} : { mediumC: storeC }),
    };
    const through = Math.min(written, FOLLOWED_MIN - 1);
    const stages: Target["stages"] =
      through > 0
        ? [
            { ...first, minutes: through },
            { ...store, minutes: FOLLOWED_MIN - through },
          ]
        : [{ ...first, minutes: FOLLOWED_MIN }];
    const filled = askedOnce({
      piece,
      material,
      target: { startC: HELD_C.hot, stages },
      place: { altitudeM: this.#amounts.kitchen.altitudeM },
    });
    if ("problems" in filled) return not(`${doubtOf(filled).doubt}; ${doubtOf(filled).mend}.`);
    return coolingOutcome(preparation.id, step.id, filled, through);
  }
}

/** The same question of another run is answered once: a piece in its stages knows no service. */
const ANSWERED = new Map<string, ReturnType<typeof fillTarget>>();
const MOST_ANSWERS = 400;

function askedOnce(question: TargetQuestion): ReturnType<typeof fillTarget> {
  const key = JSON.stringify(question);
  const known = ANSWERED.get(key);
  if (known) return known;
  const answer = fillTarget(question);
  if (ANSWERED.size >= MOST_ANSWERS) ANSWERED.clear();
  ANSWERED.set(key, answer);
  return answer;
}

const doubtOf = ({ problems }: Refusal) => ({ doubt: problems[0]!.what, mend: problems[0]!.mend });

function writtenMin(step: Step): number {
  if (!step.passive) return 0;
  return "min" in step.passive ? step.passive.min : step.passive.fixedMin;
}

/** The table the reductions of raw food are counted by; fat counts as 12 % where nobody says. */
function tableOf(raw: readonly RawFood[]): LethalityTableRef | undefined {
  const bird = raw.find((one) => one.food === "poultry");
  if (bird)
    return {
      table:
        bird.species === "chicken"
          ? "fsis-chicken-7"
          : bird.species === "turkey"
            ? "fsis-turkey-7"
            : "fsis-poultry-7",
    };
  return raw.some((one) => one.food === "whole-meat" || one.food === "ground-meat")
    ? { table: "fsis-meat-6.5" }
    : undefined;
}
