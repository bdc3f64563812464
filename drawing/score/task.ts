import { type Sign, signShape } from "../mark.ts";
import { type Drawn, draw, path } from "../tree.ts";
import { holdMatters, wedgeOf } from "./hold.ts";
import { taskLabel } from "./label.ts";
import type { ScoreMeasures } from "./layout.ts";
import { box, type Mark, point, type Sheet } from "./sheet.ts";
import type { TimedTask } from "./staves.ts";

type Kind = TimedTask["task"]["kind"];

export interface TaskPlace {
  readonly entry: TimedTask;
  /** Across: where the lane begins. */
  readonly across: number;
  /** Along: where the next task of the lane begins, for a label beside a short bar. */
  readonly free: number;
}

/** One task on its lane: bar, line or diamond, its hold, its mark, its label (D7, D10). */
export function taskShape(sheet: Sheet, measures: ScoreMeasures, place: TaskPlace, staveId: string): Drawn {
  const { entry } = place;
  const { task } = entry;
  const mark = sheet.markOf(entry);
  const chosen = sheet.chosen === task.id;
  const from = sheet.time.at(entry.from);
  const to = Math.max(sheet.time.at(entry.to), from + 2);
  const inset = (measures.lane - measures.bar) / 2;
  const across = place.across + inset;
  return draw(
    "g",
    {
      "data-task": task.id,
      id: `task-${staveId}-${task.id}`,
      role: "option",
      "aria-selected": chosen ? "true" : "false",
    },
    draw("title", {}, sheet.describe(entry)),
    chosen || holdMatters(entry) ? holdShape(sheet, entry, across, measures.bar) : undefined,
    bodyShape(sheet, task.kind, from, to, across, measures.bar, mark),
    mark === undefined ? undefined : markShape(sheet, mark, task.kind, from, to, across, measures.bar),
    sheet.pinned?.has(task.id) ? pinShape(sheet, from, across) : undefined,
    ...taskLabel(sheet, {
      task,
      from,
      to,
      free: place.free,
      across,
      bar: measures.bar,
      marked: mark !== undefined,
    }),
    chosen
      ? draw("rect", {
          ...box(sheet, from - 2, across - 2, to - from + 4, measures.bar + 4),
          fill: "none",
          stroke: sheet.ink.decide,
          "stroke-width": 3,
        })
      : undefined,
    draw("rect", {
      ...box(sheet, from - 3, place.across, Math.max(to - from + 6, 14), measures.lane),
      fill: "transparent",
    }),
  );
}

function bodyShape(
  sheet: Sheet,
  kind: Kind,
  from: number,
  to: number,
  across: number,
  bar: number,
  mark: Mark | undefined,
): Drawn {
  const { ink } = sheet;
  const stroke = mark === "broken" ? ink.harm : mark === "tight" ? ink.decide : ink.ink;
  switch (kind) {
    case "work":
      return draw("rect", {
        ...box(sheet, from, across, Math.max(to - from - 1, 1.5), bar),
        fill:
          mark === "done"
            ? ink.tint(0.25)
            : mark === "broken"
              ? ink.harm
              : mark === "tight"
                ? ink.decide
                : ink.tint(0.86),
      });
    case "plate":
      return draw("rect", {
        ...box(sheet, from + 0.75, across + 0.75, Math.max(to - from - 2.5, 1.5), bar - 1.5),
        fill: ink.tint(0.12),
        stroke,
        "stroke-width": 1.5,
      });
    case "passive": {
      const middle = across + bar - 5;
      const [a, b] = [point(sheet, from, middle), point(sheet, to - 1, middle)];
      const [c, d] = [point(sheet, from, middle - 4), point(sheet, from, middle + 4)];
      const [e, f] = [point(sheet, to - 1, middle - 4), point(sheet, to - 1, middle + 4)];
      return draw("path", {
        d: path("M", ...a, "L", ...b, "M", ...c, "L", ...d, "M", ...e, "L", ...f),
        stroke,
        "stroke-width": 1.75,
        fill: "none",
      });
    }
    case "milestone": {
      const half = Math.min(bar / 2 - 2, 10);
      const [x, y] = point(sheet, from, across + bar / 2);
      return draw("path", {
        d: path("M", x, y - half, "L", x + half, y, "L", x, y + half, "L", x - half, y, "Z"),
        fill: ink.ground,
        stroke,
        "stroke-width": 2,
      });
    }
  }
}

/** The wedge: full height where the hold begins, as tall as what is left of it where it is used. */
function holdShape(sheet: Sheet, entry: TimedTask, across: number, bar: number): Drawn | undefined {
  const wedge = wedgeOf(entry);
  if (!wedge) return undefined;
  const from = sheet.time.at(wedge.from);
  const used = sheet.time.at(wedge.used);
  const half = bar / 2;
  const middle = across + half;
  const end = half * wedge.left;
  const risky = wedge.left < 0.1;
  const corners = [
    point(sheet, from, middle - half),
    point(sheet, used, middle - end),
    point(sheet, used, middle + end),
    point(sheet, from, middle + half),
  ];
  return draw("path", {
    d: path("M", ...corners[0]!, "L", ...corners[1]!, "L", ...corners[2]!, "L", ...corners[3]!, "Z"),
    fill: sheet.ink.tint(0.16),
    stroke: risky ? sheet.ink.decide : sheet.ink.rule,
    "stroke-width": risky ? 1.5 : 0.75,
    "data-hold": Math.round(wedge.left * 100) / 100,
  });
}

/** The head of a pin over the beginning of what is decided. */
function pinShape(sheet: Sheet, from: number, across: number): Drawn {
  const [x, y] = point(sheet, from - 1, across - PIN + 3);
  return signShape("pin", x - PIN / 2, y, PIN, sheet.ink.ink);
}
const PIN = 13;

const SIGNS: Record<Mark, Sign> = { tight: "triangle", broken: "cross", done: "check", started: "play" };
const SIGN = 10;

/** In the bar where it has room, else over its beginning. */
function markShape(
  sheet: Sheet,
  mark: Mark,
  kind: Kind,
  from: number,
  to: number,
  across: number,
  bar: number,
): Drawn {
  const { ink } = sheet;
  const inside = to - from > 20 && kind !== "passive";
  const own =
    mark === "broken" ? ink.harm : mark === "tight" ? ink.decide : mark === "done" ? ink.done : ink.ink;
  const fill = inside && kind === "work" && mark !== "done" ? ink.ground : own;
  const [x, y] = point(
    sheet,
    from + (inside ? 5 : 0),
    inside && sheet.direction === "along"
      ? across + (bar - SIGN) / 2
      : inside
        ? across + 6
        : across - SIGN + 2,
  );
  return signShape(SIGNS[mark], x, y, SIGN, fill);
}
