import { Random } from "../core/numerics/random.ts";
import { bestOrder } from "../core/purchasing/choose.ts";
import { chooseOrder, type OrderProblem } from "../core/purchasing/order.ts";
import type { ItemNeed, PackOffer, Tier } from "../core/purchasing/packs.ts";
import { openSolver } from "../solver/highs.ts";

/** One measured figure, its goal in words, and whether it is met. */
interface OrdersRow {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string;
  readonly ok: boolean;
}

const MILLION = 1e6;
const PACKS_G = [250, 500, 1000, 2500, 5000, 10_000];

/**
 * Invented needs and offers: `items` ingredients over `suppliers` suppliers with two deliveries each, a minimum, a
 * charge, price breaks on two offers in five; two needs in time for two ingredients in five; half of them keep only
 * from the later delivery to the later need, the other half are worth half their price when left over.
 */
export function drawnOrder(items: number, suppliers: number, seed: number): OrderProblem {
  const random = Random.of(seed);
  const slots = Array.from({ length: suppliers }, () => {
    const terms = { minimum: (50 + random.below(250)) * MILLION, charge: random.below(16) * MILLION };
    return [terms, terms];
  }).flat();
  return { slots, items: Array.from({ length: items }, () => drawnItem(random, suppliers)) };
}

function drawnItem(random: Random, suppliers: number): ItemNeed {
  const needG = 300 + random.below(20_000) * random.next();
  const perG = (1 + 12 * random.next()) / 1000;
  const keeps = random.next() < 0.5;
  const early = random.next() < 0.4 ? random.next() : 0;
  const needs = early > 0 ? [needG * early, needG * (1 - early)] : [0, needG];
  const sellers = random
    .shuffled(Array.from({ length: suppliers }, (_, s) => s))
    .slice(0, 2 + random.below(3));
  const offers = sellers.flatMap((s): PackOffer[] => {
    const brings = random.pick(PACKS_G);
    // Small packs are dearer by the gram.
    const price = perG * brings * (0.85 + 0.3 * random.next()) * (1 + 0.04 * Math.log2(10_000 / brings));
    const cents = (value: number) => Math.max(1, Math.round(100 * value)) * 10_000;
    const tiers: Tier[] = [{ from: 1, price: cents(price) }];
    if (random.next() < 0.4)
      tiers.push({ from: 3 + random.below(5), price: cents(price * (0.85 + 0.1 * random.next())) });
    const first = { slot: 2 * s, brings, serves: keeps ? 3 : 1, tiers };
    return [...(keeps || early > 0 ? [first] : []), { slot: 2 * s + 1, brings, serves: 2, tiers }];
  });
  const cheapest = Math.min(...offers.flatMap((each) => each.tiers.map((t) => t.price / each.brings)));
  return { needs, offers, worth: keeps ? cheapest / 2 : 0, worthMostG: needG };
}

/**
 * Orders of a banquet, of a week's house, chosen with the solver and without. Time is that of the processor in the thread that
 * chooses: what a chef waits for. Beside the first order other threads compile the solver's code; that is told apart.
 */
export async function ordersBench(): Promise<OrdersRow[]> {
  const solver = await openSolver();
  const rows: OrdersRow[] = [];
  const begun = process.cpuUsage();
  const waited = timed(() => bestOrder(drawnOrder(60, 5, 1), solver)).seconds;
  const { user, system } = process.cpuUsage(begun);
  rows.push(
    {
      name: "the first order after opening, 60 ingredients",
      value: waited,
      unit: "s",
      goal: "under 2 s",
      ok: waited < 2,
    },
    { name: "compiled beside it, other threads", value: (user + system) / 1e6 - waited, unit: "s", ok: true },
  );
  for (const [items, suppliers, seeds] of [
    [60, 5, [1, 2, 3]],
    [300, 8, [1, 2, 3]],
  ] as const) {
    const told = seeds.map((seed) => {
      const problem = drawnOrder(items, suppliers, seed);
      const { seconds, of } = timed(() => bestOrder(problem, solver));
      const own = chooseOrder(problem);
      return { seconds, gap: (of.total - of.bound) / of.total, own: own.total / of.total - 1 };
    });
    const most = (of: (one: (typeof told)[number]) => number) => Math.max(...told.map(of));
    const name = `${items} ingredients, ${suppliers} suppliers, ${seeds.length} seeds, the worst`;
    const seconds = most((one) => one.seconds);
    rows.push(
      {
        name: `${name}: chosen`,
        value: seconds,
        unit: "s",
        ...{ goal: "under 2 s", ok: seconds < 2 },
      },
      {
        name: `${name}: gap to the bound`,
        value: 100 * most((one) => one.gap),
        unit: "%",
        goal: "proof or gap",
        ok: true,
      },
      {
        name: `${name}: dearer without the solver`,
        value: 100 * most((one) => one.own),
        unit: "%",
        ok: true,
      },
    );
  }
  return rows;
}

/** What something comes to, and the time of the processor it took in this thread, s. */
function timed<T>(work: () => T): { readonly of: T; readonly seconds: number } {
  const begun = process.threadCpuUsage();
  const of = work();
  const { user, system } = process.threadCpuUsage(begun);
  return { of, seconds: (user + system) / 1e6 };
}
