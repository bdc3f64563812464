import type { Preparation, Step } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Source } from "../quantity/schema.ts";
import type { Documents, WorkMinutes } from "./figures.ts";
import type { Estimate } from "./learn.ts";
import { rounded } from "./rules.ts";

/**
 * The book with learned figures in the place of its own: each a measured figure, with the spread of one lot beside it.
 * Nothing else is touched, and the book given is not changed. Kept in the book only when a person accepts it.
 */
export function withLearned<B extends Documents>(book: B, estimates: readonly Estimate[]): B {
  const of = Map.groupBy(estimates, ({ figure }) => figure.of);
  return {
    ...book,
    ingredients: book.ingredients.map((one) => ingredientWith(one, of.get(one.id) ?? [])),
    preparations: book.preparations.map((one) => preparationWith(one, of.get(one.id) ?? [])),
  };
}

export function ingredientWith(ingredient: Ingredient, estimates: readonly Estimate[]): Ingredient {
  const find = (kind: "cut" | "piece", part: string) =>
    estimates.find(({ figure }) => figure.kind === kind && figure.part === part);
  if (!estimates.some(({ figure }) => figure.kind === "cut" || figure.kind === "piece")) return ingredient;
  return {
    ...ingredient,
    cuts: ingredient.cuts.map((cut) => {
      const learned = find("cut", cut.id);
      if (!learned) return cut;
      // Trim that is used elsewhere can be no more than all of the trim.
      const most = 1 - learned.value;
      const usable = cut.usableTrim && { ...cut.usableTrim, share: Math.min(cut.usableTrim.share, most) };
      return {
        ...cut,
        trimYield: learned.value,
        spread: rounded(learned.spread),
        source: sourceOf(learned),
        ...(usable ? { usableTrim: usable } : {}),
      };
    }),
    pieces: ingredient.pieces.map((piece) => {
      const learned = find("piece", piece.name);
      return learned ? { ...piece, g: learned.value, source: sourceOf(learned) } : piece;
    }),
  };
}

export function preparationWith(preparation: Preparation, estimates: readonly Estimate[]): Preparation {
  const find = (kind: "step" | "work", part: string) =>
    estimates.find(({ figure }) => figure.kind === kind && figure.part === part);
  if (!estimates.some(({ figure }) => figure.kind === "step" || figure.kind === "work")) return preparation;
  return {
    ...preparation,
    steps: preparation.steps.map((step) =>
      workWith(changeWith(step, find("step", step.id)), find("work", step.id)),
    ),
  };
}

function changeWith(step: Step, learned: Estimate | undefined): Step {
  const { change } = step;
  if (!learned || change === undefined || change === "none") return step;
  const [source, spread] = [sourceOf(learned), rounded(learned.spread)];
  if ("factor" in change) return { ...step, change: { ...change, factor: learned.value, spread, source } };
  if ("addWaterFactor" in change && learned.value > 1)
    return { ...step, change: { addWaterFactor: rounded(learned.value - 1), spread, source } };
  return step;
}

function workWith(step: Step, learned: Estimate | undefined): Step {
  if (!learned || !step.work) return step;
  return {
    ...step,
    work: {
      ...step.work,
      ...workTimes(step.work, learned.value),
      spread: rounded(learned.spread / learned.value),
      source: sourceOf(learned),
    },
  };
}

/** The minutes of work, all by the same ratio. */
export function workTimes(work: WorkMinutes, ratio: number): WorkMinutes {
  const part = (name: keyof WorkMinutes) =>
    work[name] === undefined ? {} : { [name]: rounded(work[name] * ratio) };
  return {
    ...(part("fixedMin") as { fixedMin: number }),
    ...part("perKgMin"),
    ...part("perPieceMin"),
    ...part("perBatchMin"),
  };
}

/** Where a learned figure comes from, in words: how many measurements, by how many, between which days. */
export function sourceOf({ n, cooks, from, to }: Estimate): Source {
  const [first, last] = [from.slice(0, 10), to.slice(0, 10)];
  const days = first === last ? `on ${first}` : `from ${first} to ${last}`;
  return {
    kind: "measured",
    doc: `Log of this kitchen: ${n} ${n === 1 ? "measurement" : "measurements"} by ${cooks.length} ${cooks.length === 1 ? "cook" : "cooks"}, ${days}`,
  };
}
