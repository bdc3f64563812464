import type { Random } from "../../numerics/random.ts";
import { ALLERGENS, type Origin } from "../../pantry/schema.ts";
import { between, chance, type Docs, INVENTED } from "./draw.ts";

const PLAIN: readonly Origin[] = ["plant", "fungus", "mineral"];
const OTHER: readonly (readonly Origin[])[] = [
  ["meat"],
  ["meat", "raw-animal"],
  ["poultry", "raw-animal"],
  ["fish", "raw-animal"],
  ["fish"],
  ["shellfish"],
  ["dairy"],
  ["dairy", "unpasteurised"],
  ["egg"],
  ["egg", "raw-egg"],
  ["honey"],
  ["plant", "alcohol"],
  ["gelatin", "pork"],
  ["dairy", "rennet"],
];

/** Tap water, three ingredients that nothing speaks against, and others of every sort. */
export function randomIngredients(random: Random, count: number): Docs<"ingredients">[] {
  const list: Docs<"ingredients">[] = [
    {
      ...{ id: "water", name: "Water", free: true, origin: ["mineral"] },
      ...{ allergens: { status: "known" }, storage: { state: "ambient", days: 365 } },
      densities: [{ state: "plain", kgPerL: 1, source: INVENTED }],
      composition: { water: 100, source: INVENTED },
    },
  ];
  for (let i = 1; i <= count; i++) {
    const plain = i <= 3;
    const origin = plain || chance(random, 0.4) ? [random.pick(PLAIN)] : [...random.pick(OTHER)];
    const water = between(random, 40, 90);
    const some = (p: number) => (plain ? [] : ALLERGENS.filter(() => chance(random, p)));
    list.push({
      id: `ingredient-${i}`,
      name: `Ingredient ${i}`,
      densities: [{ state: "plain", kgPerL: between(random, 50, 140) / 100, source: INVENTED }],
      pieces: chance(random, 0.6) ? [{ name: "piece", g: between(random, 5, 900), source: INVENTED }] : [],
      cuts: Array.from({ length: random.below(3) }, (_, k) => ({
        ...{ id: `cut-${k + 1}`, name: `Cut ${k + 1}`, source: INVENTED },
        trimYield: between(random, 40, 100) / 100,
      })),
      composition: { water, protein: 4, fat: 5, carbohydrate: 100 - water - 10, ash: 1, source: INVENTED },
      allergens: {
        status: !plain && chance(random, 0.05) ? "unknown" : "known",
        contains: some(0.06),
        mayContain: some(0.03),
      },
      origin,
      storage: chance(random, 0.12)
        ? { state: "frozen", days: 180 }
        : { state: chance(random, 0.5) ? "cold" : "ambient", days: between(random, 3, 60) },
    });
  }
  return list;
}

/** One to three suppliers; each ingredient is offered by one of them at least. */
export function randomSuppliers(
  random: Random,
  ingredients: readonly Docs<"ingredients">[],
): Docs<"suppliers">[] {
  const count = between(random, 1, 3);
  return Array.from({ length: count }, (_, s) => {
    const offers: NonNullable<Docs<"suppliers">["offers"]> = [];
    ingredients.forEach((ingredient, i) => {
      if (ingredient.free || (i % count !== s && chance(random, 0.6))) return;
      const cut = random.pick([undefined, undefined, ...(ingredient.cuts ?? [])]);
      const price = between(random, 80, 6000);
      offers.push({
        id: `offer-${s + 1}-${i}`,
        ingredient: ingredient.id,
        ...(cut && i % count !== s ? { cut: cut.id } : {}),
        inner: random.pick([
          { value: between(random, 1, 20) * 250, unit: "g" },
          { value: between(random, 1, 5), unit: "kg" },
          { value: random.pick(["1/2", 1, 5]), unit: "L" },
        ]),
        innerPerPack: between(random, 1, 6),
        price: (price / 100).toFixed(2),
        breaks: chance(random, 0.3)
          ? [{ fromPacks: between(random, 2, 6), price: (price / 120).toFixed(2) }]
          : [],
        ...(chance(random, 0.05) ? { allergens: { mayContain: [random.pick(ALLERGENS)] } } : {}),
      });
    });
    return {
      ...{ id: `supplier-${s + 1}`, name: `Supplier ${s + 1}`, offers },
      minimumOrder: String(between(random, 0, 80)),
      deliveryCharge: String(between(random, 0, 12)),
      deliveryDays: ["mon", "tue", "wed", "thu", "fri", "sat"],
      cutoff: { daysBefore: between(random, 0, 2), clock: "14:00" },
      arrivesBy: "07:30",
    };
  });
}
