import type { Like } from "../schedule/like.ts";
import type { Amounts } from "./amounts.ts";
import { applied, applyOf } from "./apply.ts";
import { type Change, changesFor } from "./changes.ts";
import type { Documents } from "./documents.ts";
import { type Effort, type Engine, isTotal, type MadePlan, planProblem, problemFor } from "./make-plan.ts";
import type { SiteOptions } from "./open-site.ts";
import type { Apply, Plan, Remedy } from "./plan-types.ts";
import { spareOf } from "./ready-parts.ts";

type Built = Pick<MadePlan, "site" | "set" | "problem">;

/** What a tried plan was made from, for whoever judges it. */
export interface Tried {
  readonly docs: Documents;
  readonly amounts: Amounts;
}

export interface RemedyOptions {
  readonly effort: Effort;
  /** Says whether a plan keeps every rule; without one the engine's own word is taken. */
  readonly judge?: ((plan: Plan, tried: Tried) => boolean) | undefined;
  /** The same service at another number of covers, or undefined when it cannot be. */
  readonly amountsFor?: ((covers: number) => Amounts | undefined) | undefined;
  /** Told of all that was found so far, each time there is one more, in the order in which they are told at the end. */
  readonly onFound?: ((remedies: readonly Remedy[]) => void) | undefined;
  /** Fewest covers worth asking for. */
  readonly leastCovers?: number | undefined;
}

/**
 * Remedies for a plan that does not hold (README, P21): each change is planned anew and carries the plan that
 * proves it. Those that fit come first; of the others those that break less than before, said as not enough.
 */
export function remediesFor(
  made: MadePlan,
  docs: Documents,
  site: SiteOptions,
  engine: Engine,
  given: RemedyOptions,
): Remedy[] {
  const before = harm(made.plan);
  const options = { ...given, effort: { ...given.effort, like: attemptOf(made) } };
  const tried: Remedy[] = [];
  const rank = (r: Remedy) => (r.status === "feasible" ? 0 : 1);
  const ranked = () => tried.toSorted((a, b) => rank(a) - rank(b));
  const found = (one: Remedy) => {
    tried.push(one);
    options.onFound?.(ranked());
  };
  const fitted = new Set<string>();
  for (const change of changesFor(made)) {
    if (options.effort.stop?.()) break;
    if (change.group !== undefined && fitted.has(change.group)) continue;
    const { plan, apply } = tryChange(change, made, docs, site, engine, options);
    if (!plan) continue;
    if (plan.status === "feasible" || (plan.status !== "none" && harm(plan) < before))
      found(remedy(change.what, apply, plan));
    if (plan.status === "feasible" && change.group !== undefined) fitted.add(change.group);
  }
  const fewer = fewerCovers(made, docs, site, engine, options);
  if (fewer) found(fewer);
  return ranked();
}

/** The attempt at the service as it is. */
function attemptOf({ problem, solved }: MadePlan): Like | undefined {
  return solved.schedule === null
    ? undefined
    : { ...solved.schedule, spanIds: (problem.spans ?? []).map(({ id }) => id) };
}

/** How much a plan breaks: breaches first, minutes and units within them. */
function harm(plan: Plan): number {
  if (plan.status === "none") return Number.POSITIVE_INFINITY;
  return plan.broken.reduce((sum, b) => sum + (b.times ?? 1) + b.by / (b.by + 60), 0);
}

/**
 * A change planned anew, from the documents as its own `apply` makes them: so the proof is of what is applied. No plan
 * where there is still too little of something over the whole time: what one would break tells nothing.
 */
function tryChange(
  change: Change,
  made: MadePlan,
  docs: Documents,
  site: SiteOptions,
  engine: Engine,
  options: RemedyOptions,
): { readonly plan: Plan | undefined; readonly apply: Apply } {
  const { kitchen, amounts } = made.site;
  const before = { docs, kitchen, service: amounts.service };
  const after = {
    docs: change.docs ?? docs,
    kitchen: change.kitchen ?? kitchen,
    service: change.service ?? amounts.service,
  };
  const apply = applyOf(before, after);
  const tried = applied(before, apply);
  const changed: Tried = {
    docs: tried.docs,
    amounts: { ...amounts, kitchen: tried.kitchen, service: tried.service },
  };
  const built = problemFor(tried.docs, changed.amounts, { ...site, kitchen: tried.kitchen });
  const hopeless = built.set.lacks.some(isTotal);
  return { plan: hopeless ? undefined : judged(changed, built, engine, options), apply };
}

function judged(tried: Tried, built: Built, engine: Engine, options: RemedyOptions): Plan {
  const { plan } = planProblem(tried.docs, tried.amounts, built, engine, options.effort);
  if (plan.status !== "feasible" || !options.judge || options.judge(plan, tried)) return plan;
  return { ...plan, status: "broken" };
}

function remedy(change: string, apply: Apply, plan: Plan): Remedy {
  const { covers } = apply;
  const spareMin = spareOf(plan);
  return {
    change,
    apply,
    result: resultText(plan, spareMin),
    status: plan.status,
    ...(plan.status === "feasible" && spareMin !== undefined ? { spareMin } : {}),
    ...(covers === undefined ? {} : { covers }),
    proof: plan.tasks.map(({ id, start }) => ({ id, start })),
  };
}

function resultText(plan: Plan, spareMin: number | undefined): string {
  if (plan.status === "feasible") return spareMin === undefined ? "fits" : `fits, ${spareMin} min spare`;
  const [first] = plan.broken;
  if (!first) return "not enough: the check of the plan refuses it";
  const more = plan.broken.length > 1 ? `, and ${plan.broken.length - 1} more` : "";
  return `not enough: ${first.what}${more}`;
}

/** The most covers that fit, by halving the range between the fewest and what was asked. */
function fewerCovers(
  made: MadePlan,
  docs: Documents,
  site: SiteOptions,
  engine: Engine,
  options: RemedyOptions,
): Remedy | undefined {
  const { amountsFor } = options;
  if (!amountsFor) return undefined;
  const asked = made.site.amounts.covers;
  let fits: { covers: number; plan: Plan } | undefined;
  let least: Plan | undefined;
  let low = Math.max(1, options.leastCovers ?? 1) - 1;
  let high = asked;
  while (high - low > Math.max(1, asked / 50)) {
    if (options.effort.stop?.()) break;
    const middle = Math.ceil((low + high) / 2);
    const amounts = amountsFor(middle);
    const tried = amounts && { docs, amounts: { ...amounts, kitchen: made.site.kitchen } };
    // What the bare sums rule out need not be planned, and an attempt that fails need not be made good.
    const built = tried && problemFor(docs, tried.amounts, { ...site, kitchen: made.site.kitchen });
    const hopeless = !tried || !built || built.set.lacks.length > 0;
    const quick = { ...options, effort: { ...options.effort, relax: [], like: undefined } };
    const plan = hopeless ? undefined : judged(tried, built, engine, quick);
    if (plan?.status === "feasible") {
      fits = { covers: middle, plan };
      low = middle;
    } else {
      least = plan ?? least;
      high = middle;
    }
  }
  if (fits) return remedy(`${fits.covers} covers instead of ${asked}`, { covers: fits.covers }, fits.plan);
  return least && remedy(`${high} covers instead of ${asked}`, { covers: high }, least);
}
