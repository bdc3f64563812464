import { convert } from "../quantity/convert.ts";
import type { Amount, Unit } from "../quantity/schema.ts";
import { unitFacts } from "../quantity/units.ts";
import { type LogLine, standing } from "./log-lines.ts";
import type { Counted, Delivery, Discarded, LotRef, Used } from "./lots-schema.ts";

/** Name of a lot in one word. */
export function lotKey({ ingredient, lot, supplier }: LotRef): string {
  return `${ingredient}|${lot}|${supplier ?? ""}`;
}

/** Brings an amount of an ingredient to grams where the book can; undefined where it can't. */
export type Weigh = (ingredient: string, amount: Amount) => number | undefined;

/** Less than any scale shows, in g, mL or pieces: sums of decimals do not come out at nothing. */
export const LEAST = 1e-6;

/** One thing that happened to a lot, with what was there after it. */
export interface Movement {
  readonly entry: string;
  readonly at: string;
  readonly by: string;
  readonly kind: "delivery" | "used" | "discarded" | "counted";
  /** Added (positive) or taken; 0 where no amount was noted. */
  readonly change: number;
  readonly after: number;
  readonly service: string;
}

/** A lot by its records. Amounts in `unit`: g where the book can weigh it, else mL or the pieces it is counted in. */
export interface LotStock {
  readonly key: string;
  readonly ref: LotRef;
  readonly unit: Unit;
  readonly useBy: string | undefined;
  readonly received: number;
  readonly used: number;
  readonly discarded: number;
  /** Sum of what counts found more or less than the records. */
  readonly counted: number;
  /** received − used − discarded + counted; below nothing when more was noted as used than ever came. */
  readonly onHand: number;
  /** It was opened without an amount: what is on hand is at most `onHand`. */
  readonly atMost: boolean;
  readonly movements: readonly Movement[];
  readonly deliveries: readonly {
    readonly entry: string;
    readonly delivery: Delivery;
    readonly at: string;
  }[];
}

/** What the records leave open, for a person to mend. */
export type StockDoubt =
  | { readonly what: "more-used"; readonly key: string; readonly by: number; readonly unit: string }
  | { readonly what: "not-weighed"; readonly key: string; readonly entry: string }
  | { readonly what: "never-came"; readonly key: string; readonly entry: string }
  | { readonly what: "unit"; readonly key: string; readonly entry: string };

export interface Stock {
  readonly lots: ReadonlyMap<string, LotStock>;
  readonly doubts: readonly StockDoubt[];
  /** Deliveries that were sent back. */
  readonly refused: readonly { readonly entry: string; readonly delivery: Delivery; readonly at: string }[];
}

type Moves = Delivery | Used | Discarded | Counted;

/**
 * What is on hand at a moment by the records: deliveries taken in, less what was used and discarded, and what counts found.
 * Nothing is made up: an amount that cannot be brought to the lot's unit changes nothing and is told.
 * @param until ISO instant; entries after it are not looked at.
 */
export function stockOf(lines: readonly LogLine[], weigh: Weigh, until?: string): Stock {
  const lots = new Map<string, Draft>();
  const doubts: StockDoubt[] = [];
  const refused: Stock["refused"][number][] = [];
  for (const { first, now } of standing<Moves>(lines, ["delivery", "used", "discarded", "counted"])) {
    if (until !== undefined && first.at > until) continue;
    const { body } = now;
    const ref = body.kind === "delivery" ? body.of : body.lot;
    if (!ref) continue;
    if (body.kind === "delivery" && !body.accepted) {
      refused.push({ entry: first.id, delivery: body, at: first.at });
      continue;
    }
    const key = lotKey(ref);
    const line = { entry: first.id, at: first.at, by: now.by, service: first.service };
    const found = lots.get(key);
    const draft = found ?? newDraft(key, ref, body.amount, weigh);
    lots.set(key, draft);
    if (!found && body.kind !== "delivery" && body.kind !== "counted")
      doubts.push({ what: "never-came", key, entry: first.id });
    const amount = body.amount && inUnit(ref.ingredient, body.amount, draft.unit, weigh);
    if (body.amount && amount === undefined) {
      doubts.push({ what: "unit", key, entry: first.id });
      if (body.kind === "used") draft.atMost = true;
      continue;
    }
    switch (body.kind) {
      case "delivery":
        draft.received += amount!;
        // Two deliveries of one lot: the earlier date counts.
        if (draft.useBy === undefined || body.useBy < draft.useBy) draft.useBy = body.useBy;
        draft.deliveries.push({ entry: first.id, delivery: body, at: first.at });
        move(draft, line, "delivery", amount!);
        break;
      case "used":
        if (amount === undefined) {
          draft.atMost = true;
          doubts.push({ what: "not-weighed", key, entry: first.id });
        } else draft.used += amount;
        move(draft, line, "used", -(amount ?? 0));
        break;
      case "discarded":
        draft.discarded += amount!;
        move(draft, line, "discarded", -amount!);
        break;
      case "counted": {
        const change = amount! - draft.onHand;
        draft.counted += change;
        // It was weighed: what was taken without a figure is in it now.
        draft.atMost = false;
        if (body.useBy !== undefined) draft.useBy = body.useBy;
        move(draft, line, "counted", change);
      }
    }
  }
  for (const { key, onHand, unit } of lots.values())
    if (onHand < -LEAST) doubts.push({ what: "more-used", key, by: -onHand, unit });
  return { lots, doubts, refused };
}

interface Draft extends LotStock {
  useBy: string | undefined;
  received: number;
  used: number;
  discarded: number;
  counted: number;
  onHand: number;
  atMost: boolean;
  movements: Movement[];
  deliveries: LotStock["deliveries"][number][];
}

function newDraft(key: string, ref: LotRef, amount: Amount | undefined, weigh: Weigh): Draft {
  return {
    ...{ key, ref, unit: unitFor(ref.ingredient, amount, weigh), useBy: undefined, atMost: false },
    ...{ movements: [], deliveries: [], received: 0, used: 0, discarded: 0, counted: 0, onHand: 0 },
  };
}

function unitFor(ingredient: string, amount: Amount | undefined, weigh: Weigh): Unit {
  if (amount === undefined || weigh(ingredient, amount) !== undefined) return "g";
  const { dimension } = unitFacts(amount.unit);
  return dimension === "mass" ? "g" : dimension === "volume" ? "mL" : amount.unit;
}

function inUnit(ingredient: string, amount: Amount, unit: Unit, weigh: Weigh): number | undefined {
  if (unit === "g") return weigh(ingredient, amount);
  const there = convert(amount, unit);
  return there.ok ? there.value : undefined;
}

function move(
  draft: Draft,
  line: Pick<Movement, "entry" | "at" | "by" | "service">,
  kind: Movement["kind"],
  change: number,
): void {
  draft.onHand += change;
  draft.movements.push({ ...line, kind, change, after: draft.onHand });
}

/** The lots of an ingredient that hold something, the one to be used first in front: by use-by date, then by arrival. */
export function firstOut(stock: Stock, ingredient: string): LotStock[] {
  return [...stock.lots.values()]
    .filter(({ ref, onHand }) => ref.ingredient === ingredient && onHand > LEAST)
    .sort(
      (a, b) =>
        (a.useBy ?? "9999").localeCompare(b.useBy ?? "9999") ||
        (a.movements[0]?.at ?? "").localeCompare(b.movements[0]?.at ?? ""),
    );
}
