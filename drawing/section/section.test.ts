import { describe, expect, it } from "vitest";
import { PAPER_INK } from "../ink.ts";
import { svgText } from "../tree.ts";
import { sectionDrawing } from "./section.ts";

const material = { conductivity: 0.4, density: 1000, specificHeat: 3500 };
const writeMm = (mm: number) => `${mm} mm`;

describe("section", () => {
  it("D1 a pithivier: layers on both faces and what they leave over", async () => {
    const text = svgText(
      sectionDrawing(
        {
          piece: {
            kind: "slab",
            thicknessMm: 40,
            layers: [
              { name: "puff pastry", thicknessMm: 4, material },
              { name: "crêpe", thicknessMm: 2, material },
            ],
          },
          title: "Pithivier",
          core: "mushroom and barley",
          writeMm,
        },
        PAPER_INK,
      ),
    );
    expect(text).toContain("mushroom and barley, 28 mm");
    await expect(text).toMatchFileSnapshot("../snapshots/section-slab.svg");
  });
  it("D1 a roulade as rings", async () => {
    const text = svgText(
      sectionDrawing(
        {
          piece: { kind: "cylinder", diameterMm: 60, layers: [{ name: "skin", thicknessMm: 3, material }] },
          title: "Roulade",
          core: "meat",
          writeMm,
        },
        PAPER_INK,
      ),
    );
    expect(text).toContain("meat, 54 mm");
    await expect(text).toMatchFileSnapshot("../snapshots/section-rings.svg");
  });
});
