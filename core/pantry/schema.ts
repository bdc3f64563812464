import { z } from "zod";
import { MoneyTextSchema } from "../money/schema.ts";
import { SourceSchema } from "../quantity/schema.ts";
import { RETENTION_GROUPS } from "./retention-groups.ts";

/** Kebab-case name of a document, unique within its kind. */
export const IdSchema = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "an id is kebab-case: small letters, digits and single hyphens");

/** A share between 0 and 1 that is never written as a percentage. */
export const RatioSchema = z.number().gt(0).lte(1);

/** Allergens as a closed list: the fourteen of EU 1169/2011 Annex II; the US nine are read off these. */
export const ALLERGENS = [
  "gluten",
  "wheat",
  "crustacean",
  "egg",
  "fish",
  "peanut",
  "soy",
  "milk",
  "tree-nut",
  "celery",
  "mustard",
  "sesame",
  "sulphite",
  "lupin",
  "mollusc",
] as const;
export const AllergenSchema = z.enum(ALLERGENS);
export type Allergen = z.infer<typeof AllergenSchema>;

/** What a food comes from; diets are rules over these words (see safety/). */
export const ORIGINS = [
  "meat",
  "poultry",
  "fish",
  "shellfish",
  "egg",
  "dairy",
  "honey",
  "plant",
  "fungus",
  "mineral",
  "alcohol",
  "gelatin",
  "rennet",
  "insect",
  "pork",
  "raw-animal",
  "raw-egg",
  "unpasteurised",
  "wild-mushroom",
] as const;
export const OriginSchema = z.enum(ORIGINS);
export type Origin = z.infer<typeof OriginSchema>;

/** Mass fractions of the edible portion, g per 100 g; what is left out is not known, not zero. */
export const CompositionSchema = z.strictObject({
  water: z.number().nonnegative().optional(),
  protein: z.number().nonnegative().optional(),
  fat: z.number().nonnegative().optional(),
  saturated: z.number().nonnegative().optional(),
  carbohydrate: z.number().nonnegative().optional(),
  sugars: z.number().nonnegative().optional(),
  fibre: z.number().nonnegative().optional(),
  ash: z.number().nonnegative().optional(),
  alcohol: z.number().nonnegative().optional(),
  /** Salt as in EU 1169/2011: sodium × 2.5. */
  salt: z.number().nonnegative().optional(),
  cholesterolMg: z.number().nonnegative().optional(),
  energyKcal: z.number().nonnegative().optional(),
  trans: z.number().nonnegative().optional(),
  /** Sugars that are no part of the food by nature, as 21 CFR 101.9(c)(6)(iii) counts them. */
  addedSugars: z.number().nonnegative().optional(),
  vitaminDUg: z.number().nonnegative().optional(),
  calciumMg: z.number().nonnegative().optional(),
  ironMg: z.number().nonnegative().optional(),
  potassiumMg: z.number().nonnegative().optional(),
  source: SourceSchema,
});
export type Composition = z.infer<typeof CompositionSchema>;

/** The months of the year (1 to 12, each once) in which a food is at its best where the kitchen buys. */
export const SeasonSchema = z.strictObject({
  months: z
    .array(z.int().min(1).max(12))
    .min(1)
    .max(12)
    .refine((months) => new Set(months).size === months.length, { error: "each month is named once" }),
  source: SourceSchema,
});

/** Mass cooked over mass put in, by method: under 1 for what loses water and fat, over 1 for what takes up water. */
export const CookingYieldSchema = z.strictObject({
  method: z.string().min(1),
  yield: z.number().gt(0).lte(20),
  source: SourceSchema,
});

/** What a chef lets stand in: in place of a gram `factor` grams, when the food cannot be had, or also when cheaper. */
export const SubstituteSchema = z.strictObject({
  ingredient: IdSchema,
  cut: IdSchema.optional(),
  factor: z.number().positive().max(100).default(1),
  when: z.enum(["missing", "cheaper"]).default("missing"),
});
export type Substitute = z.infer<typeof SubstituteSchema>;

export const IngredientSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  aliases: z.array(z.string()).default([]),
  densities: z
    .array(z.strictObject({ state: z.string().min(1), kgPerL: z.number().positive(), source: SourceSchema }))
    .default([]),
  pieces: z
    .array(z.strictObject({ name: z.string().min(1), g: z.number().positive(), source: SourceSchema }))
    .default([]),
  /** Trim yield of a cut is EP / AP. `refuse` names what is left. */
  cuts: z
    .array(
      z.strictObject({
        id: IdSchema,
        name: z.string().min(1),
        trimYield: RatioSchema,
        /** Standard deviation of the trim yield of one lot, as measured here. */
        spread: z.number().nonnegative().lte(1).optional(),
        refuse: z.string().optional(),
        /** Trim that is used elsewhere: its share of what is bought, and what it is worth a kilogram. */
        usableTrim: z.strictObject({ share: RatioSchema, valuePerKg: MoneyTextSchema }).optional(),
        source: SourceSchema,
      }),
    )
    .default([]),
  composition: CompositionSchema.optional(),
  freezingC: z.number().optional(),
  /** Group of raw food whose minerals are known after cooking (safety N6). */
  retentionGroup: z.enum(RETENTION_GROUPS).optional(),
  season: SeasonSchema.optional(),
  cookingYields: z.array(CookingYieldSchema).optional(),
  allergens: z.strictObject({
    status: z.enum(["known", "unknown"]),
    contains: z.array(AllergenSchema).default([]),
    mayContain: z.array(AllergenSchema).default([]),
  }),
  origin: z.array(OriginSchema).min(1),
  storage: z.strictObject({
    state: z.enum(["ambient", "cold", "frozen"]),
    days: z.number().positive(),
  }),
  /** Water from the tap and the like: used, counted in mass, never ordered or paid for. */
  free: z.boolean().optional(),
  /** What a chef lets stand in for it wherever it is used. */
  substitutes: z.array(SubstituteSchema).max(10).optional(),
  notes: z.string().optional(),
});
export type Ingredient = z.infer<typeof IngredientSchema>;

/** What a line or placement is made of: exactly one of an ingredient (in a cut) or a preparation. */
export const ItemSchema = z.union([
  z.strictObject({ ingredient: IdSchema, cut: IdSchema.optional() }),
  z.strictObject({ preparation: IdSchema }),
]);
export type Item = z.infer<typeof ItemSchema>;
