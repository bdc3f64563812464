import type { PlateCount, SupplierOrder } from "../run/result.ts";
import { namedForm } from "./forms.ts";
import { gramsOfIngredient, lineG, placementG, yieldG } from "./grams.ts";
import type { Made } from "./needs.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

/** What the service takes of an ingredient in one cut, g: ready for the pot, and as purchased whole. */
interface Taken {
  readonly epG: number;
  readonly apG: number;
}

/** What the service takes of each ingredient, by cut, without what goes in to taste. */
function takenOf(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  plates: readonly PlateCount[],
): Map<string, Map<string, Taken>> {
  const all = new Map<string, Map<string, Taken>>();
  const add = (id: string, cut: string | undefined, epG: number, trimYield?: number) => {
    const cuts = all.get(id) ?? new Map<string, Taken>();
    all.set(id, cuts);
    const before = cuts.get(cut ?? "") ?? { epG: 0, apG: 0 };
    const trim = trimYield ?? scope.ingredients.get(id)!.cuts.find((each) => each.id === cut)?.trimYield ?? 1;
    cuts.set(cut ?? "", { epG: before.epG + epG, apG: before.apG + epG / trim });
  };
  for (const { preparation, grams } of made.values())
    for (const line of preparation.lines)
      if ("ingredient" in line.item) {
        const epG = (lineG(scope, line) * grams) / yieldG(preparation);
        add(line.item.ingredient, line.item.cut, epG, line.trimYield);
      }
  for (const row of plates)
    for (const placement of namedForm(scope.dishes.get(row.dish)!, row.variant)!)
      if (placement.ingredient !== undefined) {
        const epG = (row.count + row.spare) * placementG(scope, placement);
        add(placement.ingredient, placement.cut, epG);
      }
  return all;
}

/** Judges orders: whole packs of what is offered, enough with the stock, there before it is first needed. */
export function judgeOrders(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts | undefined,
  plates: readonly PlateCount[],
  orders: readonly SupplierOrder[],
): Finding[] {
  const found: Finding[] = [];
  const say = (rule: string, by: number, unit: string, what: string, tasks: readonly string[] = []) =>
    found.push({ rule, tasks, by, unit, what });
  const onHand = new Map<string, Map<string, number>>();
  const arrives = new Map<string, number>();
  const have = (id: string, cut: string | undefined, grams: number) => {
    const cuts = onHand.get(id) ?? new Map<string, number>();
    onHand.set(id, cuts.set(cut ?? "", (cuts.get(cut ?? "") ?? 0) + grams));
  };
  for (const order of orders) {
    const supplier = scope.suppliers.find((each) => each.id === order.supplier);
    if (!supplier) say("order", 1, "supplier", `${order.supplier} is no supplier of this kitchen`);
    for (const line of order.lines) {
      const offer = supplier?.offers.find((each) => each.id === line.offer);
      if (!offer || offer.ingredient !== line.ingredient) {
        say("order", 1, "offer", `${order.supplier} offers no "${line.offer}" of ${line.ingredient}`);
        continue;
      }
      if (!Number.isInteger(line.packs) || line.packs < 1)
        say("order", 1, "pack", `${line.packs} packs of ${line.offer} are no whole packs`);
      const grams = gramsOfIngredient(offer.inner, scope.ingredients.get(line.ingredient)!);
      have(line.ingredient, offer.cut, line.packs * offer.innerPerPack * grams);
      const there = scope.minuteOf(order.deliver);
      arrives.set(line.ingredient, Math.max(arrives.get(line.ingredient) ?? -Infinity, there));
    }
  }
  const stocked = new Set<string>();
  for (const { item, amount, useBy } of scope.service.stock)
    if ("ingredient" in item && useBy >= scope.date) {
      stocked.add(item.ingredient);
      have(item.ingredient, item.cut, gramsOfIngredient(amount, scope.ingredients.get(item.ingredient)!));
    }
  const taken = takenOf(scope, made, plates);
  for (const [id, there] of arrives) {
    const short = lackingG(taken.get(id) ?? new Map(), onHand.get(id)!);
    if (short > 0) say("order", short, "g", `${short} g of ${id} too little are ordered`);
    const first = stocked.has(id) ? undefined : firstNeed(scope, parts, id);
    const late = first ? there - first.minute : 0;
    if (late > 0)
      say("delivery", late, "min", `${id} comes ${late} min after ${first!.task} begins`, [first!.task]);
  }
  return found;
}

/** Grams as purchased that are missing: what came in a cut serves that cut, the rest is cut here. */
function lackingG(taken: ReadonlyMap<string, Taken>, onHand: ReadonlyMap<string, number>): number {
  let wanted = 0;
  for (const [cut, { epG, apG }] of taken) {
    const ready = cut === "" ? 0 : Math.min(epG, onHand.get(cut) ?? 0);
    wanted += epG > 0 ? (apG * (epG - ready)) / epG : 0;
  }
  const short = wanted - (onHand.get("") ?? 0);
  return short > 1e-6 * wanted ? short : 0;
}

function firstNeed(
  scope: Scope,
  parts: Parts | undefined,
  id: string,
): { readonly minute: number; readonly task: string } | undefined {
  let first: { minute: number; task: string } | undefined;
  const consider = (minute: number, task: string) => {
    if (!first || minute < first.minute) first = { minute, task };
  };
  for (const load of parts?.loads ?? [])
    for (const line of load.preparation.lines)
      if (line.step === load.step.id && "ingredient" in line.item && line.item.ingredient === id)
        if (lineG(scope, line) > 0) consider(load.startMin, (load.work ?? load.wait)!.id);
  return first;
}
