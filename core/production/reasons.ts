import type { Moment, Placement, Problem, Schedule, Violation } from "../schedule/problem.ts";
import { benchOf } from "./contacts.ts";
import { minutesText, nameOf } from "./names.ts";
import { unitsOfTasks } from "./problem.ts";
import type { Site } from "./site.ts";
import type { Link, Task, TaskSet } from "./tasks.ts";

/** What stands in the way of a task, in words, and the task that would have to give way. */
export interface Reason {
  readonly what: string;
  /** Absent where a date, an hour or a decision stands in the way. */
  readonly task?: string;
}

/** A plan that can be asked about. */
export interface Asked {
  readonly site: Site;
  readonly set: TaskSet;
  readonly problem: Problem;
  readonly schedule: Schedule;
}

/** Later or earlier. */
export type Way = 1 | -1;

/** Puts what a moved task breaks in the words of the kitchen: names of the documents, never ids. */
export class Reasons {
  private readonly asked: Asked;
  private readonly tasks: ReadonlyMap<string, Task>;
  private readonly placed: ReadonlyMap<string, Placement>;
  private readonly on: ReadonlyMap<string, readonly string[]>;
  private readonly spans: ReadonlyMap<string, readonly [Moment, Moment]>;

  constructor(asked: Asked) {
    const { set, problem, schedule } = asked;
    this.asked = asked;
    const units = unitsOfTasks(set, problem, schedule);
    this.tasks = new Map(set.tasks.map((task) => [task.id, task]));
    this.placed = new Map(schedule.placements.map((p) => [p.task, p]));
    this.on = new Map(set.tasks.map((task, i) => [task.id, units[i]!]));
    this.spans = new Map((problem.spans ?? []).map((span) => [span.id, [span.from, span.to]]));
  }

  /** "Roast salsify: Roast". */
  name(id: string): string {
    const task = this.tasks.get(id);
    return task ? nameOf(this.asked.site, task) : "";
  }

  /** Why a block cannot move further one way, of one rule it would break; told to who asks about one task of it. */
  of(violation: Violation, block: ReadonlySet<string>, way: Way, asked: string): Reason {
    const reason = this.bare(violation, block, way);
    const own = this.ownOf(violation, block, way);
    return { ...reason, what: `${reason.what}${this.part(own, asked)}` };
  }

  /** A task; of what keeps a unit from one task to another both. */
  private endsOf(id: string): string[] {
    return this.spans.get(id)?.map(({ task }) => task) ?? [id];
  }

  /** What of the block breaks a rule, first what is at the edge that moves this way. */
  private ownOf({ tasks }: Violation, block: ReadonlySet<string>, way: Way): string[] {
    return tasks.flatMap(
      (id) => [this.edge(id, way), ...this.endsOf(id)].find((one) => block.has(one)) ?? [],
    );
  }

  /** Of what keeps a unit from one task to another, the one at the edge that moves this way. */
  private edge(id: string, way: Way): string {
    const span = this.spans.get(id);
    return span === undefined ? id : span[way > 0 ? 1 : 0].task;
  }

  /** The minute at which something is met by what moves this way. */
  private met(id: string, way: Way): number {
    const span = this.spans.get(id);
    const { task, at } = span
      ? span[way > 0 ? 0 : 1]
      : { task: id, at: way > 0 ? ("start" as const) : ("end" as const) };
    return this.placed.get(task)![at];
  }

  /** Which part of a block it is about, where that is another than the one that is asked about. */
  private part(own: readonly string[], asked: string): string {
    const [first] = own;
    const p = first === undefined || own.includes(asked) ? undefined : this.placed.get(first);
    if (!p) return "";
    const minutes = minutesText(p.end - p.start);
    switch (this.tasks.get(p.task)?.kind) {
      case "work":
        return ` (its work of ${minutes} comes first)`;
      case "look":
        return ` (for a look-in of ${minutes})`;
      default:
        return ` (with its waiting of ${minutes})`;
    }
  }

  private bare(violation: Violation, block: ReadonlySet<string>, way: Way): Reason {
    // What is kept by the block itself stands in nobody's way.
    const away = violation.tasks.filter((id) => !this.endsOf(id).some((task) => block.has(task)));
    const others = away
      .map((id) => this.edge(id, -way as Way))
      .filter((id) => !block.has(id) && this.tasks.has(id));
    const [own] = this.ownOf(violation, block, way);
    const task = own === undefined ? undefined : this.tasks.get(own);
    switch (violation.rule) {
      case "least-lag":
      case "longest-wait":
        return this.link(violation, block, way);
      case "deadline":
        return {
          what: task?.kind === "plate" ? this.course(task) : this.limit("it has to be done", task?.deadline),
        };
      case "release":
        return {
          what:
            task?.kind === "plate"
              ? this.limit("its plates may not be set out", task.release, "before")
              : this.limit("what goes into it is not there", task?.release, "before"),
        };
      case "now":
        return { what: "that is past" };
      case "horizon":
        return {
          what: way > 0 ? "nobody works after that" : `no work is planned before ${this.text(0)}`,
        };
      case "pin":
        return { what: task?.kind === "milestone" ? "it is a fixed moment" : "its start is pinned" };
      case "shift":
        return { what: this.shift(own, way) };
      case "person-busy":
        return this.busy(violation, others, way);
      default:
        return this.room({ ...violation, tasks: away }, others, way, task);
    }
  }

  private link({ rule, tasks, on }: Violation, block: ReadonlySet<string>, way: Way): Reason {
    const [from, to] = [tasks[0]!, tasks[1]!];
    const link = this.linkOf(from, to, on, rule === "least-lag" ? "least" : "most");
    const other = block.has(from) ? to : from;
    const task = this.tasks.get(other);
    const name = this.name(other);
    const at = (id: string, edge: "start" | "end") => this.text(this.placed.get(id)![edge]);
    if (rule === "least-lag") {
      const apart = link?.least ? `${minutesText(link.least)} ` : "";
      if (way < 0) {
        if (link?.from.at === "start")
          return { what: `it comes ${apart}after ${name} begins, at ${at(other, "start")}`, task: other };
        return {
          what: `${name} is done at ${at(other, "end")}${apart && `, and ${apart}have to pass`}`,
          task: other,
        };
      }
      if (task?.kind === "milestone" && link?.rule === "line-check")
        return {
          what: `it has to be ready for the line check and tasting at ${at(other, "start")}`,
          task: other,
        };
      if (task?.kind === "milestone")
        return { what: `${name} goes out at ${at(other, "start")}`, task: other };
      if (task?.kind === "plate")
        return { what: `it has to be out at ${at(other, "start")}, when ${lower(name)} begins`, task: other };
      return {
        what: `${name} needs it at ${at(other, "start")}${apart && `, ${apart}after it`}`,
        task: other,
      };
    }
    const most = minutesText(link?.most ?? 0);
    const state = link?.state === undefined ? "" : STATES[link.state];
    if (way > 0) {
      if (link?.rule === "hold" || link?.rule === "life")
        return {
          what: `${name} is done at ${at(other, "end")} and keeps ${state}${most} at most`,
          task: other,
        };
      const begins = link?.from.at === "start" ? ` begins, at ${at(other, "start")},` : "";
      return { what: `it comes ${most} after ${name}${begins} at most`, task: other };
    }
    const used = this.text(this.placed.get(other)![link?.to.at ?? "start"]);
    if (link?.rule === "hold" || link?.rule === "life")
      return {
        what: `it keeps ${state}${most} at most, and ${lower(name)} ${link.to.at === "end" ? "ends" : "begins"} at ${used}`,
        task: other,
      };
    return { what: `${name} comes ${most} after it at most, and begins at ${used}`, task: other };
  }

  private linkOf(
    from: string,
    to: string,
    rule: string | undefined,
    part: "least" | "most",
  ): Link | undefined {
    const links = this.asked.set.links.filter(
      (link) =>
        link.from.task === from && link.to.task === to && link.rule === rule && link[part] !== undefined,
    );
    // Of several the one that binds first.
    return links.sort((a, b) => (part === "least" ? b.least! - a.least! : a.most! - b.most!))[0];
  }

  private course(task: Task): string {
    const course = this.asked.site.amounts.menu.courses.find((each) => each.id === task.step);
    return `${course?.name ?? "its course"} goes out at ${this.text(task.deadline!)}`;
  }

  private limit(words: string, minute: number | undefined, before = "by"): string {
    return minute === undefined ? words : `${words} ${before} ${this.text(minute)}`;
  }

  private shift(id: string | undefined, way: Way): string {
    const p = id === undefined ? undefined : this.placed.get(id);
    const persons = this.asked.site.crew.filter((cook) => p?.persons.includes(cook.id));
    // Whose hours end first, or begin last, around the task where it stands.
    const walls = persons.flatMap((cook) =>
      cook.shifts
        .filter((shift) => shift.from <= p!.start && p!.start < shift.to)
        .flatMap((shift) => [
          ...shift.breaks
            .filter((pause) => (way > 0 ? pause.from >= p!.end : pause.to <= p!.start))
            .map((pause) => ({ cook, at: way > 0 ? pause.from : pause.to, pause: true })),
          { cook, at: way > 0 ? shift.to : shift.from, pause: false },
        ]),
    );
    const wall = walls.sort((a, b) => way * (a.at - b.at))[0];
    if (!wall) return "its hands do not work then";
    const { cook, at, pause } = wall;
    if (pause) return `${cook.name} has a break ${way > 0 ? "from" : "until"} ${this.text(at)}`;
    return `${cook.name} ${way > 0 ? "works until" : "begins at"} ${this.text(at)}`;
  }

  private busy({ on }: Violation, others: readonly string[], way: Way): Reason {
    const person = this.asked.site.crew.find((cook) => cook.id === on)?.name ?? "the same person";
    const other = others[0];
    if (other === undefined) return { what: `${person} is in two places` };
    return { what: `${person} is at ${this.name(other)} ${this.while(other, way)}`, task: other };
  }

  private room(violation: Violation, others: readonly string[], way: Way, moved: Task | undefined): Reason {
    const unit = this.asked.site.units.all.find((each) => each.id === violation.on);
    const station = this.asked.site.kitchen.stations.find((each) => benchOf(each.id) === violation.on);
    const name = unit?.name ?? (station ? `the bench "${station.name}"` : "the same equipment");
    // Of several in it the one that is met first.
    const [first] = violation.tasks
      .map((id) => ({
        other: this.edge(id, -way as Way),
        at: this.spans.has(id) || this.tasks.has(id) ? this.met(id, way) : 0,
      }))
      .filter(({ other }) => others.includes(other))
      .sort((a, b) => way * (b.at - a.at));
    if (first === undefined) return { what: `${name} is not to be had then` };
    const { other, at } = first;
    const when = way > 0 ? `from ${this.text(at)}` : `until ${this.text(at)}`;
    const what = this.name(other);
    const setC = this.setC(other, unit?.id);
    switch (violation.rule) {
      case "state":
        return { what: `${name} is at ${setC} °C ${when} for ${what}`, task: other };
      case "changeover": {
        const own = this.setC(moved?.id, unit?.id);
        if (own === undefined || setC === undefined || own === setC)
          return { what: `${name} has to be cleaned between it and ${what}, ${when}`, task: other };
        const change = way > 0 ? `has to change to ${setC} °C for` : `comes from ${setC} °C after`;
        return { what: `${name} ${change} ${what}, ${when}`, task: other };
      }
      case "capacity":
        return { what: `${name} is full ${when}: ${what} is in it`, task: other };
      default:
        return { what: `${name} is taken ${when} by ${what}`, task: other };
    }
  }

  private setC(id: string | undefined, unit: string | undefined): number | undefined {
    const task = id === undefined ? undefined : this.tasks.get(id);
    const at = this.on.get(id ?? "")?.indexOf(unit ?? "") ?? -1;
    return task?.uses[at]?.setC ?? task?.uses.find((use) => use.units.includes(unit ?? ""))?.setC;
  }

  private while(id: string, way: Way): string {
    const p = this.placed.get(id)!;
    return way > 0 ? `from ${this.text(p.start)}` : `until ${this.text(p.end)}`;
  }

  private text(minute: number): string {
    return this.asked.site.clock.textOf(minute);
  }
}

const STATES = { hot: "hot ", cold: "cold ", frozen: "frozen ", ambient: "" } as const;

/** A plate-up in the middle of a sentence. */
const lower = (name: string) => name.replace(/^Plate /, "plating ");
