import type { Cell } from "../ledger/ledger.ts";
import { shortOf, sum, times } from "../ledger/rules.ts";
import { nothing } from "../ledger/stated.ts";
import type { Tracer } from "../ledger/tracer.ts";
import { toDecimalString } from "../money/money.ts";
import { type Buying, number, tierCells } from "./buying.ts";
import type { OrderChoice } from "./order.ts";
import type { OrderLine, SupplierLines } from "./order-lines.ts";
import {
  cheapestPacks,
  cheapestSuppliers,
  leftoverValue,
  metBy,
  packPrice,
  supplierWeight,
  wholeNeed,
} from "./rules.ts";

/** The value of what is bought beyond the need, and the sum of all orders: paths of the trace. */
export const LEFTOVER = "calc:/orders/leftover";
export const ORDER_TOTAL = "calc:/orders/total";
const SUPPLIERS = "calc:/orders/suppliers";
const weightPath = (place: number) => `calc:/orders/weights/${place}`;

/** Says of every number of the orders how it came: the choice of packs replays from the needs and the offers. */
export function noteOrders(
  tracer: Tracer,
  buying: Buying,
  choice: OrderChoice,
  orders: readonly SupplierLines[],
  currency: string,
  leftover: number,
): void {
  const { ledger, problem } = buying;
  const one = number(ledger, 1);
  tracer.note(SUPPLIERS, {
    value: choice.suppliers,
    unit: "",
    rule: cheapestSuppliers.name,
    inputs: problem,
  });
  const weights = choice.weights.map((weight, s): Cell | string => {
    if (weight === 1) return one;
    const inputs = [number(ledger, s), ...problem];
    tracer.note(weightPath(s), { value: weight, unit: "", rule: supplierWeight.name, inputs });
    return weightPath(s);
  });
  const placeOf = new Map<OrderLine, string>();
  orders.forEach(({ lines }, i) => {
    lines.forEach((line, j) => {
      placeOf.set(line, `/orders/${i}/lines/${j}`);
    });
  });
  const bought = (lines: readonly OrderLine[], path: string): Cell | string => {
    if (lines.length === 0) return nothing(ledger);
    const value = lines.reduce((all, line) => all + line.boughtG, 0);
    const inputs = lines.map((line) => `${placeOf.get(line)!}/bought/value`);
    tracer.note(path, { value, unit: "g", rule: sum.name, inputs });
    return path;
  };

  for (const [line, at] of placeOf) {
    const { item, offer } = line;
    const { cut } = offer.offer;
    const note = (
      key: string,
      value: number,
      unit: string,
      rule: string,
      inputs: readonly (Cell | string)[],
    ) => tracer.note(`${at}/${key}`, { value, unit, rule, inputs });
    note("packs", line.packs, "pack", cheapestPacks.name, [
      ...[number(ledger, line.place), SUPPLIERS, number(ledger, weights.length)],
      ...weights,
      ...item.numbers,
    ]);
    note("bought/value", line.boughtG, "g", times.name, [`${at}/packs`, offer.packG]);
    note("price", Number(line.price), currency, packPrice.name, [`${at}/packs`, ...tierCells(ledger, offer)]);
    note("total", Number(toDecimalString(line.total)), currency, times.name, [`${at}/packs`, `${at}/price`]);

    let need: Cell | string;
    if (cut !== undefined) need = item.cuts.find((each) => each.cut === cut)!.ep;
    else {
      need = `calc:/orders/items/${item.ingredient}/to-buy-whole`;
      const cuts = item.cuts.flatMap((each): (Cell | string)[] => {
        const lines = [...placeOf.keys()].filter((l) => l.item === item && l.offer.offer.cut === each.cut);
        const path = `calc:/orders/items/${item.ingredient}/cuts/${each.cut}/bought`;
        return [each.ep, each.cut === undefined ? nothing(ledger) : bought(lines, path), each.trim];
      });
      const value = wholeNeed(
        ledger.value(item.onHand),
        ...item.cuts.flatMap((each) => [
          ledger.value(each.ep),
          each.cut === undefined ? 0 : boughtOfCut(placeOf.keys(), item, each.cut),
          ledger.value(each.trim),
        ]),
      );
      tracer.note(need, { value, unit: "g", rule: wholeNeed.name, inputs: [item.onHand, ...cuts] });
    }
    const brought = bought(line.before, `calc:${at}/brought-before`);
    note("need/value", line.needG, "g", metBy.name, [`${at}/bought/value`, need, brought]);
  }

  orders.forEach((order, i) => {
    const at = `/orders/${i}`;
    const terms = buying.supplierTerms.slice(2 * order.place, 2 * order.place + 2);
    const text = (amount: Parameters<typeof toDecimalString>[0]) => Number(toDecimalString(amount));
    const note = (key: string, value: number, rule: string, inputs: readonly (Cell | string)[]) =>
      tracer.note(`${at}/${key}`, { value, unit: currency, rule, inputs });
    note(
      "goods",
      text(order.goods),
      sum.name,
      order.lines.map((line) => `${placeOf.get(line)!}/total`),
    );
    tracer.assign(`${at}/charge`, terms[1]!);
    note("total", text(order.total), sum.name, [`${at}/goods`, `${at}/charge`]);
    note("belowMinimum", text(order.short), shortOf.name, [terms[0]!, `${at}/goods`]);
  });
  tracer.note(ORDER_TOTAL, {
    value: orders.reduce((all, order) => all + Number(toDecimalString(order.total)), 0),
    unit: currency,
    rule: sum.name,
    inputs: orders.map((_, i) => `/orders/${i}/total`),
  });
  tracer.note(LEFTOVER, {
    value: leftover,
    unit: currency,
    rule: leftoverValue.name,
    inputs: [...placeOf].flatMap(([line, at]) => [
      ...[`${at}/bought/value`, `${at}/need/value`, `${at}/price`],
      line.offer.packG,
    ]),
  });
}

function boughtOfCut(lines: Iterable<OrderLine>, item: OrderLine["item"], cut: string): number {
  let g = 0;
  for (const line of lines) if (line.item === item && line.offer.offer.cut === cut) g += line.boughtG;
  return g;
}
