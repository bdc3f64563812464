import { courseLater } from "./course-later.ts";
import { type LiveAsk, type LiveBase, type LiveChange, type LiveMade, livePlan } from "./live.ts";
import { ofLoad, wholeRoom } from "./plan-rules.ts";
import type { Broken } from "./plan-types.ts";
import type { RoomNeed, Task } from "./tasks.ts";
import { capacityOf, type Unit, WHOLE_ROOM } from "./units.ts";

/** A change that was tried on the plan as it is now. */
export interface LiveRemedy {
  /** In plain words. */
  readonly change: string;
  readonly result: string;
  /** Whether nothing new is broken any more. */
  readonly fits: boolean;
  /** What it would move. */
  readonly moves: readonly LiveChange[];
  /** Where somebody in charge can say so on the board: these tasks on this equipment. */
  readonly instead?: readonly {
    readonly tasks: readonly string[];
    readonly unit: string;
    readonly parts: number;
  }[];
}

interface Trial {
  readonly change: string;
  readonly base: LiveBase;
  readonly asked: LiveAsk;
  readonly instead?: LiveRemedy["instead"];
}

/**
 * What can be done about what the mended plan breaks (README, L10): other equipment that reaches the temperature, the
 * equipment back in time, one more pair of hands, a course later. Each is tried by mending once more; what does not
 * break less is not told. Those that fit come first.
 */
export function liveRemedies(
  base: LiveBase,
  given: LiveAsk,
  made: LiveMade,
  stop: () => boolean = () => false,
): LiveRemedy[] {
  if (made.live.breaches.length === 0) return [];
  const asked = { ...given, trial: true };
  const found: LiveRemedy[] = [];
  for (const trial of [
    () => otherUnits(base, asked, made, stop),
    () => backInTime(base, asked, made),
    () => moreHands(base, asked, made),
    () => laterCourses(base, made, asked),
  ]) {
    if (stop()) break;
    for (const one of trial()) {
      const tried = livePlan(one.base, one.asked).live;
      if (harm(tried.breaches) >= harm(made.live.breaches)) continue;
      found.push({
        change: one.change,
        result: resultOf(tried.breaches),
        fits: tried.breaches.length === 0,
        moves: tried.changes,
        ...(one.instead ? { instead: one.instead } : {}),
      });
    }
  }
  return found.sort((a, b) => Number(b.fits) - Number(a.fits));
}

/** Breaches first, minutes and units within them; food without an oven is worse than food that is late. */
const harm = (broken: readonly Broken[]) =>
  broken.reduce((sum, b) => sum + (b.rule === "equipment" ? 4 : 1) + b.by / (b.by + 60), 0);

function resultOf(broken: readonly Broken[]): string {
  const [first] = broken;
  if (!first) return "fits";
  return `not enough: ${first.what}${broken.length > 1 ? `, and ${broken.length - 1} more` : ""}`;
}

/** Steps in the breach that ask for a unit that is out. */
function stepsWithout(base: LiveBase, made: LiveMade): { tasks: Task[]; needs: RoomNeed[] }[] {
  const out = new Set(made.live.closed.map((closure) => closure.id));
  const ids = new Set(made.live.breaches.flatMap((b) => b.tasks));
  const units = new Set(
    base.site.units.all.filter((u) => out.has(u.id) || out.has(u.equipment.id)).map((u) => u.id),
  );
  const steps = new Map<string, { tasks: Task[]; needs: RoomNeed[] }>();
  for (const task of base.set.tasks) {
    const needs = task.uses.filter((use) => use.setC !== undefined && use.units.some((id) => units.has(id)));
    if (needs.length === 0) continue;
    const key = `${task.preparation}/${task.step}`;
    const step = steps.get(key) ?? { tasks: [], needs: [] };
    steps.set(key, { tasks: [...step.tasks, task], needs: [...step.needs, ...needs] });
  }
  return [...steps.values()].filter((step) => step.tasks.some((task) => ids.has(task.id)));
}

/** Steps whose unit is out, each on the equipment here that reaches its temperature and breaks least. */
function otherUnits(base: LiveBase, asked: LiveAsk, made: LiveMade, stop: () => boolean): Trial[] {
  let chosen: { tasks: string[]; unit: string; parts: number; words: string }[] = [];
  let least = harm(made.live.breaches);
  for (const { tasks: own, needs } of stepsWithout(base, made)) {
    const before = chosen;
    const out = new Set(made.live.closed.map((closure) => closure.id));
    for (const unit of oneEach(base.site.units.all)) {
      if (stop()) return [];
      if (out.has(unit.id) || out.has(unit.equipment.id)) continue;
      const parts = Math.max(...needs.map((need) => partsOn(unit, need)));
      if (!needs.every((need) => reaches(unit, need)) || parts > unit.equipment.count) continue;
      const words = `${own[0]!.name} in ${unit.equipment.name}${parts > 1 ? `, spread over ${parts}` : ""}`;
      const tried = [...before, { tasks: own.map((task) => task.id), unit: unit.equipment.id, parts, words }];
      const broken = harm(livePlan(base, withInstead(asked, tried)).live.breaches);
      if (broken >= least) continue;
      least = broken;
      chosen = tried;
    }
  }
  if (chosen.length === 0) return [];
  return [
    {
      change: chosen.map((one) => one.words).join("; "),
      ...{ base, asked: withInstead(asked, chosen) },
      instead: chosen.map(({ tasks: ids, unit, parts }) => ({ tasks: ids, unit, parts })),
    },
  ];
}

const oneEach = (units: readonly Unit[]) =>
  units.filter((u, k) => units[k - 1]?.equipment.id !== u.equipment.id);

/** Whether a unit holds the temperature and counts room as the need does; nothing with a limit of depth. */
function reaches(unit: Unit, need: RoomNeed): boolean {
  const { rangeC, maxDepthMm } = unit.equipment;
  if (!rangeC || need.setC! < rangeC[0] || need.setC! > rangeC[1] || maxDepthMm !== undefined) return false;
  return need.space.every((s) => capacityOf(unit, s.unit) !== undefined);
}

/** Over how many alike a need must be spread to have room. */
function partsOn(unit: Unit, need: RoomNeed): number {
  for (let parts = 1; parts <= unit.equipment.count; parts++) {
    const share = (s: RoomNeed["space"][number]) =>
      WHOLE_ROOM.has(s.unit) ? wholeRoom(ofLoad(s.value, parts)) : ofLoad(s.value, parts);
    if (need.space.every((s) => share(s) <= (capacityOf(unit, s.unit) ?? 0) + 1e-9)) return parts;
  }
  return Number.POSITIVE_INFINITY;
}

function withInstead(
  asked: LiveAsk,
  chosen: readonly { tasks: readonly string[]; unit: string; parts: number }[],
): LiveAsk {
  const instead = new Map(asked.instead);
  for (const { tasks, unit, parts } of chosen) for (const task of tasks) instead.set(task, { unit, parts });
  return { ...asked, instead };
}

/** The units that are out back when the first that needs them was to begin. */
function backInTime(base: LiveBase, asked: LiveAsk, made: LiveMade): Trial[] {
  const { clock } = base.site;
  return made.live.closed.flatMap(({ id, entry, to }): Trial[] => {
    const units = new Set(
      base.site.units.all.filter((u) => u.id === id || u.equipment.id === id).map((u) => u.id),
    );
    const waiting = base.set.tasks
      .filter((task) => made.stands.get(task.id)!.status === "open")
      .filter((task) => task.uses.some((use) => use.units.some((u) => units.has(u))))
      .map((task) => made.stands.get(task.id)!.start)
      .filter((start) => start > asked.now);
    const by = Math.min(...waiting);
    if (!Number.isFinite(by) || by >= to) return [];
    const name = base.site.units.all.find((u) => units.has(u.id))!.name;
    const entries = asked.entries.map((one) =>
      one.id === entry ? { ...one, body: { ...(one.body as object), to: clock.textOf(by) } } : one,
    );
    return [{ change: `${name} back by ${clock.textOf(by)}`, base, asked: { ...asked, entries } }];
  });
}

/** One more pair of hands from now to the end, with the skills that broken work asks for. */
function moreHands(base: LiveBase, asked: LiveAsk, made: LiveMade): Trial[] {
  const rules = new Set([
    "hands",
    "shift",
    "skill",
    "course",
    "plate-up",
    "hold",
    "life",
    "line-check",
    "ready",
  ]);
  const broken = made.live.breaches.filter((b) => rules.has(b.rule));
  if (broken.length === 0) return [];
  const ids = new Set(broken.flatMap((b) => b.tasks));
  const skills = [
    ...new Set(base.set.tasks.flatMap((t) => (ids.has(t.id) && t.skill ? [t.skill] : []))),
  ].slice(0, 3);
  const { clock } = base.site;
  const shift = { from: asked.now, to: Math.max(asked.now + 1, base.problem.horizon), breaks: [] };
  const helper = { id: "one-more", name: "one more", skills, shifts: [shift] };
  const site = { ...base.site, crew: [...base.site.crew, helper] };
  const names = skills.map((id) => base.site.kitchen.skills.find((s) => s.id === id)?.name ?? id);
  const what = `one more pair of hands (${names.join(", ") || "any"}) from ${clock.textOf(asked.now)}`;
  return [{ change: what, base: { ...base, site }, asked }];
}

/** A course served later than this is no remedy, min (common practice, no source). */
const MOST_LATER = 30;

/** The courses that come too late, as much later as they are, with all their plates. */
function laterCourses(base: LiveBase, made: LiveMade, asked: LiveAsk): Trial[] {
  const tasks = new Map(base.set.tasks.map((task) => [task.id, task]));
  const late = new Map<string, number>();
  for (const b of made.live.breaches)
    for (const id of b.tasks) {
      const task = tasks.get(id);
      if (task?.kind !== "plate" || b.rule !== "course" || b.by > MOST_LATER) continue;
      late.set(task.step, Math.max(late.get(task.step) ?? 0, b.by));
    }
  return [...late].map(([course, by]): Trial => {
    const name = base.site.docs.menus
      .get(base.site.amounts.service.menu)
      ?.courses.find((c) => c.id === course)?.name;
    const set = { ...base.set, tasks: courseLater(base.set.tasks, course, by) };
    return { change: `${name ?? course} ${by} min later`, base: { ...base, set }, asked };
  });
}
