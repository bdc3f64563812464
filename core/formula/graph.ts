import { type Problem, Refusal } from "../pantry/refusal.ts";
import type { Larder } from "./larder.ts";
import type { Preparation, Step } from "./schema.ts";

/** Where a document stands in the book: pointer("preparations", "jus") is "/preparations/12". */
export type Pointer = (kind: string, id: string) => string;

/**
 * All preparations that go into `roots`, at any depth, parts before what is made of them.
 * @throws Refusal naming the whole path of each circle ("a > b > a") and of each missing part.
 */
export function orderOfMaking(larder: Larder, roots: Iterable<string>, pointer: Pointer): Preparation[] {
  const order: Preparation[] = [];
  const problems: Problem[] = [];
  const state = new Map<string, "open" | "done">();
  const trail: { preparation: Preparation; next: number }[] = [];
  const path = () => trail.map((step) => step.preparation.id);

  const enter = (id: string, at: string): void => {
    const preparation = larder.preparations.get(id);
    if (!preparation) {
      problems.push({
        path: at,
        what: `there is no preparation "${id}": ${[...path(), id].join(" > ")}`,
        mend: "add it to the book, or name one there is",
      });
      return;
    }
    if (state.get(id) === "done") return;
    if (state.get(id) === "open") {
      const circle = [...path().slice(path().indexOf(id)), id];
      problems.push({
        path: at,
        what: `preparations turn in a circle: ${circle.join(" > ")}`,
        mend: "a preparation cannot be made of itself: take it out of one of these",
      });
      return;
    }
    state.set(id, "open");
    trail.push({ preparation, next: 0 });
  };

  // A stack of our own: a library may be deeper than the engine's call stack.
  for (const root of roots) {
    enter(root, "");
    for (let top = trail.at(-1); top; top = trail.at(-1)) {
      const line = top.preparation.lines[top.next];
      if (!line) {
        state.set(top.preparation.id, "done");
        order.push(top.preparation);
        trail.pop();
        continue;
      }
      const at = `${pointer("preparations", top.preparation.id)}/lines/${top.next}/item`;
      top.next++;
      if ("preparation" in line.item) enter(line.item.preparation, at);
      else if (!larder.ingredients.has(line.item.ingredient)) {
        problems.push({
          path: at,
          what: `there is no ingredient "${line.item.ingredient}": ${[...path(), line.item.ingredient].join(" > ")}`,
          mend: "add it to the book, or name one there is",
        });
      }
    }
  }
  if (problems.length > 0) throw new Refusal(problems);
  return order;
}

/** Step and share of each output that enters a step. */
export function takenFrom(step: Step): { readonly step: string; readonly share: number }[] {
  return step.from.map((from) => (typeof from === "string" ? { step: from, share: 1 } : from));
}

/** Steps of one preparation, each after those it takes from. @throws Refusal naming the circle. */
export function orderOfSteps(preparation: Preparation, pointer: Pointer): Step[] {
  const byId = new Map(preparation.steps.map((step) => [step.id, step]));
  const waitsFor = new Map(preparation.steps.map((step) => [step.id, 0]));
  const feeds = new Map<string, string[]>();
  const refuse = (what: string): never => {
    const path = `${pointer("preparations", preparation.id)}/steps`;
    throw new Refusal([{ path, what, mend: "let each step take only from other steps of the preparation" }]);
  };
  for (const step of preparation.steps)
    for (const from of takenFrom(step)) {
      if (!byId.has(from.step)) refuse(`there is no step "${from.step}": ${step.id} > ${from.step}`);
      waitsFor.set(step.id, waitsFor.get(step.id)! + 1);
      feeds.set(from.step, [...(feeds.get(from.step) ?? []), step.id]);
    }
  const order: Step[] = [];
  const ready = preparation.steps.filter((step) => waitsFor.get(step.id) === 0);
  for (let step = ready.shift(); step; step = ready.shift()) {
    order.push(step);
    waitsFor.delete(step.id);
    for (const next of feeds.get(step.id) ?? []) {
      const left = waitsFor.get(next)! - 1;
      waitsFor.set(next, left);
      if (left === 0) ready.push(byId.get(next)!);
    }
  }
  if (waitsFor.size > 0) refuse(`steps turn in a circle: ${circleAmong(waitsFor, byId).join(" > ")}`);
  return order;
}

/** Walks back from one step that waits to another until one comes again. */
function circleAmong(waiting: ReadonlyMap<string, number>, byId: ReadonlyMap<string, Step>): string[] {
  const seen: string[] = [];
  let here: string = [...waiting.keys()][0]!;
  while (!seen.includes(here)) {
    seen.unshift(here);
    here = takenFrom(byId.get(here)!).find((from) => waiting.has(from.step))!.step;
  }
  return [here, ...seen.slice(0, seen.indexOf(here) + 1)];
}
