import type { Ink } from "../ink.ts";
import { type Drawn, draw } from "../tree.ts";
import type { Score, ScoreInput } from "./score.ts";
import { box, type Sheet } from "./sheet.ts";

/** Where tasks stand in another plan, or would stand, by their ids. */
export type Ghosts = ReadonlyMap<string, { readonly from: number; readonly to: number }>;

/**
 * Empty dashed bars beside the tasks, to be laid over a score (D11): drawn alone, so that what would give is shown
 * without drawing the score again.
 */
export function scoreGhosts(
  score: Score,
  input: Pick<ScoreInput, "measures" | "direction">,
  ghosts: Ghosts,
  ink: Ink,
): Drawn {
  const { lane: breadth, bar } = input.measures;
  const bars = score.staves.flatMap(({ heat, tasks, start }) =>
    heat
      ? []
      : tasks.flatMap(({ item, lane }): Drawn[] => {
          const ghost = ghosts.get(item.task.id);
          const across = start + lane * breadth + (breadth - bar) / 2;
          return ghost ? [ghostBar(score, input.direction, item.task.id, ghost, across, bar, ink)] : [];
        }),
  );
  return draw("svg", score.drawing.attributes, ...bars);
}

function ghostBar(
  { time }: Score,
  direction: Sheet["direction"],
  id: string,
  ghost: { readonly from: number; readonly to: number },
  across: number,
  bar: number,
  ink: Ink,
): Drawn {
  const from = time.at(ghost.from);
  const to = Math.max(time.at(ghost.to), from + 4);
  return draw("rect", {
    ...box({ direction }, from, across + 1.5, to - from, bar - 3),
    fill: "none",
    stroke: ink.ink,
    "stroke-width": 1.75,
    "stroke-dasharray": "4 3",
    "data-ghost": id,
  });
}
