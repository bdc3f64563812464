import type { Line, Preparation } from "../formula/schema.ts";
import { PreparationSchema } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Unit } from "../quantity/index.ts";
import { type Amount, EXACT_TEXT } from "../quantity/schema.ts";
import type { Doubt } from "./doubt.ts";
import type { LinkedRecipe } from "./doubts.ts";
import { gramsOf } from "./grams-of.ts";
import { singular } from "./link.ts";
import { inCountry } from "./measures.ts";
import { type Oven, type OvenUse, ovenUses } from "./ovens.ts";
import { stickChoices } from "./text-choices.ts";
import type { ReadLine, ReadStep } from "./types.ts";

/** Documents made of a recipe, sub-preparations first, and what they still lack. */
export interface Drafted {
  readonly preparations: readonly Preparation[];
  /** Added to the doubts of the reading: what had to be left out or assumed. */
  readonly doubts: readonly Doubt[];
}

/** Longest id and step name made from words. */
const LONGEST_ID = 40;

/**
 * Makes the documents of a linked recipe: one preparation for each part with lines, and one that takes them whole.
 * A range stands with its low end; a line without a link or an amount is left out; a yield that is not given as mass
 * or volume is the sum of what goes in. Each of these is a doubt: nothing is assumed in silence.
 * A step with an oven and a temperature takes a shelf of the likeliest oven, which is asked, too.
 * @param taken ids that the book has already: a draft takes another. @param heat the ovens there are, and those chosen.
 */
export function draftPreparations(
  linked: LinkedRecipe,
  pantry: ReadonlyMap<string, Ingredient>,
  taken: ReadonlySet<string> = new Set(),
  heat: { readonly ovens: readonly Oven[]; readonly chosen: Readonly<Record<number, string | null>> } = {
    ovens: [],
    chosen: {},
  },
): Drafted {
  // Spoons and cups become those of the recipe's country; the reading itself keeps the words.
  const recipe = inCountry(linked.recipe);
  const doubts: Doubt[] = [];
  const uses = ovenUses(recipe.steps, heat.ovens, heat.chosen);
  doubts.push(...uses.doubts);
  const preparations: Preparation[] = [];
  const title = recipe.title || "Untitled";
  const ids = new Set<string>(taken);
  const free = (wanted: string) => {
    let id = wanted;
    for (let n = 2; ids.has(id); n++) id = `${wanted}-${n}`;
    ids.add(id);
    return id;
  };
  const root = free(slug(title));
  const partIds = recipe.parts.map((part) => free(slug(`${root.slice(0, LONGEST_ID / 2)} ${part.name}`)));
  const make = (part: number | null, id: string, name: string, taken: readonly Preparation[]) => {
    const steps = recipe.steps.filter((step) => step.part === part);
    const lines: Line[] = [];
    let grams = 0;
    const stepIds = steps.length > 0 ? steps.map((_, i) => `step-${i + 1}`) : ["step-1"];
    recipe.lines.forEach((line, i) => {
      if (line.part !== part) return;
      const link = linked.links[i];
      const ingredient = link ? pantry.get(link.ingredient) : undefined;
      if (!ingredient) return;
      const amount = amountOf(line);
      if (!amount && !line.toTaste) return;
      if (line.low !== line.high)
        doubts.push({ path: `/lines/${i}`, at: line.at, ask: `${line.text}: the low end is taken` });
      const g = amount ? gramsOf(amount, ingredient) : 0;
      if (g === undefined)
        doubts.push({
          path: `/lines/${i}`,
          at: line.at,
          ask: `${ingredient.name}: what does ${line.text} weigh?`,
          ...(line.unit === "stick" && line.low === line.high && /butter|margarine/iu.test(line.ingredient)
            ? { choices: stickChoices(line.text, line.low!) }
            : {}),
        });
      grams += g ?? 0;
      const step = stepIds[stepOf(line, steps)]!;
      const note = line.note ? { note: line.note } : {};
      const how = amount ? { amount } : { amount: null, toTaste: true };
      for (const one of [ingredient.id, ...(link?.also ?? []).map((other) => other.ingredient)])
        if (pantry.has(one))
          lines.push({ id: `line-${lines.length + 1}`, item: { ingredient: one }, ...how, step, ...note });
    });
    for (const other of taken) {
      grams += Number(other.yield.amount.value);
      lines.push({
        id: `line-${lines.length + 1}`,
        item: { preparation: other.id },
        amount: other.yield.amount,
        step: stepIds.at(-1)!,
      });
    }
    if (lines.length === 0) return;
    const document = PreparationSchema.safeParse({
      ...{
        id,
        name,
        lines,
        steps:
          steps.length > 0
            ? steps.map((step, i) => stepDocument(step, i, uses.of.get(recipe.steps.indexOf(step))))
            : [bareStep(name)],
      },
      yield: yieldOf(part === null ? linked : undefined, grams, doubts),
    });
    if (document.success) preparations.push(document.data);
    else
      doubts.push({
        path: "",
        at: 1,
        ask: `${name} could not be made into a preparation: ${document.error.issues[0]?.message ?? ""}`,
      });
  };
  for (const [i, part] of recipe.parts.entries()) make(i, partIds[i]!, part.name, []);
  make(null, root, title, [...preparations]);
  return { preparations, doubts };
}

function slug(text: string): string {
  const plain = text
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase();
  return (
    plain
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .slice(0, LONGEST_ID)
      .replace(/-+$/, "") || "untitled"
  );
}

function amountOf(line: ReadLine): Amount | null {
  if (line.low === null || line.exact === null) return null;
  const unit: Unit = line.unit === "" ? "piece" : line.unit;
  return { value: EXACT_TEXT.test(line.exact.low) ? line.exact.low : line.low, unit };
}

function yieldOf(linked: LinkedRecipe | undefined, grams: number, doubts: Doubt[]) {
  const made = linked?.recipe.yields.find((one) => one.unit !== "") ?? linked?.recipe.yields[0];
  if (made && made.unit !== "")
    return { amount: { value: made.low, unit: made.unit }, basis: "measured" as const };
  const value = Math.max(1, Math.round(grams * 10) / 10);
  if (linked)
    doubts.push({
      path: "/yields",
      at: made?.at ?? 1,
      ask: `the yield is taken as what goes in (${value} g): what does it weigh when done?`,
    });
  return {
    amount: { value, unit: "g" as const },
    basis: "computed" as const,
    ...(made ? { pieces: made.low } : {}),
  };
}

/** The first step that names the ingredient, else the first of all. */
function stepOf(line: ReadLine, steps: readonly ReadStep[]): number {
  const words =
    line.ingredient
      .toLowerCase()
      .match(/\p{L}{3,}/gu)
      ?.map(singular) ?? [];
  const head = words.at(-1);
  const at = head === undefined ? -1 : steps.findIndex((step) => step.text.toLowerCase().includes(head));
  return Math.max(0, at);
}

function stepDocument(step: ReadStep, i: number, oven: OvenUse | undefined) {
  const name =
    step.text
      .split(/[.;:,\n]/, 1)[0]!
      .slice(0, LONGEST_ID)
      .trim() || `Step ${i + 1}`;
  return {
    ...{ id: `step-${i + 1}`, name, text: step.text, from: i === 0 ? [] : [`step-${i}`] },
    ...(step.minutes === null ? {} : { passive: { min: step.minutes } }),
    ...(oven ? { uses: [oven] } : {}),
  };
}

const bareStep = (name: string) => ({ id: "step-1", name, text: `Make ${name}.`, from: [] });
