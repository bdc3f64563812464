import type { Buying } from "./buying.ts";
import { enoughByWeight } from "./catch.ts";
import { bestOrder } from "./choose.ts";
import type { MixedInteger } from "./mixed-integer.ts";
import { type OrderChoice, OrderTotal } from "./order.ts";
import { type DeliveryLines, type OrderLine, orderLines } from "./order-lines.ts";
import { leftG } from "./packs.ts";
import { putOff } from "./put-off.ts";
import { type ItemQuestion, type OrderQuestion, questionOf } from "./question.ts";
import { MILLION, worthOfLeft } from "./rules.ts";
import type { When } from "./timed-needs.ts";

/** What is left of one ingredient when all its needs are covered. */
export interface Left {
  readonly of: ItemQuestion;
  readonly lines: readonly OrderLine[];
  /** As purchased, g. */
  readonly g: number;
  readonly worth: number;
}

/** The orders of a service: the question, the answer, and the lines made of it. */
export interface OrderRun {
  readonly question: OrderQuestion;
  readonly choice: OrderChoice;
  /** What the choice comes to, for asking what an exchange would. */
  readonly total: OrderTotal;
  readonly orders: readonly DeliveryLines[];
  readonly lines: readonly OrderLine[];
  /** The same by place of the ingredient in the question. */
  readonly linesOf: readonly (readonly OrderLine[])[];
  readonly left: readonly Left[];
  /** In the currency: what was made as small as possible, and what nobody can go below. */
  readonly value: number;
  readonly bound: number;
}

/** Puts the question and answers it. */
export function runOrders(buying: Buying, when: When, solver: MixedInteger | undefined): OrderRun {
  const { question, choice } = answered(buying, when, solver);
  const orders = orderLines(buying, question, choice);
  const lines = orders.flatMap((order) => order.lines);
  const linesOf = question.items.map((): OrderLine[] => []);
  for (const line of lines) linesOf[line.item]!.push(line);
  const left = question.items.flatMap((of, i): Left[] => {
    const mine = linesOf[i]!;
    if (mine.length === 0) return [];
    const g = leftG(of.need, choice.packs[i]!);
    return [{ of, lines: mine, g, worth: worthOfLeft(of.worthPerG, g, of.need.worthMostG) }];
  });
  return {
    ...{ question, choice, orders, lines, linesOf, left },
    total: new OrderTotal(question.problem, choice.packs),
    value: choice.total / MILLION,
    bound: choice.bound / MILLION,
  };
}

/** The question and its answer; where packs of differing weight mix so that the chance is missed, asked again more carefully. */
function answered(buying: Buying, when: When, solver: MixedInteger | undefined) {
  const ask = (apart?: ReadonlySet<number>) => {
    const question = questionOf(buying, when, apart);
    return { question, choice: putOff(question, bestOrder(question.problem, solver)) };
  };
  const first = ask();
  const coversSpread = buying.ledger.value(buying.coversSpread);
  const short = first.question.items.flatMap((of, i) =>
    enoughByWeight(buying.ledger, of, first.choice.packs[i]!, when, coversSpread) ? [] : [i],
  );
  return short.length > 0 ? ask(new Set(short)) : first;
}

/** Orders are as good as proven when no others can be cheaper by half a coin of two decimals. */
export const PROVED = 0.005;
