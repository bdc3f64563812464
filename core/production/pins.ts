import { nameOf } from "./names.ts";
import type { Site } from "./site.ts";
import type { RoomNeed, Task } from "./tasks.ts";

/**
 * What the chef has decided already (README, P14): start, crew and equipment narrow the task; started and done
 * need a start. What cannot be followed is left out and said.
 */
export function pinned(site: Site, tasks: readonly Task[]): Task[] {
  const { pins } = site.amounts.service;
  if (pins.length === 0) return [...tasks];
  const at = new Map(tasks.map((task, i) => [task.id, i]));
  const out = [...tasks];
  pins.forEach((pin, i) => {
    const path = `${site.docs.pointer("services", site.amounts.service.id)}/pins/${i}`;
    const say = (key: string, what: string, mend: string) => {
      site.doubts.push({ path: `${path}/${key}`, what, mend });
    };
    const index = at.get(pin.task);
    if (index === undefined) {
      say("task", `no task is called "${pin.task}"`, "name a task of the plan, like braise/sear/1");
      return;
    }
    let task: Task = out[index]!;
    if (pin.start !== undefined) {
      const start = site.clock.minuteOf(pin.start);
      if (start < 0)
        say("start", `${pin.start} lies before the horizon`, "pin it later, or begin the horizon earlier");
      else task = { ...task, at: start };
    }
    if (pin.status === "started" || pin.status === "done") {
      if (task.at === undefined)
        say("status", `${nameOf(site, task)} is ${pin.status} but has no start`, "give the pin a start");
      else task = { ...task, status: pin.status };
    }
    if (pin.crew && pin.crew.length > 0) task = crewed(site, task, pin.crew, say);
    if (pin.equipment) for (const id of pin.equipment) task = equipped(site, task, id, say);
    out[index] = task;
  });
  return out;
}

type Say = (key: string, what: string, mend: string) => void;

/** Only these persons: the ways that need as many hands, else the nearest that they can do. */
function crewed(site: Site, task: Task, crew: readonly string[], say: Say): Task {
  const unknown = crew.filter((id) => !site.crew.some((person) => person.id === id));
  if (unknown.length > 0) {
    say(
      "crew",
      `nobody in ${site.kitchen.name} is called "${unknown[0]}"`,
      "name persons of the kitchen's crew",
    );
    return task;
  }
  const name = nameOf(site, task);
  const nameOfCook = (id: string) => site.crew.find((person) => person.id === id)!.name;
  const skill = site.kitchen.skills.find((each) => each.id === task.skill)?.name ?? task.skill;
  const clumsy = crew.find(
    (id) => task.skill !== undefined && !site.crew.find((p) => p.id === id)!.skills.includes(task.skill),
  );
  if (clumsy !== undefined) {
    say("crew", `${nameOfCook(clumsy)} lacks the skill for ${name}: ${skill}`, "pin somebody who has it");
    return task;
  }
  const ways = task.ways.filter((way) => way.hands <= crew.length && way.hands > 0);
  if (ways.length === 0) {
    const least = task.ways[0]?.hands ?? 0;
    const what =
      least === 0 ? `${name} needs no hands` : `${name} needs ${least} hands, the pin names ${crew.length}`;
    say("crew", what, least === 0 ? "leave the crew out" : "name enough persons");
    return task;
  }
  return { ...task, ways: [ways.at(-1)!], crew };
}

/** Equipment by id or unit ("deck-oven#2"): the needs it can serve take it. */
function equipped(site: Site, task: Task, id: string, say: Say): Task {
  const units = new Set(
    site.units.all.filter((unit) => unit.id === id || unit.equipment.id === id).map((unit) => unit.id),
  );
  if (units.size === 0) {
    say(
      "equipment",
      `there is no equipment "${id}" in ${site.kitchen.name}`,
      "name equipment of the kitchen",
    );
    return task;
  }
  const unit = site.units.all.find(({ id: of }) => units.has(of))!;
  let found = false;
  const uses = task.uses.map((need): RoomNeed => {
    const narrowed = need.units.filter((unit) => units.has(unit));
    if (narrowed.length === 0) return need;
    found = true;
    return { ...need, units: narrowed };
  });
  if (!found)
    say("equipment", `${nameOf(site, task)} cannot use ${unit.name}`, "pin equipment that the step asks for");
  return found ? { ...task, uses } : task;
}
