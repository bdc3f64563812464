import type { Person, Task as Piece, Problem, Resource } from "../schedule/problem.ts";
import { sameContacts } from "./contacts.ts";
import { originalId } from "./live-rest.ts";
import { personsOf, problemOf, readingOf, resourceOf } from "./problem.ts";
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
 * is taken from before as it is, so that the engine knows it again. Where a task may use equipment it had not, it is
 * made anew. The axis stays as long as it was, though the last shift may have lost its cook.
 * @param latest end of what has begun or is over: beyond the axis it is a longer one
 */
export function problemAgain(before: Settled, site: Site, set: TaskSet, latest: number): Problem {
  const { problem } = before;
  const index = new Map(before.set.tasks.map((task, i) => [task.id, i]));
  const known = (task: Task) => before.set.tasks[index.get(originalId(task.id)) ?? -1];
  if (latest > problem.horizon || !set.tasks.every((task) => among(task, known(task))))
    return problemOf(site, set);
  sameContacts(before.set.tasks, site, set.tasks);
  const same = (task: Task, i: number) =>
    task.id === before.set.tasks[i]?.id && task.uses === before.set.tasks[i].uses;
  const kitchen = {
    persons: site.crew === before.site.crew ? problem.persons! : crewOf(site, problem.horizon),
    resources: resourcesAgain(before, site),
  };
  if (set.tasks.length === before.set.tasks.length && set.tasks.every(same))
    return { ...problem, ...kitchen, tasks: set.tasks.map((task, i) => datedAnew(problem.tasks[i]!, task)) };
  const reading = readingOf(site, set.tasks, problem.horizon);
  const asked = reading.asked(set, (task) => {
    const i = index.get(task.id) ?? -1;
    return same(task, i) ? datedAnew(problem.tasks[i]!, task) : reading.piece(task);
  });
  return { ...problem, ...kitchen, ...asked };
}

/** Whether a task uses nothing that it, or what it is the rest of, might not have used. */
function among({ uses }: Task, before: Task | undefined): boolean {
  if (!before || uses === before.uses) return before !== undefined;
  return uses.every((use) =>
    before.uses.some(({ units }) => use.units === units || use.units.every((id) => units.includes(id))),
  );
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

const rooms = new WeakMap<Site["units"]["all"], { readonly of: Problem; readonly resources: Resources }>();

type Resources = readonly Resource[];

/** The same resources for the same units, with the hours these are closed. */
function resourcesAgain({ site: { units }, problem }: Settled, site: Site): Resources {
  const { all } = site.units;
  if (all === units.all) return problem.resources!;
  const known = rooms.get(all);
  if (known?.of === problem) return known.resources;
  const resources = problem.resources!.map((resource, k) => {
    const unit = all[k];
    if (unit === undefined || unit === units.all[k]) return resource;
    const { calendar } = resourceOf(site, unit, problem.horizon);
    return { ...resource, ...(calendar ? { calendar } : {}) };
  });
  rooms.set(all, { of: problem, resources });
  return resources;
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
