import type { Larder } from "../formula/larder.ts";
import type { Allergen } from "../pantry/schema.ts";
import type { Contents } from "./contents.ts";
import { inheritedUseBy, keptAs, livesDays, ownUseBy, type UseBy } from "./use-by.ts";

/** A batch as made: when it was finished and what it weighs. */
export interface MadeBatch {
  readonly preparation: string;
  readonly index: number;
  readonly amount: { readonly value: number; readonly unit: string };
  /** End of its last step on the run's axis, minutes; undefined when the plan does not hold it. */
  readonly madeMin: number | undefined;
}

/** A container label. */
export interface Label {
  readonly preparation: string;
  readonly name: string;
  readonly batch: number;
  readonly count: number;
  readonly amount: { readonly value: number; readonly unit: string };
  readonly madeOn: string;
  readonly useBy: string;
  /** Whose clock sets the use-by: the preparation itself or the part named. */
  readonly useByFrom: string;
  readonly storage: string;
  readonly allergens: readonly Allergen[];
  /** What may be in it; an allergen nobody has spoken of stands here too. */
  readonly mayContain: readonly Allergen[];
  /** What may come to it by shared equipment and benches in the plan, beside those. */
  readonly traces?: readonly Allergen[];
  /** Whose it is, where it goes on guests' own plates alone: needs and seats. */
  readonly for?: string;
}

export interface LabelClock {
  /** End of the day of a moment. */
  dayEnd(min: number): number;
  /** "Fri 29 Jan 14:05" or the like. */
  write(min: number): string;
  /** Moment an ingredient is taken in: its delivery, or the start of the run for stock. */
  received(ingredient: string): number;
}

const STORAGE: Readonly<Record<string, string>> = {
  hot: "hot, 57 °C or above",
  cold: "cold, 5 °C or below",
  frozen: "frozen, −18 °C or below",
  ambient: "dry, room temperature",
};

/**
 * Labels of every batch, with a use-by inherited from every part at any depth. Several batches of one
 * preparation that go into another: the earliest of them counts.
 * @param order preparations in order of making, parts before what they enter
 * @param whose for whom it is made, where it is no one else's
 */
export function labels(
  larder: Larder,
  contents: Contents,
  order: readonly string[],
  batches: readonly MadeBatch[],
  clock: LabelClock,
  whose: (preparation: string) => string | undefined = () => undefined,
): Label[] {
  const byPreparation = Map.groupBy(batches, (batch) => batch.preparation);
  const earliest = new Map<string, UseBy>();
  const made: Label[] = [];
  for (const id of order) {
    const preparation = larder.preparations.get(id)!;
    const state = keptAs(preparation);
    const parts = preparation.lines.flatMap((line): UseBy[] => {
      if ("preparation" in line.item) {
        const part = earliest.get(line.item.preparation);
        return part ? [part] : [];
      }
      const ingredient = larder.ingredients.get(line.item.ingredient)!;
      if (ingredient.free) return [];
      const atMin = clock.dayEnd(clock.received(ingredient.id)) + (ingredient.storage.days - 1) * 1440;
      return [{ atMin, from: ingredient.id }];
    });
    const guest = whose(id);
    for (const batch of byPreparation.get(id) ?? []) {
      if (batch.madeMin === undefined) continue;
      const useBy = inheritedUseBy(
        ownUseBy(preparation, state, batch.madeMin, clock.dayEnd),
        id,
        state,
        parts,
      );
      // Minutes of waiting hot are over when it goes into something else; clocks of days run on.
      const passedOn = livesDays(preparation, state) ? useBy : inheritedUseBy(undefined, id, state, parts);
      if (passedOn) {
        const least = earliest.get(id);
        if (!least || passedOn.atMin < least.atMin) earliest.set(id, passedOn);
      }
      made.push({
        preparation: id,
        name: preparation.name,
        batch: batch.index,
        count: 1,
        amount: batch.amount,
        madeOn: clock.write(batch.madeMin),
        useBy: useBy ? clock.write(useBy.atMin) : "not stated",
        useByFrom: useBy?.from ?? id,
        storage: STORAGE[state]!,
        allergens: contents.allergens([{ preparation: id }], ["contains"]),
        mayContain: contents.allergens([{ preparation: id }], ["may", "unknown"]),
        ...(guest === undefined ? {} : { for: guest }),
      });
    }
  }
  return made;
}
