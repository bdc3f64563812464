import { describe, expect, test } from "vitest";
import { type Book, indexBook, parseBook } from "../../core/book/index.ts";
import type { Ingredient } from "../../core/pantry/schema.ts";
import type { Dish } from "../../core/plating/schema.ts";
import type { Offer } from "../../core/purchasing/schema.ts";
import { convert, pieceName } from "../../core/quantity/index.ts";
import { demoBook } from "./book.ts";

const read = parseBook(JSON.parse(JSON.stringify(demoBook)));
const problems = read.ok ? [] : read.problems;
const book = read.ok ? read.value : ({} as Book);

const placementsOf = (dish: Dish) => [
  ...dish.placements,
  ...dish.variants.flatMap((variant) => [...variant.add, ...variant.replace.map((r) => r.placement)]),
];

/** Ingredients and preparations that the dishes of a service's menu need, to any depth. */
function usedBy(menuId: string): {
  ingredients: Set<string>;
  preparations: Set<string>;
  dishes: Set<string>;
} {
  const all = indexBook(book);
  const used = { ingredients: new Set<string>(), preparations: new Set<string>(), dishes: new Set<string>() };
  const enter = (id: string) => {
    if (used.preparations.has(id)) return;
    used.preparations.add(id);
    for (const { item } of all.preparations.get(id)!.lines)
      if ("preparation" in item) enter(item.preparation);
      else used.ingredients.add(item.ingredient);
  };
  for (const course of all.menus.get(menuId)!.courses)
    for (const { dish } of course.options) {
      used.dishes.add(dish);
      for (const placement of placementsOf(all.dishes.get(dish)!)) {
        if (placement.preparation) enter(placement.preparation);
        if (placement.ingredient) used.ingredients.add(placement.ingredient);
      }
    }
  return used;
}

/** Grams of one pack, or a refusal in words. */
function packGrams(offer: Offer, ingredient: Ingredient) {
  const density = ingredient.densities.find((d) => d.state === "plain") ?? ingredient.densities[0];
  const piece = ingredient.pieces.find((p) => p.name === (pieceName(offer.inner.unit) ?? "piece"));
  return convert(offer.inner, "g", { densityKgPerL: density?.kgPerL, gPerPiece: piece?.g });
}

test("D1 the book is accepted", () => {
  expect(problems).toEqual([]);
});

describe.runIf(read.ok)("the demo book", () => {
  test("D1 the supper comes to 45 to 60 preparations, and nothing in the book is an orphan", () => {
    const supper = usedBy("first-light");
    expect(supper.preparations.size).toBeGreaterThanOrEqual(45);
    expect(supper.preparations.size).toBeLessThanOrEqual(60);
    const menus = new Set(book.services.map((service) => service.menu));
    const used = [...menus].map(usedBy);
    const orphans = (all: readonly { id: string }[], of: "preparations" | "dishes") =>
      all.map((each) => each.id).filter((id) => !used.some((u) => u[of].has(id)));
    expect(book.menus.map((menu) => menu.id).filter((id) => !menus.has(id))).toEqual([]);
    expect(orphans(book.dishes, "dishes")).toEqual([]);
    expect(orphans(book.preparations, "preparations")).toEqual([]);
  });

  test("D2 what a service uses has a valid offer of a supplier of its kitchen, and the pack has grams", () => {
    const all = indexBook(book);
    const missing: string[] = [];
    for (const service of book.services) {
      const suppliers = all.kitchens.get(service.kitchen)!.suppliers.map((id) => all.suppliers.get(id)!);
      for (const id of usedBy(service.menu).ingredients) {
        const ingredient = all.ingredients.get(id)!;
        if (ingredient.free) continue;
        const valid = suppliers
          .flatMap((supplier) => supplier.offers)
          .filter((offer) => offer.ingredient === id)
          .filter((offer) => !offer.from || offer.from <= service.priceAsOf)
          .filter((offer) => !offer.until || offer.until >= service.priceAsOf);
        if (valid.length === 0) missing.push(`${service.id}: ${id} has no offer`);
        for (const offer of valid) {
          const grams = packGrams(offer, ingredient);
          if (!grams.ok) missing.push(`${offer.id}: ${grams.message}`);
        }
      }
    }
    expect(missing).toEqual([]);
  });

  test("D2 a bigger pack, a price break or a trimmed cut keeps the price of a kilogram in a credible range", () => {
    const all = indexBook(book);
    for (const ingredient of book.ingredients) {
      const perKg = book.suppliers
        .flatMap((supplier) => supplier.offers)
        .filter((offer) => offer.ingredient === ingredient.id)
        .flatMap((offer) => {
          const grams = packGrams(offer, all.ingredients.get(offer.ingredient)!);
          if (!grams.ok) throw new Error(grams.message);
          return [offer.price, ...offer.breaks.map((b) => b.price)].map(
            (price) => (Number(price) / (grams.value * offer.innerPerPack)) * 1000,
          );
        });
      if (perKg.length === 0) continue;
      expect(Math.min(...perKg), ingredient.id).toBeGreaterThan(0.5);
      // Vanilla is the dearest thing a kitchen buys by weight.
      expect(Math.max(...perKg), ingredient.id).toBeLessThan(1000);
      expect(Math.max(...perKg) / Math.min(...perKg), ingredient.id).toBeLessThan(2.6);
    }
  });

  test("D3 the guests of the supper", () => {
    const service = book.services.find((each) => each.id === "demo")!;
    const persons = (has: (group: (typeof service.guests)[number]) => boolean) =>
      service.guests.filter(has).reduce((sum, group) => sum + group.count, 0);
    const withNeed = (need: string) => persons((group) => group.needs.some((each) => each === need));
    expect(service).toMatchObject({ covers: 72, at: "2027-01-30T19:30", horizon: "D-2 06:00" });
    expect({
      vegetarian: withNeed("vegetarian"),
      both: persons((group) => group.needs.includes("vegetarian") && group.needs.includes("coeliac")),
      vegan: withNeed("vegan"),
      coeliac: withNeed("coeliac"),
      nuts: withNeed("no-tree-nut"),
      noAlcohol: withNeed("no-alcohol"),
      pregnant: withNeed("pregnant"),
    }).toEqual({ vegetarian: 6, both: 1, vegan: 1, coeliac: 3, nuts: 2, noAlcohol: 4, pregnant: 1 });
    const seats = service.guests.map((group) => group.seat);
    expect(new Set(seats).size).toBe(service.guests.length);
  });

  test("D3 with the shares of the menu the main comes to 44, 21 and 7", () => {
    const service = book.services.find((each) => each.id === "demo")!;
    const main = book.menus
      .find((menu) => menu.id === service.menu)!
      .courses.find((course) => course.id === "main")!;
    const rest = service.covers - service.guests.reduce((sum, group) => sum + group.count, 0);
    const shares = main.options.reduce((sum, option) => sum + option.share, 0);
    const counts = main.options.map((option) => {
      const chosen = service.guests
        .filter((group) => group.choices.some((choice) => choice.dish === option.dish))
        .reduce((sum, group) => sum + group.count, 0);
      return { dish: option.dish, chosen, exact: (rest * option.share) / shares };
    });
    const whole = counts.map((each) => ({ ...each, covers: each.chosen + Math.floor(each.exact) }));
    const left = service.covers - whole.reduce((sum, each) => sum + each.covers, 0);
    const byRemainder = [...whole].sort((a, b) => (b.exact % 1) - (a.exact % 1));
    for (const each of byRemainder.slice(0, left)) each.covers += 1;
    expect(Object.fromEntries(whole.map((each) => [each.dish, each.covers]))).toEqual({
      "short-rib": 44,
      "guinea-fowl": 21,
      pithivier: 7,
    });
  });

  test("D4 every kitchen has the stations, skills and kinds of equipment that steps ask for", () => {
    const lacks: string[] = [];
    for (const kitchen of book.kitchens) {
      const has = (list: readonly { id: string }[], id: string) => list.some((each) => each.id === id);
      for (const preparation of book.preparations)
        for (const step of preparation.steps) {
          const at = `${kitchen.id}: ${preparation.id}/${step.id}`;
          if (step.work && !has(kitchen.stations, step.work.station))
            lacks.push(`${at} ${step.work.station}`);
          if (step.work && !kitchen.crew.some((person) => person.skills.includes(step.work!.skill)))
            lacks.push(`${at} ${step.work.skill}`);
          for (const use of step.uses) {
            const fits = kitchen.equipment.some(
              (piece) =>
                (piece.kind === use.kind || piece.id === use.equipment) &&
                piece.capacity.some((room) => room.unit === use.space.unit) &&
                (use.setC === undefined ||
                  !piece.rangeC ||
                  (use.setC >= piece.rangeC[0] && use.setC <= piece.rangeC[1])),
            );
            if (!fits) lacks.push(`${at} ${use.kind ?? use.equipment} ${use.space.unit} ${use.setC ?? ""}`);
          }
        }
    }
    expect(lacks).toEqual([]);
  });

  test("D5 known fractions fill 98 to 101 g of 100 g; only vinegars have a part without a column", () => {
    for (const { id, composition } of book.ingredients) {
      if (!composition) continue;
      const { water = 0, protein = 0, fat = 0, carbohydrate = 0, ash = 0, alcohol = 0 } = composition;
      const sum = water + protein + fat + carbohydrate + ash + alcohol;
      // Spices, leavenings and vinegars keep acids and gases that the table has no column for.
      const least = /vinegar|bicarbonate|baking-powder/.test(id) ? 30 : /pepper|dijon/.test(id) ? 94 : 98;
      expect(sum, id).toBeGreaterThanOrEqual(least);
      expect(sum, id).toBeLessThanOrEqual(101);
      expect(composition.fibre ?? 0, id).toBeLessThanOrEqual((composition.carbohydrate ?? 0) + 0.01);
    }
  });

  test("D6 where light paring is published and practice is known, lines and placements take the practice", () => {
    const all = indexBook(book);
    const light: string[] = [];
    const judge = (where: string, id: string, cut: string | undefined) => {
      const cuts = all.ingredients.get(id)!.cuts;
      const chosen = cuts.find((each) => each.id === cut);
      if (chosen?.source.kind === "published" && cuts.some((each) => each.source.doc.includes("practice")))
        light.push(`${where}: ${id}, ${cut}`);
    };
    for (const { id, lines } of book.preparations)
      for (const { item } of lines) if ("ingredient" in item) judge(id, item.ingredient, item.cut);
    for (const dish of book.dishes)
      for (const placement of placementsOf(dish))
        if (placement.ingredient) judge(dish.id, placement.ingredient, placement.cut);
    expect(light).toEqual([]);
    // The published figure stands beside it all the same.
    const celeriac = all.ingredients.get("celeriac")!.cuts;
    expect(celeriac.map((cut) => [cut.id, cut.trimYield])).toEqual([
      ["pared", 0.86],
      ["peeled", 0.75],
    ]);
  });

  test("D7 restated figures are those of USDA SR28", () => {
    // Water, protein and fat of three foods, read from the release; a wrong row or a shifted column shows here.
    const at = (id: string) => book.ingredients.find((each) => each.id === id)?.composition;
    expect(at("butter")).toMatchObject({ water: 17.94, protein: 0.85, fat: 81.11, energyKcal: 717 });
    expect(at("sugar")).toMatchObject({ carbohydrate: 99.98, energyKcal: 387 });
    expect(at("short-rib")).toMatchObject({ water: 63.84, protein: 17.48, fat: 18.33 });
  });
});
