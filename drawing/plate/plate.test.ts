import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { FORMS, type Placement, PlacementSchema } from "../../core/plating/schema.ts";
import { PAPER_INK } from "../ink.ts";
import { svgText } from "../tree.ts";
import { numbersAround } from "./numbers.ts";
import { layPieces } from "./pieces.ts";
import { plateDrawing } from "./plate.ts";
import { footprint, type Plate, sizeFromVolume } from "./size.ts";

const placed = (n: number, form: Placement["form"], more: Partial<Placement> = {}): Placement =>
  PlacementSchema.parse({
    n,
    preparation: `part-${n}`,
    amount: { value: 30, unit: "g" },
    form,
    xMm: 0,
    yMm: 0,
    gesture: "lay",
    seconds: 5,
    ...more,
  });

const ROUND: Plate = { outline: "round", widthMm: 280, depthMm: 22, wellMm: 190 };
const card = (plate: Plate, placements: Placement[], title: string, chosen?: number) =>
  plateDrawing(
    { plate, placements, volumeOf: () => 24, title, guest: "guest", scale: "50 mm", chosen },
    PAPER_INK,
  );

describe("size", () => {
  it("D5 a written size is kept", () => {
    expect(footprint(placed(1, "slice", { sizeMm: [60, 25] }), 10)).toEqual({
      alongMm: 60,
      acrossMm: 25,
      basis: "written",
    });
  });
  it("D5 says when size is worked out, and when nothing is known", () => {
    expect(footprint(placed(1, "mound"), 20).basis).toBe("worked out");
    expect(footprint(placed(1, "mound"), undefined).basis).toBe("unknown");
  });
  it("D5 a quenelle of 20 mL has the volume of its ellipsoid", () => {
    const { alongMm, acrossMm } = sizeFromVolume("quenelle", 20);
    expect((Math.PI / 6) * alongMm * acrossMm * 0.8 * acrossMm).toBeCloseTo(20_000, 3);
  });
  it("D5 more volume is never smaller, in any form", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FORMS),
        fc.double({ min: 0.5, max: 400, noNaN: true }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        (form, mL, more) => {
          const small = sizeFromVolume(form, mL);
          const large = sizeFromVolume(form, mL * more);
          expect(large.alongMm).toBeGreaterThanOrEqual(small.alongMm - 1e-9);
          expect(large.acrossMm).toBeGreaterThanOrEqual(small.acrossMm - 1e-9);
        },
      ),
      { seed: 31 },
    );
  });
});

describe("numbers", () => {
  it("D4 never stand on one another", () => {
    const points = fc.array(
      fc.tuple(fc.integer({ min: -120, max: 120 }), fc.integer({ min: -120, max: 120 })),
      { minLength: 1, maxLength: 14 },
    );
    fc.assert(
      fc.property(points, (list) => {
        const at = numbersAround(
          list.map(([xMm, yMm], i) => ({ n: i + 1, xMm, yMm })),
          22,
        ).map((p) => ((p.angleDeg % 360) + 360) % 360);
        expect(at.length).toBe(list.length);
        for (let i = 0; i < at.length; i++)
          for (let j = i + 1; j < at.length; j++) {
            const apart = Math.abs(at[i]! - at[j]!);
            expect(Math.min(apart, 360 - apart)).toBeGreaterThan(20);
          }
      }),
      { seed: 41 },
    );
  });
  it("D4 a lone piece has its number in its own direction", () => {
    expect(numbersAround([{ n: 1, xMm: 50, yMm: 0 }], 20)[0]!.angleDeg).toBe(0);
    expect(numbersAround([{ n: 1, xMm: 0, yMm: -40 }], 20)[0]!.angleDeg).toBe(-90);
  });
});

describe("pieces", () => {
  it("lays as many as are counted, evenly round the point", () => {
    for (const form of FORMS) {
      const placement = placed(1, form, { count: 5, xMm: 20, yMm: 10 });
      expect(layPieces(placement, footprint(placement, 20)).length).toBe(5);
    }
    const three = placed(1, "quenelle", { count: 3, xMm: 20, yMm: 10, turnDeg: 30 });
    const laid = layPieces(three, footprint(three, 20));
    expect(laid.reduce((sum, p) => sum + p.xMm, 0) / 3).toBeCloseTo(20);
    expect(laid.reduce((sum, p) => sum + p.yMm, 0) / 3).toBeCloseTo(10);
  });
});

describe("plate", () => {
  it("D4 the guest is at the bottom: a piece at −y is drawn below the centre", () => {
    const text = svgText(card(ROUND, [placed(1, "dot", { yMm: -60 })], "one"));
    expect(text).toContain("translate(0 60)");
  });
  it("D2 nothing from a document becomes markup", () => {
    expect(svgText(card(ROUND, [placed(1, "dot")], '"><script>alert(1)</script>'))).not.toContain("<script>");
  });
  it("D1 D3 D4 a plate of every form", async () => {
    const places: [number, number][] = [
      [0, 0],
      [-50, 20],
      [-20, 55],
      [30, 50],
      [60, 10],
      [48, -40],
      [0, -60],
      [-55, -40],
      [10, 20],
    ];
    const list = FORMS.map((form, i) =>
      placed(i + 1, form, {
        xMm: places[i]![0],
        yMm: places[i]![1],
        turnDeg: i * 25,
        count: form === "dot" ? 5 : form === "fan" ? 4 : 1,
        ...(form === "pool" || form === "layer"
          ? {}
          : { sizeMm: form === "dot" ? [8, 8] : form === "line" ? [70, 6] : [44, 20] }),
      }),
    );
    await expect(svgText(card(ROUND, list, "every form", 4))).toMatchFileSnapshot(
      "../snapshots/plate-forms.svg",
    );
  });
  it.each([
    ["bowl", { outline: "bowl", widthMm: 220, depthMm: 48, wellMm: 130 }],
    ["oval", { outline: "oval", widthMm: 320, depthMm: 24, wellMm: 230 }],
    ["square", { outline: "square", widthMm: 250, depthMm: 20, wellMm: 180 }],
  ] as const)("D1 D4 a %s", async (name, plate) => {
    const list = [
      placed(1, "pool", { yMm: 0 }),
      placed(2, "mound", { xMm: 15, yMm: 20 }),
      placed(3, "quenelle", { xMm: -20, yMm: 5, turnDeg: 40 }),
    ];
    await expect(svgText(card({ ...plate }, list, name))).toMatchFileSnapshot(
      `../snapshots/plate-${name}.svg`,
    );
  });
});
