import { indexBook, type Library } from "../book/index-book.ts";
import type { Book } from "../book/schema.ts";
import { costResult } from "../costing/cost-result.ts";
import { type CostCells, costCells } from "../costing/costs.ts";
import { plannedLabour } from "../costing/planned-labour.ts";
import { sensitivityOf, sensitivityRules } from "../costing/sensitivity.ts";
import { type Trial, type TriedCost, tryCost } from "../costing/what-if.ts";
import { airOf } from "../heat/media.ts";
import type { Rule } from "../ledger/ledger.ts";
import { Tracer } from "../ledger/tracer.ts";
import { type Problem, Refusal } from "../pantry/refusal.ts";
import type { Amounts } from "../production/amounts.ts";
import { balanceResult, batchSheetsResult, needsResult, platesResult } from "../production/amounts-result.ts";
import type { Apart } from "../production/apart.ts";
import { clockOf } from "../production/clock.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { type Explained, explainTask } from "../production/explain.ts";
import type { Effort, Engine } from "../production/make-plan.ts";
import { type PlanResult, planService } from "../production/plan-service.ts";
import { scheduledRules } from "../production/plan-trace.ts";
import type { Plan, Remedy } from "../production/plan-types.ts";
import { Buying } from "../purchasing/buying.ts";
import type { MixedInteger } from "../purchasing/mixed-integer.ts";
import { orderedRules } from "../purchasing/order-trace.ts";
import { type OrdersOptions, orderedAgain, ordersResult } from "../purchasing/orders-result.ts";
import { apartFor } from "../safety/apart.ts";
import { Contents, type Eaten } from "../safety/contents.ts";
import { type Controlled, type ControlPoint, controlPoints } from "../safety/control.ts";
import { everyCover } from "../safety/every-cover.ts";
import { Foods } from "../safety/foods.ts";
import { frontOfHouse, withTraces } from "../safety/front-of-house.ts";
import { labelsWithTraces } from "../safety/label-traces.ts";
import { labels } from "../safety/labels.ts";
import { unknownLocalLimits } from "../safety/local-limits.ts";
import { type AllergenCell, allergenMatrix, type ServedPlate, withShared } from "../safety/matrix.ts";
import { type NutritionLabels, nutritionLabels } from "../safety/nutrition-labels.ts";
import { seatingSheet, seatsTaken } from "../safety/seating.ts";
import { exposuresIn } from "../safety/shared.ts";
import { whoseOf } from "../safety/whose.ts";
import { type FoundPlans, foundIn, questionOf, solve } from "../schedule/index.ts";
import { declaredBy } from "./declared.ts";
import { heatResult, heatRules, targetFiller, traceHeat } from "./fill.ts";
import { inspected, unsaid } from "./judge.ts";
import { traceControl, withHeat } from "./predicted.ts";
import type { Result } from "./result.ts";
import { traceSeating } from "./seating.ts";
import { stepTimesOf, tracePull, traceServed, traceSheets } from "./served.ts";
import { StepHeats } from "./step-heats.ts";
import { emptyPlan, noPlan, summaryOf } from "./summary.ts";
import { type TaskPin, type TriedMove, tryMove } from "./try-move.ts";

/** Documents that cannot be computed with; every problem named. */
export { Refusal as RunRefusal };

export interface RunOptions {
  readonly covers?: number;
  /** Id of another kitchen. */
  readonly kitchen?: string;
  /** Of the plan's search; the same seed and count of schedules give the same plan. */
  readonly seed?: number;
  readonly schedules?: number;
  /** false leaves the plan out: the quick answer while covers are dragged. */
  readonly plan?: boolean;
  /** false leaves the trace out. */
  readonly trace?: boolean;
  /** What moves the cost; said with a plan, where not asked otherwise. */
  readonly sensitivity?: boolean;
  /** Makes the orders of a plan better and says how near the cheapest they are; without one this house's own search does. */
  readonly solver?: MixedInteger | undefined;
  /** Plans found before: a question asked again is not searched again. */
  readonly found?: FoundPlans | undefined;
  /** false tries no remedies. */
  readonly remedies?: boolean;
  readonly stop?: () => boolean;
  readonly onProgress?: NonNullable<Effort["onProgress"]>;
  /** Told of the remedies found so far, each time there is one more. */
  readonly onRemedies?: (remedies: readonly Remedy[]) => void;
}

/** Schedules generated when nobody asks for more: a good plan in about a second. */
export const USUAL_SCHEDULES = 400;

/**
 * Documents in, everything computed out: amounts, orders, cost, allergens, plan, lists, labels, and how each
 * number came. The same book, service and options give the same result.
 * @throws RunRefusal when the documents cannot be computed with. A plan that does not fit is a result.
 */
export function run(book: Book, serviceId: string, options: RunOptions = {}): Result {
  return openRun(book, serviceId, options).at(options);
}

/** A service that stays open for change: the covers can be set anew without reading the documents again. */
export interface OpenRun {
  /** @throws RunRefusal when the covers cannot be. */
  at(options?: RunOptions): Result;
  /** Why a task of the plan made last stands where it stands; undefined when there is no such task or plan. */
  explain(task: string): Explained | undefined;
  /** What plates and menu would cost with other prices, yields, portions or price rules; nothing is kept. */
  tryCost(covers: number | undefined, trial: Trial): TriedCost;
  /** What would give if a task of the plan made last were pinned: the quick answer to a drag. */
  tryMove(pin: TaskPin): TriedMove | undefined;
}

/** Reads the documents of a service once; `at` computes it for any number of covers. */
export function openRun(
  book: Book,
  serviceId: string,
  options: Pick<RunOptions, "covers" | "kitchen"> = {},
): OpenRun {
  const docs = indexBook(book);
  const contents = contentsFor(docs, serviceId, options.kitchen);
  const meets = contents.meets.bind(contents);
  const { covers, kitchen } = options;
  const first = computeAmounts(docs, serviceId, { covers, kitchen, meets });
  const buying = new Buying(first, docs);
  const costs = costCells(first, docs, buying.offers);
  const foods = new Foods(docs);
  const heats = new StepHeats(docs, first, foods);
  const service: Opened = {
    ...{ docs, contents, heats, buying, costs },
    matrix: rememberedMatrix(contents),
    watched: rememberedHeat(docs, foods, heats),
    nutrition: rememberedNutrition(docs, foods, contents),
  };
  let last: PlannedHere | undefined;
  return {
    at(wanted = {}) {
      const amounts = first.update(wanted.covers ?? first.service.covers);
      return compute(service, amounts, wanted, (planned) => {
        last = planned;
      });
    },
    explain(task) {
      const schedule = last?.made.solved.schedule;
      return last && schedule ? explainTask({ ...last.made, schedule }, task) : undefined;
    },
    tryCost: (covers, trial) => tryCost(first.update(covers ?? first.service.covers), docs, costs, trial),
    tryMove(pin) {
      if (!last) return undefined;
      const { amounts } = last.made.site;
      return tryMove(
        { docs, amounts, made: last.made, plan: last.plan, fill: last.made.site.fillTarget },
        pin,
      );
    },
  };
}

/** What stays while the covers change. */
interface Opened {
  readonly docs: Library;
  readonly contents: Contents;
  readonly heats: StepHeats;
  readonly watched: (amounts: Amounts, served: Amounts["plates"]) => WatchedHeat;
  readonly nutrition: (amounts: Amounts) => NutritionLabels;
  readonly buying: Buying;
  readonly costs: CostCells;
  readonly matrix: (plates: readonly ServedPlate[]) => AllergenCell[];
}

/** Nutrition is the same as long as the same is made and served, however much. */
function rememberedNutrition(docs: Library, foods: Foods, contents: Contents): Opened["nutrition"] {
  let known: { readonly key: string; readonly labels: NutritionLabels } | undefined;
  return (amounts) => {
    const { ledger, cells } = amounts;
    const served = cells.plates.map((row) => Number(ledger.value(row.plates) > 0)).join("");
    const made = cells.preparations.map((need) => Number(ledger.value(need.batches.madeG) > 0)).join("");
    const key = `${served} ${made}`;
    if (known?.key !== key)
      known = { key, labels: nutritionLabels(docs, amounts, contents, foods, docs.pointer.bind(docs)) };
    return known.labels;
  };
}

/** The matrix is the same as long as the same plates are served, however many. */
function rememberedMatrix(contents: Contents): Opened["matrix"] {
  let known: { readonly key: string; readonly cells: AllergenCell[] } | undefined;
  return (plates) => {
    const key = plates.map((plate) => `${plate.dish} ${plate.variant}`).join("|");
    if (known?.key !== key) known = { key, cells: allergenMatrix(contents, plates) };
    return known.cells;
  };
}

/** What heat comes to, and what is watched. */
interface WatchedHeat {
  readonly heat: Result["heat"];
  readonly controlled: readonly Controlled[];
  readonly points: readonly ControlPoint[];
}

/** Heat and control points are the same as long as the same is made and served, however much. */
function rememberedHeat(docs: Library, foods: Foods, heats: StepHeats): Opened["watched"] {
  let known: (WatchedHeat & { readonly key: string }) | undefined;
  return (amounts, plates) => {
    const order = [...amounts.preparations.keys()];
    const served = plates.flatMap((row) => row.placements);
    const key = `${order.join(" ")} | ${served.map((p) => p.preparation ?? p.ingredient).join(" ")}`;
    if (known?.key === key) return known;
    const { kitchen } = amounts;
    const { boilingC } = airOf({ altitudeM: kitchen.altitudeM });
    const pointer = docs.pointer.bind(docs);
    const heat = heatResult(heats, docs, order);
    const controlled = controlPoints({ larder: docs, foods, pointer, kitchen, order, served, boilingC });
    known = { key, heat, controlled, points: withHeat(controlled, heat) };
    return known;
  };
}

function compute(
  opened: Opened,
  amounts: Amounts,
  options: RunOptions,
  keep: (planned: PlannedHere) => void,
): Result {
  const { docs, contents, heats, buying } = opened;
  const { service, kitchen } = amounts;
  const tracer = options.trace === false ? undefined : new Tracer(amounts.ledger);
  const clock = clockOf(service.at, kitchen.zone, service.horizon);
  const apart = apartFor(contents, amounts.plates);
  const planned = options.plan === false ? undefined : planOf(docs, contents, amounts, heats, apart, options);
  if (planned) keep(planned);
  const times = planned && stepTimesOf(planned.plan);

  const needs = needsResult(amounts, tracer);
  const plates = platesResult(amounts, tracer);
  const { orders, ordering, outcome } = ordersResult(
    buying,
    amounts,
    docs,
    orderOptions(amounts, planned, options),
    tracer,
  );
  const cost = wholeCost(opened, amounts, outcome, planned?.plan, tracer, options);
  const served = amounts.plates.filter((row) => row.count + row.spare > 0);
  const order = [...amounts.preparations.keys()];
  const made = labels(
    docs,
    contents,
    order,
    needs.flatMap((need) =>
      need.batches.map((batch) => ({
        preparation: need.preparation,
        index: batch.index,
        amount: batch.amount,
        madeMin: planned && madeAt(planned.plan, need.preparation, batch.index),
      })),
    ),
    {
      dayEnd: (min) => clock.spanOf(clock.dayOf(min)).to,
      write: (min) => clock.textOf(min),
      received: (ingredient) => Math.max(0, planned?.firstNeeds.get(ingredient) ?? 0),
    },
    whoseOf(amounts),
  );
  const named = (eaten: Eaten) =>
    eaten.preparation === undefined
      ? docs.ingredients.get(eaten.ingredient!)!.name
      : docs.preparations.get(eaten.preparation)!.name;
  const described = frontOfHouse(
    contents,
    served.map((row) => ({
      course: row.course,
      dish: docs.dishes.get(row.dish)!,
      variant: row.variant,
      placements: row.placements,
      count: row.count,
    })),
    named,
  );
  const { heat, controlled, points } = opened.watched(amounts, served);
  const control = points.map((point) => {
    const when = times?.(point.preparation, point.step, 1)?.start;
    return when === undefined ? point : { ...point, when };
  });
  const plan = planned?.plan ?? emptyPlan(options);
  const within = opened.matrix(served);
  const exposures = planned ? exposuresIn(plan, docs, kitchen, apart.carried) : [];
  const allergens = planned ? withShared(contents, served, within, exposures) : within;
  const seating = seatingSheet(docs, contents, amounts, allergens);
  const nutrition = opened.nutrition(amounts);
  const balance = balanceResult(amounts, tracer);
  const batchSheets = batchSheetsResult(amounts, docs, tracer, times);
  const summary = summaryOf({ amounts, plan, needs, plates, orders, cost, outcome, clock }, tracer);
  if (tracer) {
    planned?.trace(tracer);
    plan.broken.slice(planned?.said ?? 0).forEach(({ by, unit }, i) => {
      const path = `calc:/inspection/${i}`;
      tracer.note(path, { value: by, unit, rule: "given", inputs: [] });
      tracer.note(`/plan/broken/${(planned?.said ?? 0) + i}/by`, {
        value: by,
        unit,
        rule: "given",
        inputs: [path],
      });
    });
    if (!planned) noPlan(tracer, plan);
    traceSheets(tracer, batchSheets, plan);
    traceHeat(tracer, docs, amounts, heats, heat);
    traceControl(tracer, control, controlled, heat);
    tracePull(tracer, planned?.pull ?? []);
    traceSeating(tracer, docs, service.id, seating, plates);
    nutrition.trace(tracer);
    traceServed(tracer, { labels: made, described, plates, needs });
  }
  return {
    summary,
    needs,
    balance,
    orders,
    ordering,
    cost,
    allergens,
    plan,
    plates,
    seating: { seats: seating.seats, rest: seating.rest },
    batchSheets,
    prepLists: planned?.prepLists ?? [],
    pull: (planned?.pull ?? []).map(({ item }) => item),
    labels: labelsWithTraces(made, contents, exposures),
    control,
    heat,
    frontOfHouse: withTraces(described, allergens),
    everyCover: everyCover(contents, amounts.menu, named, exposures),
    nutrition: nutrition.labels,
    warnings: [
      ...amounts.warnings,
      ...(planned?.warnings ?? []),
      ...outcome.warnings,
      ...seatsTaken(amounts, docs.pointer("services", service.id)),
      ...unknownLocalLimits(kitchen, docs.pointer("kitchens", kitchen.id)),
    ],
    trace: tracer?.nodes() ?? {},
  };
}

/** Costs of food and hands, with what moves them. */
function wholeCost(
  { costs, docs }: Opened,
  amounts: Amounts,
  outcome: ReturnType<typeof ordersResult>["outcome"],
  plan: Plan | undefined,
  tracer: Tracer | undefined,
  options: RunOptions,
): Result["cost"] {
  const { labour, ...cost } = costResult(costs, amounts, docs, outcome, tracer);
  const planned = labour && plan && plannedLabour(plan, amounts, docs, tracer);
  return {
    ...cost,
    ...(labour ? { labour: { ...labour, ...(planned === undefined ? {} : { planned }) } } : {}),
    ...(!(options.sensitivity ?? options.plan !== false)
      ? {}
      : { sensitivity: sensitivityOf(amounts, costs, tracer) }),
  };
}

/** When things are needed, by the plan where there is one; only then the solver is asked. */
function orderOptions(amounts: Amounts, planned: PlanResult | undefined, options: RunOptions): OrdersOptions {
  const { service, kitchen } = amounts;
  return {
    clock: clockOf(service.at, kitchen.zone, service.horizon),
    spanOf: planned && ((use) => planned.uses.get(use)),
    solver: planned && options.solver,
    surer: planned !== undefined,
  };
}

/** When hands were last on a batch: a rest after that is already part of its keeping. */
function madeAt(plan: Plan, preparation: string, batch: number): number | undefined {
  const tasks = plan.tasks.filter(
    (task) =>
      task.preparation === preparation &&
      task.batch === batch &&
      (task.kind === "work" || task.kind === "passive"),
  );
  const worked = tasks.filter((task) => task.hands.length > 0);
  const ends = (worked.length > 0 ? worked : tasks).map((task) => task.endMin);
  return ends.length > 0 ? Math.max(...ends) : undefined;
}

interface PlannedHere extends PlanResult {
  /** How many of the rules broken the planner said itself; the rest the inspector found. */
  readonly said: number;
}

function planOf(
  docs: Library,
  contents: Contents,
  amounts: Amounts,
  heats: StepHeats,
  apart: Apart,
  options: RunOptions,
): PlannedHere {
  const { seed = 1, schedules = USUAL_SCHEDULES } = options;
  const fillTarget = targetFiller(heats);
  const planned = planService(docs, amounts, {
    seed,
    schedules,
    engine: engineWith(options.found),
    fillTarget,
    apart,
    stop: options.stop,
    onProgress: options.onProgress,
    onRemedies: options.onRemedies,
    remedySchedules: options.remedies === false ? 0 : undefined,
    amountsFor: (covers) => amountsAt(docs, contents, amounts, covers),
    judge: (plan, tried) =>
      unsaid({ ...tried.docs, suppliers: docs.suppliers }, tried.amounts, plan, fillTarget).length === 0,
  });
  const plan = inspected(planned.plan, unsaid(docs, amounts, planned.plan, fillTarget));
  return { ...planned, plan, said: planned.plan.broken.length };
}

/** The rules of what search and heat decide, for replaying a trace: they compute it once more. */
export function contextRules(
  book: Book,
  serviceId: string,
  options: RunOptions,
): Readonly<Record<string, Rule>> {
  const docs = indexBook(book);
  const contents = contentsFor(docs, serviceId, options.kitchen);
  const { covers, kitchen } = options;
  const amounts = computeAmounts(docs, serviceId, { covers, kitchen, meets: contents.meets.bind(contents) });
  const heats = new StepHeats(docs, amounts, new Foods(docs));
  let made: Buying | undefined;
  const buying = () => {
    made ??= new Buying(amounts, docs);
    return made;
  };
  let costs: CostCells | undefined;
  const costsOnce = () => {
    costs ??= costCells(amounts, docs, buying().offers);
    return costs;
  };
  let known: PlannedHere | undefined;
  const plan = () => {
    known ??= planOf(docs, contents, amounts, heats, apartFor(contents, amounts.plates), options);
    return known;
  };
  return {
    ...heatRules(docs, heats),
    ...sensitivityRules(amounts, costsOnce),
    ...scheduledRules(plan),
    ...orderedRules(() =>
      orderedAgain(
        buying(),
        amounts,
        orderOptions(amounts, options.plan === false ? undefined : plan(), options),
      ),
    ),
  };
}

/** The same service at another number of covers, from documents of its own so that nothing else moves. */
function amountsAt(docs: Library, contents: Contents, amounts: Amounts, covers: number): Amounts | undefined {
  try {
    return computeAmounts(docs, amounts.service.id, {
      covers,
      kitchen: amounts.kitchen.id,
      meets: contents.meets.bind(contents),
    });
  } catch (error) {
    if (error instanceof Refusal) return undefined;
    throw error;
  }
}

/** What is in what, as this kitchen's suppliers declare it. @throws RunRefusal when there is no such service or kitchen. */
export function contentsFor(docs: Library, serviceId: string, kitchenId: string | undefined): Contents {
  const service = docs.services.get(serviceId);
  const kitchen = docs.kitchens.get(kitchenId ?? service?.kitchen ?? "");
  const problems: Problem[] = [];
  if (!service)
    problems.push({
      path: "/services",
      what: `there is no service "${serviceId}"`,
      mend: nameOne(docs.services),
    });
  else if (!kitchen)
    problems.push({
      path: "/kitchens",
      what: `there is no kitchen "${kitchenId}"`,
      mend: nameOne(docs.kitchens),
    });
  if (!service || !kitchen) throw new Refusal(problems);
  const suppliers = kitchen.suppliers.flatMap((id) => docs.suppliers.get(id) ?? []);
  return new Contents(docs, declaredBy(suppliers, service.priceAsOf));
}

function nameOne(known: ReadonlyMap<string, unknown>): string {
  return known.size === 0 ? "add one first" : `name one of: ${[...known.keys()].slice(0, 12).join(", ")}`;
}

/** The engine as the planner calls it; what was found before is not searched for again. */
function engineWith(found: FoundPlans | undefined): Engine {
  return (problem, { stop, onProgress, ...effort }) => {
    const asked = found && questionOf(problem, effort);
    const known = asked === undefined ? undefined : found?.find(asked);
    const heard = { ...(stop ? { stop } : {}), ...(onProgress ? { onProgress } : {}) };
    const solved = solve(problem, { ...effort, ...heard, known });
    const told = known ? undefined : foundIn(solved);
    if (asked !== undefined && told) found?.keep(asked, told);
    return solved;
  };
}
