import { useMemo } from "react";
import type { Plan } from "../../../core/run/result.ts";
import { type ScoreInput, type ScoreOfPlan, type StaveKind, scoreOfPlan } from "../../../drawing/index.ts";
import { useNames } from "../../app/names.ts";
import { useNow } from "../../app/now.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";

export interface ScoreParts extends Omit<ScoreOfPlan, "input"> {
  readonly input: ScoreOfPlan["input"] & Pick<ScoreInput, "now">;
}

/** What a plan gives to be drawn as a score on the page, with the minute it is now. */
export function useScore(plan: Plan, kind: StaveKind): ScoreParts {
  const { kitchen, clock, service, menu } = useService();
  const names = useNames();
  const { say, write } = useWords();
  const now = useNow();
  const score = useMemo(
    () => scoreOfPlan(plan, kind, { kitchen, clock, service, menu, names, say, write }),
    [plan, kind, kitchen, clock, service, menu, names, say, write],
  );
  return useMemo(() => {
    const minute = now === undefined ? undefined : now - clock.minuteOf("D 00:00");
    const within = minute !== undefined && minute >= score.from + 10 && minute <= score.to - 10;
    return { ...score, input: { ...score.input, now: within ? minute : undefined } };
  }, [score, now, clock]);
}
