import { z } from "zod";
import { MoneyTextSchema } from "../money/schema.ts";
import { AllergenSchema, IdSchema } from "../pantry/schema.ts";
import { AmountSchema } from "../quantity/schema.ts";

/** Needs a guest may have: diets, allergens as "no-…", states of life. */
export const DIETS = [
  "vegetarian",
  "vegan",
  "pescatarian",
  "coeliac",
  "no-alcohol",
  "pregnant",
  "no-pork",
  "no-shellfish",
] as const;
/** A need: one of the diets, or `no-` and an allergen ("no-tree-nut"). */
export const NeedSchema = z.union([z.enum(DIETS), z.templateLiteral(["no-", AllergenSchema])]);
export type Need = z.infer<typeof NeedSchema>;

export const FORMS = ["quenelle", "slice", "fan", "line", "pool", "dot", "mound", "crisp", "layer"] as const;

/** One thing put on the plate. Origin at the plate's centre, the guest at −y, lengths in mm. */
export const PlacementSchema = z
  .strictObject({
    n: z.number().int().positive(),
    /** Exactly one of the two is given. */
    preparation: IdSchema.optional(),
    ingredient: IdSchema.optional(),
    cut: IdSchema.optional(),
    /** Amount on one plate, in all its `count` pieces. */
    amount: AmountSchema,
    form: z.enum(FORMS),
    count: z.number().int().positive().default(1),
    /** Size of one piece seen from above, [along, across]; else from amount and density. */
    sizeMm: z.tuple([z.number().positive(), z.number().positive()]).optional(),
    xMm: z.number(),
    yMm: z.number(),
    turnDeg: z.number().default(0),
    gesture: z.string().min(1),
    hands: z.number().int().positive().max(100).default(1),
    seconds: z.number().nonnegative(),
    serveC: z.strictObject({ atLeast: z.number().optional(), atMost: z.number().optional() }).optional(),
  })
  .refine((p) => (p.preparation === undefined) !== (p.ingredient === undefined), {
    message: "a placement is of one preparation or of one ingredient: name exactly one",
    path: ["preparation"],
  });
export type Placement = z.infer<typeof PlacementSchema>;

/** What changes on the plate for a need: placements dropped, replaced, added. */
export const VariantSchema = z.strictObject({
  need: NeedSchema,
  drop: z.array(z.number().int().positive()).default([]),
  replace: z
    .array(z.strictObject({ n: z.number().int().positive(), placement: PlacementSchema }))
    .default([]),
  add: z.array(PlacementSchema).default([]),
});
export type Variant = z.infer<typeof VariantSchema>;

export const DishSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  description: z.string().min(1),
  plate: z.strictObject({
    outline: z.enum(["round", "oval", "square", "bowl"]),
    name: z.string().optional(),
    widthMm: z.number().positive(),
    depthMm: z.number().positive(),
    /** Diameter of the flat or hollow part that food may cover. */
    wellMm: z.number().positive(),
    plateC: z.number().optional(),
  }),
  sell: MoneyTextSchema.optional(),
  placements: z.array(PlacementSchema).min(1),
  variants: z.array(VariantSchema).default([]),
  /** How long plating of all covers may last. */
  windowMin: z.number().positive(),
});
export type Dish = z.infer<typeof DishSchema>;
