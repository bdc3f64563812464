import { z } from "zod";
import { CurrencySchema, MoneyTextSchema } from "../money/schema.ts";
import { AllergenSchema, IdSchema } from "../pantry/schema.ts";
import { AmountSchema } from "../quantity/schema.ts";

export const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
/** Wall-clock time "HH:MM" on a 24-hour clock. */
export const WallClockSchema = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time is "HH:MM", 24-hour');

export const OfferSchema = z.strictObject({
  id: IdSchema,
  ingredient: IdSchema,
  /** Sold already in this cut: no trim is taken again. */
  cut: IdSchema.optional(),
  /** Content of one inner unit (mass, volume or count). */
  inner: AmountSchema,
  innerPerPack: z.number().int().positive(),
  /** Price of one pack; for catch-weight goods, of one pack at its nominal weight. */
  price: MoneyTextSchema,
  breaks: z
    .array(z.strictObject({ fromPacks: z.number().int().positive(), price: MoneyTextSchema }))
    .default([]),
  catchWeight: z.boolean().optional(),
  /** Of catch-weight goods: standard deviation of the weight of one pack, as a ratio of its nominal weight. */
  weightSpread: z.number().nonnegative().max(0.5).optional(),
  /** What this supplier declares beyond the ingredient's own allergens. */
  allergens: z
    .strictObject({
      contains: z.array(AllergenSchema).default([]),
      mayContain: z.array(AllergenSchema).default([]),
    })
    .optional(),
  /** The supplier's own number of the article, and what the supplier calls it: by these the next list finds it. */
  code: z.string().min(1).max(40).optional(),
  called: z.string().min(1).max(200).optional(),
  from: z.iso.date().optional(),
  until: z.iso.date().optional(),
});
export type Offer = z.infer<typeof OfferSchema>;

export const SupplierSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  /** What all its prices are in; that of the kitchens that buy there unless said. */
  currency: CurrencySchema.optional(),
  minimumOrder: MoneyTextSchema.default("0"),
  deliveryCharge: MoneyTextSchema.default("0"),
  deliveryDays: z.array(z.enum(WEEKDAYS)).min(1),
  /** An order must be in `daysBefore` days before the delivery, by `clock`. */
  cutoff: z.strictObject({ daysBefore: z.number().int().nonnegative(), clock: WallClockSchema }),
  /** Latest arrival on a delivery day; nothing delivered that day is counted on before. */
  arrivesBy: WallClockSchema.default("08:00"),
  offers: z.array(OfferSchema).default([]),
});
export type Supplier = z.infer<typeof SupplierSchema>;
