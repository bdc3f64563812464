import { z } from "zod";
import { PieceSchema, TargetSchema } from "../heat/schema.ts";
import { CompositionSchema, IdSchema, ItemSchema, RatioSchema, SubstituteSchema } from "../pantry/schema.ts";
import { AmountSchema, SourceSchema } from "../quantity/schema.ts";

const minutes = z.number().nonnegative();

/** What goes in: an amount of an item at a step. EP (after the named cut) unless `as: "AP"`. */
export const LineSchema = z
  .strictObject({
    id: IdSchema,
    item: ItemSchema,
    amount: AmountSchema.nullable(),
    as: z.literal("AP").optional(),
    /** Overrides the cut's own trim yield. */
    trimYield: RatioSchema.optional(),
    step: IdSchema,
    /** Counted in cost and allergens, not in mass; its amount is null. */
    toTaste: z.boolean().optional(),
    note: z.string().optional(),
    /** What may stand in for the ingredient in this line alone. */
    substitutes: z.array(SubstituteSchema).max(10).optional(),
  })
  .refine((line) => line.substitutes === undefined || "ingredient" in line.item, {
    message: "a substitute stands in for an ingredient; a preparation is replaced by writing another line",
    path: ["substitutes"],
  })
  .refine((line) => (line.amount === null) === (line.toTaste === true), {
    message: "an amount is null exactly when the line is to taste; give an amount, or mark it toTaste",
    path: ["amount"],
  });
export type Line = z.infer<typeof LineSchema>;

/** How the mass changes in a step. Every kilogram lost is named by `as`. */
const changeSpread = z.number().nonnegative().lte(5).optional();
export const ChangeSchema = z.union([
  z.literal("none"),
  z.strictObject({
    factor: z.number().positive(),
    as: z.enum(["evaporated", "stuck", "drained", "rendered"]).optional(),
    /** Standard deviation of the factor from lot to lot: for orders that are enough with a chance. */
    spread: changeSpread,
    source: SourceSchema.optional(),
  }),
  /** Absorbed or added tap water, as a share of what went in. */
  z.strictObject({
    addWaterFactor: z.number().positive(),
    spread: changeSpread,
    source: SourceSchema.optional(),
  }),
  /** Reduction to a mass (per declared yield) or to a share of what went in. */
  z.strictObject({ toAmount: AmountSchema }),
  z.strictObject({ toFactor: RatioSchema }),
]);

export const WorkSchema = z.strictObject({
  fixedMin: minutes,
  perKgMin: minutes.optional(),
  perPieceMin: minutes.optional(),
  perBatchMin: minutes.optional(),
  /** Standard deviation of time taken over time planned, as measured here. */
  spread: z.number().nonnegative().optional(),
  /** Where the minutes come from; the chef's own memory unless said. */
  source: SourceSchema.optional(),
  hands: z.strictObject({
    least: z.number().int().positive().max(100),
    most: z.number().int().positive().max(100),
    /** divides: the variable minutes are shared by the hands; each: all are needed the whole time. */
    split: z.enum(["divides", "each"]),
  }),
  skill: IdSchema,
  station: IdSchema,
  interruptible: z.boolean().default(false),
});
export type Work = z.infer<typeof WorkSchema>;

export const SPACE_UNITS = ["shelf", "litre", "kg", "burner", "piece", "position"] as const;
export type SpaceUnit = (typeof SPACE_UNITS)[number];

export const UseSchema = z
  .strictObject({
    /** A kind of equipment (combi, deck, burner, kettle, bath, chiller …) … */
    kind: IdSchema.optional(),
    /** … or one piece of equipment by its id. */
    equipment: IdSchema.optional(),
    during: z.enum(["work", "passive", "both"]),
    space: z.strictObject({ value: z.number().positive(), unit: z.enum(SPACE_UNITS) }),
    /** What `space` is per. */
    per: z.enum(["batch", "kg", "piece"]).default("batch"),
    setC: z.number().optional(),
    toleranceC: z.number().nonnegative().optional(),
    exclusive: z.boolean().optional(),
    /** How deep the food lies in its tray or bag, mm. */
    depthMm: z.number().positive().optional(),
  })
  .refine((use) => (use.kind === undefined) !== (use.equipment === undefined), {
    message: "name either a kind of equipment or one piece of equipment, not both",
    path: ["kind"],
  });
export type Use = z.infer<typeof UseSchema>;

export const HoldSchema = z.strictObject({
  state: z.enum(["hot", "cold", "frozen", "ambient"]),
  maxMin: minutes,
  atLeastC: z.number().optional(),
  atMostC: z.number().optional(),
});

export const ControlSchema = z.strictObject({
  hazard: z.string().min(1),
  limit: z.strictObject({
    what: z.enum(["coreC", "airC", "minutes", "pH"]),
    op: z.enum([">=", "<=", ">", "<"]),
    value: z.number(),
  }),
  /** Two-stage cooling and the like: a further limit that must hold too. */
  and: z
    .array(
      z.strictObject({
        what: z.enum(["coreC", "airC", "minutes", "pH"]),
        op: z.enum([">=", "<=", ">", "<"]),
        value: z.number(),
        withinMin: z.number().positive().optional(),
      }),
    )
    .optional(),
  /** critical: a HACCP critical control point; practice: a good-practice check. */
  level: z.enum(["critical", "practice"]).default("practice"),
  localLimit: z.string().optional(),
  monitor: z.string().min(1),
  corrective: z.string().min(1),
  record: z.string().min(1),
  source: SourceSchema.optional(),
});

/** Share of the mass taken away after the change, and what it is. */
export const DiscardSchema = z
  .strictObject({
    factor: RatioSchema,
    as: z.enum(["trim", "strain", "fat", "rinse"]),
    /**
     * Lines that are taken away as what they are (a salt crust, spice, bones) and what share of each stays in the food,
     * for what the food holds: the mass is `factor` alone. What is taken away beyond them is of everything else.
     */
    lines: z
      .array(
        z.strictObject({
          line: IdSchema,
          takenUp: z.number().min(0).max(1),
          source: SourceSchema.optional(),
        }),
      )
      .min(1)
      .optional(),
  })
  .refine((discard) => discard.as !== "fat" || discard.lines === undefined, {
    message: 'what is taken off as fat is told by its mass: name lines with "trim", "strain" or "rinse" only',
    path: ["lines"],
  });

export const COOKING_WAYS = ["bake", "grill", "fry", "steam", "boil", "braise"] as const;
export type CookingWay = (typeof COOKING_WAYS)[number];

/** How a step cooks, for the minerals that are left: bake is also roast, fry also sauté, braise is browned, then simmered. */
export const CooksSchema = z.strictObject({
  by: z.enum(COOKING_WAYS),
  /** Whether the liquid or drippings are eaten too; drained where the step itself loses liquid, unless said. */
  liquid: z.enum(["kept", "drained"]).optional(),
});

/** One step: its text, what enters, how the mass changes, and what it takes in hands, time and equipment. */
export const StepSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  text: z.string().min(1),
  /** Steps whose output enters: whole, or a share of it. */
  from: z.array(z.union([IdSchema, z.strictObject({ step: IdSchema, share: RatioSchema })])).default([]),
  change: ChangeSchema.optional(),
  discard: DiscardSchema.optional(),
  cooks: CooksSchema.optional(),
  work: WorkSchema.optional(),
  passive: z
    .union([z.strictObject({ min: minutes }), z.strictObject({ perKgMin: minutes, fixedMin: minutes })])
    .optional(),
  target: TargetSchema.optional(),
  attended: z.strictObject({ min: minutes, every: z.number().positive() }).optional(),
  uses: z.array(UseSchema).default([]),
  pull: z
    .array(
      z.strictObject({
        smallware: z.string().min(1),
        count: z.number().positive(),
        per: z.enum(["batch", "kg", "piece"]).default("batch"),
        /** Whether it is washed and used again; by its name unless said: film, bags, paper, cloth are used up. */
        reusable: z.boolean().optional(),
      }),
    )
    .default([]),
  after: z
    .array(
      z.strictObject({
        /** A step of this preparation, or of another one that enters it. */
        step: z.union([IdSchema, z.strictObject({ preparation: IdSchema, step: IdSchema })]),
        from: z.enum(["start", "end"]).default("end"),
        leastMin: minutes.default(0),
        mostMin: minutes.optional(),
      }),
    )
    .default([]),
  hold: HoldSchema.optional(),
  control: ControlSchema.optional(),
});
export type Step = z.infer<typeof StepSchema>;

export const BatchSchema = z.strictObject({
  /** Largest output of one batch. */
  maxAmount: AmountSchema.optional(),
  maxPieces: z.number().int().positive().optional(),
  vessel: z.string().optional(),
  /** even: equal batches; full-then-rest: full ones and a last smaller one; whole-only: full ones alone. */
  policy: z.enum(["even", "full-then-rest", "whole-only"]).default("even"),
});

export const PreparationSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  description: z.string().optional(),
  yield: z.strictObject({
    amount: AmountSchema,
    pieces: z.number().positive().optional(),
    /** How far the balance of the steps may stand from the declared yield, as a ratio. */
    tolerance: z.number().nonnegative().default(0.02),
    basis: z.enum(["measured", "computed"]).default("measured"),
  }),
  lines: z.array(LineSchema).min(1),
  steps: z.array(StepSchema).min(1),
  batch: BatchSchema.default({ policy: "even" }),
  overage: z.number().nonnegative().optional(),
  piece: PieceSchema.optional(),
  life: z
    .array(
      z.strictObject({
        state: z.enum(["hot", "cold", "frozen", "ambient"]),
        maxMinutes: z.number().positive(),
        atLeastC: z.number().optional(),
        atMostC: z.number().optional(),
        source: SourceSchema.optional(),
      }),
    )
    .default([]),
  bestWithinMinutes: z.number().positive().optional(),
  /** kg per litre of the finished preparation, for ladles, moulds and plates. */
  density: z.strictObject({ kgPerL: z.number().positive(), source: SourceSchema }).optional(),
  /** Of 100 g when finished, measured or published: for nutrition it goes before what the formula comes to. */
  composition: CompositionSchema.optional(),
  /** Readings that belong to the preparation: salt %, pH, degrees Brix, dough temperature. */
  specification: z
    .array(
      z.strictObject({
        what: z.string(),
        least: z.number().optional(),
        most: z.number().optional(),
        unit: z.string(),
      }),
    )
    .default([]),
  notes: z.string().optional(),
});
export type Preparation = z.infer<typeof PreparationSchema>;
