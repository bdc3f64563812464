import { z } from "zod";
import { DECIMAL_TEXT } from "./money.ts";

/** Money in a document: a decimal text in the kitchen's currency, not negative ("12.50"). */
export const MoneyTextSchema = z
  .string()
  .regex(DECIMAL_TEXT, { error: 'write money as a decimal text such as "12.50"' })
  .refine((text) => !text.startsWith("-"), { error: "a price is not negative" });

/** ISO 4217 code: three capitals. */
export const CurrencySchema = z
  .string()
  .regex(/^[A-Z]{3}$/, { error: 'write a currency as three capitals such as "EUR"' });
