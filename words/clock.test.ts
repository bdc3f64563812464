import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clockMinutes, clockText } from "./clock.ts";

describe("clock", () => {
  it("W7 counts minutes from midnight of the date of service", () => {
    expect(clockMinutes("D 19:30")).toBe(1170);
    expect(clockMinutes("D-1 23:00")).toBe(-60);
    expect(clockMinutes("D+1 00:15")).toBe(1455);
  });
  it("W7 reads what it writes", () => {
    fc.assert(
      fc.property(fc.integer({ min: -14000, max: 5000 }), (m) => clockMinutes(clockText(m)) === m),
      { seed: 7 },
    );
  });
  it("W7 says how a moment is written when it is not one", () => {
    expect(() => clockMinutes("14:00")).toThrow('write it as "D-1 14:00"');
  });
});
