import type { Dish, Need, Placement } from "../plating/schema.ts";

/** Name of a dish as written, without any guest's changes. */
export const STANDARD = "standard";

/** Whether what is on a plate meets every one of the needs (the truth of this is safety's, by what is in it). */
export type Meets = (needs: readonly Need[], placements: readonly Placement[]) => boolean;

/** A placement with its place in the book. */
export interface PlacedAt {
  readonly placement: Placement;
  /** JSON Pointer of the placement. */
  readonly at: string;
}

/** A dish in one form: as written, or with the changes of one or more variants. */
export interface Form {
  /** `STANDARD`, or the needs of the variants joined by "+". */
  readonly name: string;
  readonly placed: readonly PlacedAt[];
  /** Numbers that two variants change each in its own way. */
  readonly conflicts: readonly number[];
}

/**
 * The form of a dish for guests with all these needs: as written if that meets them, else with as few of its
 * variants as will do, those named for the needs first. Undefined when no form does.
 * Where two variants change one place differently, leaving off wins, then the one written later; such a form
 * is taken only when no other meets the needs.
 * @param at JSON Pointer of the dish.
 */
export function formFor(dish: Dish, at: string, needs: readonly Need[], meets: Meets): Form | undefined {
  let doubtful: Form | undefined;
  for (const picked of subsets(dish, needs)) {
    const form = formOf(dish, at, picked);
    if (form.conflicts.length > 0 && doubtful) continue;
    if (
      !meets(
        needs,
        form.placed.map((each) => each.placement),
      )
    )
      continue;
    if (form.conflicts.length === 0) return form;
    doubtful = form;
  }
  return doubtful;
}

/** Sets of variants by place in the dish: none first, then one, two …; those named for the needs before others. */
function subsets(dish: Dish, needs: readonly Need[]): number[][] {
  const most = Math.min(dish.variants.length, Math.max(1, needs.length));
  const sets: number[][] = [[]];
  let last: number[][] = [[]];
  for (let size = 1; size <= most; size++) {
    last = last.flatMap((set) =>
      dish.variants.flatMap((_, i) => (i > (set.at(-1) ?? -1) ? [[...set, i]] : [])),
    );
    // A dish with very many variants: pairs of strangers are not worth the search.
    if (last.length > 2000)
      last = last.filter((set) => set.every((i) => needs.includes(dish.variants[i]!.need)));
    sets.push(...last);
  }
  const strangers = (set: number[]) => set.filter((i) => !needs.includes(dish.variants[i]!.need)).length;
  return sets
    .map((set, order) => ({ set, order, size: set.length, strange: strangers(set) }))
    .sort((a, b) => a.size - b.size || a.strange - b.strange || a.order - b.order)
    .map((each) => each.set);
}

/** The dish with the variants at these places merged. */
export function formOf(dish: Dish, at: string, picked: readonly number[]): Form {
  const conflicts = new Set<number>();
  const dropped = new Set(picked.flatMap((i) => dish.variants[i]!.drop));
  const replaced = new Map<number, PlacedAt>();
  const added: PlacedAt[] = [];
  for (const i of picked) {
    const variant = dish.variants[i]!;
    variant.replace.forEach(({ n, placement }, k) => {
      const before = replaced.get(n);
      if (dropped.has(n) || (before && !same(before.placement, placement))) conflicts.add(n);
      replaced.set(n, { placement, at: `${at}/variants/${i}/replace/${k}/placement` });
    });
    variant.add.forEach((placement, k) => {
      if (added.some((other) => same(other.placement, placement))) return;
      added.push({ placement, at: `${at}/variants/${i}/add/${k}` });
    });
  }
  const placed = dish.placements.flatMap((placement, k): PlacedAt[] => {
    if (dropped.has(placement.n)) return [];
    return [replaced.get(placement.n) ?? { placement, at: `${at}/placements/${k}` }];
  });
  const name = picked.map((i) => dish.variants[i]!.need).join("+") || STANDARD;
  const byNumber = [...placed, ...added].sort((a, b) => a.placement.n - b.placement.n);
  return { name, placed: byNumber, conflicts: [...conflicts] };
}

function same(a: Placement, b: Placement): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
