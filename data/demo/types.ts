import type { z } from "zod";
import type { KitchenSchema, ServiceSchema } from "../../core/production/schema.ts";
import type { SupplierSchema } from "../../core/purchasing/schema.ts";

/** Documents as they are written by hand: what a schema fills in by default may be left out. */
export type SupplierInput = z.input<typeof SupplierSchema>;
export type KitchenInput = z.input<typeof KitchenSchema>;
export type ServiceInput = z.input<typeof ServiceSchema>;
