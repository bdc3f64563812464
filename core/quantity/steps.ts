/** An amount as a kitchen's tool can measure it, and what that changes. */
export type Stepped = {
  /** What to weigh, in g; the wanted amount itself when nothing here can weigh it. */
  readonly value: number;
  /** value − wanted, in g. */
  readonly error: number;
  /** error / wanted; 0 when nothing is wanted. */
  readonly ratio: number;
  /** The step used, in g; null when the amount is under half the finest step: no scale here can weigh it. */
  readonly step: number | null;
};

/** Rounding that a cook does not notice: half a step may move the amount by this ratio (common practice, no source). */
const UNNOTICED = 0.01;

/**
 * Rounds a mass to a step that one of the kitchen's scales shows: the coarsest step that moves it by no more
 * than 1 %, else the finest. An amount under half the finest step is never rounded to nothing: it comes back
 * as it is, with `step` null.
 *
 * @param grams wanted, finite and not negative. @param steps of the scales, g, above zero, any order.
 * @throws RangeError when there is no step or an argument is out of range.
 */
export function roundToStep(grams: number, steps: readonly number[]): Stepped {
  if (!Number.isFinite(grams) || grams < 0) throw new RangeError(`cannot weigh ${grams} g`);
  const known = steps.filter((step) => Number.isFinite(step) && step > 0).sort((a, b) => b - a);
  const finest = known.at(-1);
  if (finest === undefined || known.length !== steps.length) {
    throw new RangeError("each scale step is a number of grams above zero, and at least one is needed");
  }
  if (grams > 0 && grams < finest / 2) return { value: grams, error: 0, ratio: 0, step: null };
  const step = known.find((each) => each / 2 <= UNNOTICED * grams) ?? finest;
  return { ...offBy(grams, onStep(grams, step)), step };
}

/** The multiple of `step` nearest to `value`, free of binary dust: 3 × 0.1 gives 0.3. */
function onStep(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toPrecision(12));
}

function offBy(wanted: number, value: number): { value: number; error: number; ratio: number } {
  const error = Number((value - wanted).toPrecision(12));
  return { value, error, ratio: wanted === 0 ? 0 : error / wanted };
}

/** So many level fills of one scoop or ladle. */
export type Scooped = {
  readonly sizeMl: number;
  readonly count: number;
  readonly value: number;
  readonly error: number;
  readonly ratio: number;
};

/** Fills of a scoop or ladle that a cook still counts without losing the thread (common practice, no source). */
const MOST_FILLS = 4;

/**
 * A volume as level fills of the scoops and ladles at hand: fewest fills that come within 5 %, else the nearest.
 *
 * @param millilitres wanted, above zero. @param sizesMl of the scoops and ladles, mL, above zero.
 * @returns null when there is no scoop.
 */
export function roundToScoop(millilitres: number, sizesMl: readonly number[]): Scooped | null {
  if (!(millilitres > 0)) throw new RangeError(`cannot scoop ${millilitres} mL`);
  const fills = sizesMl.flatMap((sizeMl) =>
    Array.from({ length: MOST_FILLS }, (_, i) => ({
      ...{ sizeMl, count: i + 1 },
      ...offBy(millilitres, sizeMl * (i + 1)),
    })),
  );
  const byError = (a: Scooped, b: Scooped) => Math.abs(a.ratio) - Math.abs(b.ratio) || a.count - b.count;
  const near = fills.filter((fill) => Math.abs(fill.ratio) <= 0.05);
  const fewest = Math.min(...near.map((fill) => fill.count));
  return near.filter((fill) => fill.count === fewest).sort(byError)[0] ?? fills.sort(byError)[0] ?? null;
}
