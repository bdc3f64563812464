import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clockOf } from "./clock.ts";

describe("P1 the time axis", () => {
  const winter = clockOf("2027-01-30T19:30", "Europe/London", "D-2 06:00");

  it("P1 counts minutes from the horizon", () => {
    expect(winter.minuteOf("D-2 06:00")).toBe(0);
    expect(winter.minuteOf("D-1 06:00")).toBe(1440);
    expect(winter.service).toBe(2 * 1440 + 13 * 60 + 30);
    expect(winter.textOf(winter.service)).toBe("D 19:30");
    expect(winter.dayOf(0)).toBe("D-2");
    expect(winter.dateOf("D-2")).toBe("2027-01-28");
    expect(winter.zonedOf(winter.service)).toBe("2027-01-30T19:30+00:00[Europe/London]");
    expect(winter.spanOf("D")).toEqual({ from: 2 * 1440 - 360, to: 3 * 1440 - 360 });
  });

  it("P1 loses an hour when the clocks go forward (London, 28 March 2027, 01:00 to 02:00)", () => {
    const spring = clockOf("2027-03-28T19:30", "Europe/London", "D-1 20:00");
    expect(spring.minuteOf("D 00:30")).toBe(270);
    expect(spring.minuteOf("D 02:30")).toBe(330);
    expect(spring.minuteOf("D 01:30")).toBe(330);
    expect(spring.textOf(330)).toBe("D 02:30");
    expect(spring.service).toBe(23 * 60 + 30 - 60);
  });

  it("P1 gains an hour when they go back (31 October 2027); of the hour that comes twice the first is meant", () => {
    const autumn = clockOf("2027-10-31T19:30", "Europe/London", "D-1 20:00");
    expect(autumn.minuteOf("D 01:30")).toBe(330);
    expect(autumn.textOf(330)).toBe("D 01:30");
    expect(autumn.textOf(390)).toBe("D 01:30");
    expect(autumn.minuteOf("D 02:00")).toBe(420);
  });

  it("P1 every minute reads back, but for the hour that comes twice", () => {
    const zones = [
      "Europe/London",
      "America/New_York",
      "Asia/Kolkata",
      "Australia/Lord_Howe",
      "Pacific/Apia",
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: 0, max: 729 }),
        fc.integer({ min: -2000, max: 6000 }),
        (zone, after, minute) => {
          const date = new Date(Date.UTC(2026, 0, 1 + after)).toISOString().slice(0, 10);
          const clock = clockOf(`${date}T18:00`, zone, "D-2 06:00");
          const text = clock.textOf(minute);
          const back = clock.minuteOf(text);
          expect([0, 60, 30]).toContain(minute - back);
          expect(clock.textOf(back)).toBe(text);
          expect(clock.dayOf(minute)).toBe(text.split(" ")[0]);
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  });

  it("P1 refuses what is no moment", () => {
    expect(() => winter.minuteOf("tomorrow")).toThrow(/D-1 14:00/);
    expect(() => winter.minuteOf("D-1")).toThrow(/hour/);
  });
});
