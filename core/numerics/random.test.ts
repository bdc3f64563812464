import { describe, expect, test } from "vitest";
import { Random } from "./random.ts";

const many = (n: number, draw: () => number) => Array.from({ length: n }, draw);

describe("N5 random numbers come from a seed", () => {
  test("the generator is xoshiro128** 1.1", () => {
    // Output of the authors' xoshiro128starstar.c from state {1, 2, 3, 4}, as kept in the tests of the Rust
    // crate rand_xoshiro.
    const reference = [
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ];
    const random = Random.atState([1, 2, 3, 4]);
    expect(many(10, () => random.bits())).toEqual(reference);
    expect(() => Random.atState([0, 0, 0, 0])).toThrow("never moves");
  });
  test("one seed gives one sequence; near seeds share none of it", () => {
    const draws = (seed: number | string) => {
      const random = Random.of(seed);
      return many(50, () => random.bits());
    };
    expect(draws(7)).toEqual(draws("7"));
    expect(new Set([...draws(7), ...draws(8), ...draws("seven")]).size).toBe(150);
  });
  test("a derived generator depends on its name, not on what was drawn; a split one goes on apart", () => {
    const [fresh, used] = [Random.of(1), Random.of(1)];
    many(10, () => used.next());
    const orders = fresh.derive("orders");
    expect(used.derive("orders").bits()).toBe(orders.bits());
    expect(fresh.derive("plan").bits()).not.toBe(fresh.derive("orders").bits());
    const [one, two] = [Random.of(1), Random.of(1)];
    const child = one.split();
    expect(child.bits()).toBe(two.split().bits());
    expect(child.bits()).not.toBe(one.bits());
  });
  test("draws below n are even: chi-square of 7 and of 1000 cells under its 99.9 % point", () => {
    // 99.9 % points of chi-square: 22.46 at 6 degrees of freedom, 1142.8 at 999 (published tables, from memory)
    for (const [cells, limit] of [
      [7, 22.46],
      [1000, 1142.8],
    ] as const) {
      const random = Random.of(`even ${cells}`);
      const counts = new Array<number>(cells).fill(0);
      const draws = cells * 100;
      for (let i = 0; i < draws; i++) counts[random.below(cells)]!++;
      const chi = counts.reduce((sum, count) => sum + (count - 100) ** 2 / 100, 0);
      expect(chi).toBeLessThan(limit);
    }
  });
  test("a range that does not divide 2^32 is not favoured at its low end", () => {
    const random = Random.of("three quarters of the words");
    const draws = 3000;
    const low = many(draws, () => random.below(3 * 2 ** 30)).filter((x) => x < 2 ** 30).length;
    // a third is expected, a half if the last quarter were folded over the first; four standard errors of a third
    expect(Math.abs(low / draws - 1 / 3)).toBeLessThan(4 * Math.sqrt(2 / 9 / draws));
  });
  test("next is in [0, 1), normal has mean 0 and deviation 1 within four standard errors", () => {
    const random = Random.of("moments");
    const n = 20_000;
    const flat = many(n, () => random.next());
    expect(Math.min(...flat)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...flat)).toBeLessThan(1);
    const mean = (list: number[]) => list.reduce((a, b) => a + b, 0) / list.length;
    expect(Math.abs(mean(flat) - 0.5)).toBeLessThan(4 / Math.sqrt(12 * n));
    const bell = many(n, () => random.normal());
    expect(Math.abs(mean(bell))).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(mean(bell.map((x) => x * x)) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
  });
  test("shuffled keeps every item, gives each order equally, and leaves its input alone", () => {
    const random = Random.of("orders of three");
    const seen = new Map<string, number>();
    const input = ["a", "b", "c"];
    for (let i = 0; i < 6000; i++) {
      const order = random.shuffled(input).join("");
      seen.set(order, (seen.get(order) ?? 0) + 1);
    }
    expect(input).toEqual(["a", "b", "c"]);
    expect([...seen.keys()].sort()).toEqual(["abc", "acb", "bac", "bca", "cab", "cba"]);
    const chi = [...seen.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(chi).toBeLessThan(20.52); // 99.9 % point at 5 degrees of freedom (from memory)
    expect(["a", "b"]).toContain(random.pick(["a", "b"]));
    expect(() => random.pick([])).toThrow("cannot draw below 0");
    expect(() => random.below(0.5)).toThrow("cannot draw below 0.5");
  });
});
