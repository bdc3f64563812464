import { useMemo } from "react";
import type { Came } from "../../../core/learning/forecast.ts";
import type { Covers } from "../../../core/learning/schema.ts";
import { standing } from "../../../core/safety/log-lines.ts";
import { useLog } from "../../offline/use-log.ts";

/** Past services as the log has them: each course's plates, and how many came of those guaranteed. */
export function useCame(): {
  readonly ready: boolean;
  readonly past: readonly Covers[];
  readonly came: readonly Came[];
} {
  const { lines, ready } = useLog();
  return useMemo(() => {
    const past = standing<Covers>(lines, ["covers"]).map(({ first, now }) => ({
      ...{ service: first.service, body: now.body },
    }));
    // A guest eats every course: the fullest one says how many came.
    const came = [...Map.groupBy(past, (one) => one.service).values()].flatMap((rows) => {
      const promised = rows.findLast(({ body }) => body.guaranteed !== undefined)?.body.guaranteed;
      const most = Math.max(
        ...rows.map(({ body }) => body.dishes.reduce((sum, { count }) => sum + count, 0)),
      );
      return promised === undefined ? [] : [{ guaranteed: promised, came: most }];
    });
    return { ready, past: past.map(({ body }) => body), came };
  }, [lines, ready]);
}
