import { describe, expect, test } from "vitest";
import { parseBook } from "../../core/book/index.ts";
import { PantryIndex, SURE } from "../../core/intake/index.ts";
import { type ALLERGENS, IngredientSchema } from "../../core/pantry/schema.ts";
import { unitFacts } from "../../core/quantity/units.ts";
import { pantryBook } from "./book.ts";
import { starterPantry } from "./index.ts";

const pantry = starterPantry.map((each) => IngredientSchema.parse(each));
const byId = new Map(pantry.map((each) => [each.id, each]));
/** Ids of all that are called so, by name or alias. */
const called = (words: RegExp) =>
  pantry.filter(({ name, aliases }) => [name, ...aliases].some((each) => words.test(each)));
const holds = (id: string) => byId.get(id)!.allergens.contains;

describe("the starter pantry", () => {
  test("P1 at least 400 ingredients, each id, name and other name once", () => {
    expect(pantry.length).toBeGreaterThanOrEqual(400);
    expect(byId.size).toBe(pantry.length);
    const names = pantry.flatMap(({ name, aliases }) => [name, ...aliases].map((each) => each.toLowerCase()));
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  });

  test("P9 what a recipe in another language calls a common ingredient finds it, surely", () => {
    const index = new PantryIndex(pantry);
    const table: Record<string, string> = {
      ...{
        "beurre doux": "butter",
        œufs: "eggs",
        "crème liquide": "cream",
        poireaux: "leek",
        "farine de blé": "plain-flour",
      },
      ...{ huevos: "eggs", ajo: "garlic", nata: "cream", "aceite de oliva": "olive-oil", azafrán: "saffron" },
      ...{
        uova: "eggs",
        prezzemolo: "parsley",
        burro: "butter",
        "olio extravergine d'oliva": "olive-oil",
        cozze: "mussel",
      },
      ...{
        Eier: "eggs",
        Zwiebeln: "onion",
        Sahne: "cream",
        Knoblauch: "garlic",
        Petersilie: "parsley",
        Steinpilze: "cep",
      },
    };
    for (const [said, id] of Object.entries(table)) {
      const found = index.find(said);
      expect(found?.ingredient, said).toBe(id);
      expect(found!.confidence, said).toBeGreaterThanOrEqual(SURE);
    }
    expect(
      pantry.filter((one) => one.aliases.some((name) => /[äöüß]|ñ|œ|[àèìòù]$/.test(name))).length,
    ).toBeGreaterThan(60);
  });

  test("P1 a book with only the pantry is accepted, also after its way through a file", () => {
    expect(parseBook(JSON.parse(JSON.stringify(pantryBook))).ok).toBe(true);
  });

  test("P2 known fractions fill 95 to 105 g of 100 g; what the table has no column for is named", () => {
    // Acetic acid of vinegars, carbon dioxide of leavening, volatile oil of pepper have no column.
    const SHORT: Record<string, number> = {
      "white-wine-vinegar": 94,
      "cider-vinegar": 94,
      "sherry-vinegar": 92,
      "balsamic-vinegar": 94,
      "red-wine-vinegar": 93,
      "distilled-vinegar": 94,
      "black-pepper": 94,
      "white-pepper": 94,
      bicarbonate: 37,
    };
    for (const { id, composition } of pantry) {
      if (!composition) continue;
      const { water = 0, protein = 0, fat = 0, carbohydrate = 0, ash = 0, alcohol = 0 } = composition;
      const sum = water + protein + fat + carbohydrate + ash + alcohol;
      expect(sum, id).toBeGreaterThanOrEqual(SHORT[id] ?? 95);
      expect(sum, id).toBeLessThanOrEqual(SHORT[id] === undefined ? 105 : 95);
    }
  });

  test("P2 a part is no more than its whole; published rows that say otherwise are named", () => {
    // Light cream prints more sugars than carbohydrate (by difference); some salted rows more salt than ash.
    const odd: string[] = [];
    for (const { id, composition: c } of pantry) {
      if (!c) continue;
      if ((c.sugars ?? 0) > (c.carbohydrate ?? 0) + 0.3) odd.push(`${id} sugars`);
      if ((c.fibre ?? 0) > (c.carbohydrate ?? 0) + 0.01) odd.push(`${id} fibre`);
      if ((c.saturated ?? 0) > (c.fat ?? 0) + 0.01) odd.push(`${id} saturated`);
      if ((c.salt ?? 0) > (c.ash ?? 0) * 1.05 + 0.3) odd.push(`${id} salt`);
    }
    expect(odd.sort()).toEqual([
      "bicarbonate salt",
      "cooking-wine salt",
      "single-cream sugars",
      "smoked-salmon salt",
    ]);
  });

  test("P2 energy lies between the general factors with fibre at 4 and at 2 kcal/g, to 10 % and 8 kcal", () => {
    // Rows with factors of their own (bran, cocoa, spices, organic acids, polyols, phospholipids) lie lower or
    // higher; published foods against their own factors are checked with CHECK_DATA.
    const own =
      /bran$|^carob|^isomalt|^cocoa-powder|vinegar$|^baking-powder|lecithin$|^clove-spice|^allspice|^dill-seed|^dried-tarragon|^cumin|^anise-seed/;
    let counted = 0;
    for (const { id, composition: c } of pantry) {
      if (c?.energyKcal === undefined || own.test(id)) continue;
      const atFour = 4 * ((c.protein ?? 0) + (c.carbohydrate ?? 0)) + 9 * (c.fat ?? 0) + 7 * (c.alcohol ?? 0);
      const atTwo = atFour - 2 * (c.fibre ?? 0);
      expect(c.energyKcal, id).toBeGreaterThanOrEqual(atTwo * 0.9 - 8);
      expect(c.energyKcal, id).toBeLessThanOrEqual(atFour * 1.1 + 8);
      counted += 1;
    }
    expect(counted).toBeGreaterThan(650);
  });

  test("P4 densities are plausible for their state, and are the grams of their measure", () => {
    const loose =
      /chopped|sliced|shredded|loose|grated|diced|whole|cut|leaves|crumbled|sifted|halves|florets/;
    let computed = 0;
    for (const { id, origin, densities } of pantry)
      for (const { state, kgPerL, source } of densities) {
        expect(kgPerL, `${id} ${state}`).toBeGreaterThan(0.02);
        expect(kgPerL, `${id} ${state}`).toBeLessThan(loose.test(state) ? 1.1 : 1.6);
        if (origin.includes("alcohol")) expect(kgPerL, `${id} ${state}`).toBeGreaterThan(0.8);
        const [, amount, word, grams] =
          /: (\d*\.?\d+) (cup|tbsp|tsp|fl oz)\b.* = ([\d.]+) g/.exec(source.table ?? "") ?? [];
        if (word === undefined) continue;
        const mL = Number(amount) * unitFacts(word as "cup").factor;
        expect(Math.abs(kgPerL - Number(grams) / mL), `${id} ${state}`).toBeLessThan(0.0003);
        computed += 1;
      }
    expect(computed).toBeGreaterThan(200);
    const oils = pantry.filter(({ id, composition }) => /oil$/.test(id) && composition?.fat === 100);
    for (const { id, densities } of oils)
      for (const { kgPerL } of densities) expect(Math.abs(kgPerL - 0.92), id).toBeLessThan(0.015);
    expect(oils.length).toBeGreaterThan(12);
  });

  test("P3 a piece weighs less than ten kilograms; every cut has an id of its own and says what is left", () => {
    for (const { id, pieces } of pantry)
      for (const { name, g } of pieces) {
        expect(g, `${id} ${name}`).toBeLessThan(10_000);
      }
    for (const { id, cuts } of pantry) {
      expect(new Set(cuts.map((cut) => cut.id)).size, id).toBe(cuts.length);
      for (const cut of cuts) expect(cut.refuse, `${id} ${cut.id}`).toBeTruthy();
    }
  });

  test("P5 cooking yields name a method of the closed list; meat loses, dry grain gains", () => {
    const METHODS = /^(roasted|grilled|braised|simmered|poached|pan-fried|boiled|soaked|confit)$/;
    for (const { id, cookingYields = [] } of pantry)
      for (const { method, yield: yielded } of cookingYields) {
        expect(method, id).toMatch(METHODS);
        if (/boiled|soaked/.test(method)) expect(yielded, id).toBeGreaterThan(2);
        else {
          expect(yielded, id).toBeLessThan(0.95);
          expect(yielded, id).toBeGreaterThan(0.3);
        }
      }
  });

  test("P6 celery is celeriac's too; barley, rye and oats are gluten, wheat is wheat and gluten", () => {
    expect(holds("celeriac")).toContain("celery");
    expect(holds("celery-seed")).toContain("celery");
    for (const { id, name, allergens } of called(/\bbarley\b/i))
      if (!/without barley/i.test(name)) expect(allergens.contains, id).toContain("gluten");
    for (const { id, name, allergens } of called(/\b(rye|oats?|malt)\b/i))
      if (!/without/i.test(name)) expect(allergens.contains, id).toContain("gluten");
    for (const { id, name, allergens } of called(
      /\b(wheat|spelt|emmer|durum|semolina|couscous|bulgur|seitan)\b/i,
    ))
      if (!/buckwheat flour|buckwheat groats|without|apart from wheat/i.test(name))
        expect(allergens.contains, id).toEqual(expect.arrayContaining(["gluten", "wheat"]));
    for (const { id, allergens } of pantry)
      if (allergens.contains.includes("wheat")) expect(allergens.contains, id).toContain("gluten");
  });

  test("P6 derived allergens: by what it is made of, whatever it is called", () => {
    const RULES: [RegExp, (typeof ALLERGENS)[number]][] = [
      [/\b(fish sauce|anchovy|worcester|caviar|roe|bonito|dashi|surimi)\b/i, "fish"],
      [/\b(soy|soya|soybean|miso|tofu|tempeh|natto|tamari|teriyaki)\b/i, "soy"],
      [/\b(milk|cream|butter|cheese|whey|yoghurt|ghee|mascarpone|ricotta|quark)\b/i, "milk"],
      [/\b(almonds?|hazelnuts?|walnuts?|pecans?|cashew|pistachios?|macadamia|brazil nuts)\b/i, "tree-nut"],
      [/\b(peanuts?|groundnut)\b/i, "peanut"],
      [/\b(sesame|tahini|za’atar)\b/i, "sesame"],
      [/\b(mustard)\b/i, "mustard"],
      [/\b(lobster|prawn|shrimp|crab|crayfish|langoustine)\b/i, "crustacean"],
      [/\b(mussels?|oysters?|clams?|cockles?|squid|octopus|cuttlefish|whelk|scallop|snails)\b/i, "mollusc"],
      [/\b(lupin)\b/i, "lupin"],
      [/\b(egg|eggs|mayonnaise|brioche)\b/i, "egg"],
    ];
    const without: string[] = [];
    for (const [words, allergen] of RULES)
      for (const { id, allergens } of called(words))
        if (!allergens.contains.includes(allergen) && allergens.status === "known")
          without.push(`${id}: ${allergen}`);
    // Named after something else: butter of a bean, milk of a fruit, an oyster that is a mushroom.
    expect(without.sort()).toEqual([
      "almond-butter: milk",
      "cashew-butter: milk",
      "cocoa-butter: milk",
      "coconut-milk: milk",
      "coconut-yoghurt: milk",
      "cream-of-tartar: milk",
      "king-oyster: mollusc",
      "oat-cream: milk",
      "oyster-mushroom: mollusc",
      "peanut-butter: milk",
      "plant-butter: milk",
      "plant-butter: soy",
      "scallop: fish",
      "sea-urchin: fish",
      "soy-cream: milk",
      "soy-yoghurt: milk",
    ]);
    expect(holds("snails")).toContain("mollusc");
    expect(holds("malt-vinegar")).toContain("gluten");
    expect(byId.get("gelatin-leaf")!.origin).toContain("gelatin");
    for (const id of ["dried-apricot", "sultana", "balsamic-vinegar"])
      expect(holds(id)).toContain("sulphite");
  });

  test("P6 every wine is sulphited; all that has alcohol has the word, and the other way round", () => {
    for (const { id, allergens } of called(/\bwine\b|sherry|port,|madeira|marsala|vermouth/i))
      if (!/rice wine/i.test(byId.get(id)!.name)) expect(allergens.contains, id).toContain("sulphite");
    for (const { id, origin, composition } of pantry)
      if ((composition?.alcohol ?? 0) > 0.5) expect(origin, id).toContain("alcohol");
  });

  test("P7 animal allergens and origins agree", () => {
    const PAIRS = [
      ["milk", ["dairy", "gelatin", "plant"]],
      ["fish", ["fish"]],
      ["crustacean", ["shellfish"]],
      ["mollusc", ["shellfish"]],
      ["egg", ["egg"]],
    ] as const;
    for (const { id, allergens, origin } of pantry)
      for (const [allergen, origins] of PAIRS)
        if (allergens.contains.includes(allergen))
          expect(
            origin.some((word) => (origins as readonly string[]).includes(word)),
            `${id}: ${allergen}`,
          ).toBe(true);
    for (const { id, allergens, origin } of pantry) {
      const open = allergens.status === "unknown";
      if (origin.includes("dairy") && !/rennet|transglut/.test(id))
        expect(allergens.contains.includes("milk") || open, id).toBe(true);
      if (origin.includes("fish")) expect(allergens.contains.includes("fish") || open, id).toBe(true);
      if (origin.includes("egg")) expect(allergens.contains.includes("egg") || open, id).toBe(true);
      if (origin.includes("pork")) expect(origin, id).toContain("meat");
    }
  });

  test("P8 every season is a run of months and every storage life has days by its state", () => {
    const MOST = { ambient: 1800, cold: 400, frozen: 720 };
    for (const { id, storage } of pantry) expect(storage.days, id).toBeLessThanOrEqual(MOST[storage.state]);
    const seasonal = pantry.flatMap(({ season }) => (season ? [season.months] : []));
    for (const months of seasonal) {
      const ends = months.filter((month) => !months.includes((month % 12) + 1));
      expect(ends.length).toBeLessThanOrEqual(1);
    }
    expect(seasonal.length).toBeGreaterThan(120);
  });
});
