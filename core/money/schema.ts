import { z } from "zod";

/** Money in the kitchen's currency, as an exact decimal string: "12.50". */
export const MoneyTextSchema = z
  .string()
  .regex(/^\d+(\.\d{1,6})?$/, 'money is a decimal string without sign or currency, like "12.50"');
