import { describe, expect, it } from "vitest";
import { PAPER_INK } from "../ink.ts";
import { svgText } from "../tree.ts";
import { curveDrawing } from "./curve.ts";

describe("curve", () => {
  const curve = {
    points: [
      [0, 82],
      [30, 61],
      [60, 40],
      [90, 27],
      [150, 12],
      [210, 6],
    ] as const,
    limits: [{ y: 57, side: "above" as const, name: "57 °C" }],
    x: { from: 0, to: 240, step: 60, write: (x: number) => `${x / 60} h` },
    y: { from: 0, to: 90, write: (y: number) => `${y} °C` },
    title: "Cooling of the braise",
    width: 420,
    height: 200,
    readings: true,
  };
  it("D1 D3 marks a reading beyond its limit with more than colour", async () => {
    const text = svgText(curveDrawing(curve, PAPER_INK));
    expect(text.match(/data-sign="cross"/g)?.length).toBe(2);
    await expect(text).toMatchFileSnapshot("../snapshots/curve.svg");
  });
  it("draws a spread and no readings for a calculation", () => {
    const text = svgText(
      curveDrawing(
        {
          ...curve,
          readings: false,
          band: [
            [0, 80, 84],
            [60, 36, 44],
          ],
        },
        PAPER_INK,
      ),
    );
    expect(text).not.toContain("<circle");
    expect(text).toContain("Z");
  });
});
