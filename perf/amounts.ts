import { type BookInput, indexBook, type Library, parseBook } from "../core/book/index.ts";
import { costResult } from "../core/costing/cost-result.ts";
import { costCells } from "../core/costing/costs.ts";
import { PreparationCosts } from "../core/costing/preparation-costs.ts";
import { FormulaCells } from "../core/formula/cells.ts";
import { orderOfMaking } from "../core/formula/graph.ts";
import { type Cell, Ledger } from "../core/ledger/ledger.ts";
import {
  balanceResult,
  batchSheetsResult,
  needsResult,
  platesResult,
} from "../core/production/amounts-result.ts";
import { clockOf } from "../core/production/clock.ts";
import { computeAmounts } from "../core/production/compute-amounts.ts";
import { Buying } from "../core/purchasing/buying.ts";
import { OfferBook } from "../core/purchasing/offers.ts";
import { ordersResult } from "../core/purchasing/orders-result.ts";
import { libraryBook, serviceBook } from "./amounts-books.ts";
import { differences, spreadsheetOf } from "./spreadsheet.ts";

/** One measured figure, its goal in words, and whether it is met. */
export interface AmountsRow {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal: string;
  readonly ok: boolean;
}

/**
 * Recomputing by cells against a spreadsheet engine given the same sums, in one process: a service of 60
 * preparations when its covers change, and a library of 10,000 when one price changes. Medians of several runs.
 * @throws when the two do not come to the same numbers: then the times would mean nothing.
 */
export async function amountsBench(): Promise<AmountsRow[]> {
  return [...coversRows(60), ...priceRows(10_000, 5000), ...priceRows(10_000, 100)];
}

function coversRows(preparations: number): AmountsRow[] {
  const docs = read(serviceBook(preparations, 1));
  const amounts = computeAmounts(docs, "service", {
    meets: (_, placed) => placed.length < Math.ceil(preparations / 10),
  });
  const buying = new Buying(amounts, docs);
  const costs = costCells(amounts, docs, buying.offers);
  const { ledger, cells } = amounts;
  const clock = clockOf(amounts.service.at, amounts.kitchen.zone, amounts.service.horizon);
  let next = 72;
  const all = () => {
    const now = amounts.update(next);
    const { outcome } = ordersResult(buying, now, docs, { clock });
    costResult(costs, now, docs, outcome);
    for (const result of [needsResult, balanceResult, platesResult]) result(now);
    return now;
  };
  // Some cells come with the first orders: the sheet is made when all are there.
  all();
  const sheet = spreadsheetOf(ledger);
  // One after the other at each step, so that both meet the same machine.
  const [theirs, bare, whole, sheets] = medians(coversHistory(), (covers) => {
    next = covers;
    const sheetTime = time(() => sheet.set(cells.covers, covers));
    const bareTime = time(() => amounts.update(covers));
    amounts.update(covers + 1);
    const wholeTime = time(all);
    return [sheetTime, bareTime, wholeTime, time(() => batchSheetsResult(amounts, docs))];
  }) as [number, number, number, number];
  const derived = Array.from({ length: ledger.size }, (_, i) => i as Cell);
  for (const n of [73, 20, 700]) {
    amounts.update(n);
    sheet.set(cells.covers, n);
    same(ledger, differences(ledger, sheet, derived), `at ${n} covers`);
  }
  const at = `${preparations} preparations, ${amounts.preparations.size} made, ${ledger.size} cells`;
  return [
    row(`covers change: all amounts and costs (${at})`, bare, "ms", "under 5 ms", bare < 5),
    row(
      "covers change: with orders chosen anew and every result built",
      whole,
      "ms",
      "under 5 ms",
      whole < 5,
    ),
    row("covers change: batch sheets written out", sheets, "ms", "beside", true),
    row("covers change: spreadsheet engine, same sums", theirs, "ms", "beside", true),
    row("covers change: times faster", theirs / bare, "×", "at least 3", theirs / bare >= 3),
    row(
      "covers change: times faster, orders and results on our side alone",
      theirs / whole,
      "×",
      "beside",
      true,
    ),
  ];
}

function priceRows(count: number, reach: number): AmountsRow[] {
  const docs = read(libraryBook(count, reach, 2));
  const ledger = new Ledger();
  const formula = new FormulaCells(ledger, docs, docs.pointer);
  const kitchen = docs.kitchens.get("k")!;
  const offers = new OfferBook(formula, docs, kitchen, "2027-01-15");
  const costs = new PreparationCosts(formula, offers, "EUR");
  const order = orderOfMaking(docs, docs.preparations.keys(), docs.pointer);
  const of = order.map((preparation) => costs.add(formula.add(preparation)));
  const price = offers.of("i0").map((offer) => offer.price);
  const before = of.map((cell) => ledger.value(cell));
  const sheet = spreadsheetOf(ledger, of);

  // Of the offers of one ingredient the cheapest decides: its price is the one that is changed.
  const cheapest = price.find((cell) => {
    const was = ledger.value(cell);
    ledger.change(cell, was * 0.99);
    ledger.settle();
    const moved = of.some((each, i) => ledger.value(each) !== before[i]);
    ledger.change(cell, was);
    ledger.settle();
    return moved;
  })!;
  const was = ledger.value(cheapest);
  const prices = Array.from({ length: 15 }, (_, i) => was * (0.9 - i / 100));
  const [ours, theirs] = medians(prices, (next) => [
    time(() => {
      ledger.change(cheapest, next);
      ledger.settle();
    }),
    time(() => sheet.set(cheapest, next)),
  ]) as [number, number];
  const reached = of.filter((cell, i) => ledger.value(cell) !== before[i]).length;
  if (reached !== reach) throw new Error(`bench: the price reaches ${reached} preparations, not ${reach}`);
  same(ledger, differences(ledger, sheet, of), `with the price at a reach of ${reach}`);

  const name = `one price of a library of ${count}, reaching ${reach}`;
  const goal = reach >= 5000 ? 10 : 1;
  return [
    row(`${name} (${ledger.size} cells)`, ours, "ms", "under 50 ms", ours < 50),
    row(`${name}: spreadsheet engine, same sums`, theirs, "ms", "beside", true),
    row(`${name}: times faster`, theirs / ours, "×", `at least ${goal}`, theirs / ours >= goal),
  ];
}

/** Covers as a hand on a slider gives them. */
function coversHistory(): number[] {
  return Array.from({ length: 41 }, (_, i) => 72 + ((i * 37) % 160));
}

function read(book: BookInput): Library {
  const parsed = parseBook(book);
  if (!parsed.ok) throw new Error(`bench: ${parsed.problems[0]!.path} ${parsed.problems[0]!.what}`);
  return indexBook(parsed.value);
}

function time(work: () => void): number {
  const begun = performance.now();
  work();
  return performance.now() - begun;
}

/** Median of each of the times that `run` gives, over all steps. */
function medians<Step>(steps: readonly Step[], run: (step: Step) => number[]): number[] {
  const times = steps.map(run);
  return times[0]!.map((_, k) => median(times.map((each) => each[k]!)));
}

function median(times: readonly number[]): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}

function same(ledger: Ledger, off: readonly Cell[], when: string): void {
  if (off.length === 0) return;
  const first = off[0]!;
  throw new Error(
    `bench: ${off.length} numbers differ ${when}, first ${ledger.path(first)} = ${ledger.value(first)}`,
  );
}

function row(name: string, value: number, unit: string, goal: string, ok: boolean): AmountsRow {
  return { name, value, unit, goal, ok };
}
