import type { Content } from "pdfmake/interfaces.js";
import {
  PAGE_MEASURES,
  PAPER_INK,
  runTime,
  type Score,
  type ScoreOfPlan,
  type Stave,
  scoreDrawing,
  scoreOfPlan,
  svgText,
} from "../../drawing/index.ts";
import { inFont } from "../fonts.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { LONG, PAGE, quiet, sheetTitle } from "../parts.ts";

/** Width of a drawing in its own units: its 14-unit figures become 9 points on paper. */
const UNITS = 1170;
const NAMES = 150;
/** Width of a fold of quiet time, as the axis makes it. */
const FOLD = 26;
/** Height left for the drawing under a sheet's title and its legend, in drawing units. */
const TALL = ((PAGE.width - PAGE.top - PAGE.bottom - 86) * UNITS) / LONG;

/** The run day by day, stations and ovens as staves, time towards the service. */
export function timelinePages(paper: Paper): SheetPages[] {
  const { result, clock, say, shortDate } = paper;
  if (result.plan.tasks.length === 0) return [];
  const score = scoreOfPlan(result.plan, "station", paper);
  const midnight = clock.minuteOf("D 00:00");
  const hands = result.plan.tasks.filter((task) => task.hands.length > 0);
  const days = [
    ...new Set([...hands].sort((a, b) => a.startMin - b.startMin).map((task) => clock.dayOf(task.startMin))),
  ];
  return days.flatMap((day) => {
    const own = hands.filter((task) => clock.dayOf(task.startMin) === day);
    const from = Math.min(...own.map((task) => task.startMin)) - midnight - 10;
    const last = Math.max(...own.map((task) => task.endMin));
    const served = result.plan.tasks.filter(
      (task) => task.kind === "milestone" && clock.dayOf(task.startMin) === day,
    );
    const to = Math.max(last, ...served.map((task) => task.endMin)) - midnight + 15;
    const parts = drawn(score, from, to);
    return parts.map((part, i): SheetPages => {
      const named = { day: shortDate(day), part: i + 1, parts: parts.length };
      const name = parts.length === 1 ? say("pack.score", named) : say("pack.score.part", named);
      return {
        name,
        landscape: true,
        content: [
          sheetTitle(name, undefined, i === 0),
          { svg: inFont(svgText(part.drawing)), width: LONG, font: "SourceSans3" } as Content,
          ...(i === parts.length - 1 ? [quiet(say("pack.legend"))] : []),
        ],
      };
    });
  });
}

/** A span of the run on as many pages as its staves need. */
function drawn(score: ScoreOfPlan, from: number, to: number): Score[] {
  const inside = score.staves
    .map((stave) => ({ ...stave, tasks: stave.tasks.filter((task) => task.to >= from && task.from <= to) }))
    .filter((stave) => stave.tasks.length > 0);
  const plain = runTime(from, to, score.busy, { perMinute: 1 });
  const folds = plain.folds.length * FOLD;
  const perMinute = (UNITS - NAMES - 12 - folds) / Math.max(1, plain.length - folds);
  const time = runTime(from, to, score.busy, { perMinute });
  const draw = (staves: readonly Stave[]) =>
    scoreDrawing(
      {
        ...score.input,
        service: score.input.service.filter((moment) => moment.minute >= from && moment.minute <= to),
        staves,
        time,
        measures: PAGE_MEASURES,
        direction: "along",
        namesWidth: NAMES,
      },
      PAPER_INK,
    );
  const pages: Stave[][] = [];
  let free = 0;
  for (const laid of draw(inside).staves) {
    const size = laid.size + PAGE_MEASURES.gap;
    if (size > free || pages.length === 0) {
      pages.push([]);
      free = TALL - PAGE_MEASURES.head;
    }
    pages.at(-1)!.push(laid.stave);
    free -= size;
  }
  return pages.map(draw);
}
