import { type OrderChoice, orderTotal } from "./order.ts";
import { CRUMB_G, lackG } from "./packs.ts";
import type { OrderQuestion } from "./question.ts";

/**
 * The same orders as late as they may come without costing more: among answers that cost the same a chef wants the
 * fresher one. First whole deliveries are put off to a later one of the same supplier, then single goods.
 */
export function putOff(question: OrderQuestion, choice: OrderChoice): OrderChoice {
  const { slots, items, problem } = question;
  let packs = choice.packs;
  let total = choice.total;
  const later = slots.map((slot, s) =>
    slots
      .flatMap((other, t) =>
        other.supplier === slot.supplier && other.arrivesMin > slot.arrivesMin ? [t] : [],
      )
      .sort((a, b) => slots[b]!.arrivesMin - slots[a]!.arrivesMin || s - a),
  );
  /** Moves what one item, or all of them, get in one delivery to another; undefined when that does not cover or costs. */
  const move = (s: number, t: number, only?: number): boolean => {
    let any = false;
    const moved: (readonly number[])[] = [];
    for (const [i, mine] of packs.entries()) {
      const { offers, need } = items[i]!;
      if ((only !== undefined && i !== only) || !offers.some((at, o) => at.slot === s && mine[o]! > 0)) {
        moved.push(mine);
        continue;
      }
      const next = [...mine];
      for (const [o, at] of offers.entries()) {
        if (at.slot !== s || mine[o] === 0) continue;
        const there = offers.findIndex(
          (b) => b.slot === t && b.offer === at.offer && b.instead === at.instead,
        );
        if (there < 0) return false;
        next[there]! += next[o]!;
        next[o] = 0;
        any = true;
      }
      if (lackG(need, next) > lackG(need, mine) + CRUMB_G) return false;
      moved.push(next);
    }
    const cost = any ? orderTotal(problem, moved) : Number.POSITIVE_INFINITY;
    if (cost > total) return false;
    [packs, total] = [moved, cost];
    return true;
  };
  for (const [s, others] of later.entries()) others.some((t) => move(s, t));
  for (const i of items.keys())
    for (const [s, others] of later.entries())
      if (items[i]!.offers.some((at, o) => at.slot === s && packs[i]![o]! > 0))
        others.some((t) => move(s, t, i));
  return { ...choice, packs, total };
}
