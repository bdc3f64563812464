import type { Preparation, Step } from "../formula/schema.ts";
import type { BatchAmount, PreparationAmount, StepAmount } from "./amounts.ts";
import { durationOfPassive, waysOfWork } from "./durations.ts";
import { ofLoad, wholeUp } from "./plan-rules.ts";
import { type RoomOfStep, roomOfStep } from "./room.ts";
import type { Masses, Site } from "./site.ts";
import type { DurationOf, Link, RoomNeed, Task } from "./tasks.ts";

/** The tasks of one step in one batch, load by load: what begins it and what ends it. */
export interface StepInBatch {
  readonly loads: readonly { readonly first: string; readonly last: string }[];
  readonly outG: number;
  /** Minutes of one load from its start to its end, by the fewest hands. */
  readonly minutes: number;
}

/** Where the builder writes. */
export interface Draft {
  readonly tasks: Task[];
  readonly links: Link[];
}

/**
 * One step of one batch becomes tasks (README, P4 to P6): for each load work, then at once the waiting, with
 * look-ins while it waits. Writes tasks and the links among them into `draft`.
 */
export function stepTasks(
  site: Site,
  draft: Draft,
  prep: Preparation,
  amount: PreparationAmount,
  batch: BatchAmount,
  index: number,
  before: ReadonlyMap<string, StepInBatch>,
): StepInBatch {
  const step = prep.steps[index]!;
  const masses = massesOf(amount, batch, step);
  const room = roomOfStep(site, prep, step, masses, inherited(prep, step, before));
  const release = releaseOf(site, prep, step);
  const loads: { first: string; last: string }[] = [];
  const from = draft.tasks.length;
  for (let load = 1; load <= room.loads; load++)
    loads.push(loadTasks(site, draft, prep, index, batch.index, load, room, masses, release));
  if (room.lacks.length > 0) {
    const tasks = loads.flatMap((l) => (l.first === l.last ? [l.first] : [l.first, l.last]));
    for (const lack of room.lacks) site.lacks.push({ ...lack, tasks });
  }
  const minutes = draft.tasks
    .slice(from)
    .filter((task) => task.kind !== "look")
    .slice(0, step.work ? 2 : 1)
    .reduce((sum, task) => sum + task.ways[0]!.minutes, 0);
  return { loads, outG: masses.outG, minutes };
}

/** P5: loads carry on into the next step where the first could not wait for the last. */
function inherited(prep: Preparation, step: Step, before: ReadonlyMap<string, StepInBatch>): number {
  let loads = 1;
  for (const entering of step.from) {
    const id = typeof entering === "string" ? entering : entering.step;
    const made = before.get(id);
    const hold = prep.steps.find((s) => s.id === id)?.hold;
    if (!made || made.loads.length < 2 || !hold) continue;
    if (hold.maxMin < (made.loads.length - 1) * made.minutes) loads = Math.max(loads, made.loads.length);
  }
  return loads;
}

function massesOf(amount: PreparationAmount, batch: BatchAmount, step: Step): Masses {
  const nominal: StepAmount | undefined = amount.steps.get(step.id);
  const scale = batch.grams / amount.nominalG;
  return {
    inG: nominal ? nominal.inG * scale : 0,
    outG: nominal ? nominal.outG * scale : 0,
    pieces: batch.pieces ?? 0,
  };
}

/** Not before the last delivery of what enters here. */
function releaseOf(site: Site, prep: Preparation, step: Step): number | undefined {
  if (site.earliest.size === 0) return undefined;
  let release: number | undefined;
  for (const line of prep.lines) {
    if (line.step !== step.id || !("ingredient" in line.item)) continue;
    const from = site.earliest.get(line.item.ingredient);
    if (from !== undefined) release = Math.max(release ?? 0, wholeUp(from));
  }
  return release;
}

function loadTasks(
  site: Site,
  draft: Draft,
  prep: Preparation,
  index: number,
  batch: number,
  load: number,
  room: RoomOfStep,
  whole: Masses,
  release: number | undefined,
): { first: string; last: string } {
  const step = prep.steps[index]!;
  const share = 1 / room.loads;
  const id = `${prep.id}/${step.id}/${batch}${room.loads > 1 ? `.${load}` : ""}`;
  const pointer = `${site.docs.pointer("preparations", prep.id)}/steps/${index}`;
  const masses: Masses = {
    inG: ofLoad(whole.inG, room.loads),
    outG: ofLoad(whole.outG, room.loads),
    pieces: ofLoad(whole.pieces, room.loads),
  };
  const base = {
    preparation: prep.id,
    step: step.id,
    batch,
    share,
    name: `${prep.name}: ${step.name}`,
    ...masses,
    ...(release === undefined ? {} : { release }),
  };
  const how = (from: DurationOf["from"]): DurationOf => ({ from, pointer });
  const wait = durationOfPassive(site, prep, step, masses, pointer);
  const uses = (part: "work" | "passive"): RoomNeed[] => {
    // A use during both keeps its unit from the work to the waiting; with only one of the two it is simply held.
    const list: RoomNeed[] = [];
    room.during.forEach(({ when, need }, k) => {
      if (when === part) list.push(need);
      else if (when === "both") list.push(step.work && wait ? { ...need, same: `${id}#${k}` } : need);
      else if (part === "work" && when === "passive" && !wait) list.push(need);
      else if (part === "passive" && when === "work" && !step.work) list.push(need);
    });
    return list;
  };
  if (step.work) {
    const { skill, lacking } = skillOf(site, step.work.skill);
    if (lacking) site.lacks.push({ ...lacking, tasks: [id] });
    const ways = waysOfWork(site, prep, step.work, masses, skill, id);
    draft.tasks.push({
      ...base,
      id,
      kind: "work",
      station: step.work.station,
      ...(skill === undefined ? {} : { skill }),
      ways,
      interruptible: step.work.interruptible,
      uses: uses("work"),
      how: how("work"),
    });
  }
  if (!wait && step.work) return { first: id, last: id };
  const waitId = `${id}/wait`;
  const minutes = wait?.minutes ?? 0;
  draft.tasks.push({
    ...base,
    id: waitId,
    kind: "wait",
    ...(step.work ? { station: step.work.station } : {}),
    ways: [{ hands: 0, minutes }],
    interruptible: false,
    uses: uses("passive"),
    how: how(wait?.from ?? "fixed"),
  });
  if (step.work)
    draft.links.push({
      from: { task: id, at: "end" },
      to: { task: waitId, at: "start" },
      rule: "follows",
      least: 0,
      most: 0,
    });
  lookIns(site, draft, step, base, id, waitId, minutes, how("look"));
  return { first: step.work ? id : waitId, last: waitId };
}

/** P6: the k-th look-in starts within a quarter of `every` around k × every. */
function lookIns(
  site: Site,
  draft: Draft,
  step: Step,
  base: Omit<Task, "id" | "kind" | "ways" | "interruptible" | "uses" | "how">,
  id: string,
  waitId: string,
  minutes: number,
  how: DurationOf,
): void {
  if (!step.attended) return;
  const lasts = wholeUp(step.attended.min);
  // Looked at oftener than it takes to look: somebody stays with it, one look-in after the other.
  const every = Math.max(step.attended.every, lasts, 1);
  const { skill } = step.work ? skillOf(site, step.work.skill) : { skill: undefined };
  for (let k = 1; k * every + lasts <= minutes; k++) {
    const look = `${id}/look-${k}`;
    draft.tasks.push({
      ...base,
      id: look,
      kind: "look",
      ...(step.work ? { station: step.work.station } : {}),
      ...(skill === undefined ? {} : { skill }),
      ways: [{ hands: 1, minutes: lasts }],
      interruptible: false,
      uses: [],
      how,
    });
    draft.links.push({
      from: { task: waitId, at: "start" },
      to: { task: look, at: "start" },
      rule: "look-in",
      least: Math.ceil(k * every - every / 4),
      most: Math.min(Math.floor(k * every + every / 4), minutes - lasts),
    });
  }
}

/** The skill a task asks for; dropped, and said, when nobody in the kitchen has it. */
export function skillOf(
  site: Site,
  skill: string,
): { skill: string | undefined; lacking?: { rule: "skill"; by: number; unit: string; what: string } } {
  if (site.crew.some((person) => person.skills.includes(skill))) return { skill };
  const name = site.kitchen.skills.find((s) => s.id === skill)?.name ?? skill;
  return {
    skill: undefined,
    lacking: {
      rule: "skill",
      by: 1,
      unit: "hands",
      what: `nobody in ${site.kitchen.name} has the skill "${name}"`,
    },
  };
}
