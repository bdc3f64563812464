import { fitText } from "../text.ts";
import { type Drawn, draw, path } from "../tree.ts";
import { heatLabels } from "./heat-labels.ts";
import type { LaidStave, ScoreMeasures } from "./layout.ts";
import { box, point, type Sheet } from "./sheet.ts";

const TEXT = 14;

/** An oven's stave: its set temperature along time, and what is inside hung below, shelf by shelf (D9). */
export function ovenShapes(
  sheet: Sheet,
  measures: ScoreMeasures,
  laid: LaidStave,
  heat: NonNullable<LaidStave["heat"]>,
): Drawn[] {
  const { ink, time } = sheet;
  const across = (celsius: number) =>
    laid.start + (measures.heat - 4) * (1 - (celsius - heat.lowC) / (heat.highC - heat.lowC)) + 2;
  const shelves = laid.start + measures.heat + 6;
  const line: (string | number)[] = [];
  heat.points.forEach(([minute, celsius], i) => {
    const before = heat.points[i - 1];
    const apart =
      !before ||
      (before[1] === celsius &&
        !heat.spans.some((s) => s.setC === celsius && s.from <= before[0] && s.to >= minute));
    line.push(apart ? "M" : "L", ...point(sheet, time.at(minute), across(celsius)));
  });
  const rules = Array.from({ length: heat.shelves + 1 }, (_, i) => {
    const at = shelves + i * measures.shelf;
    return draw("path", {
      d: path("M", ...point(sheet, 0, at), "L", ...point(sheet, time.length, at)),
      stroke: ink.rule,
      "stroke-width": 0.5,
      opacity: 0.3,
      fill: "none",
    });
  });
  return [
    draw("g", { "aria-hidden": "true" }, ...rules),
    ...laid.tasks.map(({ item, lane, tall = 1 }) => {
      const from = time.at(item.from);
      const to = Math.max(time.at(item.to), from + 2);
      const breadth = tall * measures.shelf - 1;
      const mark = sheet.markOf(item);
      const chosen = sheet.chosen === item.task.id;
      const at = shelves + lane * measures.shelf + 0.5;
      const name =
        sheet.direction === "along" && breadth >= TEXT + 1
          ? fitText(item.task.name, TEXT, to - from - 8)
          : "";
      return draw(
        "g",
        {
          "data-task": item.task.id,
          id: `task-${laid.stave.id}-${item.task.id}`,
          role: "option",
          "aria-selected": chosen ? "true" : "false",
        },
        draw("title", {}, sheet.describe(item)),
        draw("rect", {
          ...box(sheet, from, at, to - from - 1, breadth),
          fill: ink.tint(0.22),
          stroke: chosen || mark === "tight" ? ink.decide : mark === "broken" ? ink.harm : ink.ink,
          "stroke-width": chosen ? 3 : mark ? 2 : 0.75,
        }),
        name === ""
          ? undefined
          : draw(
              "text",
              { x: from + 4, y: at + Math.min(breadth / 2 + 5, 16), "font-size": TEXT, fill: ink.ink },
              name,
            ),
      );
    }),
    draw(
      "g",
      { "aria-hidden": "true" },
      draw("path", {
        d: path(...line),
        fill: "none",
        stroke: ink.ink,
        "stroke-width": 2.25,
        "stroke-linejoin": "round",
      }),
      ...(sheet.direction === "down"
        ? downLabels(sheet, heat, across)
        : alongLabels(sheet, measures, laid, heat, across)),
    ),
  ];
}

type Heat = NonNullable<LaidStave["heat"]>;

function alongLabels(
  sheet: Sheet,
  measures: ScoreMeasures,
  laid: LaidStave,
  { spans }: Heat,
  across: (celsius: number) => number,
): Drawn[] {
  const { time, ink } = sheet;
  const place = ({ from, to, setC }: Heat["spans"][number]) => ({
    ...{ from: time.at(from), to: time.at(to), across: across(setC) },
  });
  const within = {
    top: laid.start - 2,
    bottom: laid.start + measures.heat + 8,
    end: time.length,
    walls: [time.at(sheet.serviceMinute)],
  };
  return heatLabels(spans, place, sheet.writeC, TEXT, within).map(({ text, x, y }) =>
    draw("text", { x, y, "font-size": TEXT, "font-weight": 600, fill: ink.ink }, text),
  );
}

/** Time downwards: beside the line, each below the one before. */
function downLabels(sheet: Sheet, { spans }: Heat, across: (celsius: number) => number): Drawn[] {
  let free = Number.NEGATIVE_INFINITY;
  return spans.flatMap((span) => {
    const [x, y] = point(sheet, sheet.time.at(span.from) + 3, across(span.setC));
    if (y < free) return [];
    free = y + TEXT + 2;
    return [
      draw("text", { x: x + 4, y: y + 12, "font-size": TEXT, fill: sheet.ink.ink }, sheet.writeC(span.setC)),
    ];
  });
}
