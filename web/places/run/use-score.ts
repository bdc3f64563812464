import { useMemo } from "react";
import { type Unit, unitsOf } from "../../../core/production/units.ts";
import type { Plan } from "../../../core/run/result.ts";
import {
  type Mark,
  type OvenFacts,
  type ScoreInput,
  type Stave,
  type StaveKind,
  staves,
  type TimedTask,
  timed,
} from "../../../drawing/index.ts";
import { useNames } from "../../app/names.ts";
import { useNow } from "../../app/now.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { tightTasks } from "./tight.ts";

type Given = Pick<
  ScoreInput,
  | "ovens"
  | "service"
  | "now"
  | "nowWord"
  | "markOf"
  | "describe"
  | "writeHour"
  | "writeDay"
  | "writeC"
  | "title"
>;

export interface ScoreParts {
  readonly staves: readonly Stave[];
  /** Spans in which hands work: time stays to scale there. */
  readonly busy: readonly { readonly from: number; readonly to: number }[];
  readonly from: number;
  readonly to: number;
  readonly input: Given;
}

/** What a plan gives to be drawn as a score, minutes counted from midnight of the date of service. */
export function useScore(plan: Plan, kind: StaveKind): ScoreParts {
  const { kitchen, clock, service, menu } = useService();
  const names = useNames();
  const { say, write } = useWords();
  const now = useNow();
  return useMemo(() => {
    const midnight = clock.minuteOf("D 00:00");
    const tasks = timed(plan.tasks, midnight);
    const units = unitsOf(kitchen).all;
    const ovens = new Map<string, OvenFacts>();
    for (const unit of units) {
      const heats =
        unit.equipment.rangeC !== undefined &&
        plan.tasks.some((t) => t.equipment.some((e) => e.id === unit.id && e.setC !== undefined));
      if (!heats) continue;
      const { perKMin, leastMin } = unit.equipment.changeover ?? { perKMin: 0, leastMin: 0 };
      ovens.set(unit.id, {
        ...shelvesOf(unit),
        climbMin: (a, b) => Math.max(leastMin, Math.abs(b - a) * perKMin),
      });
    }
    const byEquipment = staves(tasks, "equipment", names.units);
    const list =
      kind === "station"
        ? [...staves(tasks, "station", names.stations), ...byEquipment.filter((s) => ovens.has(s.id))]
        : kind === "person"
          ? staves(tasks, "person", names.crew)
          : byEquipment;
    const tight = new Set(tightTasks(plan, service.slackMin).map((task) => task.id));
    const broken = new Set(plan.broken.flatMap((b) => b.tasks));
    const markOf = ({ task }: TimedTask): Mark | undefined =>
      broken.has(task.id) ? "broken" : tight.has(task.id) ? "tight" : undefined;
    const text = (minute: number) => clock.textOf(Math.round(minute) + midnight);
    const first = Math.min(...tasks.map((t) => t.from), 0);
    const last = Math.max(...tasks.map((t) => t.to), clock.service - midnight + 30);
    const nowMinute = now === undefined ? undefined : now - midnight;
    return {
      staves: list,
      busy: [
        ...tasks.filter(
          ({ task }) => task.hands.length > 0 || task.kind === "milestone" || task.kind === "plate",
        ),
        { from: clock.service - midnight, to: last },
      ],
      from: first - 10,
      to: last + 10,
      input: {
        ovens,
        service: (menu?.courses ?? [{ name: "", afterMin: 0 }]).map((course, i) => ({
          minute: clock.service - midnight + course.afterMin,
          name:
            i === 0 ? say("plan.service", { hour: write.hour(text(clock.service - midnight)) }) : course.name,
        })),
        now: nowMinute !== undefined && nowMinute >= first && nowMinute <= last ? nowMinute : undefined,
        nowWord: say("plan.now"),
        markOf,
        describe: (entry) => sayTask(entry, { say, write, names, mark: markOf(entry) }),
        writeHour: (minute) => write.hour(text(minute)),
        writeDay: (minute) => {
          const day = text(minute).split(" ")[0]!;
          return `${day}  ${write.shortDate(clock.dateOf(day))}`;
        },
        writeC: write.temperature,
        title: say("plan.score"),
      },
    };
  }, [plan, kind, kitchen, clock, service, menu, names, say, write, now]);
}

/** Most spaces an oven is drawn with: more would be too thin to tell apart. */
const MOST_SPACES = 12;

/** The spaces an oven is drawn with, and how much of any of its measures one of them is. */
function shelvesOf(unit: Unit): Pick<OvenFacts, "spaces" | "spacesFor"> {
  const { capacity } = unit.equipment;
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

function sayTask(
  { task }: TimedTask,
  {
    say,
    write,
    names,
    mark,
  }: {
    say: ReturnType<typeof useWords>["say"];
    write: ReturnType<typeof useWords>["write"];
    names: ReturnType<typeof useNames>;
    mark: Mark | undefined;
  },
): string {
  const parts = [
    task.name,
    say("task.when", { start: write.clock(task.start), end: write.clock(task.end) }),
    task.station ? names.station(task.station) : "",
    write.list(task.hands.map(names.person)),
    write.list(
      task.equipment.map((e) =>
        e.setC === undefined
          ? names.equipment(e.id)
          : `${names.equipment(e.id)} ${write.temperature(e.setC)}`,
      ),
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
