import { memo, useMemo, useRef } from "react";
import type { Plan } from "../../../core/run/result.ts";
import { PAGE_INK, PAGE_MEASURES, runTime, scoreDrawing } from "../../../drawing/index.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { type Entry, stateOf } from "../../offline/entry.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { useWidth } from "../../parts/use-size.ts";
import { useScore } from "../run/use-score.ts";

/** Minutes seen before and after now. */
const WIDE = { before: 60, after: 240 };
const NARROW = { before: 20, after: 100 };

/** One station's stave round now: what was, what comes, the holds that run. */
export const BoardStave = memo(function BoardStave({
  plan,
  station,
  now,
  marks,
}: {
  readonly plan: Plan;
  readonly station: string;
  readonly now: number;
  /** The last mark of each task. */
  readonly marks: ReadonlyMap<string, Entry>;
}) {
  const { clock } = useService();
  const { say } = useWords();
  const place = useRef<HTMLDivElement>(null);
  const width = useWidth(place);
  const { staves, input } = useScore(plan, "station");
  const midnight = clock.minuteOf("D 00:00");
  const drawing = useMemo(() => {
    const stave = staves.find((s) => s.kind === "station" && s.id === station);
    if (!stave || width === 0) return undefined;
    const at = now - midnight;
    const { before, after } = width > 600 ? WIDE : NARROW;
    const [from, to] = [at - before, at + after];
    const tasks = stave.tasks.filter((t) => t.to > from && t.from < to);
    const time = runTime(from, to, [{ from, to }], { perMinute: (width - 12) / (to - from) });
    return scoreDrawing(
      {
        ...input,
        staves: [{ ...stave, tasks }],
        time,
        measures: { ...PAGE_MEASURES, lane: 40, bar: 34, foot: 0 },
        direction: "along",
        now: at,
        markOf: (entry) => {
          const state = stateOf(marks.get(entry.task.id));
          return state === "open" ? input.markOf(entry) : state;
        },
      },
      PAGE_INK,
    ).drawing;
  }, [staves, input, station, now, midnight, width, marks]);
  return (
    <div className="board-stave" ref={place} role="listbox" aria-label={say("plan.score")} tabIndex={0}>
      {drawing && <Drawing of={drawing} />}
    </div>
  );
});
