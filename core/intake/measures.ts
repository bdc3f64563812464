import { COUNTRIES, type Country, localUnit } from "../quantity/index.ts";
import type { Doubt } from "./doubt.ts";
import type { ReadRecipe } from "./types.ts";

/** Words that tell where an English recipe comes from; common practice, no source. */
const SIGNS: Readonly<Record<Exclude<Country, "metric">, RegExp>> = {
  us: /\b(?:all-purpose|confectioners['’]?|powdered sugar|heavy cream|half[- ]and[- ]half|kosher salt|cilantro|scallions?|arugula|cornstarch|baking soda|molasses|sticks? (?:of )?(?:unsalted )?butter|skillet|broil(?:er)?|ounces?|pounds?|lbs?\.?|tbsp\.|quarts?|zucchini|graham|fahrenheit)\b|\d\s?°\s?F\b/giu,
  imperial:
    /\b(?:caster sugar|icing sugar|plain flour|self-raising|strong (?:white )?flour|double cream|single cream|gas (?:mark )?\d|bicarbonate|courgettes?|aubergines?|swede|rashers?|tins?|cornflour|rapeseed|clingfilm|cling film|treacle|demerara|gammon|mangetout)\b/giu,
  australian:
    /\b(?:capsicums?|thickened cream|fan-forced|barramundi|rockmelon|silverbeet|eschalots?|continental parsley|desiccated coconut|makrut|copha|pepitas|tbs|Lebanese (?:cucumber|bread)|green prawns|brown onion|australian|australia)\b/giu,
  japanese: /[\u3040-\u30ff]|\b(?:japanese (?:cups?|measures?)|rice cooker cups?)\b/giu,
};

/** Whose spoons, cups and pints a recipe means. */
export interface Measures {
  readonly country: Country;
  /** True when someone said so, or its words tell plainly. */
  readonly sure: boolean;
}

/** Judged by the words of its lines and steps; undefined when no measure in it depends on the country. */
export function measuresOf(recipe: ReadRecipe): Measures | undefined {
  if (recipe.country) return { country: recipe.country, sure: true };
  const local = recipe.lines.filter(({ unit }) => unit !== "" && localUnit(unit, "imperial") !== unit);
  if (local.length === 0) return undefined;
  const said = [...recipe.lines, ...recipe.steps].map(({ text }) => text.slice(0, 500)).join("\n");
  const counts = (Object.keys(SIGNS) as (keyof typeof SIGNS)[]).map(
    (country) => [country, said.match(SIGNS[country])?.length ?? 0] as const,
  );
  const [first, second] = counts.sort((a, b) => b[1] - a[1]) as [
    (typeof counts)[number],
    (typeof counts)[number],
  ];
  // Nothing tells: weights in grams beside spoons are no US habit, but what stays unknown is asked.
  if (first[1] === 0) return { country: /\d\s?(?:g|kg|ml)\b/i.test(said) ? "metric" : "us", sure: false };
  // A British and an Australian kitchen share many words; one plain Australian sign goes before.
  const australian = counts.find(([country]) => country === "australian")![1];
  const country = first[0] === "imperial" && australian > 0 ? "australian" : first[0];
  return { country, sure: country === first[0] && first[1] >= 2 && second[1] === 0 };
}

/** The recipe with its spoons, cups and pints as those of its country; a line that names one itself keeps it. */
export function inCountry(recipe: ReadRecipe): ReadRecipe {
  const country = measuresOf(recipe)?.country;
  if (!country || country === "us") return recipe;
  const lines = recipe.lines.map((line) =>
    line.unit === "" || NAMED.test(line.text) ? line : { ...line, unit: localUnit(line.unit, country) },
  );
  return { ...recipe, lines };
}
const NAMED = /\b(?:U\.?S\.?|american)\s/i;

/** Asked once, and only where it matters: a spoon of 15 mL for one of 14.8 mL is no question. */
export function measuresDoubt(recipe: ReadRecipe): Doubt | undefined {
  const measures = measuresOf(recipe);
  if (!measures || measures.sure) return undefined;
  const { country } = measures;
  const matters = recipe.lines.find(
    ({ unit }) =>
      unit !== "" &&
      (unit === "tbsp" ? country === "australian" : unit !== "tsp" && localUnit(unit, "imperial") !== unit),
  );
  if (!matters) return undefined;
  const others = COUNTRIES.filter((one) => one !== country);
  return {
    ...{ path: "/measures", at: matters.at, about: "measures" },
    ask: `whose spoons, cups and pints are these? They are taken as ${NAMES[country]}`,
    choices: [country, ...others].map((one) => ({ kind: "country", country: one })),
  };
}

const NAMES: Readonly<Record<Country, string>> = {
  us: "US ones: cup 237 mL, tablespoon 14.8 mL, pint 473 mL",
  metric: "metric ones: cup 250 mL, tablespoon 15 mL",
  imperial: "British ones: cup 250 mL, tablespoon 15 mL, pint 568 mL",
  australian: "Australian ones: cup 250 mL, tablespoon 20 mL",
  japanese: "Japanese ones: cup 200 mL, tablespoon 15 mL",
};
