import { describe, expect, test } from "vitest";
import {
  celsius,
  type Grams,
  grams,
  type Minutes,
  millilitres,
  millimetres,
  minus,
  minutes,
  pieces,
  plus,
  times,
} from "./index.ts";

// The type checker reads this file: each @ts-expect-error fails `npm run types` the day its line compiles.
describe("Q5 grams plus minutes does not compile", () => {
  test("like adds to like", () => {
    const total: Grams = plus(grams(250), grams(50));
    expect(total).toBe(300);
    expect(minus(total, grams(100))).toBe(200);
    expect(times(total, 2)).toBe(600);
    expect([
      plus(pieces(1), pieces(2)),
      plus(celsius(4), celsius(-22)),
      minus(millimetres(30), millimetres(5)),
    ]).toEqual([3, -18, 25]);
  });
  test("unlike does not", () => {
    // @ts-expect-error grams and minutes
    plus(grams(1), minutes(2));
    // @ts-expect-error millilitres are not grams: that takes a density
    minus(grams(1), millilitres(2));
    // @ts-expect-error the sum of bare numbers has no unit any more
    const loose: Grams = grams(1) + minutes(2);
    // @ts-expect-error a bare number says no unit
    const bare: Minutes = 5;
    // @ts-expect-error a weight times a time is no weight
    const product: Grams = grams(2) * minutes(3);
    const rest = (duration: Minutes) => duration;
    // @ts-expect-error a weight where a time is asked for
    rest(grams(10));
    expect([loose, bare, product]).toEqual([3, 5, 6]);
  });
});
