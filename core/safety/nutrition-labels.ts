import type { Larder } from "../formula/larder.ts";
import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Contents, Eaten } from "./contents.ts";
import type { Foods } from "./foods.ts";
import { IngredientLists } from "./ingredient-list.ts";
import type { Carried } from "./nutrients.ts";
import { type Contained, type Content, Nutrition } from "./nutrition.ts";
import { EU_LINES } from "./nutrition-eu.ts";
import type { Known, Notes } from "./nutrition-notes.ts";
import {
  carbohydrateOf,
  energyByGeneralFactors,
  energyKcalAnnexXIV,
  energyKjAnnexXIV,
  leastKnown,
  ofHundred,
  sodiumOfSalt,
  withoutFibre,
} from "./nutrition-rules.ts";
import {
  LABEL_NUTRIENTS,
  type LabelLine,
  type LabelNutrient,
  type NutrientAmount,
  type NutritionLabel,
  type Shown,
} from "./nutrition-types.ts";
import { US_LINES } from "./nutrition-us.ts";

type Sum = Record<LabelNutrient, Content>;

/** Labels of plates and preparations, with how each of their numbers came. */
export interface NutritionLabels {
  readonly labels: readonly NutritionLabel[];
  /** Writes the nodes of all numbers in `labels`, which stand at `/nutrition`. */
  readonly trace: (tracer: Tracer) => void;
}

/** The labels of every plate that is served and of every preparation that is made. They do not hang on the covers. */
export function nutritionLabels(
  larder: Larder,
  amounts: Amounts,
  contents: Contents,
  foods: Foods,
  pointer: (kind: string, id: string) => string,
): NutritionLabels {
  const { ledger, cells } = amounts;
  const nutrition = new Nutrition(larder, ledger, foods, pointer);
  const lists = new IngredientLists(larder, contents, ledger);
  const { notes } = nutrition;
  const labels: NutritionLabel[] = [];
  const numbers: [pointer: string, number: Known, unit: string][] = [];
  const both = (eaten: readonly Eaten[]) => ({
    contains: contents.allergens(eaten, ["contains"]),
    mayContain: contents.allergens(eaten, ["may", "unknown"]),
  });
  for (const { cells: made } of cells.preparations) {
    nutrition.add(made);
    lists.add(made);
  }
  for (const row of cells.plates) {
    if (ledger.value(row.plates) <= 0) continue;
    const at = `/nutrition/${labels.length}`;
    const { dish, form } = { dish: row.row.dish.id, form: row.row.form.name };
    const path = `calc:/nutrition/plates/${row.course}/${dish}/${form}`;
    const portion = sumOf(
      nutrition.plate(
        path,
        row.placed.map(({ preparation, ingredient, ep }) => ({ preparation, ingredient, g: ep })),
      ),
      notes,
      path,
    );
    const g: Known = { value: ledger.value(row.plateG), input: row.plateG };
    numbers.push([`${at}/portionG`, g, "g"]);
    const nutrients = LABEL_NUTRIENTS.map((nutrient, n): NutrientAmount => {
      const { amount, known } = portion[nutrient];
      const value = ofHundred(amount.value, g.value);
      const per100 = notes.derived(`${path}/${nutrient}/per-100`, value, UNITS[nutrient], ofHundred, [
        amount,
        g,
      ]);
      numbers.push([`${at}/nutrients/${n}/per100`, per100, UNITS[nutrient]]);
      numbers.push([`${at}/nutrients/${n}/perPortion`, amount, UNITS[nutrient]]);
      numbers.push([`${at}/nutrients/${n}/known`, known, "ratio"]);
      return { nutrient, unit: UNITS[nutrient], per100: value, perPortion: amount.value, known: known.value };
    });
    const parts = row.placed.map(({ preparation, ingredient, ep }) => ({
      preparation,
      ingredient,
      g: ledger.value(ep),
    }));
    labels.push({
      ...{ dish, variant: form, portionG: g.value, nutrients },
      us: linesOf(US_LINES, portion, 1),
      eu: {
        per100: linesOf(EU_LINES, portion, ofHundred(1, g.value), false),
        perPortion: linesOf(EU_LINES, portion, 1),
      },
      unknown: unknownOf(nutrients),
      ingredients: lists.ofPlate(parts),
      ...both(parts),
    });
  }
  for (const { cells: made, batches } of cells.preparations) {
    if (ledger.value(batches.madeG) <= 0) continue;
    const { id } = made.preparation;
    const at = `/nutrition/${labels.length}`;
    const sum = sumOf(nutrition.of({ preparation: id }), notes, `calc:/nutrition/${id}`);
    const nutrients = LABEL_NUTRIENTS.map((nutrient, n): NutrientAmount => {
      const { amount, known } = sum[nutrient];
      numbers.push([`${at}/nutrients/${n}/per100`, amount, UNITS[nutrient]]);
      numbers.push([`${at}/nutrients/${n}/known`, known, "ratio"]);
      return { nutrient, unit: UNITS[nutrient], per100: amount.value, known: known.value };
    });
    labels.push({
      ...{ preparation: id, nutrients },
      us: linesOf(US_LINES, sum, 1),
      eu: { per100: linesOf(EU_LINES, sum, 1, false) },
      unknown: unknownOf(nutrients),
      ingredients: lists.ofPreparation(id),
      ...both([{ preparation: id }]),
    });
  }
  const trace = (tracer: Tracer) => {
    notes.write(tracer);
    for (const [path, { value, input }, unit] of numbers)
      tracer.note(path, { value, unit, rule: "given", inputs: [input] });
  };
  return { labels, trace };
}

const UNITS: Readonly<Record<LabelNutrient, string>> = {
  energyKcal: "kcal",
  energyKj: "kJ",
  energyKcalEu: "kcal",
  fat: "g",
  saturated: "g",
  trans: "g",
  cholesterolMg: "mg",
  carbohydrate: "g",
  availableCarbohydrate: "g",
  sugars: "g",
  addedSugars: "g",
  fibre: "g",
  protein: "g",
  alcohol: "g",
  salt: "g",
  sodiumMg: "mg",
  vitaminDUg: "µg",
  calciumMg: "mg",
  ironMg: "mg",
  potassiumMg: "mg",
};

/** What a label speaks of, from what is carried: carbohydrate of its parts, sodium of salt, energy of all. */
function sumOf(of: Contained, notes: Notes, path: string): Sum {
  const made = (
    name: LabelNutrient,
    rule: (...numbers: number[]) => number,
    from: readonly Content[],
    most = rule(...from.map((each) => each.most)),
  ): Content => {
    const inputs = from.map(({ amount }) => amount);
    const value = rule(...inputs.map((input) => input.value));
    const shares = from.map(({ known }) => known);
    const least = leastKnown(...shares.map((share) => share.value));
    return {
      amount: notes.derived(`${path}/label/${name}`, value, UNITS[name], rule, inputs),
      known:
        least === 1
          ? notes.constant(1)
          : notes.derived(`${path}/label/${name}/known`, least, "ratio", leastKnown, shares),
      most,
    };
  };
  const pick = (...keys: Carried[]) => keys.map((key) => of[key]);
  const carbohydrate = made("carbohydrate", carbohydrateOf, pick("starch", "dissolvedCarbohydrate"));
  const available = made(
    "availableCarbohydrate",
    withoutFibre,
    [carbohydrate, of.fibre],
    // The less fibre, the more is left.
    withoutFibre(carbohydrate.most, of.fibre.amount.value),
  );
  const general = [of.protein, carbohydrate, of.fat, of.alcohol];
  const annex = [of.protein, available, of.fat, of.fibre, of.alcohol];
  return {
    energyKcal: made("energyKcal", energyByGeneralFactors as Rule, general),
    energyKj: made("energyKj", energyKjAnnexXIV as Rule, annex),
    energyKcalEu: made("energyKcalEu", energyKcalAnnexXIV as Rule, annex),
    fat: of.fat,
    saturated: of.saturated,
    trans: of.trans,
    cholesterolMg: of.cholesterolMg,
    carbohydrate,
    availableCarbohydrate: available,
    sugars: of.sugars,
    addedSugars: of.addedSugars,
    fibre: of.fibre,
    protein: of.protein,
    alcohol: of.alcohol,
    salt: of.salt,
    sodiumMg: made("sodiumMg", sodiumOfSalt as Rule, [of.salt]),
    vitaminDUg: of.vitaminDUg,
    calciumMg: of.calciumMg,
    ironMg: of.ironMg,
    potassiumMg: of.potassiumMg,
  };
}
type Rule = (...numbers: number[]) => number;

/** Lines of a label. What is not known in full is written only where the unknown part could not change what is written. */
function linesOf(lines: readonly Shown[], sum: Sum, scale: number, percent = true): LabelLine[] {
  return lines.map(({ nutrient, ...line }) => {
    const { amount, known, most } = sum[nutrient];
    const value = amount.value * scale;
    if (known.value < 1 && line.shown(value) !== line.shown(most * scale)) return { nutrient };
    return {
      nutrient,
      shown: line.shown(value),
      ...(percent && line.percent ? { percent: line.percent(value) } : {}),
    };
  });
}

function unknownOf(nutrients: readonly NutrientAmount[]): LabelNutrient[] {
  return nutrients.filter(({ known }) => known < 1).map(({ nutrient }) => nutrient);
}
