import { type LogLine, type Standing, standing } from "../safety/log-lines.ts";
import type { Came } from "./forecast.ts";
import { fullest } from "./forecast-rules.ts";
import type { Covers } from "./schema.ts";

/** A past service that says how many came: who promised, and the plates of each course. */
export interface CameAt extends Came {
  readonly promised: Standing<Covers>;
  readonly courses: readonly Standing<Covers>[];
}

/** Past services as the log has them: each course's plates, and how many came of those guaranteed. */
export function cameBy(lines: readonly LogLine[]): {
  readonly past: readonly Standing<Covers>[];
  readonly came: readonly CameAt[];
} {
  const past = standing<Covers>(lines, ["covers"]);
  const came = [...Map.groupBy(past, ({ first }) => first.service).values()].flatMap((courses): CameAt[] => {
    const promised = courses.findLast(({ now }) => now.body.guaranteed !== undefined);
    if (!promised) return [];
    const most = fullest(
      ...courses.map(({ now }) => now.body.dishes.reduce((sum, { count }) => sum + count, 0)),
    );
    return [{ guaranteed: promised.now.body.guaranteed!, came: most, promised, courses }];
  });
  return { past, came };
}
