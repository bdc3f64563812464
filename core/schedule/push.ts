import { Board, type Spot } from "./board.ts";
import { Generator } from "./generate.ts";
import { madeOf } from "./made.ts";
import { scheduleOf, spotsOf } from "./plan.ts";
import type { Problem, Schedule } from "./problem.ts";
import { lateView } from "./relax.ts";
import { Search } from "./search.ts";

/** Minutes sooner that others must be able to do it before a task is taken from its own hands or unit. */
const WORTH_A_CHANGE = 10;

/**
 * The plan pushed along, as a brigade does it that has fallen behind: every task in the order it stood, by its own hands
 * on its own units, no sooner than it stood and as soon after as lags, hands and room let it. Deadlines, fixed moments and
 * longest waits give way. Tasks the old plan has not come at the first minute of their window.
 * @param most tasks that may change; null once there are more
 */
export function pushed(problem: Problem, old: Schedule, most = Number.POSITIVE_INFINITY): Schedule | null {
  const { model, clusters } = madeOf(problem, lateView(problem));
  const manner = { anytime: false, thrift: 1, random: null };
  const board = new Board(model, { patient: true });
  const g = new Generator(model, clusters, [manner], board);
  const search = new Search(board, manner);
  const was = spotsOf(model, old);
  g.settle();
  board.redraw();
  const begin = (i: number) => was.get(i)?.start ?? board.windows.lo[2 * i]!;
  const order = Array.from({ length: model.n }, (_, i) => i).filter((i) => !board.isPlaced(i));
  const key = new Map(order.map((i) => [i, begin(i)]));
  const rank = Int32Array.from({ length: model.n }, () => 0);
  clusters.tasks.flat().forEach((i, k) => {
    rank[i] = k;
  });
  order.sort((a, b) => key.get(a)! - key.get(b)! || rank[a]! - rank[b]!);
  const serves = (i: number, spot: Spot) => {
    const way = model.ways[i]![spot.mode]!;
    const [need] = way.people;
    return (
      (way.people.length === 0 ||
        (way.people.length === 1 && need!.team < 0 && spot.persons.every((p) => need!.able.includes(p)))) &&
      way.demands.every((d, k) => d.of.includes(spot.resources[k]!))
    );
  };
  let changed = 0;
  for (const i of order) {
    const spot = was.get(i);
    const own = spot && serves(i, spot) ? search.again(i, spot, spot.start) : null;
    const late = own ? own.start - spot!.start : Number.POSITIVE_INFINITY;
    const other = late > WORTH_A_CHANGE ? search.find(i, spot?.start ?? 0) : null;
    const best = other && (!own || other.start + WORTH_A_CHANGE < own.start) ? other : own;
    if (!best || !board.take(i, best)) board.force(i, best ?? g.anySpot(i));
    if (best !== own || late > 0) changed++;
    if (changed > most) return null;
  }
  return scheduleOf(board);
}
