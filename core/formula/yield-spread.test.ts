import { describe, expect, test } from "vitest";
import { throughStep, yieldSpread } from "./rules.ts";

describe("F9 how far a yield strays", () => {
  test("worked by hand: half of a broth goes into a sauce that is thinned, the other half is the yield too", () => {
    // 1,000 g simmered to 800 ± 40 (0.8 ± 0.04); half of it, 400 g, with 100 g of cream is cooked to 0.9 ± 0.018 of 500 g.
    // The yield is 400 + 450 = 850 g. Through the sauce came 450 g; through the broth 400 and four fifths of the 450: 760 g.
    const sauce = throughStep(450, 1);
    const broth = throughStep(800, 0.5, 0.5, 500, sauce);
    expect([sauce, broth]).toEqual([450, 760]);
    // The broth strays by 5 %, the sauce by 2 %: √((760 × 5 %)² + (450 × 2 %)²) = √(38² + 9²) = 39.05 g of 850 g.
    expect(yieldSpread(850, broth, 0.04, 0.8, sauce, 0.018, 0.9)).toBeCloseTo(39.0512 / 850, 6);
  });

  test("one step through which all goes strays as it does; what is reduced to a mass strays through nothing", () => {
    expect(yieldSpread(500, throughStep(700, 0, 1, 700, 500), 0.06, 0.75)).toBeCloseTo(0.08, 12);
    expect(yieldSpread(500, throughStep(700, 0), 0.06, 0.75)).toBe(0);
  });
});
