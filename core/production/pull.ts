import { massText } from "./names.ts";
import type { PullItem } from "./plan-types.ts";
import { type Planned, pullCount } from "./prep-lists.ts";
import type { Site } from "./site.ts";

/** Words of smallwares that are filled and kept, and so want a label. */
const CONTAINER = /\b(GN|tub|box|bottle|bag|jar|bucket|tray|bowl|container|mould|tin|ring)\b/i;

/**
 * What to lay out on each day: smallwares, plates, labels, and what comes out of the freezer (README, P19).
 * A thing used twice on a day is counted twice: it is washed between only where somebody has the time.
 */
export function pullList(site: Site, planned: readonly Planned[]): PullItem[] {
  const items = new Map<
    string,
    { item: Omit<PullItem, "count" | "for">; at: number; count: number; for: Set<string> }
  >();
  const add = (
    minute: number,
    smallware: string,
    station: string | undefined,
    count: number,
    what: string,
  ) => {
    const day = site.clock.dayOf(minute);
    const key = `${day} ${station ?? ""} ${smallware}`;
    const known = items.get(key);
    if (known) {
      known.count += count;
      known.for.add(what);
      return;
    }
    const item = { day, smallware, ...(station === undefined ? {} : { station }) };
    items.set(key, { item, at: site.clock.spanOf(day).from, count, for: new Set([what]) });
  };
  const counted = new Set<string>();
  for (const { task, plan } of planned) {
    if (task.kind === "plate") {
      const dish = site.docs.dishes.get(task.preparation);
      if (dish) add(plan.startMin, plateName(dish.plate), task.station, task.pieces, dish.name);
      continue;
    }
    const prep = site.docs.preparations.get(task.preparation);
    if (!prep) continue;
    if (task.kind === "thaw") {
      const what = `${task.name.replace(/^Thaw /, "")}, ${massText(task.inG)}, out of the freezer`;
      add(plan.startMin, what, task.station, 1, prep.name);
      continue;
    }
    // Work and its wait are one step: what it pulls is counted at the first of the two.
    const load = task.id.replace(/\/wait$/, "");
    if ((task.kind !== "work" && task.kind !== "wait") || counted.has(load)) continue;
    counted.add(load);
    const step = prep.steps.find((s) => s.id === task.step);
    for (const item of step?.pull ?? []) {
      const count = pullCount(item, task);
      add(plan.startMin, item.smallware, task.station, count, prep.name);
      if (step?.hold && CONTAINER.test(item.smallware))
        add(plan.endMin, "label", task.station, count, prep.name);
    }
  }
  return [...items.values()]
    .sort(
      (a, b) =>
        a.at - b.at ||
        compare(a.item.station ?? "", b.item.station ?? "") ||
        compare(a.item.smallware, b.item.smallware),
    )
    .map(({ item, count, for: what }) => ({ ...item, count, for: [...what] }));
}

function plateName(plate: {
  readonly outline: string;
  readonly name?: string | undefined;
  readonly widthMm: number;
}): string {
  return (
    plate.name ??
    (plate.outline === "bowl" ? `bowl, ${plate.widthMm} mm` : `${plate.outline} plate, ${plate.widthMm} mm`)
  );
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
