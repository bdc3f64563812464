import type { Step } from "../formula/schema.ts";
import type { PlateCount } from "../run/result.ts";
import { takesOf } from "./feeding.ts";
import { enteringOf, lastStepsOf } from "./masses.ts";
import type { Load, Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { worstOfStretches } from "./spans.ts";
import type { Take } from "./supply.ts";
import type { Finding } from "./types.ts";

/** Kinds of equipment in which food waits, by state, and what a position holds (production, P10). */
export const STORES = {
  hot: ["hot-cabinet", "hot-cupboard"],
  cold: ["cold-room", "fridge"],
  frozen: ["freezer", "freezer-room"],
} as const;
export const KG_PER_POSITION = 6;

/** Food that waits from a minute on, until the last of it is used. */
interface Waiting {
  readonly task: string;
  readonly amount: number;
  readonly from: number;
  readonly positions: number;
}

/**
 * Judges the positions of hot cabinets, cold rooms and freezers: at no moment does what waits there need more than
 * there are. Where several batches are used up bit by bit the fewest of them that can hold what is left are counted,
 * so that what is told is sure.
 */
export function judgeStores(scope: Scope, parts: Parts, plates: readonly PlateCount[]): Finding[] {
  const found: Finding[] = [];
  const takes = takesOf(scope, parts, plates);
  for (const state of ["hot", "cold", "frozen"] as const) {
    const room = positionsIn(scope, STORES[state]);
    if (room === 0) continue;
    const pools = [...poolsOf(parts, takes, state), ...(state === "cold" ? thawing(parts) : [])];
    const openAt = (at: number) => pools.filter((pool) => positionsAt(pool, at) > 0);
    const over = (at: number) => {
      const by = pools.reduce((sum, pool) => sum + positionsAt(pool, at), 0) - room;
      return by > 1e-6 * room ? by : 0;
    };
    const moments = pools.flatMap((pool) => [
      ...pool.lots.map((lot) => lot.from),
      ...pool.takes.map((take) => take.takenMin),
    ]);
    for (const { at, by } of worstOfStretches(moments, over))
      found.push({
        ...{ rule: "store", tasks: openAt(at).flatMap((pool) => pool.lots.map((lot) => lot.task)), by },
        ...{
          unit: "position",
          what: `what waits ${state} at ${scope.textOf(at)} needs ${by} positions too many`,
        },
      });
  }
  return found;
}

interface Pool {
  readonly lots: readonly Waiting[];
  readonly takes: readonly Take[];
}

/** What waits in one state: between the steps of a batch, and between a preparation and those who take it. */
function poolsOf(parts: Parts, takes: ReadonlyMap<string, readonly Take[]>, state: string): Pool[] {
  const pools: Pool[] = [];
  for (const [id, batches] of parts.batches) {
    const { preparation } = batches[0]!;
    const last = lastStepsOf(preparation);
    for (const step of preparation.steps) {
      if (step.hold?.state !== state) continue;
      const whole = batches.map((batch) => batch.loads.get(step.id) ?? []);
      if (last.includes(step)) {
        const lots = whole.flatMap((loads, i) =>
          loads.map((load) => waiting(load, batches[i]!.grams / load.of)),
        );
        pools.push({ lots, takes: last.length === 1 ? (takes.get(id) ?? []) : [] });
        continue;
      }
      batches.forEach((batch, i) => {
        const taking = preparation.steps.flatMap((next) =>
          enteringOf(next).some((from) => from.id === step.id) ? (batch.loads.get(next.id) ?? []) : [],
        );
        const lots = whole[i]!.map((load) => waiting(load, 1 / load.of));
        pools.push({ lots, takes: taking.map((load) => takeOf(step, load)) });
      });
    }
  }
  return pools;
}

/** What thaws in the cold room, for as long as it thaws. */
function thawing(parts: Parts): Pool[] {
  return [...parts.thaws.values()].flatMap((task) => {
    const positions = task.equipment.reduce((sum, each) => sum + each.space, 0);
    const [takenMin, usedMin] = [task.endMin, task.endMin];
    if (positions === 0) return [];
    const lots = [{ task: task.id, amount: 1, from: task.startMin, positions }];
    return [{ lots, takes: [{ task: task.id, amount: 1, takenMin, usedMin }] }];
  });
}

function takeOf(step: Step, load: Load): Take {
  const share = enteringOf(load.step).find((from) => from.id === step.id)?.share ?? 0;
  return { task: load.id, amount: share / load.of, takenMin: load.startMin, usedMin: load.startMin };
}

function waiting(load: Load, amount: number): Waiting {
  const pans = load.step.pull.flatMap((pull) => {
    const gastronorm = /\bGN ?(\d)\/(\d)\b/.exec(pull.smallware);
    if (!gastronorm) return [];
    const times = { batch: 1 / load.of, kg: load.outKg, piece: load.pieces }[pull.per];
    return [(Math.ceil(pull.count * times - 1e-9) * Number(gastronorm[1])) / Number(gastronorm[2])];
  });
  const positions = pans.length > 0 ? pans.reduce((a, b) => a + b, 0) : load.outKg / KG_PER_POSITION;
  return { task: (load.wait ?? load.work)!.id, amount, from: load.endMin, positions };
}

/** Positions that a pool needs at a minute at the least. */
function positionsAt(pool: Pool, at: number): number {
  const there = pool.lots.filter((lot) => lot.from <= at);
  const lastTaken = Math.max(-Infinity, ...pool.takes.map((take) => take.takenMin));
  if (there.length === 0 || lastTaken <= at) return 0;
  let left = there.reduce((sum, lot) => sum + lot.amount, 0);
  for (const take of pool.takes) if (take.takenMin <= at) left -= take.amount;
  let lots = 0;
  for (const lot of [...there].sort((a, b) => b.amount - a.amount)) {
    if (left <= 1e-9 * lot.amount) break;
    left -= lot.amount;
    lots += 1;
  }
  const positions = there.map((lot) => lot.positions).sort((a, b) => a - b);
  return positions.slice(0, lots).reduce((a, b) => a + b, 0);
}

/** Positions of all units of these kinds. */
export function positionsIn(scope: Scope, kinds: readonly string[]): number {
  let sum = 0;
  for (const equipment of scope.kitchen.equipment)
    if (kinds.includes(equipment.kind))
      sum += equipment.count * (equipment.capacity.find((each) => each.unit === "position")?.value ?? 0);
  return sum;
}
