import type { Ingredient } from "../pantry/schema.ts";
import type { Dish, Placement } from "../plating/schema.ts";
import { placementsOf } from "../production/placements-of.ts";
import type { Service } from "../production/schema.ts";
import { numericValue } from "../quantity/convert.ts";
import type { Amount } from "../quantity/schema.ts";
import { type LogLine, standing } from "./log-lines.ts";
import type { BatchRef, Counted, LotRef, Used } from "./lots-schema.ts";
import { firstOut, LEAST, type Stock, type Weigh } from "./lots-stock.ts";

/** Where food may have come from: a lot, or a batch made before. */
export interface Source {
  readonly key: string;
  readonly lot?: LotRef;
  readonly batch?: BatchRef;
  readonly onHand: number;
  readonly unit: string;
  readonly useBy?: string | undefined;
  /** Its date is over: it is no usual answer, and comes last. */
  readonly past?: boolean;
  /** What the service's own stock says is there, where the log does not know the lot yet. */
  readonly inStore?: Amount;
}

/** Something that enters a batch or goes onto plates, what was noted of it, and where it may have come from. */
export interface Entering {
  readonly ingredient?: string;
  readonly preparation?: string;
  /** As taken from its lot; undefined where nobody weighs it. */
  readonly grams: number | undefined;
  readonly noted: readonly Used[];
  /** The one to be used first in front (S14). */
  readonly from: readonly Source[];
}

/** A task as the plan tells it. */
export interface TaskAt {
  readonly kind: "work" | "passive" | "milestone" | "plate";
  readonly preparation: string;
  readonly step: string;
  readonly batch: number;
  readonly startMin: number;
}

/** What the service makes, as its result says. */
export interface MadeHere {
  readonly needs: readonly {
    readonly preparation: string;
    readonly batches: readonly {
      readonly index: number;
      readonly amount: { readonly value: number; readonly unit: string };
    }[];
  }[];
  readonly batchSheets: readonly {
    readonly preparation: string;
    readonly batch: number;
    readonly lines: readonly {
      readonly step: string;
      readonly item: string;
      readonly exactG: number;
      readonly apG?: number;
      readonly toTaste?: boolean;
    }[];
  }[];
  readonly plates: readonly {
    readonly course: string;
    readonly dish: string;
    readonly variant: string;
    readonly count: number;
    readonly spare: number;
  }[];
  readonly tasks: readonly (TaskAt & { readonly endMin: number })[];
}

/** The records and documents that say what may have gone in. */
export interface LotsHere {
  /** ISO date. */
  readonly today: string;
  readonly service: Pick<Service, "id" | "stock">;
  readonly ingredients: ReadonlyMap<string, Ingredient>;
  readonly dishes: ReadonlyMap<string, Dish>;
  readonly made: MadeHere;
  readonly stock: Stock;
  readonly weigh: Weigh;
  /** Uses noted in this service, as they count now. */
  readonly used: readonly Used[];
}

/** Uses noted in a service, as they count now. */
export function usedIn(lines: readonly LogLine[], service: string): Used[] {
  return standing<Used>(
    lines.filter((line) => line.service === service),
    ["used"],
  ).map(({ now }) => now.body);
}

/** What a task's food goes into: its batch, or the plates of its dish; nothing for a wait or a milestone. */
export function intoOf({ kind, preparation, step, batch }: TaskAt): Used["into"] | undefined {
  if (kind === "work") return { preparation, batch };
  return kind === "plate" ? { course: step, dish: preparation } : undefined;
}

/**
 * What enters at a task and may need its lot noted (README, S23): ingredients that are bought, and preparations made in
 * several batches; of one made in a single batch nothing needs to be said.
 */
export function enteringAt(here: LotsHere, task: TaskAt): Entering[] {
  const into = intoOf(task);
  if (!into) return [];
  const takes = "preparation" in into ? takesOfBatch(here, task) : takesOfPlates(here, task);
  return [...takes].flatMap(([id, grams]): Entering[] => {
    const ingredient = here.ingredients.get(id);
    if (ingredient?.free) return [];
    const noted = here.used.filter(
      (one) => (one.lot?.ingredient ?? one.batch?.preparation) === id && sameInto(one.into, into),
    );
    if (ingredient) return [{ ingredient: id, grams, noted, from: lotsOf(here, id) }];
    const from = batchesOf(here, id, task);
    return from.length > 1 ? [{ preparation: id, grams, noted, from }] : [];
  });
}

/** Some of a source that goes in; without grams it was opened and nobody weighs what is taken. */
export interface Taken {
  readonly source: Source;
  readonly grams?: number;
}

/**
 * What went in as a rule: the source to be used first, and the next ones as far as it does not hold enough. Never fewer than
 * are needed: what is noted stands as all there was (S16).
 */
export function usualFrom({ grams, from: all }: Pick<Entering, "grams" | "from">): Taken[] {
  const from = all.filter((one) => !one.past);
  const [first] = from;
  if (!first) return [];
  if (grams === undefined || first.unit !== "g") return [{ source: first }];
  const taken: Taken[] = [];
  let left = grams;
  for (const source of from) {
    if (taken.length > 0 && (left <= LEAST || source.unit !== "g")) break;
    const most = source === from.at(-1) ? left : Math.min(left, source.onHand);
    taken.push({ source, grams: most });
    left -= most;
  }
  return taken;
}

/** What is written down when sources are named: a lot so far only in the service's stock is counted first. */
export function notesOf(taken: readonly Taken[], into: Used["into"]): (Used | Counted)[] {
  return taken.flatMap(({ source: { lot, batch, inStore, useBy, unit }, grams }) => {
    const amount =
      grams !== undefined && grams > 0 && unit === "g"
        ? { amount: { value: Number(grams.toFixed(1)), unit: "g" as const } }
        : {};
    const counted: Counted[] =
      lot && inStore
        ? [{ kind: "counted", lot, amount: inStore, ...(useBy === undefined ? {} : { useBy }) }]
        : [];
    const used: Used = { kind: "used", ...(lot ? { lot } : { batch: batch! }), into, ...amount };
    return [...counted, used];
  });
}

/** Grams by item of the lines that enter a batch at a step, as purchased. */
function takesOfBatch({ made }: LotsHere, { preparation, step, batch }: TaskAt) {
  const takes = new Map<string, number | undefined>();
  const sheet = made.batchSheets.find((one) => one.preparation === preparation && one.batch === batch);
  for (const line of sheet?.lines ?? []) {
    if (line.step !== step) continue;
    const grams = line.toTaste ? undefined : (line.apG ?? line.exactG);
    const before = takes.get(line.item);
    takes.set(line.item, before === undefined ? grams : before + (grams ?? 0));
  }
  return takes;
}

/** Grams by item of what goes onto the plates of a dish; undefined where an amount cannot be weighed. */
function takesOfPlates({ made, dishes, weigh }: LotsHere, { preparation: dish, step: course }: TaskAt) {
  const takes = new Map<string, number | undefined>();
  const written = dishes.get(dish);
  if (!written) return takes;
  for (const row of made.plates) {
    const plates = row.count + row.spare;
    if (row.course !== course || row.dish !== dish || plates === 0) continue;
    for (const placement of placementsOf(written, row.variant)) {
      const id = placement.preparation ?? placement.ingredient!;
      const one = gramsOn(placement, weigh);
      const before = takes.has(id) ? takes.get(id) : 0;
      takes.set(id, one === undefined || before === undefined ? undefined : before + plates * one);
    }
  }
  return takes;
}

function gramsOn({ ingredient, amount }: Placement, weigh: Weigh): number | undefined {
  if (ingredient !== undefined) return weigh(ingredient, amount);
  return amount.unit === "g" ? numericValue(amount.value) : undefined;
}

/** Lots on hand by the log, and those the service's stock tells of; what ends first foremost. */
function lotsOf({ today, service, stock, weigh }: LotsHere, ingredient: string): Source[] {
  const known = firstOut(stock, ingredient).map(
    ({ key, ref, unit, useBy, onHand }): Source => ({ key, lot: ref, unit, useBy, onHand }),
  );
  const ever = [...stock.lots.values()].flatMap(({ ref }) =>
    ref.ingredient === ingredient ? [ref.lot] : [],
  );
  const told = service.stock.flatMap(({ item, amount, useBy, lot }): Source[] => {
    if (!("ingredient" in item) || item.ingredient !== ingredient || lot === undefined) return [];
    if (ever.includes(lot)) return [];
    const g = weigh(ingredient, amount);
    const size =
      g === undefined
        ? { onHand: numericValue(amount.value), unit: amount.unit }
        : { onHand: g, unit: "g" as const };
    return [{ ...size, key: lot, lot: { ingredient, lot }, useBy, inStore: amount }];
  });
  return [...known, ...told]
    .map((one) => ((one.useBy ?? today) < today ? { ...one, past: true } : one))
    .sort(
      (a, b) =>
        Number(a.past ?? false) - Number(b.past ?? false) ||
        (a.useBy ?? "9999").localeCompare(b.useBy ?? "9999"),
    );
}

/** Batches of a preparation: those made by then and not used up before the rest, each in the order in which they are made. */
function batchesOf({ made, used }: LotsHere, id: string, task: TaskAt): Source[] {
  const batches = made.needs.find((need) => need.preparation === id)?.batches ?? [];
  const endOf = (batch: number) =>
    Math.max(
      ...made.tasks.flatMap((one) => (one.preparation === id && one.batch === batch ? [one.endMin] : [])),
    );
  return batches
    .map(({ index, amount }) => {
      const gone = used.reduce(
        (sum, one) =>
          one.batch?.preparation === id && one.batch.batch === index && one.amount?.unit === "g"
            ? sum + numericValue(one.amount.value)
            : sum,
        0,
      );
      const left = amount.unit === "g" ? Math.max(0, amount.value - gone) : 0;
      const end = endOf(index);
      const ready = end <= task.startMin && left > LEAST;
      const batch = { preparation: id, batch: index };
      return { ready, end, source: { key: `${id} ${index}`, batch, onHand: left, unit: "g" } };
    })
    .sort((a, b) => Number(b.ready) - Number(a.ready) || a.end - b.end)
    .map(({ source }) => source);
}

function sameInto(a: Used["into"], b: Used["into"]): boolean {
  if ("preparation" in a)
    return (
      "preparation" in b && a.service === undefined && a.preparation === b.preparation && a.batch === b.batch
    );
  return !("preparation" in b) && a.seats === undefined && a.course === b.course && a.dish === b.dish;
}
