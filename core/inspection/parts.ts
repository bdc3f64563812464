import type { Preparation, Step } from "../formula/schema.ts";
import type { PlanTask } from "../run/result.ts";
import { yieldG } from "./grams.ts";
import { lastStepsOf, massesOf } from "./masses.ts";
import { named } from "./named.ts";
import type { Made } from "./needs.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

/** One load of one step of one batch, as the plan holds it. */
export interface Load {
  readonly preparation: Preparation;
  readonly step: Step;
  /** From 1. */
  readonly batch: number;
  readonly load: number;
  /** How many loads the step has in this batch. */
  readonly of: number;
  /** Of this load. */
  readonly inKg: number;
  readonly outKg: number;
  readonly pieces: number;
  readonly id: string;
  readonly work: PlanTask | undefined;
  readonly wait: PlanTask | undefined;
  readonly looks: readonly PlanTask[];
  readonly startMin: number;
  readonly endMin: number;
}

/** A batch with what the plan holds of it. */
export interface PlannedBatch {
  readonly preparation: Preparation;
  readonly batch: number;
  readonly grams: number;
  readonly pieces: number;
  readonly loads: ReadonlyMap<string, readonly Load[]>;
}

export interface Parts {
  readonly batches: ReadonlyMap<string, readonly PlannedBatch[]>;
  readonly loads: readonly Load[];
  readonly plates: readonly PlanTask[];
  readonly milestones: ReadonlyMap<string, PlanTask>;
  /** By "preparation/line/batch". */
  readonly thaws: ReadonlyMap<string, PlanTask>;
  readonly findings: readonly Finding[];
}

/** "short-rib/braise/2.1/wait": preparation, step, batch, load, part. */
const STEP_TASK = /^([a-z0-9-]+\/[a-z0-9-]+\/\d+)(?:\.(\d+))?(?:\/(wait|look-\d+))?$/;

/** Finds in the plan each step of each batch; what is missing, stands twice or belongs to nothing is told. */
export function partsOf(scope: Scope, made: ReadonlyMap<string, Made>, tasks: readonly PlanTask[]): Parts {
  const findings: Finding[] = [];
  const say = (rule: string, id: string, what: string) =>
    findings.push({ rule, tasks: [id], by: 1, unit: "task", what });
  const open = new Map<string, PlanTask>();
  const looks = new Map<string, PlanTask[]>();
  const lastLoad = new Map<string, number>();
  const thaws = new Map<string, PlanTask>();
  for (const task of tasks) {
    if (open.has(task.id)) say("unknown", task.id, `${named(task.id)} stands twice in the plan`);
    open.set(task.id, task);
    if (task.id.startsWith("thaw/")) thaws.set(task.id.slice("thaw/".length), task);
    const [, base = "", load, part] = STEP_TASK.exec(task.id) ?? [];
    if (load !== undefined) lastLoad.set(base, Math.max(lastLoad.get(base) ?? 0, Number(load)));
    if (part?.startsWith("look-")) {
      const id = task.id.slice(0, task.id.lastIndexOf("/"));
      looks.set(id, [...(looks.get(id) ?? []), task]);
    }
  }
  const take = (id: string, kind: PlanTask["kind"]) => {
    const task = open.get(id);
    if (task?.kind !== kind) return undefined;
    open.delete(id);
    return task;
  };

  const batches = new Map<string, readonly PlannedBatch[]>();
  const loads: Load[] = [];
  for (const { preparation, batches: wanted } of made.values()) {
    const masses = massesOf(scope, preparation);
    const planned = wanted.map(({ grams, pieces = 0 }, index): PlannedBatch => {
      const share = grams / yieldG(preparation);
      const perStep = new Map<string, readonly Load[]>();
      for (const step of preparation.steps) {
        const base = `${preparation.id}/${step.id}/${index + 1}`;
        const of = lastLoad.get(base) ?? 1;
        const mass = masses.get(step.id)!;
        const found: Load[] = [];
        for (let n = 1; n <= of; n++) {
          const id = lastLoad.has(base) ? `${base}.${n}` : base;
          const waits = step.passive !== undefined || step.target !== undefined || step.work === undefined;
          const work = step.work && take(id, "work");
          const wait = waits
            ? (take(step.work ? `${id}/wait` : id, "passive") ?? take(`${id}/wait`, "passive"))
            : undefined;
          if (step.work && !work) say("missing", id, `the work of ${named(id)} is not in the plan`);
          if (waits && !wait) say("missing", `${id}/wait`, `the waiting of ${named(id)} is not in the plan`);
          for (const look of looks.get(id) ?? []) open.delete(look.id);
          const [first, last] = [work ?? wait, wait ?? work];
          if (!first || !last || (step.work && !work) || (waits && !wait)) continue;
          found.push({
            ...{ preparation, step, batch: index + 1, load: n, of, id, work, wait },
            inKg: (mass.inG * share) / of / 1000,
            outKg: (mass.outG * share) / of / 1000,
            pieces: pieces / of,
            looks: looks.get(id) ?? [],
            startMin: first.startMin,
            endMin: last.endMin,
          });
        }
        perStep.set(step.id, found);
        loads.push(...found);
      }
      return { preparation, batch: index + 1, grams, pieces, loads: perStep };
    });
    if (planned.length > 0) batches.set(preparation.id, planned);
    for (const line of preparation.lines)
      for (const batch of planned) open.delete(`thaw/${preparation.id}/${line.id}/${batch.batch}`);
  }
  const plates = tasks.filter((task) => task.kind === "plate");
  const milestones = new Map(
    tasks.filter((task) => task.kind === "milestone").map((task) => [task.id, task] as const),
  );
  for (const task of [...plates, ...milestones.values()]) open.delete(task.id);
  for (const { preparation, step, batch, ...load } of loads)
    for (const task of tasksOf(load))
      if (task.preparation !== preparation.id || task.step !== step.id || task.batch !== batch)
        say(
          "unknown",
          task.id,
          `${named(task.id)} says it is batch ${task.batch} of ${named(task.preparation, "preparation")}`,
        );
  for (const id of open.keys()) say("unknown", id, `nothing in the documents asks for ${named(id)}`);
  return { batches, loads, plates, milestones, thaws, findings };
}

/** Every task of a load. */
export function tasksOf(load: Pick<Load, "work" | "wait" | "looks">): PlanTask[] {
  return [load.work, load.wait, ...load.looks].filter((task) => task !== undefined);
}

/** When the last of the steps that make up a preparation is done in a batch; undefined when one is not planned. */
export function madeMin(batch: PlannedBatch): number | undefined {
  const ends = lastStepsOf(batch.preparation).map((step) => batch.loads.get(step.id) ?? []);
  if (ends.some((loads) => loads.length === 0)) return undefined;
  return Math.max(...ends.flat().map((load) => load.endMin));
}
