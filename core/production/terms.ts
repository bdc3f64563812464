import type { Placement, Result as Solved, Term as SolvedTerm } from "../schedule/problem.ts";
import type { Peak, Term } from "./plan-types.ts";
import type { Site } from "./site.ts";
import type { Link, TaskSet } from "./tasks.ts";
import { type WeightName, weightsFor } from "./weights.ts";

/** The engine's terms by the weight that stands for them; waits and staleness are one term there, peaks are summed hour by hour. */
const OF: Readonly<Record<Exclude<WeightName, "stale" | "waiting" | "peaks">, SolvedTerm>> = {
  slack: "late",
  heatUps: "changes",
  walking: "walk",
  hands: "modes",
  breaks: "pauses",
};

const WORDS: Readonly<Record<WeightName, readonly [term: string, unit: string]>> = {
  slack: ["slack eaten", "min"],
  stale: ["food held beyond its best", "min"],
  waiting: ["waiting between steps", "min"],
  heatUps: ["heat-ups", "changes"],
  walking: ["walking", "min"],
  hands: ["hands beyond the fewest", "min"],
  peaks: ["peaks of work", "min"],
  breaks: ["work interrupted by a break", "times"],
};

/**
 * What the plan is judged by, each in its own unit with its weight; `bound` where the engine knows one: no plan of
 * this service has less. A term of weight 0 counts nothing and is left out.
 */
export function termsOf(
  site: Site,
  set: TaskSet,
  placements: readonly Placement[],
  solved: Solved,
  peaks: readonly Peak[],
): Term[] {
  const weights = weightsFor(site.amounts.service);
  const found = new Map(solved.objective.map((each) => [each.term, each]));
  return (Object.keys(WORDS) as WeightName[]).flatMap((key): Term[] => {
    const weight = weights[key];
    const [term, unit] = WORDS[key];
    if (key === "stale" || key === "waiting") {
      if (weight === 0 || !set.links.some((link) => bestWait(link)?.key === key)) return [];
      return [{ key, term, value: waited(set, placements, key), unit, weight }];
    }
    if (key === "peaks") {
      const value = peaks.reduce((sum, { overMin }) => sum + overMin, 0);
      const bound = found.get("peak")?.bound;
      const least = bound === undefined ? {} : { bound: bound / weight };
      return weight === 0 ? [] : [{ key, term, value, unit, weight, ...least }];
    }
    const valued = found.get(OF[key]);
    if (!valued || weight === 0) return [];
    const bound = valued.bound === undefined ? {} : { bound: valued.bound / weight };
    return [{ key, term, value: valued.value / weight, unit, weight, ...bound }];
  });
}

/**
 * What a wait is best kept to: where the food has a best time, that; else a wait for the next use is best none at all,
 * since things are made as late as sensible. Undefined where a wait is bounded alone.
 */
export function bestWait(
  link: Link,
): { readonly best: number; readonly key: "stale" | "waiting" } | undefined {
  if (link.best !== undefined) return { best: link.best, key: "stale" };
  const waits = ["ready", "hold", "life", "thawed"].includes(link.rule);
  return waits && link.least !== undefined ? { best: link.least, key: "waiting" } : undefined;
}

/** Minutes of waits beyond their best. */
function waited(set: TaskSet, placements: readonly Placement[], key: "stale" | "waiting"): number {
  const at = new Map(placements.map((p) => [p.task, p]));
  return set.links.reduce((sum, link) => {
    const soft = bestWait(link);
    const [from, to] = [at.get(link.from.task), at.get(link.to.task)];
    if (soft?.key !== key || link.rule === "course" || !from || !to) return sum;
    return sum + Math.max(0, to[link.to.at] - from[link.from.at] - soft.best);
  }, 0);
}
