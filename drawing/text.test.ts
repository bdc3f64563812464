import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitText, textWidth, wrapText } from "./text.ts";

describe("text", () => {
  it("D10 what is fitted is never wider than its room", () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 0, max: 200 }), (text, width) => {
        const fitted = fitText(text, 14, width);
        expect(fitted === "" || textWidth(fitted, 14) <= width).toBe(true);
        for (const line of wrapText(text, 14, width, 3))
          expect(textWidth(line, 14)).toBeLessThanOrEqual(width);
        expect(wrapText(text, 14, width, 3).length).toBeLessThanOrEqual(3);
      }),
      { seed: 51 },
    );
  });
  it("D10 cuts with a mark, and keeps what fits whole", () => {
    expect(fitText("Braise", 14, 100)).toBe("Braise");
    expect(fitText("Salt the short rib", 14, 60)).toMatch(/^Salt.*…$/);
    expect(fitText("Salt", 14, 8)).toBe("");
  });
  it("figures are all as wide as one another", () => {
    expect(new Set([..."0123456789"].map((d) => textWidth(d, 10))).size).toBe(1);
  });
});
