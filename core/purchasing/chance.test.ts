import { describe, expect, test } from "vitest";
import { changed, kg, library, meetsOf } from "../../tests/small-book.ts";
import { Random } from "../numerics/random.ts";
import { clockOf } from "../production/clock.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { Buying } from "./buying.ts";
import { ordersResult } from "./orders-result.ts";
import { catchShare } from "./rules.ts";

const clock = clockOf("2027-01-30T19:30", "Europe/London", "D-2 06:00");
const DRAWS = 40_000;
/** Three standard errors of a share of that many draws. */
const error = (p: number) => 3 * Math.sqrt((p * (1 - p)) / DRAWS);

interface Drawn {
  readonly covers: number;
  readonly trim: number;
  /** Packs by kilograms and spread. */
  readonly packs: readonly { readonly kg: number; readonly spread: number }[];
  readonly chance: number;
}

/** What is ordered of the rib when all this varies: packs by kind, and the mean need. */
function ordered({ covers, trim, packs, chance }: Drawn) {
  const book = changed(({ suppliers, services, ingredients }) => {
    const service = services[0]!;
    Object.assign(service, { chance, coversSpread: covers, tasting: 0 });
    ingredients.find((one) => one.id === "short-rib")!.cuts!.find((cut) => cut.id === "trimmed")!.spread =
      trim;
    for (const supplier of suppliers)
      supplier.offers = (supplier.offers ?? []).filter((offer) => offer.ingredient !== "short-rib");
    packs.forEach((pack, i) => {
      suppliers[1]!.offers!.push({
        ...{ id: `rib-${i}`, ingredient: "short-rib", inner: kg(pack.kg), innerPerPack: 1 },
        ...{ catchWeight: true, weightSpread: pack.spread, price: (pack.kg * (12 + i)).toFixed(2) },
      });
    });
  });
  const docs = library(book);
  const amounts = computeAmounts(docs, "small", { meets: meetsOf(docs) });
  const buying = new Buying(amounts, docs);
  const { orders } = ordersResult(buying, amounts, docs, { clock });
  const counts = packs.map(
    (_, i) => orders.flatMap((order) => order.lines).find((line) => line.offer === `rib-${i}`)?.packs ?? 0,
  );
  const rib = amounts.ingredients.find((one) => one.ingredient === "short-rib")!;
  return { counts, epG: rib.epG, trim: rib.epG / rib.apG };
}

/** How often so many packs are enough, drawn by chance: guests, the yield of the lot, the weight of each pack. */
function enough(drawn: Drawn, counts: readonly number[], epG: number, trim: number, seed: string): number {
  const random = Random.of(seed);
  let times = 0;
  for (let k = 0; k < DRAWS; k++) {
    const need = epG * (1 + drawn.covers * random.normal());
    const left = trim + drawn.trim * random.normal();
    let grams = 0;
    drawn.packs.forEach((pack, i) => {
      if (pack.spread === 0) grams += 1000 * pack.kg * counts[i]!;
      else for (let n = 0; n < counts[i]!; n++) grams += 1000 * pack.kg * (1 + pack.spread * random.normal());
    });
    if (grams * left >= need) times++;
  }
  return times / DRAWS;
}

describe("O9 the order is enough with the chance wanted", () => {
  test.each([
    ["many small pieces", { covers: 0, trim: 0, packs: [{ kg: 0.2, spread: 0.3 }], chance: 0.95 }],
    ["a few large pieces", { covers: 0, trim: 0, packs: [{ kg: 2, spread: 0.2 }], chance: 0.95 }],
    [
      "guests, yield and weight",
      { covers: 0.06, trim: 0.05, packs: [{ kg: 0.25, spread: 0.25 }], chance: 0.9 },
    ],
    ["much surer", { covers: 0.05, trim: 0.04, packs: [{ kg: 0.5, spread: 0.2 }], chance: 0.99 }],
    ["guests and yield alone", { covers: 0.08, trim: 0.05, packs: [{ kg: 0.05, spread: 0 }], chance: 0.95 }],
  ] as const)("%s", (name, drawn) => {
    const { counts, epG, trim } = ordered(drawn);
    const found = enough(drawn, counts, epG, trim, name);
    expect(found).toBeGreaterThanOrEqual(drawn.chance - error(drawn.chance));
    // And no more than that: a pack or two fewer would not do.
    const fewer = enough(drawn, [counts[0]! - 2], epG, trim, name);
    expect(fewer).toBeLessThan(drawn.chance + error(drawn.chance));
  });

  test("packs of two kinds together", () => {
    const drawn: Drawn = {
      ...{ covers: 0.04, trim: 0.03, chance: 0.95 },
      packs: [
        { kg: 3, spread: 0.2 },
        { kg: 0.5, spread: 0.02 },
      ],
    };
    const { counts, epG, trim } = ordered(drawn);
    const found = enough(drawn, counts, epG, trim, "two kinds");
    expect(found).toBeGreaterThanOrEqual(drawn.chance - error(drawn.chance));
  });

  test("the share to count on falls with the spread of a pack and rises with their number", () => {
    const share = (spread: number, packs: number) => catchShare(0.95, 0.05, spread, packs, 0.75, 0.04, 0);
    expect(share(0, 1)).toBe(1);
    expect(share(0.1, 4)).toBeGreaterThan(share(0.2, 4));
    expect(share(0.2, 16)).toBeGreaterThan(share(0.2, 4));
    // Alone, a pack of spread s counts for 1 − z s.
    expect(catchShare(0.95, 0, 0.1, 1, 1, 0, 0)).toBeCloseTo(1 - 1.6448536 * 0.1, 6);
  });
});
