import type { StepCells } from "../formula/balance.ts";
import type { PreparationCells } from "../formula/cells.ts";
import type { Preparation, Step } from "../formula/schema.ts";
import type { Ledger } from "../ledger/ledger.ts";
import type { Known, Notes } from "./nutrition-notes.ts";
import { goneOfOthers, keptOnwards } from "./nutrition-rules.ts";

/** A line that a step takes away by name. */
export interface NamedLine {
  readonly line: string;
  /** What is put in, g. */
  readonly g: Known;
  /** Share of it that comes as far as what is taken away. */
  readonly reach: Known;
  /** Share of what came that stays in the food. */
  readonly takenUp: Known;
}

/** Ways from a step to the steps that take its output, and what of a line's solids a step passes on. */
export interface Ways {
  readonly takersOf: (step: string) => readonly { readonly step: string; readonly share: Known }[];
  readonly passes: (step: string, line: string) => Known;
  /** Share of the mass that the change of a step leaves, where it is known of which food the loss is. */
  readonly left: (step: Step, alone: boolean) => Known;
}

/** The lines a step takes away by name. @param at JSON Pointer of the step. @param path of its sums. */
export function namedLines(
  { step }: StepCells,
  made: PreparationCells,
  ledger: Ledger,
  notes: Notes,
  ways: Ways,
  path: string,
  at: string,
): NamedLine[] {
  const names = new Set(step.discard?.lines?.map(({ line }) => line));
  const { preparation } = made;
  const alone = (id: string) => names.size > 0 && linesUpTo(preparation, id).every((line) => names.has(line));
  return (step.discard?.lines ?? []).flatMap(({ line: id, takenUp, source }, k): NamedLine[] => {
    const cells = made.lines.find(({ line }) => line.id === id);
    if (!cells) return [];
    return [
      {
        line: id,
        // A line to taste is in no mass.
        g: cells.weighed ? { value: ledger.value(cells.ep), input: cells.ep } : notes.constant(0),
        reach: reachOf(cells.line.step, step, id, preparation, alone, notes, ways, `${path}/named/${id}`),
        takenUp: notes.given(`book:${at}/discard/lines/${k}/takenUp`, "ratio", takenUp, source),
      },
    ];
  });
}

/** Share of everything else that is taken away with them. */
export function goneBeside(
  named: readonly NamedLine[],
  cells: StepCells,
  ledger: Ledger,
  notes: Notes,
  path: string,
  at: string,
): Known {
  const { lost, step } = cells;
  const { factor } = step.discard!;
  // The discard is the last of a step's losses.
  const cell = lost.at(-1)!.g;
  const inputs = [
    { value: ledger.value(cell), input: cell },
    notes.given(`book:${at}/discard/factor`, "ratio", factor),
    ...named.flatMap(({ g, reach, takenUp }) => [g, reach, takenUp]),
  ];
  const [discardedG, share, ...numbers] = inputs.map(({ value }) => value);
  const value = goneOfOthers(discardedG!, share!, ...numbers);
  return notes.derived(`${path}/named/gone-of-others`, value, "ratio", goneOfOthers, inputs);
}

/**
 * Share of a line's mass that comes as far as a discard. Where a step holds nothing but lines that are taken away, water it
 * loses is theirs; in a mixture nobody knows whose it is, and it counts as that of the rest.
 */
function reachOf(
  from: string,
  to: Step,
  line: string,
  preparation: Preparation,
  alone: (step: string) => boolean,
  notes: Notes,
  ways: Ways,
  path: string,
): Known {
  const known = new Map<string, Known>();
  const along = (id: string): Known => {
    if (id === to.id) return ways.left(to, alone(id));
    const before = known.get(id);
    if (before) return before;
    const step = preparation.steps.find((each) => each.id === id)!;
    const own = alone(id) && !step.discard ? ways.left(step, true) : ways.passes(id, line);
    const next = ways.takersOf(id).flatMap((taker) => [taker.share, along(taker.step)]);
    const inputs = [own, notes.constant(0), ...next];
    const [share, none, ...numbers] = inputs.map(({ value }) => value);
    const value = keptOnwards(share!, none!, ...numbers);
    const found =
      next.length === 0
        ? notes.constant(0)
        : notes.derived(`${path}/from/${id}`, value, "ratio", keptOnwards, inputs);
    known.set(id, found);
    return found;
  };
  return along(from);
}

/** Lines in the food of a step, its own and those of the steps before it. */
function linesUpTo(preparation: Preparation, id: string): string[] {
  const steps = new Set([id]);
  for (const step of steps)
    for (const from of preparation.steps.find((each) => each.id === step)?.from ?? [])
      steps.add(typeof from === "string" ? from : from.step);
  return preparation.lines.filter(({ step }) => steps.has(step)).map((line) => line.id);
}
