import { describe, expect, test } from "vitest";
import { normalQuantile } from "../core/numerics/normal.ts";
import { Random } from "../core/numerics/random.ts";
import { costOfShort, needForChance, trimForChance } from "../core/purchasing/rules.ts";

/**
 * Cachon, G. and Terwiesch, C., "Matching Supply with Demand", the newsvendor chapter: a wetsuit with normal demand, mean
 * 3,192, standard deviation 1,181; underage 80 and overage 20, so a critical ratio of 0.8. The book reads z from a table of
 * two decimals and takes the larger: 0.85, so 4,196; for an in-stock probability of 99 % 2.33, so 5,944. Figures from memory.
 */
describe("the amount that is enough with a chance, against a textbook", () => {
  const [mean, deviation] = [3192, 1181];
  test.each([
    [80 / (80 + 20), 0.85, 4196],
    [0.99, 2.33, 5944],
  ])("in stock with %d", (chance, z, order) => {
    expect(mean + z * deviation).toBeCloseTo(order, -0.5);
    expect(Math.ceil(normalQuantile(chance) * 100) / 100).toBe(z);
    const ours = needForChance(mean, chance, deviation / mean);
    expect(ours).toBeLessThanOrEqual(order + 1);
    expect(ours).toBeGreaterThan(order - 0.01 * deviation - 1);
  });
});

/**
 * The newsvendor's trade-off in worked examples: what one too few and one too many cost, the critical ratio, the amount.
 * - Price 7, cost 5, nothing back; normal demand, mean 50, deviation 20: 38.68 (worked example of a public newsvendor
 *   calculator, calcfxc.com, NewsvendorNormal).
 * - Calendars at 4.25, sold at 9.50, marked down to 2.00, 1.50 of goodwill; mean 250, deviation 40 (brainmass.com, newsboy
 *   problem 78317): too few costs 6.75, too many 2.25, a ratio of 0.75; z(0.75) = 0.6745, so 276.98.
 */
describe("the newsvendor's trade-off, against worked examples", () => {
  test.each([
    [2, 5, 50, 20, 38.68, 0.005],
    [6.75, 2.25, 250, 40, 276.98, 0.005],
    [80, 20, 3192, 1181, 4186, 1],
  ])("one too few %d, one too many %d", (short, left, mean, deviation, amount, within) => {
    const ratio = short / (short + left);
    expect(Math.abs(needForChance(mean, ratio, deviation / mean) - amount)).toBeLessThan(within);
    // Read backwards: at that chance, what is lost on one too many tells what one too few costs.
    expect(costOfShort(left, ratio)).toBeCloseTo(short, 9);
  });

  test("at that chance the expected cost is least, by drawing", () => {
    const [short, left, mean, deviation] = [6.75, 2.25, 250, 40];
    const random = Random.of("newsvendor");
    const drawn = Array.from({ length: 100_000 }, () => {
      const normal = Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
      return mean + deviation * normal;
    });
    const cost = (amount: number) =>
      drawn.reduce((sum, x) => sum + (x > amount ? short * (x - amount) : left * (amount - x)), 0);
    const best = needForChance(mean, short / (short + left), deviation / mean);
    for (const off of [-8, 8]) expect(cost(best)).toBeLessThan(cost(best + off));
  });
});

/** How often what is bought is enough when covers and the yield of the lot are drawn. */
function enough(chance: number, trim: number, trimSpread: number, coversSpread: number): number {
  const random = Random.of(`enough ${chance} ${trimSpread} ${coversSpread}`);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
  const bought =
    needForChance(1000, chance, coversSpread) / trimForChance(trim, chance, trimSpread, coversSpread);
  let times = 0;
  const draws = 200_000;
  for (let k = 0; k < draws; k++)
    if (bought * (trim + trimSpread * normal()) >= 1000 * (1 + coversSpread * normal())) times++;
  return times / draws;
}

describe("the amount that is enough with a chance, against drawing", () => {
  test.each([
    [0.95, 0, 0.05],
    [0.95, 0.04, 0],
    [0.9, 0.03, 0.08],
    [0.95, 0.06, 0.05],
    [0.99, 0.05, 0.1],
    [0.3, 0.05, 0.05],
  ])("chance %d, yield 0.75 ± %d, covers ± %d", (chance, trimSpread, coversSpread) => {
    // Four standard errors of 200,000 draws.
    const error = 4 * Math.sqrt((chance * (1 - chance)) / 200_000);
    expect(Math.abs(enough(chance, 0.75, trimSpread, coversSpread) - chance)).toBeLessThan(error);
  });

  test("a sum of means is enough only half of the time", () => {
    expect(enough(0.5, 0.75, 0.05, 0.05)).toBeCloseTo(0.5, 2);
  });
});
