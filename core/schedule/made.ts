import { type Clusters, clustersOf } from "./clusters.ts";
import { buildModel, type Model, type View } from "./model.ts";
import type { Problem } from "./problem.ts";

/** A model of a problem, with its clusters. */
export interface Made {
  readonly model: Model;
  readonly clusters: Clusters;
}

const kept = new WeakMap<Problem, Map<string, Made>>();

/** The model of a problem in a view, made once: neither changes, and several ways of mending ask for the same. */
export function madeOf(problem: Problem, view: View): Made {
  const known = kept.get(problem) ?? new Map<string, Made>();
  kept.set(problem, known);
  const key = `${view.mirrored} ${view.extra ?? 0} ${view.late ?? false}`;
  const found = known.get(key);
  if (found) return found;
  const model = buildModel(problem, view);
  const made = { model, clusters: clustersOf(model) };
  known.set(key, made);
  return made;
}
