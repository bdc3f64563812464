import { z } from "zod";
import { SPACE_UNITS } from "../formula/schema.ts";
import { MoneyTextSchema } from "../money/schema.ts";
import { IdSchema, ItemSchema, RatioSchema } from "../pantry/schema.ts";
import { NeedSchema } from "../plating/schema.ts";
import { AmountSchema, SourceSchema } from "../quantity/schema.ts";

/** A moment of the run: "D-1 14:00", "D 19:30"; D is the date of service, kitchen's local time. */
export const ClockSchema = z
  .string()
  .regex(
    /^D([-+]\d{1,2})? ([01]\d|2[0-3]):[0-5]\d$/,
    'a moment is "D-1 14:00": days from service, then 24-hour time',
  );

/**
 * What goes with every cover and stands on no plate (the trade's Q-factor: seasoning, frying fat, bread, butter):
 * an amount of money a cover, a share of the cost of the plates, or the items themselves. Ingredients listed are costed and ordered.
 */
export const SurroundSchema = z.union([
  z.strictObject({ perCover: MoneyTextSchema, source: SourceSchema.optional() }),
  z.strictObject({ ratio: z.number().nonnegative().lte(1), source: SourceSchema.optional() }),
  z.strictObject({
    /** Amounts for one cover, EP after the cut. */
    items: z.array(z.strictObject({ item: ItemSchema, amount: AmountSchema })).min(1),
    source: SourceSchema.optional(),
  }),
]);

export const MenuSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  surround: SurroundSchema.optional(),
  courses: z
    .array(
      z.strictObject({
        id: IdSchema,
        name: z.string().min(1),
        /** Minutes from the service time to the first plate of the course at the table. */
        afterMin: z.number(),
        options: z
          .array(
            z.strictObject({
              dish: IdSchema,
              /** Share of the covers not placed by a choice or a need. */
              share: z.number().nonnegative(),
              /** Needs this option is meant for. */
              for: z.array(NeedSchema).optional(),
            }),
          )
          .min(1),
      }),
    )
    .min(1),
});
export type Menu = z.infer<typeof MenuSchema>;

const span = z.strictObject({ from: ClockSchema, to: ClockSchema });

export const KitchenSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  /** IANA time zone. */
  zone: z.string().min(1),
  altitudeM: z.number().gte(-430).lte(9000),
  /** ISO 4217. */
  currency: z.string().regex(/^[A-Z]{3}$/, "a currency is three capitals, like EUR"),
  stations: z.array(z.strictObject({ id: IdSchema, name: z.string().min(1) })).min(1),
  /** What an hour of hands costs, in the currency; a skill's or a person's own goes before it. */
  rate: MoneyTextSchema.optional(),
  skills: z
    .array(z.strictObject({ id: IdSchema, name: z.string().min(1), rate: MoneyTextSchema.optional() }))
    .min(1),
  crew: z.array(
    z.strictObject({
      id: IdSchema,
      name: z.string().min(1),
      skills: z.array(IdSchema),
      rate: MoneyTextSchema.optional(),
      station: IdSchema.optional(),
      shifts: z.array(
        z.strictObject({ from: ClockSchema, to: ClockSchema, breaks: z.array(span).default([]) }),
      ),
    }),
  ),
  equipment: z.array(
    z.strictObject({
      id: IdSchema,
      name: z.string().min(1),
      kind: IdSchema,
      station: IdSchema.optional(),
      /** How many alike; each is a unit of its own. */
      count: z.number().int().positive().max(500).default(1),
      /** Of one unit, by dimension. */
      capacity: z.array(z.strictObject({ unit: z.enum(SPACE_UNITS), value: z.number().positive() })).min(1),
      /** Set temperatures it can hold; with it, one temperature at a time. */
      rangeC: z.tuple([z.number(), z.number()]).optional(),
      changeover: z
        .strictObject({ perKMin: z.number().nonnegative(), leastMin: z.number().nonnegative() })
        .optional(),
      toleranceC: z.number().nonnegative().optional(),
      powerKW: z.number().positive().optional(),
      cleanMin: z.number().nonnegative().optional(),
      setupMin: z.number().nonnegative().optional(),
      /** Shelves share air: allergens may pass from one to the other. */
      sharedAir: z.boolean().optional(),
      /** Food no deeper than this, mm: a blast chiller. */
      maxDepthMm: z.number().positive().optional(),
      days: z.array(span).optional(),
    }),
  ),
  walk: z.array(z.strictObject({ from: IdSchema, to: IdSchema, min: z.number().nonnegative() })).default([]),
  /** Share of hands' time around the work itself: weighing, moving, labelling, cleaning. */
  around: z.number().min(0).max(1).default(0.22),
  measures: z
    .strictObject({
      scaleStepG: z.array(z.number().positive()).default([1]),
      scoopsMl: z.array(z.number().positive()).default([]),
    })
    .default({ scaleStepG: [1], scoopsMl: [] }),
  suppliers: z.array(IdSchema),
  localLimits: z
    .array(z.strictObject({ what: z.string(), value: z.number(), unit: z.string(), doc: z.string() }))
    .default([]),
});
export type Kitchen = z.infer<typeof KitchenSchema>;

/** Asked for by a guest and told at the seat; nothing here decides whether a plate meets it: a certifying person does. */
export const GUEST_FLAGS = ["halal-style", "kosher-style"] as const;
export type GuestFlag = (typeof GUEST_FLAGS)[number];

/** People with the same needs and choices; each person is counted once, inside the covers. */
export const GuestGroupSchema = z.strictObject({
  id: IdSchema,
  count: z.number().int().positive(),
  needs: z.array(NeedSchema),
  flags: z.array(z.enum(GUEST_FLAGS)).optional(),
  seat: z.string().optional(),
  choices: z.array(z.strictObject({ course: IdSchema, dish: IdSchema })).default([]),
});
export type GuestGroup = z.infer<typeof GuestGroupSchema>;

/** How a price is made from a cost. */
export const PricingSchema = z.strictObject({
  /** Food cost as a share of what is left of the price without tax and service charge. */
  wantedShare: RatioSchema,
  /** Prices are multiples of this; the currency's smallest coin if not said. */
  step: MoneyTextSchema.optional(),
  rounding: z.enum(["up", "nearest", "down"]).optional(),
  /** Tax and service charge inside the printed price, each as a ratio of what is before it; tax on both. */
  tax: z.number().nonnegative().lte(2).optional(),
  service: z.number().nonnegative().lte(2).optional(),
});
export type Pricing = z.infer<typeof PricingSchema>;

/** Whether the day of "YYYY-MM-DDT…" stands in the calendar, in a year a kitchen may plan for. */
function isRealDay(at: string): boolean {
  const day = at.slice(0, 10);
  return z.iso.date().safeParse(day).success && day >= "2000" && day < "2200";
}

const weight = z.number().nonnegative().max(1000);

export const ServiceSchema = z.strictObject({
  id: IdSchema,
  name: z.string().min(1),
  menu: IdSchema,
  kitchen: IdSchema,
  /** Local time of the first course, "2027-01-30T19:30". */
  at: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d$/, 'a service time is "YYYY-MM-DDTHH:MM", local')
    .refine(isRealDay, {
      error: "there is no such day between 2000 and 2199",
      params: { mend: "give a day of the calendar" },
    }),
  /** No work before this. */
  horizon: ClockSchema,
  covers: z.number().int().positive(),
  guests: z.array(GuestGroupSchema).default([]),
  /** Plates beyond the covers: the line check and tasting, spare plates. */
  tasting: z.number().int().nonnegative().default(0),
  /** Wanted chance of not running out. */
  chance: z.number().gt(0).lt(1).default(0.95),
  /** How far the covers may miss, as a ratio: the standard deviation of those who come to `covers`. */
  coversSpread: z.number().nonnegative().max(0.5).optional(),
  /** What is left over of goods that keep so many days after the service is worth this share of its price. */
  leftover: z
    .strictObject({ worth: z.number().min(0).max(0.95), keepsDays: z.number().nonnegative() })
    .optional(),
  slackMin: z.number().nonnegative().default(15),
  /** What makes one plan better than another, beside the rules; what is not written has its usual weight. */
  weights: z
    .strictObject({
      /** A minute of the chosen slack eaten. */
      slack: weight.optional(),
      /** A minute food is held beyond its best. */
      stale: weight.optional(),
      /** A minute anything waits for its next use. */
      waiting: weight.optional(),
      /** A change of an oven's temperature. */
      heatUps: weight.optional(),
      /** A minute walked between stations. */
      walking: weight.optional(),
      /** A minute of hands more than the fewest would take. */
      hands: weight.optional(),
      /** A minute of hands at work beyond three quarters of those there in an hour. */
      peaks: weight.optional(),
      /** Work that a break interrupts, once. */
      breaks: weight.optional(),
    })
    .optional(),
  stock: z
    .array(
      z.strictObject({
        item: ItemSchema,
        amount: AmountSchema,
        useBy: z.iso.date(),
        lot: z.string().optional(),
      }),
    )
    .default([]),
  pins: z
    .array(
      z.strictObject({
        task: z.string(),
        start: ClockSchema.optional(),
        crew: z.array(IdSchema).optional(),
        /** By id, or one unit of several alike: "deck-oven#2". */
        equipment: z
          .array(
            z
              .string()
              .regex(/^[a-z0-9]+(-[a-z0-9]+)*(#[1-9]\d*)?$/, 'name equipment, or a unit like "deck-oven#2"'),
          )
          .optional(),
        status: z.enum(["planned", "started", "done"]).optional(),
      }),
    )
    .default([]),
  priceAsOf: z.iso.date(),
  budgetPerCover: MoneyTextSchema.optional(),
  /** What a guest pays for the menu, for the cost share. */
  sellPerCover: MoneyTextSchema.optional(),
  pricing: PricingSchema.optional(),
});
export type Service = z.infer<typeof ServiceSchema>;
