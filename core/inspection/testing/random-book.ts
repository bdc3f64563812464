import { type Book, type BookInput, BookSchema } from "../../book/schema.ts";
import { Random } from "../../numerics/random.ts";
import { randomKitchens } from "./random-kitchen.ts";
import { randomMenu } from "./random-menu.ts";
import { randomOrders } from "./random-orders.ts";
import { randomPreparations } from "./random-preparation.ts";
import { randomService } from "./random-service.ts";
import { randomIngredients, randomSuppliers } from "./random-store.ts";

/**
 * A valid book of neutral names, always the same for a seed: ingredients and offers, `size` preparations (3 to 40)
 * nested up to five deep, dishes with variants, three kitchens ("small", "middle", "large") and one service
 * ("service-1") in one of them. Some services fit their kitchen and some do not.
 */
export function randomBook(seed: number, size: number): Book {
  const random = Random.of(`book ${seed} ${size}`);
  const ingredients = randomIngredients(random.derive("ingredients"), 5 + Math.ceil(size / 2));
  const suppliers = randomSuppliers(random.derive("suppliers"), ingredients);
  const kitchens = randomKitchens(
    random.derive("kitchens"),
    suppliers.map((supplier) => supplier.id),
  );
  const preparations = randomPreparations(random.derive("preparations"), ingredients, size);
  const { dishes, menu } = randomMenu(random.derive("menu"), ingredients, preparations);
  const service = randomService(random.derive("service"), menu, preparations, ingredients);
  const drawn = randomOrders(random.derive("orders"), { ingredients, suppliers, service });
  return BookSchema.parse({
    ...{ format: "tournant-book", version: 1, preparations, dishes, menus: [menu], kitchens },
    ...{ ingredients: [...drawn.ingredients], suppliers: [...drawn.suppliers], services: [drawn.service] },
  } satisfies BookInput);
}
