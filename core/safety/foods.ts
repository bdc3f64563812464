import type { Larder } from "../formula/larder.ts";
import type { Preparation, Step } from "../formula/schema.ts";
import type { CookFood } from "../heat/limits-data.ts";
import { mediumNamed } from "../heat/media.ts";
import type { Ingredient } from "../pantry/schema.ts";
import { isHeater, MINCERS, named, speciesOf } from "./food-words.ts";
import { cookedAtC, stepCoreC } from "./raw.ts";

/** Something raw that has not met a step held to a core. */
export interface RawFood {
  readonly ingredient: string;
  readonly food: CookFood | "shellfish";
  readonly species?: string;
  /** Core that ends its being raw, °C. */
  readonly untilC: number;
  /** Where it came in. */
  readonly preparation: string;
  readonly step: string;
  readonly frozen: boolean;
  /** A step of this preparation has heated it, without a core named. */
  readonly heated?: boolean;
}

/** What the food of a step is like: on its way in, in it, on its way out. */
export interface StepFood {
  readonly step: Step;
  readonly rawIn: readonly RawFood[];
  /** Warm from what was before. */
  readonly hotIn: boolean;
  /** Something cooked before comes in cold. */
  readonly cookedColdIn: boolean;
  readonly heats: boolean;
  /** Becomes cold here and was warm. */
  readonly cools: boolean;
  readonly cooked: boolean;
  /** Packed without air here or before, in this preparation. */
  readonly reducedOxygen: boolean;
  readonly grain: boolean;
  readonly nitrite: boolean;
  /** State it waits in after the step. */
  readonly held: State | undefined;
  /** A heating step of this preparation comes after it. */
  readonly heatedLater: boolean;
  /** Goes on to the end of the preparation without being cooled, and is held hot there. */
  readonly endsHot: boolean;
  /** Nothing in this preparation takes it. */
  readonly last: boolean;
}
type State = NonNullable<Step["hold"]>["state"];

/** Heat leaves what stands longer than this at room temperature, minutes. Common practice, no source. */
const COOL_BY_ITSELF = 120;

interface Out {
  readonly raw: readonly RawFood[];
  readonly hot: boolean;
  readonly cooked: boolean;
  readonly cold: boolean;
  readonly grain: boolean;
}

/** Looks at the food of every step, preparation by preparation, each once; parts before what they enter. */
export class Foods {
  readonly #larder: Larder;
  readonly #steps = new Map<string, readonly StepFood[]>();
  readonly #out = new Map<string, Out>();

  constructor(larder: Larder) {
    this.#larder = larder;
  }

  stepsOf(id: string): readonly StepFood[] {
    // Depth must not exhaust the stack.
    const open = [id];
    for (let top = open.at(-1); top !== undefined; top = open.at(-1)) {
      const missing = partsOf(this.#larder.preparations.get(top)!).filter((part) => !this.#steps.has(part));
      if (missing.length > 0) open.push(...missing);
      else {
        if (!this.#steps.has(top)) this.#look(top);
        open.pop();
      }
    }
    return this.#steps.get(id)!;
  }

  /** What is still raw when a preparation is done and no step has been held to a core for it. */
  rawAtEnd(id: string): readonly RawFood[] {
    this.stepsOf(id);
    return this.#out.get(id)!.raw;
  }

  /** An ingredient laid on a plate as it is bought, when it is raw: no preparation holds it. */
  rawOnPlate(ingredient: string, cut: string | undefined): RawFood | undefined {
    return rawAsBought(this.#larder.ingredients.get(ingredient)!, cut, ingredient, "");
  }

  #look(id: string): void {
    const preparation = this.#larder.preparations.get(id)!;
    const outs = new Map<string, Out>();
    const airless = new Set<string>();
    const found = new Map<string, StepFood>();
    for (const step of inOrder(preparation)) {
      const before = step.from.map((from) => (typeof from === "string" ? from : from.step));
      const parts = this.#linesOf(preparation, step);
      const ins = [...before.map((one) => outs.get(one)!), ...parts];
      const rawIn = onceEach(ins.flatMap((one) => one.raw));
      const hotIn = ins.some((one) => one.hot);
      const last = !preparation.steps.some((one) => entersOf(one).includes(step.id));
      const held = step.hold?.state ?? (last ? preparation.life[0]?.state : undefined);
      const heats = heatsIn(step) || (held === "hot" && !hotIn && ins.length > 0);
      const cooked = heats || ins.some((one) => one.cooked);
      const warm = hotIn || heats;
      const cools = warm && (held === "cold" || held === "frozen");
      const stands = held === "ambient" && (step.hold?.maxMin ?? 0) > COOL_BY_ITSELF;
      const reducedOxygen =
        step.uses.some((use) => use.kind === "sealer") || before.some((b) => airless.has(b));
      if (reducedOxygen) airless.add(step.id);
      const coreC = stepCoreC(step);
      const minced = rawIn.map((raw) => this.#minced(step, raw));
      const grain = ins.some((one) => one.grain);
      outs.set(step.id, {
        raw: coreC !== undefined ? [] : heats ? minced.map((raw) => ({ ...raw, heated: true })) : minced,
        hot: warm && !cools && !stands,
        cooked,
        cold: held === "cold" || held === "frozen",
        grain,
      });
      found.set(step.id, {
        step,
        rawIn: minced,
        hotIn,
        cookedColdIn: ins.some((one) => one.cooked && one.cold && !one.hot),
        heats,
        cools,
        cooked,
        reducedOxygen,
        grain,
        nitrite: preparation.lines.some((line) => {
          if (line.step !== step.id || "preparation" in line.item) return false;
          return named("nitrite", this.#larder.ingredients.get(line.item.ingredient)!);
        }),
        held,
        heatedLater: false,
        endsHot: false,
        last,
      });
    }
    const hotEnds = new Map<string, boolean>();
    for (const step of inOrder(preparation).toReversed()) {
      const food = found.get(step.id)!;
      const cold = food.cools || food.held === "cold" || food.held === "frozen";
      const next = preparation.steps.filter((one) => entersOf(one).includes(step.id));
      const goesOn = food.last ? food.held === "hot" : next.some((one) => hotEnds.get(one.id) === true);
      hotEnds.set(step.id, !cold && goesOn);
    }
    const list = preparation.steps.map((step) => ({
      ...found.get(step.id)!,
      heatedLater: after(preparation, step.id).some((later) => found.get(later)!.heats),
      endsHot: hotEnds.get(step.id)!,
    }));
    this.#steps.set(id, list);
    const ends = list.filter((one) => one.last).map((one) => ({ ...outs.get(one.step.id)! }));
    const some = (test: (out: Out) => boolean) => ends.some(test);
    this.#out.set(id, {
      // Heated here to the end: its core was asked for here.
      raw: onceEach(ends.flatMap((out) => out.raw).filter((raw) => raw.heated !== true)),
      hot: some((out) => out.hot),
      cooked: some((out) => out.cooked),
      cold: some((out) => out.cold),
      grain: some((out) => out.grain),
    });
  }

  #linesOf(preparation: Preparation, step: Step): Out[] {
    return preparation.lines
      .filter((line) => line.step === step.id)
      .map(({ item }): Out => {
        if ("preparation" in item) return this.#out.get(item.preparation)!;
        const ingredient = this.#larder.ingredients.get(item.ingredient)!;
        const raw = rawAsBought(ingredient, item.cut, preparation.id, step.id);
        return {
          raw: raw ? [raw] : [],
          hot: false,
          cooked: false,
          cold: false,
          grain: named("grain", ingredient) && (ingredient.composition?.water ?? 12) < 50,
        };
      });
  }

  /** Raw meat that goes through a mincer is minced meat from then on. */
  #minced(step: Step, raw: RawFood): RawFood {
    if (raw.food !== "whole-meat" || !step.uses.some((use) => MINCERS.has(use.kind ?? ""))) return raw;
    return { ...raw, food: "ground-meat", untilC: 70 };
  }
}

/** An ingredient that is raw as bought, where it comes in; undefined when it is not. */
function rawAsBought(
  ingredient: Ingredient,
  cut: string | undefined,
  preparation: string,
  step: string,
): RawFood | undefined {
  const untilC = cookedAtC(ingredient);
  if (untilC === undefined) return undefined;
  const is = (origin: Ingredient["origin"][number]) => ingredient.origin.includes(origin);
  const food = is("poultry")
    ? "poultry"
    : is("raw-egg") || is("egg")
      ? "egg"
      : is("fish")
        ? "fish"
        : is("shellfish")
          ? "shellfish"
          : named("minced", ingredient, cut)
            ? "ground-meat"
            : "whole-meat";
  return {
    ...{ ingredient: ingredient.id, food, preparation, step },
    ...(food === "poultry" ? { species: speciesOf(ingredient) } : {}),
    untilC: food === "ground-meat" ? 70 : untilC,
    frozen: ingredient.storage.state === "frozen",
  };
}

const onceEach = (raw: readonly RawFood[]) => [...new Map(raw.map((one) => [one.ingredient, one])).values()];

/** Steps in an order in which what enters comes before. */
function inOrder(preparation: Preparation): Step[] {
  const done = new Set<string>();
  const out: Step[] = [];
  let open = [...preparation.steps];
  while (open.length > 0) {
    const ready = open.filter((step) => entersOf(step).every((id) => done.has(id)));
    if (ready.length === 0) break;
    for (const step of ready) done.add(step.id);
    out.push(...ready);
    open = open.filter((step) => !done.has(step.id));
  }
  return out;
}

const entersOf = (step: Step) => step.from.map((from) => (typeof from === "string" ? from : from.step));

function after(preparation: Preparation, id: string): string[] {
  const found = new Set<string>();
  const open = [id];
  for (let top = open.pop(); top !== undefined; top = open.pop())
    for (const step of preparation.steps)
      if (entersOf(step).includes(top) && !found.has(step.id)) {
        found.add(step.id);
        open.push(step.id);
      }
  return [...found];
}

function heatsIn(step: Step): boolean {
  if (step.uses.some((use) => use.kind !== undefined && isHeater(use.kind, use.setC))) return true;
  if ((stepCoreC(step) ?? 0) >= 50) return true;
  return (step.target?.stages ?? []).some((stage) => {
    if (stage.untilMass) return true;
    if (stage.mediumC !== undefined) return stage.mediumC >= 50;
    const by = stage.medium === undefined ? undefined : mediumNamed(stage.medium)?.celsius;
    return by?.by === "boiling" || (by?.by === "usual" && by.usual >= 50);
  });
}

function partsOf(preparation: Preparation): string[] {
  return [
    ...new Set(preparation.lines.flatMap(({ item }) => ("preparation" in item ? [item.preparation] : []))),
  ];
}
