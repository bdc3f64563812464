import type { Content } from "pdfmake/interfaces.js";
import {
  PAGE_MEASURES,
  PAPER_INK,
  runTime,
  type Score,
  type ScoreMeasures,
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

/** Widths tried for a drawing, in its own units: its 14-unit figures become 9.3 points on paper, or 8. */
const UNITS = [1160, 1350] as const;
const NAMES = 190;
/** Width of a fold of quiet time, as the axis makes it. */
const FOLD = 26;
/** Height left for the drawing between a sheet's title and its legend, points. */
const TALL = PAGE.width - PAGE.top - PAGE.bottom - 74;
/** Tighter than on the page: paper does not scroll. */
const MEASURES: ScoreMeasures = { ...PAGE_MEASURES, lane: 23, bar: 20, gap: 8, heat: 40, shelf: 5 };

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
    const [large, small] = UNITS.map((units) => drawn(score, from, to, units));
    const parts = small!.length < large!.length ? small! : large!;
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
function drawn(score: ScoreOfPlan, from: number, to: number, units: number): Score[] {
  const inside = score.staves
    .map((stave) => ({ ...stave, tasks: stave.tasks.filter((task) => task.to >= from && task.from <= to) }))
    .filter((stave) => stave.tasks.length > 0);
  const plain = runTime(from, to, score.busy, { perMinute: 1 });
  const folds = plain.folds.length * FOLD;
  const perMinute = (units - NAMES - 12 - folds) / Math.max(1, plain.length - folds);
  const time = runTime(from, to, score.busy, { perMinute });
  const draw = (staves: readonly Stave[]) =>
    scoreDrawing(
      {
        ...score.input,
        service: score.input.service.filter((moment) => moment.minute >= from && moment.minute <= to),
        staves,
        time,
        measures: MEASURES,
        direction: "along",
        namesWidth: NAMES,
      },
      PAPER_INK,
    );
  const pages: Stave[][] = [];
  let free = 0;
  for (const laid of draw(inside).staves) {
    const size = laid.size + MEASURES.gap;
    if (size > free || pages.length === 0) {
      pages.push([]);
      free = (TALL * units) / LONG - MEASURES.head - MEASURES.foot;
    }
    pages.at(-1)!.push(laid.stave);
    free -= size;
  }
  return pages.map(draw);
}
