import { describe, expect, it } from "vitest";
import { PAPER_INK } from "../ink.ts";
import { svgText } from "../tree.ts";
import { heatColour } from "./heat-scale.ts";
import { heatSectionDrawing } from "./heat-section.ts";
import { shapeDrawing } from "./shape.ts";

const section = {
  piece: { kind: "cylinder", diameterMm: 50 } as const,
  mm: [4, 12, 20, 24],
  celsius: [30, 45, 70, 92],
  from: 0,
  to: 100,
  pxPerMm: 4,
  title: "Roll at 8 minutes",
  writeC: (c: number) => `${Math.round(c)} °C`,
  writeMm: (mm: number) => `${mm} mm`,
};
const light = (colour: string) => {
  const [r = 0, g = 0, b = 0] = colour.match(/\d+/g)!.map(Number);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

describe("heat section", () => {
  it("D3 is lighter with every step, and says the figures too", () => {
    const steps = Array.from({ length: 21 }, (_, i) => light(heatColour(i / 20)));
    for (let i = 1; i < steps.length; i++) expect(steps[i]!).toBeGreaterThan(steps[i - 1]!);
    const text = svgText(heatSectionDrawing(section, PAPER_INK));
    expect(text).toContain("30 °C");
    expect(text).toContain("50 mm");
  });
  it("D1 draws rings from the outside in, to scale", () => {
    const radii = [...svgText(heatSectionDrawing(section, PAPER_INK)).matchAll(/ r="([\d.]+)"/g)].map((m) =>
      Number(m[1]),
    );
    expect(radii.slice(0, 4)).toEqual([100, 88, 64, 32]);
  });
  it("D10 leaves out figures for which a thin piece has no room", () => {
    const thin = heatSectionDrawing(
      { ...section, piece: { kind: "slab", thicknessMm: 5 }, mm: [1, 2], celsius: [60, 61] },
      PAPER_INK,
    );
    expect(svgText(thin).match(/font-weight/g)?.length).toBe(1);
  });
  it("D1 a brick is seen from two sides, its sizes written", () => {
    const text = svgText(
      shapeDrawing(
        { piece: { kind: "brick", sidesMm: [60, 90, 30] }, title: "Brick", writeMm: section.writeMm },
        PAPER_INK,
      ),
    );
    for (const size of ["60 mm", "90 mm", "30 mm"]) expect(text).toContain(size);
    const widths = [...text.matchAll(/<rect [^>]* width="([\d.]+)"/g)].map((m) => Number(m[1]));
    expect(widths[1]! / widths[0]!).toBeCloseTo(1.5, 2);
  });
});
