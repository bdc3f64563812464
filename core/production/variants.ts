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
 * Where two variants change one place differently, leaving off wins, then the one written later, or the earlier if
 * only that meets the needs; such a form is taken only when no other meets them.
 * @param at JSON Pointer of the dish.
 */
export function formFor(dish: Dish, at: string, needs: readonly Need[], meets: Meets): Form | undefined {
  let doubtful: Form | undefined;
  const serves = (form: Form) =>
    meets(
      needs,
      form.placed.map((each) => each.placement),
    );
  for (const picked of subsets(dish, needs)) {
    const form = formOf(dish, at, picked);
    if (form.conflicts.length === 0) {
      if (serves(form)) return form;
    } else doubtful ??= [form, formOf(dish, at, picked, "earlier")].find(serves);
  }
  return doubtful;
}

/** Beyond single variants, combinations are sought among this many. */
const MOST_COMBINED = 12;

/**
 * Sets of variants by place in the dish, best first: none, one, two …; those named for the needs before others,
 * those that change less before those that change more.
 */
function subsets(dish: Dish, needs: readonly Need[]): number[][] {
  const named = (i: number) => needs.includes(dish.variants[i]!.need);
  const all = dish.variants.map((_, i) => i);
  const pool = [...all.filter(named), ...all.filter((i) => !named(i))]
    .slice(0, MOST_COMBINED)
    .sort((a, b) => a - b);
  const sets: number[][] = [[], ...all.map((i) => [i])];
  let last = pool.map((i) => [i]);
  for (let size = 2; size <= Math.min(pool.length, needs.length); size++) {
    last = last.flatMap((set) => pool.filter((i) => i > set.at(-1)!).map((i) => [...set, i]));
    for (const set of last) sets.push(set);
  }
  const changes = (i: number) => {
    const { drop, replace, add } = dish.variants[i]!;
    return drop.length + replace.length + add.length;
  };
  const total = (set: number[], of: (i: number) => number) => set.reduce((sum, i) => sum + of(i), 0);
  const order = (set: number[]) => [set.length, total(set, (i) => (named(i) ? 0 : 1)), total(set, changes)];
  return sets
    .map((set, i) => ({ set, key: [...order(set), i] }))
    .sort((a, b) => a.key.reduce((d, x, k) => d || x - b.key[k]!, 0))
    .map((each) => each.set);
}

/** The dish with the variants at these places merged; of two that change one place, `wins` says which. */
export function formOf(
  dish: Dish,
  at: string,
  picked: readonly number[],
  wins: "later" | "earlier" = "later",
): Form {
  const conflicts = new Set<number>();
  const dropped = new Set(picked.flatMap((i) => dish.variants[i]!.drop));
  const replaced = new Map<number, PlacedAt>();
  const added: PlacedAt[] = [];
  for (const i of picked) {
    const variant = dish.variants[i]!;
    variant.replace.forEach(({ n, placement }, k) => {
      const before = replaced.get(n);
      if (dropped.has(n) || (before && !same(before.placement, placement))) conflicts.add(n);
      if (before && wins === "earlier") return;
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
  // One name, one form: a second variant for the same need is told apart, and so is who came first.
  const names = picked.map((i) => nameOf(dish, i));
  const name = (wins === "later" ? names : names.reverse()).join("+") || STANDARD;
  const byNumber = [...placed, ...added].sort((a, b) => a.placement.n - b.placement.n);
  return { name, placed: byNumber, conflicts: [...conflicts] };
}

/** Name of a variant by its place: its need; of a second one for the same need, "need-2". */
export function nameOf(dish: Dish, i: number): string {
  const { need } = dish.variants[i]!;
  const before = dish.variants.slice(0, i).filter((each) => each.need === need).length;
  return before === 0 ? need : `${need}-${before + 1}`;
}

function same(a: Placement, b: Placement): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
