import type { Problem, Violation } from "../schedule/problem.ts";
import { minutesText, roomText } from "./names.ts";
import type { Broken } from "./plan-types.ts";
import { ROOM_STEPS } from "./problem.ts";
import type { Site } from "./site.ts";
import type { LinkRule, Task } from "./tasks.ts";

/** What the sentences of a breach need to know. */
export interface Told {
  readonly site: Site;
  readonly problem: Problem;
  readonly tasks: ReadonlyMap<string, Task>;
  /** A task by its name, with which of it is meant and when. */
  readonly name: (id: string) => string;
  /** A unit, a bench or a person by its name. */
  readonly label: (id: string) => string | undefined;
}

/** So many are named of those that share a place. */
const MOST_NAMED = 3;

/**
 * A breach of the schedule in the words of the kitchen, with the rule's name here.
 * @param v its tasks as the checker tells them. @param heads the first task of each of its sides. @param all every task of it
 */
export function breach(
  { site, problem, tasks, name, label }: Told,
  v: Violation,
  heads: readonly string[],
  all: readonly string[],
): Broken {
  const [a = "", b = ""] = heads;
  const clock = (minute: number) => site.clock.textOf(minute);
  const at = v.at === undefined ? "" : ` at ${clock(v.at)}`;
  const on = v.on === undefined ? "" : (label(v.on) ?? v.on);
  const told = (rule: string, what: string, more: { readonly by?: number; readonly unit?: string } = {}) => ({
    ...{ rule, tasks: all.filter((id) => tasks.has(id)), by: v.by, unit: v.unit as string, what, ...more },
  });
  switch (v.rule) {
    case "least-lag":
    case "longest-wait": {
      const link = (v.on ?? "after") as LinkRule;
      // Begun too early is one thing, waited too long another, though one link says both.
      const rule = v.rule === "least-lag" && (link === "hold" || link === "life") ? "ready" : link;
      return told(rule, lagWords(rule, v.rule, name(a), name(b), v.by));
    }
    case "shift":
      return told("shift", `${name(a)} runs ${minutesText(v.by)} outside working time`);
    case "deadline": {
      const due = clock(v.at!);
      const moment = tasks.get(a)?.kind === "plate" ? `its course's moment, ${due}` : due;
      return told("course", `${name(a)} ends ${minutesText(v.by)} after ${moment}`);
    }
    case "horizon":
      return v.at === problem.horizon
        ? told(
            "horizon",
            `${name(a)} ends ${minutesText(v.by)} after the last hour of work, ${clock(problem.horizon)}`,
          )
        : told("horizon", `${name(a)} begins ${minutesText(v.by)} before the first moment of the plan`);
    case "now":
      return told("delivery", `${name(a)} begins ${minutesText(v.by)} before the first moment that is open`);
    case "release": {
      const from = clock(v.at! + v.by);
      if (tasks.get(a)?.kind === "plate")
        return told("plate-up", `${name(a)} begins ${minutesText(v.by)} before its window, ${from}`);
      return told("delivery", `${name(a)} begins ${minutesText(v.by)} before it can, ${from}`);
    }
    case "capacity": {
      const resource = problem.resources?.find((r) => r.id === v.on);
      const unit = resource?.dimensions?.[v.dimension ?? 0] ?? "room";
      const by = v.by / ROOM_STEPS;
      const what = `${on} is over full by ${roomText(by, unit)}${at}: ${some(heads.map(name))}`;
      return told("room", what, { by, unit });
    }
    case "state": {
      const set = heads.map((id) => `${setOf(tasks.get(id), v.on) ?? "another"} °C for ${name(id)}`);
      return told("temperature", `${on} is asked for ${set.join(" and ")}${at}`, { unit: "°C" });
    }
    case "changeover":
      return told(
        "changeover",
        `${on} has ${minutesText(v.by)} too little between ${name(a)} and ${name(b)}`,
      );
    case "exclusive":
      return told(
        "exclusive",
        `${on} holds ${name(a)} and ${name(b)} together for ${minutesText(v.by)}${at}`,
      );
    case "person-busy":
      return told(
        "hands",
        `${on} is asked for in two places for ${minutesText(v.by)}${at}: ${name(a)} and ${name(b)}`,
      );
    case "skill":
      return told("skill", `${name(a)} is given to ${on}, who has not the skill`, { unit: "hands" });
    case "person-choice":
    case "same-persons":
      return told("skill", `${name(a)} is given to hands that cannot do it`, { unit: "hands" });
    case "resource-choice":
      return told("equipment", `${name(a)} has not the equipment it asks for`);
    case "duration":
      return told("duration", `${name(a)} is off by ${minutesText(v.by)} from what it takes`);
    case "pin":
      return told("pin", movedFromFixed(name(a), v.unit === "min" ? v.by : undefined));
    default:
      return told(v.rule, `${heads.map(name).join(" and ")}: ${v.rule}${at}`);
  }
}

/** Something fixed that is moved; minutes where it is moved in time. */
export function movedFromFixed(name: string, minutes: number | undefined): string {
  return `${name} is moved${minutes === undefined ? "" : ` by ${minutesText(minutes)}`} from where it stands fixed`;
}

function lagWords(rule: LinkRule, kind: string, a: string, b: string, by: number): string {
  if (kind === "least-lag")
    switch (rule) {
      case "line-check":
        return `${a} is ready ${minutesText(by)} after the line check begins`;
      case "after":
        return `${b} begins ${minutesText(by)} too soon after ${a}`;
      case "follows":
        return `${b} begins ${minutesText(by)} before its work ends`;
      case "look-in":
        return `${b} comes ${minutesText(by)} too early`;
      default:
        return `${b} begins ${minutesText(by)} before ${a.replace(/^Thaw /, "thawing ")} is done`;
    }
  switch (rule) {
    case "hold":
    case "life":
      return `${a} waits ${minutesText(by)} too long for ${b.replace(/^Plate /, "plating ")}`;
    case "follows":
      return `${b} begins ${minutesText(by)} after its work ends, not at once`;
    case "look-in":
      return `${b} comes ${minutesText(by)} too late`;
    default:
      return `${b} begins ${minutesText(by)} too long after ${a}`;
  }
}

/** The first few, and how many more there are. */
function some(names: readonly string[]): string {
  const each = [...new Set(names)];
  const more = each.length > MOST_NAMED ? ` and ${each.length - MOST_NAMED} more` : "";
  return `${each.slice(0, MOST_NAMED).join("; ")}${more}`;
}

/** The temperature a task asks of a unit. */
function setOf(task: Task | undefined, unit: string | undefined): number | undefined {
  return task?.uses.find((use) => unit !== undefined && use.units.includes(unit))?.setC;
}
