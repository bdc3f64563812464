import { massText } from "./names.ts";
import { mostInUse, pulledWhole } from "./plan-rules.ts";
import type { PullItem } from "./plan-types.ts";
import type { Planned } from "./planned.ts";
import { timesPulled } from "./prep-lists.ts";
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
  /** Of what is washed and used again: when it is in use; undefined for what is used up. */
  readonly inUse?: InUse;
}

/** From the start of a task until what it holds is used, and it is washed. Places in the plan; minutes. */
interface InUse {
  readonly first: number;
  readonly last: number;
  readonly from: number;
  readonly until: number;
  /** Waiting in it counts: the hold of the last task. */
  readonly held: boolean;
  /** Uses of different groups never share one: a guest's allergy depends on it. */
  readonly group: string;
}

/** An item of the pull list with the parts that add to its count; of tools the most in use at once. */
export interface CountedPull {
  readonly item: PullItem;
  readonly parts: readonly PulledPart[];
}

/** Minutes from the end of a use until the thing is washed and back (common practice, no source). */
export const WASHED_IN_MIN = 15;

/** Last words of what is used up (common practice, no source). */
const USED_UP =
  /\b(label|film|foil|paper|parchment|bag|sack|muslin|cheesecloth|cloth|string|twine|skewer|stick|glove|liner|case)s?$/i;

/** Whether a thing is washed and used again. */
export function isReusable(item: {
  readonly smallware: string;
  readonly reusable?: boolean | undefined;
}): boolean {
  return item.reusable ?? !USED_UP.test(item.smallware.split(",")[0]!.trim());
}

/** Parts that are used up one by one, and groups of uses that take turns. */
export function turnsOf(parts: readonly PulledPart[]) {
  const groups = new Map<string, (PulledPart & { readonly inUse: InUse })[]>();
  const spent: PulledPart[] = [];
  for (const part of parts) {
    if (!part.inUse) spent.push(part);
    else
      groups.set(part.inUse.group, [...(groups.get(part.inUse.group) ?? []), { ...part, inUse: part.inUse }]);
  }
  return { spent, groups };
}

/** How many to lay out: what is used up adds, of what is washed the most in use at once. */
function countOf(parts: readonly PulledPart[]): number {
  const { spent, groups } = turnsOf(parts);
  const sum = spent.reduce((all, part) => all + part.count, 0);
  return [...groups.values()].reduce(
    (all, group) => all + mostInUse(...group.flatMap(({ count, inUse }) => [count, inUse.from, inUse.until])),
    sum,
  );
}

/**
 * What to lay out on each day: smallwares, plates, labels, and what comes out of the freezer (README, P19).
 * Of what is washed and used again only the most in use at one time of the day is laid out.
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
  const places = new Map(planned.map(({ task }, i) => [task.id, i]));
  for (const [place, { task, plan }] of planned.entries()) {
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
      const held = step?.hold !== undefined && CONTAINER.test(item.smallware);
      const inUse =
        isReusable(item) && inUseOf(site, planned, place, places.get(`${load}/wait`) ?? place, held);
      const part = {
        ...{ count, written: item.count, pointer, times, task: task.id, per: item.per },
        ...(inUse ? { inUse } : {}),
      };
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
      item: { ...item, count: countOf(parts), for: [...what] },
      parts,
    }));
}

/** When a task's tools are in use: a container until what is in it is taken. */
function inUseOf(site: Site, planned: readonly Planned[], first: number, last: number, held: boolean): InUse {
  const { preparation } = planned[first]!.task;
  const { endMin, hold } = planned[last]!.plan;
  const kept = held && hold !== undefined;
  return {
    ...{ first, last, held: kept },
    from: planned[first]!.plan.startMin,
    until: endMin + (kept ? hold.usedMin : 0) + WASHED_IN_MIN,
    group: (site.apart?.keptFrom(preparation).size ?? 0) > 0 ? preparation : "",
  };
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
