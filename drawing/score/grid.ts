import { fitText } from "../text.ts";
import { type Drawn, draw, path } from "../tree.ts";
import { box, point, type Sheet } from "./sheet.ts";

/** Room for an hour's figure, px; ticks are thinned until they have it. */
const HOUR_ROOM = { along: 46, down: 34 } as const;
/** A score of fewer minutes is a glimpse of one day. */
const SHORT = 600;
const STEPS = [15, 30, 60, 120, 180, 360, 720, 1440];

/** Hours, days and folds, behind everything. */
export function grid(sheet: Sheet, head: number, foot: number): Drawn[] {
  const { time, ink, size } = sheet;
  const parts: Drawn[] = [];
  for (const fold of time.folds) {
    const [a, b] = [point(sheet, fold.place, head - 6), point(sheet, fold.place + fold.width, size)];
    parts.push(
      draw("rect", { x: a[0], y: a[1], width: b[0] - a[0], height: b[1] - a[1], fill: ink.tint(0.045) }),
      ...[fold.place, fold.place + fold.width].map((place) =>
        rule(sheet, place, head - 6, { "stroke-dasharray": "2 3" }),
      ),
    );
  }
  const now = sheet.now === undefined ? Number.NEGATIVE_INFINITY : time.at(sheet.now);
  for (const minute of hourTicks(sheet)) {
    const place = time.at(minute);
    // Where "now" stands, or downwards the line of the service with its own hour, no figure is read.
    const covered =
      sheet.direction === "along"
        ? Math.abs(place - now) < 44
        : Math.abs(place - time.at(sheet.serviceMinute)) < 8;
    const [x, y] = point(sheet, place, head - 8);
    const at =
      sheet.direction === "along"
        ? { x, y, "text-anchor": "middle" }
        : { x: head - 8, y: place + 5, "text-anchor": "end" };
    parts.push(rule(sheet, place, head - 4, { opacity: 0.35 }));
    if (!covered)
      parts.push(draw("text", { ...at, "font-size": 14, fill: ink.quiet }, sheet.writeHour(minute)));
    // A tall score is read from below too.
    if (sheet.direction === "along" && size > 500 && foot > 16)
      parts.push(
        draw(
          "text",
          { x, y: size - 6, "text-anchor": "middle", "font-size": 14, fill: ink.quiet },
          sheet.writeHour(minute),
        ),
      );
  }
  return [...parts, ...peaks(sheet, head), ...days(sheet, head)];
}

/** Breadth of the bar over a full hour. */
const FULL = 5;

function peaks(sheet: Sheet, head: number): Drawn[] {
  const { time, ink } = sheet;
  const seen = (sheet.peaks ?? []).filter(({ from, to }) => to > time.from && from < time.to);
  return seen.map(({ from, to }) => {
    const [a, b] = [time.at(from) + 1, time.at(to) - 1];
    return draw("rect", { ...box(sheet, a, head - FULL, Math.max(2, b - a), FULL), fill: ink.decide });
  });
}

/** Whole hours (or their parts, or several) that have room, leaving out those inside a fold. */
export function hourTicks({ time, direction }: Pick<Sheet, "time" | "direction">): number[] {
  const open = time.length - time.folds.reduce((sum, fold) => sum + fold.width, 0);
  const minutes = time.to - time.from - time.folds.reduce((sum, fold) => sum + fold.to - fold.from, 0);
  const room = HOUR_ROOM[direction];
  const step = STEPS.find((s) => minutes === 0 || (s * open) / minutes >= room) ?? 1440;
  const ticks: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let minute = Math.ceil(time.from / step) * step; minute <= time.to; minute += step) {
    if (time.folds.some((fold) => minute > fold.from && minute < fold.to)) continue;
    const place = time.at(minute);
    if (place - last < room || (direction === "along" && place < room / 2 - 4)) continue;
    ticks.push(minute);
    last = place;
  }
  return ticks;
}

function days(sheet: Sheet, head: number): Drawn[] {
  const { time, ink } = sheet;
  const parts: Drawn[] = [];
  // A few hours of one day need no name.
  if (time.to - time.from < SHORT) return [];
  const first = Math.floor(time.from / 1440);
  for (let day = first; day * 1440 < time.to; day++) {
    const from = time.at(Math.max(day * 1440, time.from));
    const to = time.at(Math.min((day + 1) * 1440, time.to));
    const starts = startOfDay(sheet, day);
    const [x, y] = sheet.direction === "along" ? [starts, 15] : [head + 4, starts - 7];
    const room = (sheet.direction === "along" ? to - starts : sheet.size - head) - 8;
    const text = fitText(sheet.writeDay(day * 1440), 15, room);
    if (text === "" || to - from < 20) continue;
    parts.push(draw("text", { x, y, "font-size": 15, "font-weight": 600, fill: ink.ink }, text));
  }
  return parts;
}

/** A day's name stands where its work begins: after the night's fold. */
function startOfDay({ time }: Sheet, day: number): number {
  const midnight = Math.max(day * 1440, time.from);
  const fold = time.folds.find((f) => f.from <= midnight && f.to > midnight);
  return fold ? fold.place + fold.width : time.at(midnight);
}

function rule(sheet: Sheet, place: number, from: number, more: Record<string, string | number>): Drawn {
  const [a, b] = [point(sheet, place, from), point(sheet, place, sheet.size)];
  return draw("path", {
    d: path("M", ...a, "L", ...b),
    stroke: sheet.ink.rule,
    "stroke-width": 0.75,
    fill: "none",
    ...more,
  });
}
