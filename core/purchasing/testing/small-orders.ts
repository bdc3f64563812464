import fc from "fast-check";
import { type ItemNeed, type PackOffer, tierPrice, worthLeft } from "../packs.ts";

/** An offer that serves the only need there is. */
export const whole = (
  slot: number,
  brings: number,
  price: number,
  ...breaks: [number, number][]
): PackOffer => ({
  ...{ slot, brings, serves: 1 },
  tiers: [{ from: 1, price }, ...breaks.map(([from, each]) => ({ from, price: each }))],
});

export const need = (g: number, ...offers: PackOffer[]): ItemNeed => ({
  ...{ needs: [g], offers, worth: 0, worthMostG: 0 },
});

const offer = (slots: number, needs: number): fc.Arbitrary<PackOffer> =>
  fc
    .record({
      slot: fc.nat(slots - 1),
      serves: fc.integer({ min: 1, max: 2 ** needs - 1 }),
      brings: fc.integer({ min: 6, max: 40 }),
      price: fc.integer({ min: 1, max: 60 }),
      at: fc.integer({ min: 2, max: 6 }),
      off: fc.integer({ min: 0, max: 30 }),
    })
    .map(({ slot, serves, brings, price, at, off }) => ({
      ...{ slot, serves, brings },
      tiers: [{ from: 1, price }, ...(off > 0 ? [{ from: at, price: Math.max(1, price - off) }] : [])],
    }));

/** An ingredient with one to three needs and up to `most` offers; what is left over may be worth something. */
export const item = (slots: number, most = 3, more = 0): fc.Arbitrary<ItemNeed> =>
  fc
    .array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 3 })
    .chain((needs) =>
      fc.record({
        needs: fc.constant(needs),
        offers: fc.array(
          offer(slots, needs.length).map((each) => ({ ...each, brings: each.brings + more })),
          { minLength: 1, maxLength: most },
        ),
        share: fc.constantFrom(0, 0, 0.5, 0.9),
      }),
    )
    .map(({ needs, offers, share }) => {
      const cheapest = Math.min(
        ...offers.flatMap((each) => each.tiers.map((tier) => tier.price / each.brings)),
      );
      return { needs, offers, worth: share * cheapest, worthMostG: needs.reduce((a, b) => a + b, 0) };
    });

/** Whether packs cover the needs: maximum flow by augmenting paths (Ford and Fulkerson 1956), whole grams. */
export function covers({ needs, offers }: ItemNeed, packs: readonly number[]): boolean {
  const n = offers.length;
  const [source, sink] = [n + needs.length, n + needs.length + 1];
  const room = Array.from({ length: sink + 1 }, () => new Array<number>(sink + 1).fill(0));
  offers.forEach((each, o) => {
    room[source]![o] = each.brings * packs[o]!;
    needs.forEach((_, k) => {
      if ((each.serves & (1 << k)) !== 0) room[o]![n + k] = 1e9;
    });
  });
  needs.forEach((g, k) => {
    room[n + k]![sink] = g;
  });
  let lack = needs.reduce((a, b) => a + b, 0);
  while (lack > 0) {
    const from = new Map<number, number>([[source, source]]);
    const queue = [source];
    for (let at = queue.shift(); at !== undefined && !from.has(sink); at = queue.shift())
      room[at]!.forEach((free, to) => {
        if (free <= 0 || from.has(to)) return;
        from.set(to, at);
        queue.push(to);
      });
    if (!from.has(sink)) return false;
    const way: [number, number][] = [];
    for (let to = sink; to !== source; to = from.get(to)!) way.push([from.get(to)!, to]);
    const grams = Math.min(...way.map(([a, b]) => room[a]![b]!));
    for (const [a, b] of way) {
      room[a]![b]! -= grams;
      room[b]![a]! += grams;
    }
    lack -= grams;
  }
  return true;
}

/** Every choice of packs that could be best, by plain counting. */
export function* everyChoice(
  of: ItemNeed,
  allowed: (slot: number) => boolean = () => true,
): Generator<number[]> {
  const total = of.needs.reduce((sum, each) => sum + each, 0);
  const packs = of.offers.map(() => 0);
  function* go(k: number): Generator<number[]> {
    const each = of.offers[k];
    if (!each) {
      yield packs;
      return;
    }
    const enough = Math.ceil(total / each.brings);
    const most = Math.max(enough + Math.ceil(of.worthMostG / each.brings), ...each.tiers.map((t) => t.from));
    for (let n = 0; n <= (allowed(each.slot) ? most : 0); n++) {
      packs[k] = n;
      yield* go(k + 1);
    }
    packs[k] = 0;
  }
  yield* go(0);
}

export function priceOf(of: ItemNeed, packs: readonly number[]): number {
  return packs.reduce((sum, n, o) => sum + n * tierPrice(of.offers[o]!.tiers, n), 0) - worthLeft(of, packs);
}
