import { z } from "zod";
import { IdSchema } from "../pantry/schema.ts";
import { NeedSchema } from "../plating/schema.ts";
import { AmountSchema } from "../quantity/schema.ts";

/** What tells one lot from another: the ingredient, the code on the pack, and whose code it is. */
export const LotRefSchema = z.strictObject({
  ingredient: IdSchema,
  /** As it stands on the pack. */
  lot: z.string().trim().min(1).max(120),
  /** Two suppliers may write the same code; none for what stood in the store before deliveries were noted. */
  supplier: IdSchema.optional(),
});
export type LotRef = z.infer<typeof LotRefSchema>;

const BatchRefSchema = z.strictObject({
  preparation: IdSchema,
  batch: z.number().int().positive().lte(10_000),
  /** The service it was made for, when not the entry's own: what was kept from another day. */
  service: z.string().min(1).max(200).optional(),
});
export type BatchRef = z.infer<typeof BatchRefSchema>;

/** Goods at the door: taken in, or refused and why. */
export const DeliverySchema = z
  .strictObject({
    kind: z.literal("delivery"),
    of: LotRefSchema.required({ supplier: true }),
    /** The order's line. */
    offer: IdSchema.optional(),
    amount: AmountSchema,
    useBy: z.iso.date(),
    /** °C, as read at the door. */
    celsius: z.number().gte(-80).lte(120).optional(),
    accepted: z.boolean(),
    reason: z.string().min(1).max(2000).optional(),
  })
  .refine(({ accepted, reason }) => accepted || reason !== undefined, {
    error: "what is refused needs a reason",
    path: ["reason"],
  });
export type Delivery = z.infer<typeof DeliverySchema>;

/** A lot opened for a batch, or a batch that went into another one or onto plates. */
export const UsedSchema = z
  .strictObject({
    kind: z.literal("used"),
    lot: LotRefSchema.optional(),
    batch: BatchRefSchema.optional(),
    into: z.union([
      BatchRefSchema,
      z.strictObject({
        course: IdSchema,
        dish: IdSchema,
        /** The seats that had it; all plates of the dish when none is named. */
        seats: z.array(z.string().min(1).max(200)).max(2000).optional(),
      }),
    ]),
    /** Not noted: the lot was opened, nobody weighed what was taken. */
    amount: AmountSchema.optional(),
  })
  .refine(({ lot, batch }) => (lot === undefined) !== (batch === undefined), {
    error: "name either a lot or a batch, not both",
    path: ["lot"],
  });
export type Used = z.infer<typeof UsedSchema>;

export const DiscardedSchema = z.strictObject({
  kind: z.literal("discarded"),
  lot: LotRefSchema,
  amount: AmountSchema,
  reason: z.string().min(1).max(2000),
});
export type Discarded = z.infer<typeof DiscardedSchema>;

/** What is really there, weighed or counted; the difference to the records is kept beside it. */
export const CountedSchema = z.strictObject({
  kind: z.literal("counted"),
  lot: LotRefSchema,
  amount: AmountSchema,
  useBy: z.iso.date().optional(),
});
export type Counted = z.infer<typeof CountedSchema>;

/**
 * What a service makes of what, as it was planned, kept beside its records: a recall a year on must not depend on a book
 * that has changed since.
 */
export const ShapeSchema = z.strictObject({
  kind: z.literal("shape"),
  name: z.string().min(1).max(200),
  /** ISO instants in UTC: no work before, and the end of the last course. */
  from: z.iso.datetime(),
  to: z.iso.datetime(),
  made: z
    .array(
      z.strictObject({
        preparation: IdSchema,
        batches: z.number().int().positive().lte(10_000),
        ingredients: z.array(IdSchema).max(1000),
        preparations: z.array(IdSchema).max(1000),
      }),
    )
    .max(2000),
  plates: z
    .array(
      z.strictObject({
        course: IdSchema,
        dish: IdSchema,
        variant: z.string().max(200),
        needs: z.array(NeedSchema),
        count: z.number().int().nonnegative().lte(100_000),
        seats: z.array(z.string().min(1).max(200)).max(100_000),
        ingredients: z.array(IdSchema).max(1000),
        preparations: z.array(IdSchema).max(1000),
      }),
    )
    .max(2000),
  /** What goes with every cover and stands on no plate, and the seats that are known by name; absent where nothing does. */
  beside: z
    .strictObject({
      covers: z.number().int().nonnegative().lte(100_000),
      seats: z.array(z.string().min(1).max(200)).max(100_000),
      ingredients: z.array(IdSchema).max(1000),
      preparations: z.array(IdSchema).max(1000),
    })
    .optional(),
});
export type Shape = z.infer<typeof ShapeSchema>;

export const LOT_BODIES = [DeliverySchema, UsedSchema, DiscardedSchema, CountedSchema, ShapeSchema] as const;
export type LotBody = Delivery | Used | Discarded | Counted | Shape;
