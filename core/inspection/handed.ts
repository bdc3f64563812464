import type { PlanTask, PlateCount } from "../run/result.ts";
import { firstPlateUp } from "./feeding.ts";
import { namedForm } from "./forms.ts";
import { lineG, placementG, yieldG } from "./grams.ts";
import { type Made, preparedWithEveryCover } from "./needs.ts";
import type { Load, Parts, PlannedBatch } from "./parts.ts";
import type { Scope } from "./scope.ts";

/** A batch and one who gets of it: the loads of a step of another preparation, or a plate-up. */
export interface Handed {
  readonly from: PlannedBatch;
  readonly to: { readonly loads: readonly Load[] } | { readonly plate: PlanTask };
}

/** One in the queue before a preparation. */
interface Asking {
  readonly to: Handed["to"];
  readonly grams: number;
  /** The first that differs decides: how far from the plate (the farthest first), minute of the course, place in the book. */
  readonly rank: readonly [toPlate: number, courseMin: number, place: number];
}

type Queues = Map<string, Asking[]>;

/**
 * Which batch is meant for whom, by the kitchen's queue (production, P7): preparations before plates, the longest way to
 * the plate first, then the earlier course, then the order of the book and of the menu; stock goes first, then batch after
 * batch, and what nobody asks for stays with the last. A millionth is nothing.
 */
export function handedOut(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts,
  plates: readonly PlateCount[],
): Handed[] {
  const queues: Queues = new Map();
  plated(scope, parts, plates, queues);
  const way = wayToPlate(parts, queues);
  const order = [...scope.preparations.keys()];
  for (const [id, batches] of parts.batches)
    for (const line of batches[0]!.preparation.lines) {
      if (!("preparation" in line.item)) continue;
      const { toPlate, courseMin } = way(id);
      for (const batch of batches)
        ask(queues, line.item.preparation, {
          to: { loads: batch.loads.get(line.step) ?? [] },
          grams: (lineG(scope, line) * batch.grams) / yieldG(batch.preparation),
          rank: [toPlate, courseMin, order.indexOf(id)],
        });
    }
  return [...parts.batches].flatMap(([id, batches]) =>
    handedOf(made.get(id)!, batches, queues.get(id) ?? []),
  );
}

function ask(queues: Queues, id: string, asking: Asking): void {
  if (asking.grams > 0) queues.set(id, [...(queues.get(id) ?? []), asking]);
}

/** What plate-ups ask for, and with the first of them, last of what goes out at the service, what goes with every cover. */
function plated(scope: Scope, parts: Parts, plates: readonly PlateCount[], queues: Queues): void {
  const options = scope.menu.courses.flatMap((course) =>
    course.options.map(({ dish }) => ({ course, dish: scope.dishes.get(dish)! })),
  );
  for (const [place, { course, dish }] of options.entries()) {
    const plate = parts.plates.find((task) => task.step === course.id && task.preparation === dish.id);
    for (const { variant, count, spare } of plates.filter(
      (p) => p.course === course.id && p.dish === dish.id,
    ))
      for (const placement of plate ? namedForm(dish, variant)! : [])
        if (placement.preparation !== undefined)
          ask(queues, placement.preparation, {
            to: { plate: plate! },
            grams: (count + spare) * placementG(scope, placement),
            rank: [-1, course.afterMin, place],
          });
  }
  const first = firstPlateUp(scope, parts, plates);
  for (const { preparation, grams } of first ? preparedWithEveryCover(scope) : [])
    ask(queues, preparation, { to: { plate: first! }, grams, rank: [-1, 0, options.length] });
}

/** By preparation: how many preparations lie between it and the plate at the most, and the first course it gets to. */
function wayToPlate(parts: Parts, plated: Queues) {
  const courses = new Map([...plated].map(([id, all]) => [id, Math.min(...all.map(({ rank }) => rank[1]))]));
  const takers = new Map<string, Set<string>>();
  for (const [id, batches] of parts.batches)
    for (const { item } of batches[0]!.preparation.lines)
      if ("preparation" in item)
        takers.set(item.preparation, (takers.get(item.preparation) ?? new Set()).add(id));
  const known = new Map<string, { readonly toPlate: number; readonly courseMin: number }>();
  const way = (id: string): { readonly toPlate: number; readonly courseMin: number } => {
    const found = known.get(id);
    if (found) return found;
    const above = [...(takers.get(id) ?? [])].map(way);
    const made = {
      toPlate: Math.max(0, ...above.map(({ toPlate }) => toPlate + 1)),
      courseMin: Math.min(courses.get(id) ?? Infinity, ...above.map(({ courseMin }) => courseMin)),
    };
    known.set(id, made);
    return made;
  };
  return way;
}

function handedOf({ stockG, grams }: Made, batches: readonly PlannedBatch[], asking: readonly Asking[]) {
  const queue = [...asking].sort(({ rank: a }, { rank: b }) => b[0] - a[0] || a[1] - b[1] || a[2] - b[2]);
  const crumb = 1e-6 * Math.max(1, grams);
  const handed: Handed[] = [];
  let asked = -stockG;
  for (const [i, { to, grams: wanted }] of queue.entries()) {
    const from = Math.max(0, asked);
    asked += wanted;
    const until = i === queue.length - 1 ? Infinity : asked;
    let begins = 0;
    for (const batch of batches) {
      const ends = begins + batch.grams;
      const again = handed.some(
        (h) => h.from === batch && "plate" in h.to && "plate" in to && h.to.plate === to.plate,
      );
      if (!again && Math.min(ends, until) - Math.max(begins, from) > crumb) handed.push({ from: batch, to });
      begins = ends;
    }
  }
  return handed;
}
