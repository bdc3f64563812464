import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import type { Ink } from "../ink.ts";
import { signShape } from "../mark.ts";
import { textWidth } from "../text.ts";
import { type Drawn, draw, path } from "../tree.ts";

export interface Curve {
  /** Points in order of x. */
  readonly points: readonly (readonly [x: number, y: number])[];
  /** A spread round the line, same x: [x, low, high]. */
  readonly band?: readonly (readonly [x: number, low: number, high: number])[];
  /** Limits drawn across; above or below is the harmful side. */
  readonly limits: readonly { readonly y: number; readonly side: "above" | "below"; readonly name: string }[];
  /** `step` sets figures at its multiples (60 for whole hours); without it at round numbers. */
  readonly x: {
    readonly from: number;
    readonly to: number;
    readonly step?: number;
    readonly write: (x: number) => string;
  };
  readonly y: { readonly from: number; readonly to: number; readonly write: (y: number) => string };
  readonly title: string;
  readonly width: number;
  readonly height: number;
  /** Readings as open circles; a line of a calculation goes without. */
  readonly readings?: boolean;
  /** What the line is, written at its end where other lines are drawn beside it. */
  readonly name?: string;
  /** Least room for names on the right, so that curves under one another have one scale. */
  readonly room?: number;
  /** Further lines, told apart by their dashes and by the names at their ends. */
  readonly lines?: readonly {
    readonly points: readonly (readonly [x: number, y: number])[];
    readonly name: string;
    readonly dash?: string;
  }[];
  /** A spread whose two edges end at different x: its outline, point by point. */
  readonly area?: readonly (readonly [x: number, y: number])[];
  /** Moments: upright lines; a strong one is the moment looked at. */
  readonly uprights?: readonly { readonly x: number; readonly strong?: boolean }[];
}

const TEXT = 14;
const LEFT = 52;
const BELOW = 22;
const ABOVE = 12;
const RIGHT = 10;

/** A quantity along another between its limits: readings of a log, a core temperature along time. */
export function curveDrawing(curve: Curve, ink: Ink): Drawn {
  const { width, height } = curve;
  const right = width - RIGHT - nameRoom(curve);
  const x = scaleLinear([curve.x.from, curve.x.to], [LEFT, right]);
  const y = scaleLinear([curve.y.from, curve.y.to], [height - BELOW, ABOVE]);
  const trace = line<readonly [number, number]>(
    (p) => x(p[0]),
    (p) => y(p[1]),
  ).digits(2);
  const out = (value: number) =>
    curve.limits.some((limit) => (limit.side === "above" ? value > limit.y : value < limit.y));
  const bandLine = line<readonly [number, number]>(
    (p) => x(p[0]),
    (p) => y(p[1]),
  ).digits(2);
  const band = curve.band && [
    ...curve.band.map(([at, low]) => [at, low] as const),
    ...[...curve.band].reverse().map(([at, , high]) => [at, high] as const),
  ];
  return draw(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${width} ${height}`,
      role: "img",
      "aria-label": curve.title,
      "font-family": ink.font,
    },
    band && draw("path", { d: `${bandLine(band)}Z`, fill: ink.tint(0.1) }),
    curve.area && draw("path", { d: `${trace(curve.area)}Z`, fill: ink.tint(0.13) }),
    ...y.ticks(4).map((at) =>
      draw(
        "g",
        {},
        draw("path", {
          d: path("M", LEFT, y(at), "L", right, y(at)),
          stroke: ink.rule,
          "stroke-width": 0.5,
          opacity: 0.5,
        }),
        draw(
          "text",
          { x: LEFT - 6, y: y(at) + 5, "text-anchor": "end", "font-size": TEXT, fill: ink.quiet },
          curve.y.write(at),
        ),
      ),
    ),
    ...xTicks(curve).map((at) =>
      draw(
        "text",
        { x: x(at), y: height - 4, "text-anchor": "middle", "font-size": TEXT, fill: ink.quiet },
        curve.x.write(at),
      ),
    ),
    ...curve.limits.map((limit) =>
      draw(
        "g",
        {},
        draw("path", {
          d: path("M", LEFT, y(limit.y), "L", right, y(limit.y)),
          stroke: ink.harm,
          "stroke-width": 1.5,
          "stroke-dasharray": "6 3",
        }),
        draw(
          "text",
          {
            // Named lines end on the right: the limit is named where they begin.
            x: curve.name ? LEFT + 4 : right,
            y: y(limit.y) + (limit.side === "above" || curve.name ? -5 : 15),
            "text-anchor": curve.name ? "start" : "end",
            "font-size": TEXT,
            fill: ink.harm,
          },
          limit.name,
        ),
      ),
    ),
    ...(curve.uprights ?? []).map((at) =>
      draw("path", {
        d: path("M", x(at.x), ABOVE, "L", x(at.x), height - BELOW),
        stroke: at.strong ? ink.decide : ink.rule,
        "stroke-width": at.strong ? 2 : 1,
      }),
    ),
    ...(curve.lines ?? []).map((each) =>
      draw("path", {
        d: trace(each.points) ?? "",
        fill: "none",
        stroke: ink.ink,
        "stroke-width": 1.3,
        "stroke-dasharray": each.dash,
      }),
    ),
    curve.points.length > 1 &&
      draw("path", { d: trace(curve.points) ?? "", fill: "none", stroke: ink.ink, "stroke-width": 2 }),
    ...(curve.readings ? curve.points : []).map(([at, value]) =>
      draw(
        "g",
        {},
        draw("circle", {
          cx: x(at),
          cy: y(value),
          r: 4.5,
          fill: ink.ground,
          stroke: out(value) ? ink.harm : ink.ink,
          "stroke-width": 2,
        }),
        out(value) && signShape("cross", x(at) + 7, y(value) - 14, 10, ink.harm),
      ),
    ),
    ...names(curve, y).map((each) =>
      draw("text", { x: right + 6, y: each.y, "font-size": TEXT, fill: ink.ink }, each.name),
    ),
  );
}

/** Room on the right for the longest name of a line. */
function nameRoom({ name, lines, room = 0 }: Curve): number {
  const all = [...(name ? [name] : []), ...(lines ?? []).map((each) => each.name)];
  return Math.max(room, ...all.map((each) => textWidth(each, TEXT)));
}

/** Names at the height where their lines end, moved apart where they would lie on one another (D10). */
function names(curve: Curve, y: (value: number) => number): { name: string; y: number }[] {
  const ends = [
    ...(curve.name ? [{ name: curve.name, points: curve.points }] : []),
    ...(curve.lines ?? []),
  ].flatMap(({ name, points }) => {
    const last = points.at(-1);
    return last && name !== "" ? [{ name, y: y(last[1]) + 5 }] : [];
  });
  ends.sort((a, b) => a.y - b.y);
  const floor = curve.height - BELOW;
  ends.forEach((end, i) => {
    end.y = Math.min(Math.max(end.y, i > 0 ? ends[i - 1]!.y + TEXT + 1 : ABOVE), floor);
  });
  for (let i = ends.length - 2; i >= 0; i--) ends[i]!.y = Math.min(ends[i]!.y, ends[i + 1]!.y - TEXT - 1);
  return ends;
}

function xTicks({ x, width }: Curve): number[] {
  const most = Math.max(2, Math.floor((width - LEFT) / 60));
  if (x.step === undefined) return scaleLinear([x.from, x.to], [0, 1]).ticks(Math.ceil(most / 1.5));
  const step = x.step * Math.max(1, Math.ceil((x.to - x.from) / x.step / most));
  const ticks: number[] = [];
  for (let at = Math.ceil(x.from / step) * step; at <= x.to; at += step) ticks.push(at);
  return ticks;
}
