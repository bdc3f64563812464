import type { Preparation, Step, Work } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Source } from "../quantity/schema.ts";
import { LOG, LOGIT, type Scale } from "./scale.ts";

/** The documents in which learned figures stand. */
export interface Documents {
  readonly ingredients: readonly Ingredient[];
  readonly preparations: readonly Preparation[];
}

export const FIGURE_KINDS = ["cut", "step", "piece", "work"] as const;
export type FigureKind = (typeof FIGURE_KINDS)[number];

/** A figure of the book that can be measured. */
export interface Figure {
  readonly kind: FigureKind;
  /** Ingredient or preparation. */
  readonly of: string;
  /** Cut, step or piece. */
  readonly part: string;
}

/** The words of a figure in one, as `accepted` entries name it. */
export function figureKey({ kind, of, part }: Figure): string {
  return `${kind}/${of}/${part}`;
}

/** A figure as the book has it. */
export interface Stated {
  readonly figure: Figure;
  /** EP / AP, out / in, g of one piece; for work 1, the minutes as written. */
  readonly value: number;
  readonly source: Source["kind"];
  readonly scale: Scale;
  /** Standard deviation of one lot on the scale, before anything was measured. */
  readonly lotSpread: number;
  readonly work?: WorkMinutes;
}

export type WorkMinutes = Pick<Work, "fixedMin" | "perKgMin" | "perPieceMin" | "perBatchMin">;

/**
 * Standard deviation of one lot on its scale where nothing was measured yet: a yield of 0.80 varies by some 4 points, a
 * cooking loss by 5 %, a piece by 15 %, a time by a quarter. Common practice, no source; it counts as four lots.
 */
const LOT_SPREAD: Readonly<Record<FigureKind, number>> = { cut: 0.25, step: 0.05, piece: 0.15, work: 0.25 };

/** Finds a figure in the book; undefined when it is not there, or is no figure that measuring could mend. */
export function statedIn(docs: Documents, figure: Figure): Stated | undefined {
  const { kind, of, part } = figure;
  const lotSpread = LOT_SPREAD[kind];
  if (kind === "cut" || kind === "piece") {
    const ingredient = docs.ingredients.find((one) => one.id === of);
    if (kind === "cut") {
      const cut = ingredient?.cuts.find((one) => one.id === part);
      // A cut of which nothing is thrown away has no trim to measure.
      if (!cut || cut.trimYield >= 1) return undefined;
      return { figure, value: cut.trimYield, source: cut.source.kind, scale: LOGIT, lotSpread };
    }
    const piece = ingredient?.pieces.find((one) => one.name === part);
    return piece && { figure, value: piece.g, source: piece.source.kind, scale: LOG, lotSpread };
  }
  const step = docs.preparations.find((one) => one.id === of)?.steps.find((one) => one.id === part);
  if (!step) return undefined;
  if (kind === "work") {
    if (!step.work) return undefined;
    const { fixedMin, perKgMin, perPieceMin, perBatchMin, source } = step.work;
    const work = tidy({ fixedMin, perKgMin, perPieceMin, perBatchMin });
    return { figure, value: 1, source: source?.kind ?? "memory", scale: LOG, lotSpread, work };
  }
  const factor = changeFactor(step);
  return factor && { figure, value: factor.value, source: factor.source, scale: LOG, lotSpread };
}

/**
 * Mass after over mass before, by the step's own change alone; undefined where the step changes nothing, or reduces to
 * an aim that is the cook's to keep.
 */
export function changeFactor(
  step: Step,
): { readonly value: number; readonly source: Source["kind"] } | undefined {
  const { change } = step;
  if (change === undefined || change === "none") return undefined;
  if ("factor" in change) return { value: change.factor, source: change.source?.kind ?? "memory" };
  if ("addWaterFactor" in change)
    return { value: 1 + change.addWaterFactor, source: change.source?.kind ?? "memory" };
  return undefined;
}

/** What of a step's output goes on, after what it takes away (trim, strained, fat). */
export function goesOn(step: Step): number {
  return 1 - (step.discard?.factor ?? 0);
}

function tidy(work: { [K in keyof WorkMinutes]: WorkMinutes[K] | undefined }): WorkMinutes {
  return Object.fromEntries(Object.entries(work).filter(([, value]) => value !== undefined)) as WorkMinutes;
}
