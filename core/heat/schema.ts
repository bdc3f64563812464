import { z } from "zod";

/**
 * The documents of the heat room: the shape of a piece, what it is made of, and the stages it goes through.
 * Lengths mm, temperatures °C, times minutes, conductivity W/(m K), density kg/m³, specific heat J/(kg K),
 * surface coefficient W/(m² K), fractions by mass 0 to 1, pressures and powers as their names say.
 */

const lengthMm = z.number().min(0.001).max(5000);
const temperatureC = z.number().min(-200).max(1000);
const fraction = z.number().min(0).max(1);

/** Mass fractions of what Choi and Okos give properties for. A part not named is 0; the sum must be 1 ± 0.01. */
export const CompositionSchema = z
  .strictObject({
    water: fraction.optional(),
    protein: fraction.optional(),
    fat: fraction.optional(),
    carbohydrate: fraction.optional(),
    fibre: fraction.optional(),
    ash: fraction.optional(),
  })
  .refine((c) => Math.abs(compositionSum(c) - 1) <= 0.01, {
    error: (issue) =>
      `the mass fractions add to ${round3(compositionSum(issue.input as Composition))}, not to 1 (within 0.01)`,
    params: { mend: "give fractions of 1 (water 0.75, not 75) that add to 1" },
  });
export type Composition = {
  water?: number | undefined;
  protein?: number | undefined;
  fat?: number | undefined;
  carbohydrate?: number | undefined;
  fibre?: number | undefined;
  ash?: number | undefined;
};

/** Properties taken as given and constant. */
export const GivenMaterialSchema = z.strictObject({
  conductivity: z.number().min(0.005).max(500),
  density: z.number().min(1).max(25000),
  specificHeat: z.number().min(100).max(20000),
});
/**
 * Properties by composition and temperature. `freezingC` is the initial freezing point (default -1 °C);
 * `bulkDensity` in kg/m³ is for foods that hold air (bread, sponge, puff pastry).
 */
export const ComposedMaterialSchema = z.strictObject({
  composition: CompositionSchema,
  freezingC: z.number().min(-40).max(0).optional(),
  bulkDensity: z.number().min(10).max(3000).optional(),
});
export const MaterialSchema = z.union([GivenMaterialSchema, ComposedMaterialSchema]);
export type Material = z.infer<typeof MaterialSchema>;

/** One layer, counted from the outside in; its material stands in `material` or beside the thickness. */
const layerBase = { name: z.string().max(200).optional(), thicknessMm: lengthMm };
export const LayerSchema = z.union([
  z.strictObject({ ...layerBase, material: MaterialSchema }),
  GivenMaterialSchema.extend(layerBase),
  ComposedMaterialSchema.extend(layerBase),
]);
export type Layer = z.infer<typeof LayerSchema>;
const layers = z.array(LayerSchema).max(40).optional();

/**
 * Shape and full outer size of a piece, and its layers from the outside in; what the layers leave over is the
 * core. A slab's layers lie on both faces unless `stacked`, when they run from the top face down.
 */
export const PieceSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("slab"), thicknessMm: lengthMm, stacked: z.boolean().optional(), layers }),
  z.strictObject({ kind: z.literal("cylinder"), diameterMm: lengthMm, layers }),
  z.strictObject({ kind: z.literal("sphere"), diameterMm: lengthMm, layers }),
  z.strictObject({ kind: z.literal("finite-cylinder"), diameterMm: lengthMm, lengthMm, layers }),
  z.strictObject({ kind: z.literal("brick"), sidesMm: z.tuple([lengthMm, lengthMm, lengthMm]), layers }),
]);
export type Piece = z.infer<typeof PieceSchema>;

/** D-value at a reference temperature and the z that moves it tenfold. */
export const OrganismSchema = z.strictObject({
  dMinutes: z.number().positive().max(1e6),
  referenceC: z.number().min(0).max(150),
  zC: z.number().min(1).max(50),
});
export type DAndZ = z.infer<typeof OrganismSchema>;

/** Tables of FSIS-GD-2021-14 that a hold can be judged by; poultry needs its fat, unknown fat counts as 12 %. */
export const LethalityTableSchema = z.strictObject({
  table: z.enum([
    "fsis-meat-6.5",
    "fsis-meat-7",
    "fsis-meat-5",
    "fsis-chicken-7",
    "fsis-turkey-7",
    "fsis-poultry-7",
  ]),
  fatPercent: z.number().min(0).max(100).optional(),
});
export type LethalityTableRef = z.infer<typeof LethalityTableSchema>;

const surroundings = {
  mediumC: temperatureC.optional(),
  medium: z.string().max(80).optional(),
  coefficient: z.number().min(0.01).max(1e6).optional(),
};

/** What lies against the underside, when it is not the stage's own medium (a griddle, a tray, a board). */
export const UndersideSchema = z.union([z.literal("insulated"), z.strictObject(surroundings)]);

/** A loaded oven: what it can give, what it stores, how many such pieces it carries. */
export const OvenSchema = z.strictObject({
  powerKW: z.number().positive().max(500),
  heatCapacityKJPerK: z.number().positive().max(10000),
  pieces: z.number().int().positive().max(100000),
  dropC: z.number().min(0).max(300).optional(),
});

/** A reduction on the fire: until so much mass is left. */
export const UntilMassSchema = z.strictObject({
  fromKg: z.number().positive().max(10000),
  toKg: z.number().positive().max(10000),
  powerKW: z.number().positive().max(500),
  efficiency: z.number().positive().max(1).optional(),
});

const untils = {
  minutes: z.number().positive().max(43200).optional(),
  untilCoreC: temperatureC.optional(),
  untilSurfaceC: temperatureC.optional(),
  untilMeanC: temperatureC.optional(),
  untilLog10: OrganismSchema.extend({ log10: z.number().positive().max(20) }).optional(),
  untilTable: LethalityTableSchema.optional(),
  untilDonenessC: z.tuple([temperatureC, temperatureC]).optional(),
  untilPeakCoreC: temperatureC.optional(),
  untilMass: UntilMassSchema.optional(),
};
export const untilNames = Object.keys(untils) as (keyof typeof untils)[];

/** One stage: what surrounds the piece, and exactly one way of saying when it ends. */
export const StageSchema = z
  .strictObject({
    name: z.string().max(200).optional(),
    ...surroundings,
    underside: UndersideSchema.optional(),
    oven: OvenSchema.optional(),
    ...untils,
  })
  .superRefine((stage, check) => {
    const said = untilNames.filter((name) => stage[name] !== undefined);
    if (said.length !== 1)
      check.addIssue({
        code: "custom",
        message:
          said.length === 0
            ? "the stage does not say when it ends"
            : `the stage says in ${said.length} ways when it ends (${said.join(", ")})`,
        params: { mend: `give exactly one of ${untilNames.join(", ")}` },
      });
    if (stage.mediumC === undefined && stage.medium === undefined && stage.untilMass === undefined)
      check.addIssue({
        code: "custom",
        message: "the stage does not say what surrounds the piece",
        params: { mend: "give mediumC with a coefficient, or the name of a medium" },
      });
  });
export type Stage = z.infer<typeof StageSchema>;

/** Tolerances, each ±: thickness in mm, start and medium in °C, coefficient as a ratio (0.2 is ± 20 %). */
export const SpreadSchema = z.strictObject({
  thicknessMm: z.number().min(0).max(5000).optional(),
  startC: z.number().min(0).max(100).optional(),
  mediumC: z.number().min(0).max(200).optional(),
  coefficient: z.number().min(0).lt(1).optional(),
});
export type Spread = z.infer<typeof SpreadSchema>;

/** What a preparation's step asks for instead of minutes. */
export const TargetSchema = z.strictObject({
  startC: z.union([temperatureC, z.literal("from previous")]),
  stages: z.array(StageSchema).min(1).max(40),
  spread: SpreadSchema.optional(),
});
export type Target = z.infer<typeof TargetSchema>;

/** The input of `tournant heat`. */
export const HeatInputSchema = z.strictObject({
  shape: PieceSchema,
  material: MaterialSchema.optional(),
  layers,
  startC: temperatureC,
  stages: z.array(StageSchema).min(1).max(40),
  altitudeM: z.number().min(-450).max(6000).optional(),
  spread: SpreadSchema.optional(),
  organism: OrganismSchema.optional(),
});
export type HeatInput = z.infer<typeof HeatInputSchema>;

function compositionSum(c: Composition): number {
  return (
    (c.water ?? 0) + (c.protein ?? 0) + (c.fat ?? 0) + (c.carbohydrate ?? 0) + (c.fibre ?? 0) + (c.ash ?? 0)
  );
}

function round3(x: number): number {
  return Math.round(x * 1000) / 1000;
}
