import { describe, expect, test } from "vitest";
import { alcoholLeft, boilDown, ethanolByMass, ethanolInVapour } from "../core/heat/alcohol.ts";

describe("USDA Table of Nutrient Retention Factors, Release 6 (2007), alcohol (published)", () => {
  test.each([
    [15, 0.4],
    [30, 0.35],
    [60, 0.25],
    [90, 0.2],
    [120, 0.1],
    [150, 0.05],
  ])("stirred in and simmered %d minutes: %d left", (minutes, share) => {
    expect(alcoholLeft("stirred-in-and-simmered", minutes).share).toBeCloseTo(share, 12);
  });
  test.each([
    ["no-heat-overnight", 0.7],
    ["stirred-into-hot", 0.85],
    ["flamed", 0.75],
  ] as const)("%s: %d left", (method, share) => expect(alcoholLeft(method).share).toBe(share));
  test("not stirred in, baked 25 minutes: 45 % left; sooner nothing counts as lost", () => {
    expect(alcoholLeft("not-stirred-baked", 25).share).toBe(0.45);
    expect(alcoholLeft("not-stirred-baked", 20).share).toBe(1);
  });
  test("never less past the last row, always within its own spread", () => {
    expect(alcoholLeft("stirred-in-and-simmered", 1000).share).toBe(0.05);
    for (let m = 0; m <= 150; m += 5) {
      const { share, low, high } = alcoholLeft("stirred-in-and-simmered", m);
      expect(low).toBeLessThan(share);
      expect(high).toBeGreaterThan(share);
      expect(high).toBeLessThanOrEqual(1);
      if (m > 0) expect(share).toBeLessThan(alcoholLeft("stirred-in-and-simmered", m - 5).share);
    }
  });
});

describe("ethanol and water at the boil (handbook table, Perry, published)", () => {
  test.each([
    [0.0472, 0.3437],
    [0.1657, 0.6196],
    [0.4381, 0.7535],
    [0.7252, 0.8301],
    [0.9558, 0.9558],
  ])("liquid %d by mass gives vapour of %d", (liquid, vapour) =>
    expect(ethanolInVapour(liquid)).toBeCloseTo(vapour, 10),
  );
  test("the balance closes: what is left is less at each step, and nothing is left of a pan boiled dry", () => {
    const fraction = ethanolByMass(13);
    expect(Math.abs(fraction - 0.1036)).toBeLessThan(0.001);
    let before = 1;
    for (const to of [0.9, 0.7, 0.5, 0.3, 0.1]) {
      const { share, massKg } = boilDown(1, fraction, to);
      expect(massKg).toBeCloseTo(to, 9);
      expect(share).toBeLessThan(before);
      before = share;
    }
    expect(boilDown(1, fraction, 0)).toMatchObject({ ethanolKg: 0, share: 0 });
    // A tenth boiled off a wine takes near half of its alcohol with it: the vapour is five times stronger.
    expect(boilDown(1, fraction, 0.9).share).toBeGreaterThan(0.45);
    expect(boilDown(1, fraction, 0.9).share).toBeLessThan(0.6);
    expect(boilDown(1, fraction, 0.5).share).toBeLessThan(0.02);
  });
});
