import { describe, expect, test } from "vitest";
import { Ledger } from "../core/ledger/ledger.ts";
import { trimCell } from "../core/pantry/cuts.ts";
import { gramsCell, matterOf } from "../core/pantry/grams.ts";
import { purchasedFor } from "../core/pantry/rules.ts";
import { IngredientSchema } from "../core/pantry/schema.ts";
import { starterPantry } from "../data/pantry/index.ts";
import { MEASURES, REFUSE, SAMPLE } from "./usda-sr28.ts";

const pantry = new Map(starterPantry.map((each) => [each.id, IngredientSchema.parse(each)]));

describe("USDA SR28 in the starter pantry", () => {
  test.each(SAMPLE)("NDB %s is %s", (ndb, id, water, protein, fat, carbohydrate, energyKcal) => {
    const { composition } = pantry.get(id)!;
    expect(composition).toMatchObject({ water, protein, fat, carbohydrate, energyKcal });
    expect(composition!.source.table).toContain(`NDB ${ndb}`);
  });

  test.each(REFUSE)(
    "NDB %s: a kilogram of %s, %s, is bought with its refuse of %d %%",
    (_, id, cut, refuse) => {
      const ledger = new Ledger();
      const kept = ledger.value(trimCell(ledger, pantry.get(id)!, "/ingredients/0", cut)!);
      const apG = purchasedFor(1000, kept);
      expect(apG - (apG * refuse) / 100).toBeCloseTo(1000, 9);
    },
  );

  test.each(MEASURES)(
    "NDB %s: a cup of %s, %s, has the printed grams to a tenth",
    (_, id, state, mL, grams) => {
      const ingredient = pantry.get(id)!;
      // A line names no state: the state asked about is the only one here.
      const densities = ingredient.densities.filter((density) => density.state === state);
      expect(densities).toHaveLength(1);
      const ledger = new Ledger();
      const matter = matterOf(ledger, { ...ingredient, densities }, "/ingredients/0");
      const cell = gramsCell(ledger, "calc:/g", { value: mL, unit: "mL" }, "/amount", matter, []);
      expect(Math.abs(ledger.value(cell) - grams)).toBeLessThan(0.1);
    },
  );
});
