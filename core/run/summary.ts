import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Clock } from "../production/clock.ts";
import { mostInUse } from "../production/plan-rules.ts";
import type { Plan } from "../production/plan-types.ts";
import { readyParts, spareOf } from "../production/ready-parts.ts";
import type { Kitchen } from "../production/schema.ts";
import type { OrdersOutcome } from "../purchasing/orders-result.ts";
import type { Cost, PlateCount, PreparationNeed, Summary, SupplierOrder } from "./result.ts";
import { nearlyUsedUp } from "./summary-rules.ts";

/** The plan of a run that was asked to leave it out. */
export function emptyPlan(options: { readonly seed?: number }): Plan {
  return {
    status: "none",
    objective: [],
    peaks: [],
    tasks: [],
    broken: [],
    remedies: [],
    load: [],
    seed: options.seed ?? 1,
    schedules: 0,
  };
}

/** Traces the two numbers an empty plan still shows. */
export function noPlan(tracer: Tracer, plan: Plan): void {
  tracer.note("/plan/seed", { value: plan.seed, unit: "", rule: "given", inputs: [] });
  tracer.note("/plan/schedules", { value: plan.schedules, unit: "schedules", rule: "given", inputs: [] });
}

interface Parts {
  readonly amounts: Amounts;
  readonly plan: Plan;
  readonly needs: readonly PreparationNeed[];
  readonly plates: readonly PlateCount[];
  readonly orders: readonly SupplierOrder[];
  readonly cost: Cost;
  readonly outcome: OrdersOutcome;
  readonly clock: Clock;
}

/** What a chef wants to know first. */
export function summaryOf(parts: Parts, tracer: Tracer | undefined): Summary {
  const { amounts, plan, needs, plates, cost, outcome, clock } = parts;
  const made = plan.tasks.filter((task) => task.kind !== "milestone");
  const spareMin = spareOf(plan);
  const handsMinutes = made.reduce((sum, task) => sum + (task.endMin - task.startMin) * task.hands.length, 0);
  const figures = plan.tasks.length > 0 ? figuresOf(plan) : undefined;
  const platesTotal = plates.reduce((sum, row) => sum + row.count + row.spare, 0);
  if (tracer) {
    const note = (key: string, value: number, unit: string, rule: string, inputs: readonly string[]) =>
      tracer.note(`/summary/${key}`, { value, unit, rule, inputs });
    note("covers", amounts.covers, "cover", "given", ["calc:/covers"]);
    note(
      "preparations",
      needs.length,
      "preparation",
      "countOf",
      needs.map((_, i) => `/needs/${i}/amount/value`),
    );
    note(
      "platesTotal",
      platesTotal,
      "plate",
      "sum",
      plates.flatMap((_, i) => [`/plates/${i}/count`, `/plates/${i}/spare`]),
    );
    note("costPerCover", cost.menu, cost.currency, "given", ["/cost/menu"]);
    if (cost.menuShare !== undefined)
      note("costShare", cost.menuShare, "ratio", "given", ["/cost/menuShare"]);
    const spanned = plan.tasks.flatMap((task, i) =>
      made.includes(task)
        ? [`/plan/tasks/${i}/endMin`, `/plan/tasks/${i}/startMin`, countOfHands(tracer, task.hands.length)]
        : [],
    );
    note("handsMinutes", handsMinutes, "min", "sumOfSpans", spanned);
    if (figures) {
      const held = plan.tasks.flatMap(({ hold }, i) =>
        hold ? [`/plan/tasks/${i}/hold/usedMin`, `/plan/tasks/${i}/hold/maxMin`] : [],
      );
      note("holdsNearlyUsed", figures.holdsNearlyUsed, "hold", nearlyUsedUp.name, held);
      const worked = plan.tasks.flatMap(({ hands }, i) =>
        hands.length > 0
          ? [countOfHands(tracer, hands.length), `/plan/tasks/${i}/startMin`, `/plan/tasks/${i}/endMin`]
          : [],
      );
      note("peakHands", figures.peakHands, "person", mostInUse.name, worked);
      const broken = plan.broken.map((_, i) => `/plan/broken/${i}/by`);
      note("rulesBroken", figures.rulesBroken, "rule", "countOf", broken);
    }
    if (spareMin !== undefined)
      note(
        "spareMin",
        spareMin,
        "min",
        "leastGap",
        readyParts(plan).flatMap(({ plate, part }) => [
          `/plan/tasks/${plate}/startMin`,
          `/plan/tasks/${part}/endMin`,
        ]),
      );
  }
  return {
    service: amounts.service.id,
    serviceName: amounts.service.name,
    kitchen: amounts.kitchen.id,
    at: clock.zonedOf(clock.service),
    covers: amounts.covers,
    sentence: sentenceOf(plan, spareMin, amounts),
    status: plan.status,
    preparations: needs.length,
    platesTotal,
    handsMinutes,
    orderTotal: outcome.total,
    costPerCover: cost.menu,
    ...(cost.menuShare === undefined ? {} : { costShare: cost.menuShare }),
    ...(spareMin === undefined ? {} : { spareMin }),
    ...figures,
  };
}

/** Figures of a plan that are set beside those of another. */
export function figuresOf({
  tasks,
  broken,
}: Pick<Plan, "tasks" | "broken">): Required<Pick<Summary, "peakHands" | "holdsNearlyUsed" | "rulesBroken">> {
  return {
    peakHands: mostInUse(...tasks.flatMap(({ startMin, endMin, hands }) => [hands.length, startMin, endMin])),
    holdsNearlyUsed: nearlyUsedUp(...tasks.flatMap(({ hold }) => (hold ? [hold.usedMin, hold.maxMin] : []))),
    rulesBroken: broken.length,
  };
}

function countOfHands(tracer: Tracer, hands: number): string {
  const path = `const:/hands/${hands}`;
  tracer.note(path, { value: hands, unit: "person", rule: "given", inputs: [] });
  return path;
}

function sentenceOf(plan: Plan, spareMin: number | undefined, amounts: Amounts): string {
  const unfed = [...new Set(amounts.plates.flatMap((row) => row.notFed))];
  const hungry = unfed.length > 0 ? ` Not fed at every course: ${unfed.join(", ")}.` : "";
  if (plan.tasks.length === 0 && plan.broken.length === 0) return `Not planned yet.${hungry}`;
  const tight = tightest(plan, amounts.kitchen);
  if (plan.status === "feasible")
    return `Fits. ${spareMin ?? 0} minutes spare${tight ? `; ${tight}` : ""}.${hungry}`;
  const [worst] = plan.broken;
  const fits = plan.remedies.find((remedy) => remedy.status === "feasible");
  const more = plan.broken.length > 1 ? ` and ${plan.broken.length - 1} more` : "";
  const remedy = fits ? ` What would fit: ${fits.change}.` : "";
  return `Does not fit: ${worst ? worst.what : "no plan was found"}${more}.${remedy}${hungry}`;
}

/** The fullest oven, kettle or person of the plan in words, when nearly full; stores are meant to be full. */
function tightest(plan: Plan, kitchen: Kitchen): string | undefined {
  const stores = new Set(
    kitchen.equipment
      .filter((one) => one.capacity.some(({ unit }) => unit === "position"))
      .map((one) => one.id),
  );
  const full = plan.load
    .filter((load) => load.openMin > 0 && !stores.has(load.resource.replace(/#\d+$/, "")))
    .map((load) => ({ ...load, share: load.busyMin / load.openMin }))
    .sort((a, b) => b.share - a.share)[0];
  if (!full || full.share <= 0.6) return undefined;
  const name = [...kitchen.equipment, ...kitchen.crew].find(
    (one) => one.id === full.resource.replace(/#\d+$/, ""),
  )?.name;
  return `${name ?? full.resource} is the fullest: ${Math.round(full.share * 100)} % of ${full.day}`;
}
