import type { Dish, Placement } from "../../core/plating/schema.ts";

export type Form = Placement["form"];
export type Plate = Dish["plate"];

/** Of an oval plate, how broad it is for its length: common practice, no source. */
const OVAL = 0.72;

/** A plate seen from above, mm: to the guest's right and away from the guest. Its `depthMm` is its height. */
export function plateFromAbove(plate: Plate): { readonly acrossMm: number; readonly awayMm: number } {
  return { acrossMm: plate.widthMm, awayMm: plate.outline === "oval" ? plate.widthMm * OVAL : plate.widthMm };
}

/** Size of one piece seen from above, mm: along its own axis, and across it. */
export interface Footprint {
  readonly alongMm: number;
  readonly acrossMm: number;
  /** Written by the chef, or worked out from the amount. */
  readonly basis: "written" | "worked out" | "unknown";
}

/**
 * How each form lies: proportions and heights by which a volume becomes a size seen from above.
 * Common practice, no source: what a spoon, a squeeze bottle or a knife leaves.
 */
const LIE = {
  /** Ellipsoid, along 2.2 and high 0.8 of across. */
  quenelle: { along: 2.2, high: 0.8 },
  /** Twice as long as broad. */
  slice: { along: 2, highMm: 10 },
  fan: { along: 2, highMm: 6 },
  line: { acrossMm: 8, highMm: 5 },
  pool: { highMm: 3 },
  crisp: { along: 1.6, highMm: 2 },
  layer: { highMm: 12 },
  /** Dome, high 0.6 of its radius. */
  mound: { high: 0.6 },
} as const;

/** Size of one piece from its volume in mL, by its form. */
export function sizeFromVolume(form: Form, mL: number): { alongMm: number; acrossMm: number } {
  const mm3 = mL * 1000;
  const round = (diameter: number) => ({ alongMm: diameter, acrossMm: diameter });
  switch (form) {
    case "quenelle": {
      const across = Math.cbrt((6 * mm3) / (Math.PI * LIE.quenelle.along * LIE.quenelle.high));
      return { alongMm: LIE.quenelle.along * across, acrossMm: across };
    }
    case "slice":
    case "fan":
    case "crisp": {
      const across = Math.sqrt(mm3 / LIE[form].highMm / LIE[form].along);
      return { alongMm: LIE[form].along * across, acrossMm: across };
    }
    case "line":
      return { alongMm: mm3 / (LIE.line.acrossMm * LIE.line.highMm), acrossMm: LIE.line.acrossMm };
    case "pool":
    case "layer":
      return round(Math.sqrt((4 * mm3) / (Math.PI * LIE[form].highMm)));
    case "dot":
      return round(2 * Math.cbrt((3 * mm3) / (2 * Math.PI)));
    case "mound":
      return round(2 * Math.cbrt((3 * mm3) / (2 * Math.PI * LIE.mound.high)));
  }
}

/**
 * Size of one piece of a placement. `mL` is the volume of the whole placement (all its pieces), where it is known;
 * without it and without a written size the piece is drawn 20 mm broad and marked as unknown.
 */
export function footprint(placement: Placement, mL: number | undefined): Footprint {
  if (placement.sizeMm)
    return { alongMm: placement.sizeMm[0], acrossMm: placement.sizeMm[1], basis: "written" };
  if (mL === undefined || mL <= 0) return { alongMm: 20, acrossMm: 20, basis: "unknown" };
  return { ...sizeFromVolume(placement.form, mL / placement.count), basis: "worked out" };
}
