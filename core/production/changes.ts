import type { Preparation, Step } from "../formula/schema.ts";
import { dayName } from "./clock.ts";
import { contactChanges } from "./contact-changes.ts";
import type { Documents } from "./documents.ts";
import { otherEquipment } from "./equipment-changes.ts";
import { worked } from "./load.ts";
import { isTotal, type MadePlan } from "./make-plan.ts";
import { nameOf } from "./names.ts";
import type { Broken } from "./plan-types.ts";
import type { Kitchen, Service } from "./schema.ts";
import type { Task } from "./tasks.ts";

/** A change that may mend a broken plan, not yet tried. */
export interface Change {
  /** In plain words: "one more pair of hands (hot), D 14:00 to D 18:00". */
  readonly what: string;
  /** Of changes of one group, smaller first, the first that fits is enough. */
  readonly group?: string;
  readonly kitchen?: Kitchen;
  readonly docs?: Documents;
  readonly service?: Service;
}

/**
 * Changes worth trying for what a plan breaks (README, P21): hands at the tight time, a further unit of the
 * equipment in the breach, longer hours that day, a temperature two steps could share, an earlier first day.
 */
export function changesFor(made: MadePlan): Change[] {
  const broken = [...made.plan.broken, ...inConflict(made)];
  // Where all there is does not do, one more is no remedy: as much as is missing may be.
  if (made.set.lacks.some(isTotal)) return [...otherKitchens(made), ...asMuchAsMissing(made)];
  return [
    ...moreHands(made, broken),
    ...onceEach(moreUnits(made, broken), contactChanges(made)),
    ...otherEquipment(made, broken),
    ...longerHours(made, broken),
    ...sharedTemperatures(made, broken),
    ...unpinned(made, broken),
    ...earlierDay(made),
    ...otherKitchens(made),
  ];
}

/** Without what the chef has decided of tasks in breach: each alone, then all. */
function unpinned({ site, set }: MadePlan, broken: readonly Broken[]): Change[] {
  const { service } = site.amounts;
  const ids = new Set(broken.flatMap(({ tasks }) => tasks));
  const names = new Map(set.tasks.map((task) => [task.id, nameOf(site, task)]));
  const open = service.pins.filter((pin) => (pin.status ?? "planned") === "planned");
  const inBreach = open.filter((pin) => ids.has(pin.task) && names.has(pin.task)).slice(0, 2);
  const without = (gone: readonly Service["pins"][number][], what: string): Change => ({
    what,
    group: "pins",
    service: { ...service, pins: service.pins.filter((pin) => !gone.includes(pin)) },
  });
  return [
    ...inBreach.map((pin) => without([pin], `without the pin of ${names.get(pin.task)}`)),
    ...(open.length > 1 ? [without(open, "without any pins")] : []),
  ];
}

/** What rules the plan out though it is not what the attempt breaks: the room and the pins of the conflict. */
function inConflict({ plan }: MadePlan): Broken[] {
  return (plan.conflict ?? []).flatMap(({ rule, tasks, what }): Broken[] => {
    if (rule !== "capacity" && rule !== "pin") return [];
    return [{ rule: rule === "pin" ? "pin" : "room", tasks, by: 1, unit: "", what }];
  });
}

/** Changes of both lists, each told once. */
function onceEach(a: readonly Change[], b: readonly Change[]): Change[] {
  return [...a, ...b.filter((change) => !a.some(({ what }) => what === change.what))];
}

/** The same service in the book's other kitchens. */
function otherKitchens({ site }: MadePlan): Change[] {
  return [...site.docs.kitchens.values()]
    .filter((kitchen) => kitchen.id !== site.kitchen.id)
    .map((kitchen) => ({ what: `in the kitchen "${kitchen.name}"`, kitchen }));
}

/**
 * As many more hands, who can do everything and work all the hours, and as many more units as the sums ask for,
 * and half as much again: not every minute of theirs can be of use (no source).
 */
function asMuchAsMissing(made: MadePlan): Change[] {
  const { site, set } = made;
  const totals = set.lacks.filter(isTotal);
  const hours = workDays(made);
  const each = hours.reduce((sum, s) => sum + s.to - s.from, 0);
  const minutes = Math.max(0, ...totals.filter((lack) => lack.rule === "hands").map((lack) => lack.by));
  const hands = each === 0 ? 0 : Math.ceil((1.5 * minutes) / each);
  const skills = site.kitchen.skills.map((s) => s.id);
  const shifts = hours.map((s) => ({
    from: site.clock.textOf(s.from),
    to: site.clock.textOf(s.to),
    breaks: [],
  }));
  const helpers = Array.from({ length: hands }, (_, n) => ({
    id: `extra-${n + 1}`,
    name: `one more (${n + 1})`,
    skills,
    shifts,
  }));
  const units = new Map<string, number>();
  for (const lack of totals) {
    const unit = site.units.all.find((u) => u.id === lack.units?.[0]);
    if (!unit || lack.times === undefined) continue;
    const more = Math.ceil(1.5 * (lack.times - 1) * lack.units!.length);
    units.set(unit.equipment.id, Math.max(units.get(unit.equipment.id) ?? 0, more));
  }
  const equipment = site.kitchen.equipment.map((e) => ({ ...e, count: e.count + (units.get(e.id) ?? 0) }));
  const what = [
    ...(hands > 0 ? [`${hands} more pairs of hands of any skill on every day`] : []),
    ...site.kitchen.equipment.flatMap((e) => (units.has(e.id) ? [`${units.get(e.id)} more: ${e.name}`] : [])),
  ];
  const crew = [...site.kitchen.crew.filter((c) => !c.id.startsWith("extra-")), ...helpers];
  return what.length === 0 ? [] : [{ what: what.join("; "), kitchen: { ...site.kitchen, crew, equipment } }];
}

/** Each day's hours, from its first shift's begin to the last one's end. */
function workDays(made: MadePlan): { from: number; to: number }[] {
  const days = new Map<string, { from: number; to: number }>();
  for (const { from, to } of made.site.crew.flatMap((cook) => cook.shifts)) {
    const day = made.site.clock.dayOf(from);
    const known = days.get(day);
    days.set(day, { from: Math.min(known?.from ?? from, from), to: Math.max(known?.to ?? to, to) });
  }
  const list = [...days.values()].sort((a, b) => a.from - b.from);
  // A night shift may reach into the next day's hours: one person works both as one.
  return list.filter((day, i) => i === 0 || day.from >= list[i - 1]!.to);
}

const tasksOf = (made: MadePlan, broken: readonly Broken[]): Task[] => {
  const ids = new Set(broken.flatMap((b) => b.tasks));
  return made.set.tasks.filter((task) => ids.has(task.id));
};

/** The minutes in which the tasks of the foremost broken rule lie, by day, the fullest days first. */
function tightTimes(made: MadePlan, all: readonly Broken[]): { day: string; from: number; to: number }[] {
  const planned = new Map(made.plan.tasks.map((t) => [t.id, t]));
  const foremost = all.find((b) => b.tasks.length > 0)?.rule;
  const broken = all.filter((b) => b.rule === foremost);
  const days = new Map<string, { from: number; to: number; weight: number }>();
  for (const b of broken)
    for (const id of b.tasks) {
      const task = planned.get(id);
      if (!task || task.kind === "milestone") continue;
      const day = made.site.clock.dayOf(task.startMin);
      const known = days.get(day) ?? { from: task.startMin, to: task.endMin, weight: 0 };
      days.set(day, {
        from: Math.min(known.from, task.startMin),
        to: Math.max(known.to, task.endMin),
        weight: known.weight + 1,
      });
    }
  return [...days]
    .sort((a, b) => b[1].weight - a[1].weight)
    .slice(0, 2)
    .map(([day, { from, to }]) => ({ day, from, to }));
}

/** When the kitchen works on a day, from the first shift's begin to the last one's end. */
function openOn(made: MadePlan, day: string): { from: number; to: number } | undefined {
  const span = made.site.clock.spanOf(day);
  const shifts = made.site.crew.flatMap((cook) =>
    cook.shifts.filter((shift) => shift.from < span.to && shift.to > span.from),
  );
  if (shifts.length === 0) return undefined;
  return { from: Math.min(...shifts.map((s) => s.from)), to: Math.max(...shifts.map((s) => s.to)) };
}

function moreHands(made: MadePlan, broken: readonly Broken[]): Change[] {
  const { site } = made;
  const skills = tightSkills(made, broken);
  const named = skills
    .map((id) => site.kitchen.skills.find((skill) => skill.id === id)?.name ?? id)
    .join(", ");
  const changes: Change[] = [];
  for (const { day, from, to } of tightTimes(made, broken)) {
    const open = openOn(made, day) ?? site.clock.spanOf(day);
    const around = { from: Math.max(open.from, from - 120), to: Math.min(open.to, Math.max(to, from + 120)) };
    // The least first: the tight time itself in half hours, two hours at least; then more around it; then all day.
    const close = halfHours(site.clock.spanOf(day).from, { from, to: Math.max(to, from + 120) }, open);
    const length = (span: { from: number; to: number }) => span.to - span.from;
    const spans = [close, around, open].filter(
      (span, i, all) => length(span) > 0 && (i === 0 || length(span) > length(all[i - 1]!)),
    );
    for (const span of spans) {
      const [start, end] = [site.clock.textOf(span.from), site.clock.textOf(span.to)];
      const helper = { id: freeId(site.kitchen), name: "one more", skills };
      changes.push({
        what: `one more pair of hands (${named || "any"}), ${start} to ${end}`,
        group: `hands ${day}`,
        kitchen: {
          ...site.kitchen,
          crew: [...site.kitchen.crew, { ...helper, shifts: [{ from: start, to: end, breaks: [] }] }],
        },
      });
    }
  }
  return changes;
}

/** A span in whole half hours of its day, inside the open hours. */
function halfHours(midnight: number, span: { from: number; to: number }, open: { from: number; to: number }) {
  const half = (minute: number, round: (x: number) => number) =>
    midnight + 30 * round((minute - midnight) / 30);
  return {
    from: Math.max(open.from, half(span.from, Math.floor)),
    to: Math.min(open.to, half(span.to, Math.ceil)),
  };
}

/** The skills most asked for by broken tasks, three at most: who has more is no ordinary pair of hands. */
function tightSkills(made: MadePlan, broken: readonly Broken[]): string[] {
  const count = new Map<string, number>();
  for (const task of tasksOf(made, broken)) {
    const step = made.site.docs.preparations.get(task.preparation)?.steps.find((s) => s.id === task.step);
    // A skill nobody has is asked for by the book, not by the task any more.
    const skill = task.kind === "work" ? (step?.work?.skill ?? task.skill) : task.skill;
    if (skill !== undefined && task.kind !== "wait") count.set(skill, (count.get(skill) ?? 0) + 1);
  }
  return [...count]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 3)
    .map(([skill]) => skill);
}

function freeId(kitchen: Kitchen): string {
  for (let n = 1; ; n++) if (!kitchen.crew.some((c) => c.id === `extra-${n}`)) return `extra-${n}`;
}

function moreUnits(made: MadePlan, broken: readonly Broken[]): Change[] {
  const { site } = made;
  const weight = new Map<string, number>();
  const tight = new Set(["room", "temperature", "changeover", "exclusive", "contact"]);
  for (const b of broken) {
    const ids = new Set(b.tasks);
    for (const task of made.set.tasks)
      if (ids.has(task.id))
        for (const use of task.uses) {
          const id = site.units.all.find((u) => u.id === use.units[0])?.equipment.id;
          if (id !== undefined) weight.set(id, (weight.get(id) ?? 0) + (tight.has(b.rule) ? 10 : 1));
        }
  }
  return [...weight]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 2)
    .map(([id]) => {
      const equipment = site.kitchen.equipment.map((e) => (e.id === id ? { ...e, count: e.count + 1 } : e));
      const name = site.kitchen.equipment.find((e) => e.id === id)!.name;
      return { what: `one more: ${name}`, kitchen: { ...site.kitchen, equipment } };
    });
}

/** Two hours more at the tight day's beginning, for all who work then. */
function longerHours(made: MadePlan, broken: readonly Broken[]): Change[] {
  const { site } = made;
  return tightTimes(made, broken).flatMap(({ day }): Change[] => {
    const open = openOn(made, day);
    if (!open) return [];
    const from = Math.max(0, open.from - 120);
    const hours = (open.from - from) / 60;
    if (hours <= 0) return [];
    const earlier = (text: string) => site.clock.textOf(Math.max(0, site.clock.minuteOf(text) - 120));
    const crew = site.kitchen.crew.map((cook) => ({
      ...cook,
      shifts: cook.shifts.map((s) => (s.from.split(" ")[0] === day ? { ...s, from: earlier(s.from) } : s)),
    }));
    return [
      { what: `everyone begins ${round(hours)} h earlier on ${day}`, kitchen: { ...site.kitchen, crew } },
    ];
  });
}

/**
 * Steps that use one kind of oven at different temperatures, where one's own tolerance reaches the other's: both
 * at one temperature. Never further than the book's tolerance for the step that moves.
 */
function sharedTemperatures(made: MadePlan, broken: readonly Broken[]): Change[] {
  const { site } = made;
  const inBreach = new Set(tasksOf(made, broken).map((task) => `${task.preparation}/${task.step}`));
  interface Set {
    readonly prep: Preparation;
    readonly step: Step;
    readonly use: number;
    readonly kind: string;
    readonly setC: number;
    readonly toleranceC: number;
  }
  const sets: Set[] = [];
  for (const id of site.amounts.preparations.keys()) {
    const prep = site.docs.preparations.get(id);
    for (const step of prep?.steps ?? [])
      step.uses.forEach((use, i) => {
        if (use.setC === undefined || use.kind === undefined) return;
        sets.push({
          prep: prep!,
          step,
          use: i,
          kind: use.kind,
          setC: use.setC,
          toleranceC: use.toleranceC ?? 0,
        });
      });
  }
  const changes: Change[] = [];
  for (const a of sets)
    for (const b of sets) {
      if (!inBreach.has(`${a.prep.id}/${a.step.id}`) && !inBreach.has(`${b.prep.id}/${b.step.id}`)) continue;
      const apart = Math.abs(a.setC - b.setC);
      if (a === b || a.kind !== b.kind || apart === 0 || apart > a.toleranceC || apart <= b.toleranceC)
        continue;
      const use = a.step.uses[a.use]!;
      const uses = a.step.uses.map((u, i) => (i === a.use ? { ...use, setC: b.setC } : u));
      const steps = a.prep.steps.map((s) => (s.id === a.step.id ? { ...s, uses } : s));
      const preparations = new Map(site.docs.preparations).set(a.prep.id, { ...a.prep, steps });
      changes.push({
        what: `${a.prep.name}: ${a.step.name.toLowerCase()} at ${b.setC} °C instead of ${a.setC}, with ${b.prep.name}`,
        docs: { ...site.docs, preparations },
      });
    }
  return changes.slice(0, 3);
}

/** A day before the first: its crew comes a day earlier too, and the horizon begins there. */
function earlierDay(made: MadePlan): Change[] {
  const { site } = made;
  const { service } = site.amounts;
  const first = site.crew.flatMap((c) => c.shifts.flatMap(worked)).sort((a, b) => a.from - b.from)[0];
  if (!first) return [];
  const day = site.clock.dayOf(first.from);
  const shifted = (text: string) => {
    const [d, time] = text.split(" ");
    return `${dayName(offset(d!) - 1)} ${time}`;
  };
  const crew = site.kitchen.crew.map((cook) => ({
    ...cook,
    shifts: cook.shifts.flatMap((s) =>
      s.from.split(" ")[0] === day
        ? [
            {
              from: shifted(s.from),
              to: shifted(s.to),
              breaks: s.breaks.map((b) => ({ from: shifted(b.from), to: shifted(b.to) })),
            },
            s,
          ]
        : [s],
    ),
  }));
  return [
    {
      what: `begin a day earlier, on ${dayName(offset(day) - 1)}, with the hands of ${day}`,
      kitchen: { ...site.kitchen, crew },
      service: { ...service, horizon: shifted(service.horizon) },
    },
  ];
}

const offset = (day: string) => Number(day.slice(1) || 0);
const round = (x: number) => Math.round(x * 10) / 10;
