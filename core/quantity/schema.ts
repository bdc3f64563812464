import { z } from "zod";
import { UNIT_SYMBOLS, type Unit } from "./units.ts";

const UNIT_LOOKUP = new Map(UNIT_SYMBOLS.map((symbol) => [symbol.toLowerCase(), symbol]));

/** One symbol of the closed list of units. */
export const UnitSchema = z.enum(UNIT_SYMBOLS, {
  error: (issue) => {
    const near = UNIT_LOOKUP.get(String(issue.input).trim().toLowerCase());
    const mend = near ? `write "${near}"` : `use one of ${UNIT_SYMBOLS.slice(0, 26).join(", ")} …`;
    return `${JSON.stringify(issue.input) ?? "nothing"} is not a known unit: ${mend}`;
  },
});

/** An exact number as text: "3", "2.5", "1/3", "1 3/4". No sign, no zero denominator. */
export const EXACT_TEXT = /^(?:\d{1,12}(?:\.\d{1,12})?|(?:\d{1,12} )?\d{1,12}\/0{0,11}[1-9]\d{0,11})$/;

export const ExactTextSchema = z
  .string()
  .regex(EXACT_TEXT, { error: 'write an exact number as "3", "2.5", "1/3" or "1 3/4"' });

/** A number that is not negative, or an exact number as text. */
export const ValueSchema = z.union(
  [z.number().min(0, { error: "an amount is 0 or more" }), ExactTextSchema],
  {
    error: 'an amount is a number from 0 up, or an exact text such as "1/3" or "1 3/4"',
  },
);

/** How much of something. Counts have the unit "piece" (or a named piece such as "clove"). */
export const AmountSchema = z.strictObject({ value: ValueSchema, unit: UnitSchema });

/** Where a physical value comes from. */
export const SourceSchema = z.strictObject({
  doc: z.string().min(1),
  table: z.string().min(1).optional(),
  kind: z.enum(["published", "memory", "measured", "invented"]),
});

export type Value = z.infer<typeof ValueSchema>;
export type Amount = { value: Value; unit: Unit };
export type Source = z.infer<typeof SourceSchema>;
export type { Unit } from "./units.ts";
