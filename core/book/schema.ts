import { z } from "zod";
import { PreparationSchema } from "../formula/schema.ts";
import { IngredientSchema } from "../pantry/schema.ts";
import { DishSchema } from "../plating/schema.ts";
import { KitchenSchema, MenuSchema, ServiceSchema } from "../production/schema.ts";
import { SupplierSchema } from "../purchasing/schema.ts";

export const BOOK_FORMAT = "tournant-book";
export const BOOK_VERSION = 1;

/** The schemas of the documents, by the name of their list in a book. */
export const DOCUMENT_SCHEMAS = {
  ingredients: IngredientSchema,
  suppliers: SupplierSchema,
  preparations: PreparationSchema,
  dishes: DishSchema,
  menus: MenuSchema,
  kitchens: KitchenSchema,
  services: ServiceSchema,
} as const;
export type DocumentKind = keyof typeof DOCUMENT_SCHEMAS;
export const DOCUMENT_KINDS = Object.keys(DOCUMENT_SCHEMAS) as DocumentKind[];

export const BookSchema = z.strictObject({
  format: z.literal(BOOK_FORMAT),
  version: z.literal(BOOK_VERSION),
  ingredients: z.array(IngredientSchema).default([]),
  suppliers: z.array(SupplierSchema).default([]),
  preparations: z.array(PreparationSchema).default([]),
  dishes: z.array(DishSchema).default([]),
  menus: z.array(MenuSchema).default([]),
  kitchens: z.array(KitchenSchema).default([]),
  services: z.array(ServiceSchema).default([]),
});
/** The frame of a book, its documents not yet looked at. */
export const BookShellSchema = z.strictObject({
  ...BookSchema.shape,
  ...(Object.fromEntries(
    Object.keys(DOCUMENT_SCHEMAS).map((kind) => [kind, z.array(z.unknown()).default([])]),
  ) as Record<DocumentKind, z.ZodDefault<z.ZodArray<z.ZodUnknown>>>),
});
export type Book = z.infer<typeof BookSchema>;
/** A book as it may be written: what has a default may be left out. */
export type BookInput = z.input<typeof BookSchema>;

/** The published JSON Schema of a book file, made from the same source as the checks. */
export function bookJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(BookSchema, { io: "input", unrepresentable: "any" }) as Record<string, unknown>;
}
