import type { StepCells } from "../formula/balance.ts";
import type { PreparationCells } from "../formula/cells.ts";
import { takenFrom } from "../formula/graph.ts";
import type { Line, Step } from "../formula/schema.ts";
import { alcoholLeft } from "../heat/alcohol.ts";
import type { Cell, Ledger } from "../ledger/ledger.ts";
import type { Ingredient } from "../pantry/schema.ts";
import { CARRIED, type Carried, type Goes } from "./nutrients.ts";
import { keptMinerals } from "./nutrition-minerals.ts";
import { goneBeside, namedLines } from "./nutrition-named.ts";
import type { Known, Notes } from "./nutrition-notes.ts";
import { fatEntering, keptOfFat, keptOnwards, keptThrough } from "./nutrition-rules.ts";
import { isRetained } from "./retention.ts";

const GOES: readonly Goes[] = ["solid", "dissolved", "fat", "alcohol"];

/** What takes everything in proportion; water that evaporates takes nothing, what is drained takes what is dissolved. */
const TAKES_ALL = new Set(["stuck", "trimmed", "strained"]);
const TAKES_DISSOLVED = new Set([...TAKES_ALL, "drained", "rinsed"]);
const TAKES_FAT = new Set(["fat", "rendered"]);
const DISCARDED = { trim: "trimmed", strain: "strained", fat: "fat", rinse: "rinsed" } as const;

/** Fat of a line in 100 g of it, for steps that lose fat. */
export type FatOfLine = (line: PreparationCells["lines"][number]) => Known;

/**
 * Shares of nutrients of a line that reach the yield of a preparation from the step it enters at: nothing goes with
 * evaporated water; solids stay when a liquid is drained or rinsed off, what is dissolved goes in proportion; fat taken
 * off is fat; what sticks, is trimmed or strained takes everything in proportion, unless the step names the lines it
 * takes away: of these what is taken up stays, and what goes beyond them is in proportion (`nutrition-named.ts`; where
 * fat is taken off later, that of such a line still counts as there, so that less of the rest counts as taken off).
 * Calcium, iron and potassium go by the factors of `retention.ts` where a step says how it cooks. Alcohol goes as what is
 * dissolved and, where a step heats, by the USDA table for the minutes from there on (the shortest way).
 */
export function keptBySteps(
  made: PreparationCells,
  ledger: Ledger,
  notes: Notes,
  heats: (step: string) => boolean,
  fatOf: FatOfLine,
  ingredientOf: (id: string) => Ingredient | undefined,
): (line: Line, nutrient: Carried) => Known {
  const { preparation, balance, at } = made;
  const path = `calc:/nutrition/${preparation.id}`;
  const indexOf = new Map(preparation.steps.map((step, i) => [step.id, i]));
  const takers = new Map<string, { readonly step: string; readonly share: Known }[]>();
  for (const step of preparation.steps)
    takenFrom(step).forEach((from, k) => {
      const whole = typeof step.from[k] === "string";
      const shareAt = `book:${at}/steps/${indexOf.get(step.id)}/from/${k}/share`;
      const share = whole ? notes.constant(1) : notes.given(shareAt, "ratio", from.share);
      takers.set(from.step, [...(takers.get(from.step) ?? []), { step: step.id, share }]);
    });
  const losesFat = preparation.steps.some((step) => lossesOf(step).some(({ how }) => TAKES_FAT.has(how)));
  const fatOut = new Map<string, Known>();
  const own = new Map<string, Record<Goes, Known>>();
  const byName = new Map<string, Record<Goes, Known>>();
  const names = new Set(
    preparation.steps.flatMap(({ discard }) => discard?.lines ?? []).map(({ line }) => line),
  );
  const ownOf = (step: string, line: string | undefined) =>
    (line === undefined ? undefined : byName.get(`${step} ${line}`)) ?? own.get(step)!;
  for (const cells of balance.steps) {
    const { id } = cells.step;
    const [sums, place] = [`${path}/${id}`, `${at}/steps/${indexOf.get(id)}`];
    const ways = {
      takersOf: (step: string) =>
        (takers.get(step) ?? []).filter((taker) => own.has(taker.step) || taker.step === id),
      passes: (step: string, line: string) => ownOf(step, line).solid,
      left: (step: Step, alone: boolean) =>
        alone
          ? massLeft(step, notes, `${at}/steps/${indexOf.get(step.id)}`)
          : ofChange(step, "solid", notes, `${at}/steps/${indexOf.get(step.id)}`),
    };
    const named = namedLines(cells, made, ledger, notes, ways, sums, place);
    const gone = named.length > 0 ? goneBeside(named, cells, ledger, notes, sums, place) : undefined;
    const fat = losesFat ? fatIn(cells, made, ledger, notes, fatOf, fatOut, path, at) : undefined;
    own.set(id, ownShares(cells, ledger, notes, fat, gone, sums, place, fatOut));
    for (const { line, takenUp } of named) {
      const shares = GOES.map((goes): [Goes, Known] => {
        const change = ofChange(cells.step, goes, notes, place);
        const value = change.value * takenUp.value;
        return [
          goes,
          notes.derived(`${sums}/own/${goes}/${line}`, value, "ratio", "times", [change, takenUp]),
        ];
      });
      byName.set(`${id} ${line}`, Object.fromEntries(shares) as Record<Goes, Known>);
    }
  }
  const onwards = new Map<string, Known>();
  /** @param here share of a step itself. @param as what it is of, for the trace. */
  const keptFrom = (step: string, here: (step: string) => Known, as: string): Known => {
    const key = `${step} ${as}`;
    const known = onwards.get(key);
    if (known) return known;
    const next = (takers.get(step) ?? []).map((taker) => ({
      ...taker,
      kept: keptFrom(taker.step, here, as),
    }));
    const own = here(step);
    const taken = next.reduce((sum, { share }) => sum + share.value, 0);
    const left = next.length === 0 ? 1 : Math.max(0, 1 - taken < 1e-9 ? 0 : 1 - taken);
    const pairs = next.flatMap(({ share, kept }) => [share, kept]);
    const value = keptOnwards(own.value, left, ...pairs.map((pair) => pair.value));
    const plain = [own, ...next.map(({ kept }) => kept)].every(({ input }) => input === "const:/number/1");
    const found =
      value === 1 && plain
        ? notes.constant(1)
        : notes.derived(`${path}/${step}/kept/${as}`, value, "ratio", keptOnwards, [
            own,
            notes.constant(left),
            ...pairs,
          ]);
    onwards.set(key, found);
    return found;
  };
  const heated = new Map<string, number | undefined>();
  const minutesFrom = (id: string): number | undefined => {
    if (heated.has(id)) return heated.get(id);
    const step = preparation.steps[indexOf.get(id)!]!;
    const later = (takers.get(id) ?? []).map((taker) => minutesFrom(taker.step));
    const cold = later.length === 0 || later.some((minutes) => minutes === undefined);
    const rest = cold ? undefined : Math.min(...(later as number[]));
    const minutes = heats(id) ? heatedMinutes(step) + (rest ?? 0) : rest;
    heated.set(id, minutes);
    return minutes;
  };
  const minerals = keptMinerals({
    ...{ preparation, notes, path, heats, ingredientOf },
    takersOf: (step) => (takers.get(step) ?? []).map((taker) => taker.step),
    own: ownOf,
    keptFrom,
  });
  return (whole, nutrient) => {
    const { id, step } = whole;
    const line = names.has(id) ? id : undefined;
    const { goes } = CARRIED[nutrient];
    const mineral = isRetained(nutrient) ? minerals(whole, line, nutrient) : undefined;
    if (mineral) return mineral;
    const kept = keptFrom(step, (each) => ownOf(each, line)[goes], `${goes}${of(line)}`);
    if (goes !== "alcohol") return kept;
    const minutes = minutesFrom(step);
    if (minutes === undefined) return kept;
    const left = alcoholLeft("stirred-in-and-simmered", minutes).share;
    const table = notes.stated(`${path}/${step}/alcohol-left`, left, "ratio", {
      doc: "USDA Table of Nutrient Retention Factors, Release 6 (2007)",
      table: "ethyl alcohol",
      kind: "published",
    });
    return notes.derived(
      `${path}/${step}/kept/alcohol/heated${of(line)}`,
      kept.value * left,
      "ratio",
      "times",
      [kept, table],
    );
  };
}

const of = (line: string | undefined) => (line === undefined ? "" : `/of/${line}`);

/** Minutes in which a step heats, as far as they are written. */
function heatedMinutes(step: Step): number {
  const { passive, attended } = step;
  if (passive) return "min" in passive ? passive.min : passive.fixedMin;
  return attended?.min ?? 0;
}

interface LossOfStep {
  readonly how: string;
  readonly when: "change" | "discard";
}

function lossesOf(step: Step): LossOfStep[] {
  const { change, discard } = step;
  const found: LossOfStep[] = [];
  if (change !== undefined && change !== "none" && "factor" in change && change.factor < 1)
    found.push({ how: change.as ?? "evaporated", when: "change" });
  if (discard) found.push({ how: DISCARDED[discard.as], when: "discard" });
  return found;
}

/** Share that the change of a step keeps, before anything is taken away. */
function ofChange(step: Step, goes: Goes, notes: Notes, at: string): Known {
  const takes = takesOf(goes);
  if (!lossesOf(step).some(({ how, when }) => when === "change" && takes.has(how))) return notes.constant(1);
  return notes.given(`book:${at}/change/factor`, "ratio", (step.change as { factor: number }).factor);
}

/** Share of the mass that the change of a step keeps, whatever is lost; 1 where it says no factor below 1. */
function massLeft({ change }: Step, notes: Notes, at: string): Known {
  if (change === undefined || change === "none") return notes.constant(1);
  const key = "factor" in change ? "factor" : "toFactor" in change ? "toFactor" : undefined;
  const value = "factor" in change ? change.factor : "toFactor" in change ? change.toFactor : 1;
  return key && value < 1 ? notes.given(`book:${at}/change/${key}`, "ratio", value) : notes.constant(1);
}

const takesOf = (goes: Goes) => (goes === "solid" || goes === "fat" ? TAKES_ALL : TAKES_DISSOLVED);

/** @param gone share of what the step does not take away by name, where it names lines. */
function ownShares(
  cells: StepCells,
  ledger: Ledger,
  notes: Notes,
  fat: Known | undefined,
  gone: Known | undefined,
  path: string,
  at: string,
  fatOut: Map<string, Known>,
): Record<Goes, Known> {
  const { step, lost } = cells;
  const losses = lossesOf(step);
  const shares = Object.fromEntries(
    GOES.map((goes): [Goes, Known] => {
      const takes = takesOf(goes);
      const discard = losses.find(({ how, when }) => when === "discard" && takes.has(how));
      const factor = ofChange(step, goes, notes, at);
      const off = discard
        ? (gone ?? notes.given(`book:${at}/discard/factor`, "ratio", step.discard!.factor))
        : notes.constant(0);
      const taken = goes === "fat" ? losses.find(({ how }) => TAKES_FAT.has(how)) : undefined;
      if (taken && fat) {
        const cell = lost.find(({ how }) => how === taken.how)!.g;
        const g: Known = { value: ledger.value(cell), input: cell };
        const value = keptOfFat(fat.value, g.value, factor.value, off.value);
        return [goes, notes.derived(`${path}/own/fat`, value, "ratio", keptOfFat, [fat, g, factor, off])];
      }
      const value = keptThrough(factor.value, off.value);
      if (value === 1) return [goes, notes.constant(1)];
      return [goes, notes.derived(`${path}/own/${goes}`, value, "ratio", keptThrough, [factor, off])];
    }),
  ) as Record<Goes, Known>;
  if (fat) {
    const value = fat.value * shares.fat.value;
    fatOut.set(step.id, notes.derived(`${path}/fat/out`, value, "g", "times", [fat, shares.fat]));
  }
  return shares;
}

/** Fat that enters a step, g, by its lines and the steps before it. */
function fatIn(
  { step }: StepCells,
  made: PreparationCells,
  ledger: Ledger,
  notes: Notes,
  fatOf: FatOfLine,
  fatOut: ReadonlyMap<string, Known>,
  path: string,
  at: string,
): Known {
  const lines = made.lines
    .filter(({ line }) => line.step === step.id)
    .map((line) => ({
      g: { value: ledger.value(line.ep), input: line.ep as Cell | string },
      fat: fatOf(line),
    }));
  const s = made.preparation.steps.findIndex(({ id }) => id === step.id);
  const before = takenFrom(step).map((from, k) => ({
    fat: fatOut.get(from.step)!,
    share:
      typeof step.from[k] === "string"
        ? notes.constant(1)
        : notes.given(`book:${at}/steps/${s}/from/${k}/share`, "ratio", from.share),
  }));
  const inputs = [
    notes.constant(lines.length),
    ...lines.flatMap(({ g, fat }) => [g, fat]),
    ...before.flatMap(({ fat, share }) => [fat, share]),
  ];
  const [count, ...numbers] = inputs.map(({ value }) => value);
  const value = fatEntering(count!, ...numbers);
  return notes.derived(`${path}/${step.id}/fat/in`, value, "g", fatEntering, inputs);
}
