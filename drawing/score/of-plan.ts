import type { Clock } from "../../core/production/clock.ts";
import type { Kitchen, Menu, Service } from "../../core/production/schema.ts";
import { type Unit, unitsOf } from "../../core/production/units.ts";
import type { Plan } from "../../core/run/result.ts";
import type { Say } from "../../words/catalogue.ts";
import type { Format } from "../../words/format.ts";
import type { OvenFacts } from "./layout.ts";
import type { ScoreInput } from "./score.ts";
import type { Mark } from "./sheet.ts";
import { type Stave, type StaveKind, staves, type TimedTask, timed } from "./staves.ts";
import { tightTasks } from "./tight.ts";
import type { Span } from "./time.ts";

/** Where a plan is run, and how its words and figures are put. */
export interface ScorePlace {
  readonly kitchen: Kitchen;
  readonly service: Service;
  readonly menu: Menu | undefined;
  readonly clock: Clock;
  readonly names: {
    readonly stations: ReadonlyMap<string, string>;
    readonly crew: ReadonlyMap<string, string>;
    readonly units: ReadonlyMap<string, string>;
  };
  readonly say: Say;
  readonly write: Format;
}

export interface ScoreOfPlan {
  readonly staves: readonly Stave[];
  /** Spans in which hands work, or courses go out: time stays to scale there. */
  readonly busy: readonly Span[];
  readonly from: number;
  readonly to: number;
  readonly input: Pick<
    ScoreInput,
    | "ovens"
    | "service"
    | "markOf"
    | "pinned"
    | "peaks"
    | "describe"
    | "writeHour"
    | "writeDay"
    | "writeC"
    | "title"
    | "nowWord"
  >;
}

/** What a plan gives to be drawn as a score, minutes counted from midnight of the date of service. */
export function scoreOfPlan(plan: Plan, kind: StaveKind, place: ScorePlace): ScoreOfPlan {
  const { kitchen, service, menu, clock, names, say, write } = place;
  const midnight = clock.minuteOf("D 00:00");
  const tasks = timed(plan.tasks, midnight);
  const ovens = ovensOf(plan, kitchen);
  const byEquipment = staves(tasks, "equipment", names.units);
  const list =
    kind === "station"
      ? [...staves(tasks, "station", names.stations), ...byEquipment.filter((stave) => ovens.has(stave.id))]
      : kind === "person"
        ? staves(tasks, "person", names.crew)
        : byEquipment;
  const broken = new Set(plan.broken.flatMap((breach) => breach.tasks));
  const tight = new Set(tightTasks(plan, service.slackMin).map((task) => task.id));
  const markOf = ({ task }: TimedTask): Mark | undefined =>
    broken.has(task.id) ? "broken" : tight.has(task.id) ? "tight" : undefined;
  const text = (minute: number) => clock.textOf(Math.round(minute) + midnight);
  const firstCourse = clock.service - midnight;
  const first = Math.min(...tasks.map((task) => task.from), 0);
  const last = Math.max(...tasks.map((task) => task.to), firstCourse + 30);
  return {
    staves: list,
    busy: [
      ...tasks.filter(
        ({ task }) => task.hands.length > 0 || task.kind === "milestone" || task.kind === "plate",
      ),
      { from: firstCourse, to: last },
    ],
    from: first - 10,
    to: last + 10,
    input: {
      ovens,
      service: (menu?.courses ?? [{ name: "", afterMin: 0 }]).map((course, i) => ({
        minute: firstCourse + course.afterMin,
        name: i === 0 ? say("plan.service", { hour: write.hour(text(firstCourse)) }) : course.name,
      })),
      markOf,
      pinned: new Set(service.pins.map((pin) => pin.task)),
      peaks: plan.peaks.map(({ from, to }) => ({
        from: clock.minuteOf(from) - midnight,
        to: clock.minuteOf(to) - midnight,
      })),
      describe: (entry) => sayTask(entry, place, markOf(entry)),
      writeHour: (minute) => write.hour(text(minute)),
      writeDay: (minute) => {
        const day = text(minute).split(" ")[0]!;
        return `${day}  ${write.shortDate(clock.dateOf(day))}`;
      },
      writeC: write.temperature,
      title: say("plan.score"),
      nowWord: say("plan.now"),
    },
  };
}

/** Most spaces an oven is drawn with: more would be too thin to tell apart. */
const MOST_SPACES = 12;

/** The spaces an oven is drawn with, and how much of any of its measures one of them is. */
function shelvesOf({ equipment: { capacity } }: Unit): Pick<OvenFacts, "spaces" | "spacesFor"> {
  const shelves = capacity.find((each) => each.unit === "shelf" || each.unit === "position") ?? capacity[0];
  const spaces = Math.min(MOST_SPACES, Math.max(1, Math.round(shelves?.value ?? 1)));
  return {
    spaces,
    spacesFor: (space, measure) => {
      const whole = capacity.find((each) => each.unit === measure)?.value;
      return whole === undefined ? 1 : (space / whole) * spaces;
    },
  };
}

/** Equipment of the plan that is heated to a set temperature. */
function ovensOf(plan: Plan, kitchen: Kitchen): Map<string, OvenFacts> {
  const heated = new Set(
    plan.tasks.flatMap((task) => task.equipment.flatMap((use) => (use.setC === undefined ? [] : [use.id]))),
  );
  return new Map(
    unitsOf(kitchen)
      .all.filter((unit) => unit.equipment.rangeC !== undefined && heated.has(unit.id))
      .map((unit): [string, OvenFacts] => {
        const { perKMin, leastMin } = unit.equipment.changeover ?? { perKMin: 0, leastMin: 0 };
        const climbMin = (a: number, b: number) => Math.max(leastMin, Math.abs(b - a) * perKMin);
        return [unit.id, { ...shelvesOf(unit), climbMin }];
      }),
  );
}

function sayTask({ task }: TimedTask, { names, say, write }: ScorePlace, mark: Mark | undefined): string {
  const parts = [
    task.name,
    say("task.when", { start: write.clock(task.start), end: write.clock(task.end) }),
    task.station ? (names.stations.get(task.station) ?? task.station) : "",
    write.list(task.hands.map((id) => names.crew.get(id) ?? id)),
    write.list(
      task.equipment.map(({ id, setC }) => {
        const name = names.units.get(id) ?? id;
        return setC === undefined ? name : `${name} ${write.temperature(setC)}`;
      }),
    ),
    task.hold && task.hold.usedMin > 0
      ? say("task.hold", { used: write.span(task.hold.usedMin), most: write.span(task.hold.maxMin) })
      : "",
    mark === "broken"
      ? say("task.broken")
      : mark === "tight"
        ? say("task.tight", { slack: write.span(task.slackMin) })
        : "",
  ];
  return parts.filter(Boolean).join(", ");
}
