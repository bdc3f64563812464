import { massText } from "./names.ts";
import { pulledWhole } from "./plan-rules.ts";
import type { PullItem } from "./plan-types.ts";
import { type Planned, timesPulled } from "./prep-lists.ts";
import type { Site } from "./site.ts";

/** Words of smallwares that are filled and kept, and so want a label. */
const CONTAINER = /\b(GN|tub|box|bottle|bag|jar|bucket|tray|bowl|container|mould|tin|ring)\b/i;

/** How one task's part of a count came: whole pieces of `written` × `times`. */
export interface PulledPart {
  readonly count: number;
  readonly written: number;
  /** Pointer into the book of the figure written; undefined for what every task has one of. */
  readonly pointer: string | undefined;
  readonly times: number;
  /** Task whose batches, kilograms or pieces `times` are. */
  readonly task: string;
  readonly per: "batch" | "kg" | "piece" | "plate";
}

/** An item of the pull list with the parts that add to its count. */
export interface CountedPull {
  readonly item: PullItem;
  readonly parts: readonly PulledPart[];
}

/**
 * What to lay out on each day: smallwares, plates, labels, and what comes out of the freezer (README, P19).
 * A thing used twice on a day is counted twice: it is washed between only where somebody has the time.
 */
export function pullList(site: Site, planned: readonly Planned[]): CountedPull[] {
  const items = new Map<
    string,
    { item: Omit<PullItem, "count" | "for">; at: number; parts: PulledPart[]; for: Set<string> }
  >();
  const add = (
    minute: number,
    smallware: string,
    station: string | undefined,
    part: PulledPart,
    what: string,
  ) => {
    const day = site.clock.dayOf(minute);
    const key = `${day} ${station ?? ""} ${smallware}`;
    const known = items.get(key);
    if (known) {
      known.parts.push(part);
      known.for.add(what);
      return;
    }
    const item = { day, smallware, ...(station === undefined ? {} : { station }) };
    items.set(key, { item, at: site.clock.spanOf(day).from, parts: [part], for: new Set([what]) });
  };
  const counted = new Set<string>();
  for (const { task, plan } of planned) {
    if (task.kind === "plate") {
      const dish = site.docs.dishes.get(task.preparation);
      const plates = { ...ONE, count: task.pieces, times: task.pieces, task: task.id, per: "plate" } as const;
      if (dish) add(plan.startMin, plateName(dish.plate), task.station, plates, dish.name);
      continue;
    }
    const prep = site.docs.preparations.get(task.preparation);
    if (!prep) continue;
    if (task.kind === "thaw") {
      const what = `${task.name.replace(/^Thaw /, "")}, ${massText(task.inG)}, out of the freezer`;
      add(plan.startMin, what, task.station, { ...ONE, task: task.id }, prep.name);
      continue;
    }
    // Work and its wait are one step: what it pulls is counted at the first of the two.
    const load = task.id.replace(/\/wait$/, "");
    if ((task.kind !== "work" && task.kind !== "wait") || counted.has(load)) continue;
    counted.add(load);
    const step = prep.steps.find((s) => s.id === task.step);
    for (const [k, item] of (step?.pull ?? []).entries()) {
      const times = timesPulled(item, task);
      const pointer = `book:${site.docs.pointer("preparations", prep.id)}/steps/${prep.steps.indexOf(step!)}/pull/${k}/count`;
      const count = pulledWhole(item.count, times);
      const part = { count, written: item.count, pointer, times, task: task.id, per: item.per };
      add(plan.startMin, item.smallware, task.station, part, prep.name);
      if (step?.hold && CONTAINER.test(item.smallware))
        add(plan.endMin, "label", task.station, part, prep.name);
    }
  }
  return [...items.values()]
    .sort(
      (a, b) =>
        a.at - b.at ||
        compare(a.item.station ?? "", b.item.station ?? "") ||
        compare(a.item.smallware, b.item.smallware),
    )
    .map(({ item, parts, for: what }) => ({
      item: { ...item, count: parts.reduce((sum, part) => sum + part.count, 0), for: [...what] },
      parts,
    }));
}

const ONE = { count: 1, written: 1, pointer: undefined, times: 1, per: "batch" } as const;

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
