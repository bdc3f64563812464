import type { Person, Task as Piece, Problem } from "../schedule/problem.ts";
import { sameContacts } from "./contacts.ts";
import { personsOf, problemOf, resourceOf } from "./problem.ts";
import type { Site } from "./site.ts";
import type { Task, TaskSet } from "./tasks.ts";

/** A kitchen, its tasks and the problem they make. */
export interface Settled {
  readonly site: Site;
  readonly set: TaskSet;
  readonly problem: Problem;
}

/**
 * The problem of the same service after something has happened: what `problemOf` says of it, but what has not changed
 * is taken from before as it is, so that the engine knows it again. Where tasks were added or use other equipment, it
 * is made anew. The axis stays as long as it was, though the last shift may have lost its cook.
 * @param latest end of what has begun or is over: beyond the axis it is a longer one
 */
export function problemAgain(before: Settled, site: Site, set: TaskSet, latest: number): Problem {
  const { problem } = before;
  const same =
    set.tasks.length === before.set.tasks.length &&
    latest <= problem.horizon &&
    set.tasks.every((task, i) => task.uses === before.set.tasks[i]!.uses);
  if (!same) return problemOf(site, set);
  sameContacts(before.set.tasks, site, set.tasks);
  const count = site.units.all.length;
  return {
    ...problem,
    tasks: set.tasks.map((task, i) => datedAnew(problem.tasks[i]!, task)),
    persons: site.crew === before.site.crew ? problem.persons! : crewOf(site, problem.horizon),
    resources: problem.resources!.map((resource, k) => {
      const unit = site.units.all[k];
      if (k >= count || unit === before.site.units.all[k]) return resource;
      const { calendar } = resourceOf(site, unit!, problem.horizon);
      return { ...resource, ...(calendar ? { calendar } : {}) };
    }),
  };
}

/** A piece with its task's dates; a status comes with a pin of its own, which its caller puts there. */
function datedAnew(piece: Piece, task: Task): Piece {
  if (
    piece.release === task.release &&
    piece.deadline === task.deadline &&
    piece.pin?.start === task.at &&
    task.status === undefined
  )
    return piece;
  const { release: _, deadline: __, pin: ___, status: ____, ...plain } = piece;
  return {
    ...plain,
    ...(task.release === undefined ? {} : { release: task.release }),
    ...(task.deadline === undefined ? {} : { deadline: task.deadline }),
    ...(task.at === undefined ? {} : { pin: { start: task.at } }),
  };
}

const crews = new WeakMap<Site["crew"], { readonly horizon: number; readonly persons: readonly Person[] }>();

/** The same persons for the same crew, so that the engine knows their hours again. */
function crewOf(site: Site, horizon: number): readonly Person[] {
  const known = crews.get(site.crew);
  if (known?.horizon === horizon) return known.persons;
  const persons = personsOf(site, horizon);
  crews.set(site.crew, { horizon, persons });
  return persons;
}
