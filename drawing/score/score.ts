import type { Ink } from "../ink.ts";
import { fitText, textWidth } from "../text.ts";
import { type Drawn, draw, path } from "../tree.ts";
import { grid } from "./grid.ts";
import { holdMatters } from "./hold.ts";
import { type LaidStave, layScore, type OvenFacts, type ScoreMeasures } from "./layout.ts";
import { ovenShapes } from "./oven-shapes.ts";
import { box, type Mark, point, type Sheet } from "./sheet.ts";
import type { Stave, TimedTask } from "./staves.ts";
import { type TaskPlace, taskShape } from "./task.ts";
import type { RunTime } from "./time.ts";

export interface ScoreInput {
  readonly staves: readonly Stave[];
  readonly time: RunTime;
  readonly measures: ScoreMeasures;
  readonly ovens: ReadonlyMap<string, OvenFacts>;
  readonly direction: "along" | "down";
  /** Courses: thick lines towards which everything runs. */
  readonly service: readonly { readonly minute: number; readonly name: string }[];
  readonly now?: number | undefined;
  readonly nowWord: string;
  readonly markOf: (entry: TimedTask) => Mark | undefined;
  readonly describe: (entry: TimedTask) => string;
  readonly chosen?: string | undefined;
  readonly pinned?: Sheet["pinned"];
  /** Hours in which hands are full. */
  readonly peaks?: Sheet["peaks"];
  readonly writeHour: (minute: number) => string;
  readonly writeDay: (minute: number) => string;
  readonly writeC: (celsius: number) => string;
  /** Names beside the staves inside the drawing (paper); without it the page sets them itself. */
  readonly namesWidth?: number;
  readonly title: string;
}

export interface Score {
  readonly drawing: Drawn;
  readonly time: RunTime;
  readonly staves: readonly LaidStave[];
  /** What is drawn of each stave. */
  readonly shapes: ReadonlyMap<LaidStave, Drawn>;
  /** Length along time and size across it. */
  readonly length: number;
  readonly size: number;
}

/** The plan as a score: staves across, time along, towards the thick line of the service (D6 to D10). */
export function scoreDrawing(input: ScoreInput, ink: Ink): Score {
  const { staves: laid, size } = layScore(input.staves, input.time, input.measures, input.ovens);
  const sheet = sheetOf(input, ink, size);
  const names = input.namesWidth ?? 0;
  const length = input.time.length + 12;
  // Time downwards needs room above for the first day's name.
  const above = input.direction === "down" ? 26 : 0;
  const [width, height] = input.direction === "along" ? [length + names, size] : [size, length + above];
  const shapes = new Map(laid.map((stave) => [stave, staveShapes(sheet, input.measures, stave)]));
  const drawing = draw(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `${-names} ${-above} ${width} ${height}`,
      width,
      height,
      role: "presentation",
      "font-family": ink.font,
    },
    draw(
      "g",
      { "aria-hidden": "true" },
      ...grid(sheet, input.measures.head, input.measures.foot),
      ...laid.flatMap((stave) => line(sheet, stave, -names)),
    ),
    draw(
      "g",
      { "aria-hidden": "true" },
      // A glimpse of the day draws no course that is not in it.
      ...input.service.flatMap((moment, i) =>
        moment.minute < input.time.from || moment.minute > input.time.to
          ? []
          : serviceLine(sheet, moment, i, input.service[i + 1]?.minute, input.measures.head),
      ),
    ),
    ...shapes.values(),
    names > 0 && draw("g", {}, ...laid.map((stave) => nameText(ink, stave, names, input.measures))),
    input.now === undefined ? undefined : nowLine(sheet, input.now, input.nowWord),
  );
  return { drawing, shapes, time: input.time, staves: laid, length, size };
}

/** The hours, days and courses of a score alone, to stay in sight while its staves are scrolled (D13). */
export function scoreHead(input: ScoreInput, ink: Ink): Drawn {
  const measures = { ...input.measures, foot: 0 };
  return scoreDrawing({ ...input, measures, staves: [] }, ink).drawing;
}

/**
 * The same score with a task chosen: only that task is drawn anew, all else is the same parts.
 * @param score drawn of `input` with nothing chosen
 */
export function scoreChosen(score: Score, input: ScoreInput, ink: Ink, chosen: string): Score {
  const sheet = { ...sheetOf(input, ink, score.size), chosen };
  const anew = new Map<Drawn, Drawn>();
  for (const laid of score.staves) {
    if (!laid.tasks.some(({ item }) => item.task.id === chosen)) continue;
    const before = score.shapes.get(laid)!;
    if (laid.heat) {
      anew.set(before, staveShapes(sheet, input.measures, laid));
      continue;
    }
    const places = placesIn(sheet, input.measures, laid);
    const children = before.children.map((child, k) =>
      places[k]!.entry.task.id === chosen
        ? taskShape(sheet, input.measures, places[k]!, laid.stave.id)
        : child,
    );
    anew.set(before, { ...before, children });
  }
  const { drawing } = score;
  const children = drawing.children.map((child) =>
    typeof child === "string" ? child : (anew.get(child) ?? child),
  );
  return { ...score, drawing: { ...drawing, children } };
}

function sheetOf(input: ScoreInput, ink: Ink, size: number): Sheet {
  return { ...input, ink, size, serviceMinute: input.service[0]?.minute ?? input.time.to };
}

function staveShapes(sheet: Sheet, measures: ScoreMeasures, laid: LaidStave): Drawn {
  if (laid.heat) return draw("g", { role: "presentation" }, ...ovenShapes(sheet, measures, laid, laid.heat));
  const shapes = placesIn(sheet, measures, laid).map((place) =>
    taskShape(sheet, measures, place, laid.stave.id),
  );
  return draw("g", { role: "presentation" }, ...shapes);
}

/** Where the tasks of a stave stand, in their order; a label has room until the next task of its lane. */
function placesIn(sheet: Sheet, measures: ScoreMeasures, laid: LaidStave): TaskPlace[] {
  const next = new Map<number, number>();
  const places: TaskPlace[] = [];
  for (const { item, lane } of [...laid.tasks].reverse()) {
    // A name never runs across the service.
    const wall = sheet.time.at(sheet.serviceMinute) - 6;
    const before = sheet.time.at(item.from) < wall ? wall : sheet.time.length;
    const free = Math.min(next.get(lane) ?? before, before);
    const hold = holdMatters(item) ? sheet.time.at(item.to + (item.task.hold?.usedMin ?? 0)) : 0;
    places.push({
      entry: item,
      across: laid.start + lane * measures.lane,
      free: hold > sheet.time.at(item.to) ? sheet.time.at(item.to) : free,
    });
    next.set(lane, sheet.time.at(item.from));
  }
  return places.reverse();
}

function line(sheet: Sheet, laid: LaidStave, before: number): Drawn[] {
  const across = laid.start + laid.size + 6;
  const [a, b] = [point(sheet, before, across), point(sheet, sheet.time.length, across)];
  return [
    draw("path", {
      d: path("M", ...a, "L", ...b),
      stroke: sheet.ink.rule,
      "stroke-width": 0.75,
      fill: "none",
    }),
  ];
}

function serviceLine(
  sheet: Sheet,
  { minute, name }: { minute: number; name: string },
  index: number,
  next: number | undefined,
  head: number,
): Drawn[] {
  const place = sheet.time.at(minute);
  const main = index === 0;
  // The figures of the hours stay clear of the lines of later courses.
  const top = main ? 18 : head - 4;
  const bar = draw("rect", {
    ...box(sheet, place - (main ? 2.5 : 1), top, main ? 5 : 2, sheet.size - top),
    fill: sheet.ink.ink,
  });
  const word = (x: number, y: number, anchor: string, text: string) =>
    draw(
      "text",
      { x, y, "font-size": 15, "font-weight": 600, "text-anchor": anchor, fill: sheet.ink.ink },
      text,
    );
  if (sheet.direction === "down") return main ? [bar, word(sheet.size - 4, place - 6, "end", name)] : [bar];
  if (main && place > textWidth(name, 16) + 120) return [bar, word(place - 4, 14, "end", name)];
  const room = (next === undefined ? sheet.time.length + 10 : sheet.time.at(next)) - place - 8;
  if (textWidth(name, 15.5) <= room) return [bar, word(place, 14, "start", name)];
  // A course whose name has no room stands under its number.
  const number = String(index + 1);
  return main || textWidth(number, 15.5) > room + 6 ? [bar] : [bar, word(place, 14, "middle", number)];
}

function nowLine(sheet: Sheet, minute: number, word: string): Drawn {
  const place = sheet.time.at(minute);
  const [a, b] = [point(sheet, place, sheet.direction === "along" ? 40 : 0), point(sheet, place, sheet.size)];
  const [x, y] = sheet.direction === "along" ? [place, 36] : [4, place - 4];
  return draw(
    "g",
    { "aria-hidden": "true" },
    draw("path", {
      d: path("M", ...a, "L", ...b),
      stroke: sheet.ink.decide,
      "stroke-width": 2,
      fill: "none",
    }),
    draw(
      "text",
      {
        x,
        y,
        "font-size": 14,
        "font-weight": 600,
        fill: sheet.ink.decide,
        "text-anchor": sheet.direction === "along" ? "middle" : "start",
      },
      `▼ ${word}`,
    ),
  );
}

function nameText(ink: Ink, laid: LaidStave, width: number, measures: ScoreMeasures): Drawn {
  return draw(
    "text",
    { x: -width, y: laid.start + measures.bar / 2 + 8, "font-size": 15, "font-weight": 600, fill: ink.ink },
    fitText(laid.stave.name, 15.5, width - 8),
  );
}
