import { z } from "zod";
import { IdSchema } from "../pantry/schema.ts";

/**
 * Bodies of log entries that measure something, or say what counts. Masses in grams, times in minutes. An entry is
 * never changed: a correction is a new entry of the same kind that names the first.
 */
const grams = z.number().positive().lte(1e9);
const minutes = z.number().positive().lte(100_000);
const name = z.string().min(1).max(200);

/** What a trim left: bought, and usable. */
export const TrimSchema = z
  .strictObject({ kind: z.literal("trim"), ingredient: IdSchema, cut: IdSchema, apG: grams, epG: grams })
  .refine(({ apG, epG }) => epG <= apG, {
    error: "more was usable than was bought: check which of the two is which",
    path: ["epG"],
  });

/** What a step made of what went in; what came out is weighed as it goes on to the next step. */
export const CookSchema = z.strictObject({
  kind: z.literal("cook"),
  preparation: IdSchema,
  step: IdSchema,
  inG: grams,
  outG: grams,
});

/** Pieces counted out of a mass. */
export const PiecesSchema = z.strictObject({
  kind: z.literal("pieces"),
  ingredient: IdSchema,
  piece: name,
  g: grams,
  pieces: z.number().positive().lte(1e6),
});

/** How long hands were on a step, beside what the plan had given them. */
export const TimeSchema = z.strictObject({
  kind: z.literal("time"),
  preparation: IdSchema,
  step: IdSchema,
  task: z.string().max(400).optional(),
  plannedMin: minutes,
  actualMin: minutes,
});

/** Plates of a course as they were eaten, and the covers that had been promised and expected. */
export const CoversSchema = z.strictObject({
  kind: z.literal("covers"),
  menu: IdSchema,
  course: IdSchema,
  dishes: z
    .array(z.strictObject({ dish: IdSchema, count: z.number().int().nonnegative().lte(100_000) }))
    .min(1)
    .max(100),
  guaranteed: z.number().int().positive().lte(100_000).optional(),
  expected: z.number().int().positive().lte(100_000).optional(),
});

/** What a person says of an odd measurement: it counts, or it does not, and why. */
export const JudgedSchema = z
  .strictObject({
    kind: z.literal("judged"),
    entry: z.uuid(),
    counts: z.boolean(),
    reason: z.string().min(1).max(2000).optional(),
  })
  .refine(({ counts, reason }) => counts || reason !== undefined, {
    error: "what is left out needs a reason",
    path: ["reason"],
  });

const workMinutes = z.strictObject({
  fixedMin: z.number().nonnegative(),
  perKgMin: z.number().nonnegative().optional(),
  perPieceMin: z.number().nonnegative().optional(),
  perBatchMin: z.number().nonnegative().optional(),
});

/** A learned figure that a person took into the book: what stood there and what stands there now. */
export const AcceptedSchema = z.strictObject({
  kind: z.literal("accepted"),
  /** "cut/celeriac/peeled", "step/short-rib/braise", "piece/eggs/piece", "work/char/portion". */
  figure: z.string().min(1).max(400),
  from: z.number().positive(),
  to: z.number().positive(),
  sourceBefore: z.enum(["published", "memory", "measured", "invented"]),
  n: z.number().int().positive(),
  /** For work: the minutes as they now stand in the book; `to` is then their ratio to what stood there. */
  work: workMinutes.optional(),
});

export const LEARNING_BODIES = [
  TrimSchema,
  CookSchema,
  PiecesSchema,
  TimeSchema,
  CoversSchema,
  JudgedSchema,
  AcceptedSchema,
] as const;

export type Trim = z.infer<typeof TrimSchema>;
export type Cook = z.infer<typeof CookSchema>;
export type Pieces = z.infer<typeof PiecesSchema>;
export type Time = z.infer<typeof TimeSchema>;
export type Covers = z.infer<typeof CoversSchema>;
export type Judged = z.infer<typeof JudgedSchema>;
export type Accepted = z.infer<typeof AcceptedSchema>;
export type LearningBody = Trim | Cook | Pieces | Time | Covers | Judged | Accepted;
