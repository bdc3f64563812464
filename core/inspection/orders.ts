import type { PlateCount, SupplierOrder } from "../run/result.ts";
import { namedForm } from "./forms.ts";
import { gramsOfIngredient, lineG, placementG, yieldG } from "./grams.ts";
import type { Made } from "./needs.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

/** Grams as purchased that the service takes of each ingredient, without what goes in to taste. */
export function purchasedFor(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  plates: readonly PlateCount[],
): Map<string, number> {
  const sums = new Map<string, number>();
  const add = (id: string, grams: number) => sums.set(id, (sums.get(id) ?? 0) + grams);
  const trimOf = (id: string, cut: string | undefined) =>
    scope.ingredients.get(id)!.cuts.find((each) => each.id === cut)?.trimYield ?? 1;
  for (const { preparation, grams } of made.values())
    for (const line of preparation.lines)
      if ("ingredient" in line.item) {
        const { ingredient, cut } = line.item;
        const trim = line.trimYield ?? trimOf(ingredient, cut);
        add(ingredient, (lineG(scope, line) * grams) / yieldG(preparation) / trim);
      }
  for (const row of plates)
    for (const placement of namedForm(scope.dishes.get(row.dish)!, row.variant)!)
      if (placement.ingredient !== undefined) {
        const grams = (row.count + row.spare) * placementG(scope, placement);
        add(placement.ingredient, grams / trimOf(placement.ingredient, placement.cut));
      }
  return sums;
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
  const bought = new Map<string, number>();
  const arrives = new Map<string, number>();
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
      const ingredient = scope.ingredients.get(line.ingredient)!;
      const trim = ingredient.cuts.find((each) => each.id === offer.cut)?.trimYield ?? 1;
      const grams = line.packs * offer.innerPerPack * gramsOfIngredient(offer.inner, ingredient);
      bought.set(line.ingredient, (bought.get(line.ingredient) ?? 0) + grams / trim);
      const there = scope.minuteOf(order.deliver);
      arrives.set(line.ingredient, Math.max(arrives.get(line.ingredient) ?? -Infinity, there));
    }
  }
  const wanted = purchasedFor(scope, made, plates);
  for (const [id, grams] of bought) {
    const stock = stockG(scope, id);
    const short = (wanted.get(id) ?? 0) - grams - stock;
    if (short > 1e-6 * grams) say("order", short, "g", `${short} g of ${id} too little are ordered`);
    const first = stock > 0 ? undefined : firstNeed(scope, parts, id);
    const late = first ? arrives.get(id)! - first.minute : 0;
    if (late > 0)
      say("delivery", late, "min", `${id} comes ${late} min after ${first!.task} begins`, [first!.task]);
  }
  return found;
}

/** Stock of an ingredient that is good until the service, g as it lies there. */
function stockG(scope: Scope, id: string): number {
  let sum = 0;
  for (const stock of scope.service.stock)
    if ("ingredient" in stock.item && stock.item.ingredient === id && stock.useBy >= scope.date) {
      const ingredient = scope.ingredients.get(id)!;
      const { cut } = stock.item;
      const trim = ingredient.cuts.find((each) => each.id === cut)?.trimYield ?? 1;
      sum += gramsOfIngredient(stock.amount, ingredient) / trim;
    }
  return sum;
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
