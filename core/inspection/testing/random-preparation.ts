import type { Random } from "../../numerics/random.ts";
import { between, chance, type Docs, INVENTED } from "./draw.ts";
import { SKILLS, STATIONS } from "./random-kitchen.ts";

type Preparation = Docs<"preparations">;
type Step = Preparation["steps"][number];
type Line = Preparation["lines"][number];
type Ingredient = Docs<"ingredients">;

/** Preparations of random methods; each is made of ingredients and of preparations before it, up to five deep. */
export function randomPreparations(
  random: Random,
  ingredients: readonly Ingredient[],
  count: number,
): Preparation[] {
  const depth = new Map<string, number>();
  const list: Preparation[] = [];
  for (let i = 1; i <= count; i++) {
    const own = random.derive(i);
    // The first is of plain ingredients alone: it can be served to everyone.
    const pool = i === 1 ? ingredients.slice(0, 4) : ingredients;
    const parts = i === 1 ? [] : list.filter((each) => depth.get(each.id)! < 5);
    const made = preparation(own, i, pool, parts);
    const deepest = made.lines.map((l) => ("preparation" in l.item ? depth.get(l.item.preparation)! : 0));
    depth.set(made.id, 1 + Math.max(...deepest));
    list.push(made);
  }
  return list;
}

function preparation(
  random: Random,
  i: number,
  ingredients: readonly Ingredient[],
  parts: readonly Preparation[],
): Preparation {
  const id = `preparation-${i}`;
  const steps = stepsOf(random);
  const first = steps.filter((step) => (step.from ?? []).length === 0);
  const lines: Line[] = [];
  const enter = (item: Line["item"], amount: Line["amount"], more: Partial<Line> = {}) => {
    const step = first[lines.length] ?? random.pick(steps);
    lines.push({ id: `line-${lines.length + 1}`, item, amount, step: step.id, ...more });
  };
  const count = Math.max(first.length, between(random, 1, 4));
  for (let k = 0; k < count; k++) {
    const part = parts.length > 0 && chance(random, 0.35) ? random.pick(parts) : undefined;
    if (part) enter({ preparation: part.id }, { value: between(random, 1, 20) * 100, unit: "g" });
    else enterIngredient(random, random.pick(ingredients), enter);
  }
  if (chance(random, 0.2)) enter({ ingredient: random.pick(ingredients).id }, null, { toTaste: true });
  waitForParts(random, steps, lines, parts);
  const outG = balance(steps, lines, ingredients);
  const pieces = chance(random, 0.3) ? between(random, 2, 24) : undefined;
  return {
    id,
    name: `Preparation ${i}`,
    yield: {
      amount: { value: outG, unit: "g" },
      ...(pieces ? { pieces } : {}),
      basis: "computed",
    },
    lines,
    steps,
    batch: batchOf(random, outG, pieces),
    ...(chance(random, 0.6) ? { overage: random.pick([0.03, 0.05, 0.1]) } : {}),
    life: chance(random, 0.6) ? [{ state: "cold", maxMinutes: between(random, 2, 5) * 1440 }] : [],
    ...(chance(random, 0.3) ? { bestWithinMinutes: between(random, 2, 24) * 60 } : {}),
    density: { kgPerL: between(random, 60, 130) / 100, source: INVENTED },
    piece: { kind: "slab", thicknessMm: between(random, 10, 40) },
  };
}

/** Sometimes a step waits for a step of a preparation that enters it. */
function waitForParts(
  random: Random,
  steps: readonly Step[],
  lines: readonly Line[],
  parts: readonly Preparation[],
): void {
  for (const line of lines) {
    if (!("preparation" in line.item) || !chance(random, 0.2)) continue;
    const { preparation: id } = line.item;
    const leastMin = between(random, 0, 60);
    const own = steps.find((step) => step.id === line.step)!;
    own.after = [
      ...(own.after ?? []),
      {
        step: { preparation: id, step: parts.find((part) => part.id === id)!.steps.at(-1)!.id },
        ...{ from: "end", leastMin },
        ...(chance(random, 0.3) ? { mostMin: leastMin + between(random, 600, 2000) } : {}),
      },
    ];
  }
}

function enterIngredient(
  random: Random,
  ingredient: Ingredient,
  enter: (item: Line["item"], amount: Line["amount"], more?: Partial<Line>) => void,
): void {
  const cut = random.pick([undefined, ...(ingredient.cuts ?? [])]);
  const amounts: NonNullable<Line["amount"]>[] = [
    { value: between(random, 1, 30) * 50, unit: "g" },
    { value: random.pick([1, 2, "1/2", "1 1/4"]), unit: "kg" },
    { value: between(random, 1, 4), unit: "cup" },
  ];
  if ((ingredient.pieces ?? []).length > 0) amounts.push({ value: between(random, 1, 12), unit: "piece" });
  enter({ ingredient: ingredient.id, ...(cut ? { cut: cut.id } : {}) }, random.pick(amounts), {
    ...(cut && chance(random, 0.2) ? { as: "AP" as const } : {}),
    ...(cut && chance(random, 0.2) ? { trimYield: between(random, 40, 100) / 100 } : {}),
  });
}

/** One to four steps in a chain, sometimes with a side step that enters it. */
function stepsOf(random: Random): Step[] {
  const count = between(random, 1, 4);
  const steps: Step[] = [];
  for (let k = 1; k <= count; k++) {
    const before = steps.at(-1);
    const side = before && k < count && chance(random, 0.2);
    const open = steps.filter((step) => !steps.some((next) => (next.from ?? []).includes(step.id)));
    steps.push(step(random, `step-${k}`, side ? [] : open.map((each) => each.id)));
  }
  if (count > 2 && chance(random, 0.2)) shareOut(random, steps);
  const last = steps.at(-1)!;
  last.hold = random.pick([
    { state: "cold" as const, maxMin: between(random, 36, 72) * 60, atMostC: 5 },
    { state: "cold" as const, maxMin: between(random, 36, 72) * 60, atMostC: 5 },
    { state: "hot" as const, maxMin: between(random, 180, 300), atLeastC: 60 },
    { state: "ambient" as const, maxMin: between(random, 480, 1440) },
    { state: "frozen" as const, maxMin: 10080 },
  ]);
  return steps;
}

/** The last step takes a part of the first one's output, which the second then lacks. */
function shareOut(random: Random, steps: readonly Step[]): void {
  const [first, second] = steps;
  const last = steps.at(-1)!;
  if (!second!.from!.includes(first!.id) || last.from!.includes(first!.id)) return;
  const share = between(random, 2, 8) / 10;
  second!.from = [{ step: first!.id, share }];
  last.from = [...last.from!, { step: first!.id, share: Math.round((1 - share) * 10) / 10 }];
}

function step(random: Random, id: string, from: string[]): Step {
  const passive = chance(random, 0.5);
  const change: Step["change"] = random.pick([
    "none" as const,
    "none" as const,
    { factor: between(random, 70, 98) / 100, as: "evaporated" as const },
    { addWaterFactor: between(random, 10, 150) / 100 },
    { toFactor: between(random, 50, 90) / 100 },
  ]);
  const out: Step = {
    ...{ id, name: `Do ${id}`, text: `Do ${id}.`, from: [...from], change },
    ...(chance(random, 0.2)
      ? {
          discard: {
            factor: between(random, 1, 25) / 100,
            as: random.pick(["trim", "strain", "fat"] as const),
          },
        }
      : {}),
    ...(!passive || chance(random, 0.8) ? { work: work(random) } : {}),
    uses: uses(random, passive),
    pull: chance(random, 0.3) ? [{ smallware: "GN 1/1 pan 65 mm", count: between(random, 1, 3) }] : [],
  };
  if (passive && chance(random, 0.08))
    out.target = {
      startC: chance(random, 0.5) ? 5 : "from previous",
      stages: [{ mediumC: 160, coefficient: 40, untilCoreC: between(random, 60, 75) }],
    };
  else if (passive) {
    out.passive = chance(random, 0.5)
      ? { min: between(random, 5, 150) }
      : { perKgMin: between(random, 1, 20) / 10, fixedMin: between(random, 5, 90) };
    if (chance(random, 0.15)) out.attended = { min: between(random, 1, 4), every: between(random, 20, 60) };
  }
  if (chance(random, 0.2))
    out.hold = { state: random.pick(["cold", "ambient"] as const), maxMin: between(random, 900, 2880) };
  if (from.length > 0 && chance(random, 0.15)) {
    const leastMin = between(random, 0, 90);
    out.after = [
      {
        ...{ step: random.pick(from), from: random.pick(["start", "end"] as const), leastMin },
        ...(chance(random, 0.5) ? { mostMin: leastMin + between(random, 120, 1200) } : {}),
      },
    ];
  }
  if (passive && chance(random, 0.25))
    out.control = {
      ...{ hazard: "growth", monitor: "probe", corrective: "go on", record: "sheet" },
      limit: { what: "coreC", op: ">=", value: random.pick([63, 70, 75]) },
    };
  return out;
}

function work(random: Random): NonNullable<Step["work"]> {
  const least = chance(random, 0.15) ? 2 : 1;
  return {
    fixedMin: between(random, 0, 12),
    ...(chance(random, 0.5) ? { perKgMin: between(random, 1, 40) / 10 } : {}),
    ...(chance(random, 0.3) ? { perPieceMin: between(random, 1, 10) / 20 } : {}),
    ...(chance(random, 0.3) ? { perBatchMin: between(random, 1, 10) } : {}),
    hands: {
      least,
      most: least + random.below(3),
      split: random.pick(["divides", "divides", "each"] as const),
    },
    skill: chance(random, 0.6) ? "prep" : random.pick(SKILLS),
    station: random.pick(STATIONS),
    interruptible: chance(random, 0.4),
  };
}

function uses(random: Random, passive: boolean): NonNullable<Step["uses"]> {
  if (chance(random, 0.4)) return [];
  const during = passive ? random.pick(["passive", "both"] as const) : "work";
  const setC = random.pick([90, 160, 165, 180, 200]);
  return [
    ...random.pick<NonNullable<Step["uses"]>>([
      [
        { kind: "combi", during, space: { value: 2, unit: "shelf" }, setC, toleranceC: random.pick([0, 10]) },
        { kind: "combi", during, space: { value: 1, unit: "kg" }, per: "kg", setC },
      ],
      [{ kind: "deck", during, space: { value: 0.4, unit: "shelf" }, per: "kg", setC }],
      [{ kind: "burner", during, space: { value: between(random, 1, 2), unit: "burner" } }],
      [{ kind: "kettle", during, space: { value: 1.2, unit: "litre" }, per: "kg" }],
      [{ kind: "mixer", during, space: { value: 1, unit: "kg" }, per: "kg" }],
      [
        {
          kind: "chiller",
          during,
          space: { value: 1, unit: "kg" },
          per: "kg",
          depthMm: chance(random, 0.05) ? 60 : 40,
        },
      ],
      [{ kind: "bench", during, space: { value: 1, unit: "piece" }, exclusive: chance(random, 0.2) }],
      [{ equipment: "burners", during, space: { value: 1, unit: "burner" } }],
    ]),
  ];
}

/** A limit from the yield to six times it, so that services take one to a dozen batches. */
function batchOf(
  random: Random,
  outG: number,
  pieces: number | undefined,
): NonNullable<Preparation["batch"]> {
  const policy = random.pick(["even", "full-then-rest", "whole-only"] as const);
  const times = between(random, 10, 60) / 10;
  if (chance(random, 0.25)) return { policy: policy === "whole-only" ? "even" : policy };
  if (pieces && chance(random, 0.6)) return { policy, maxPieces: Math.max(1, Math.round(pieces * times)) };
  return { policy, maxAmount: { value: Math.max(1, Math.round(outG * times)), unit: "g" } };
}

/** Grams that the method gives: the yield that a chef would have weighed. */
function balance(steps: readonly Step[], lines: readonly Line[], ingredients: readonly Ingredient[]): number {
  const out = new Map<string, number>();
  for (const step of steps) {
    let grams = 0;
    for (const line of lines) if (line.step === step.id) grams += gramsOf(line, ingredients);
    for (const from of step.from ?? [])
      grams += typeof from === "string" ? out.get(from)! : from.share * out.get(from.step)!;
    const { change } = step;
    if (change && change !== "none") {
      if ("factor" in change) grams *= change.factor;
      else if ("addWaterFactor" in change) grams *= 1 + change.addWaterFactor;
      else if ("toFactor" in change) grams *= change.toFactor;
    }
    out.set(step.id, grams * (1 - (step.discard?.factor ?? 0)));
  }
  return Math.round(out.get(steps.at(-1)!.id)! * 1000) / 1000;
}

function gramsOf(line: Line, ingredients: readonly Ingredient[]): number {
  if (line.amount === null) return 0;
  const { value, unit } = line.amount;
  const number = typeof value === "number" ? value : ({ "1/2": 0.5, "1 1/4": 1.25 }[value] ?? 0);
  if ("preparation" in line.item) return number;
  const { ingredient: id, cut } = line.item;
  const ingredient = ingredients.find((each) => each.id === id)!;
  const per = {
    g: 1,
    kg: 1000,
    cup: 236.5882365 * (ingredient.densities?.[0]?.kgPerL ?? 0),
    piece: ingredient.pieces?.[0]?.g ?? 0,
  }[unit as "g" | "kg" | "cup" | "piece"];
  const trim = line.trimYield ?? ingredient.cuts?.find((each) => each.id === cut)?.trimYield ?? 1;
  return number * per * (line.as === "AP" ? trim : 1);
}
