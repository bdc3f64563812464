import { type LogLine, standing } from "../safety/log-lines.ts";
import type { LearningBody } from "./schema.ts";

/** Measurements that a person left out, and those a person looked at and let stand, by id of the first line. */
export function judgements(lines: readonly LogLine[]): {
  readonly out: ReadonlyMap<string, string>;
  readonly kept: ReadonlySet<string>;
} {
  const out = new Map<string, string>();
  const kept = new Set<string>();
  for (const { now } of standing<Extract<LearningBody, { kind: "judged" }>>(lines, ["judged"])) {
    const { entry, counts, reason } = now.body;
    if (counts) {
      out.delete(entry);
      kept.add(entry);
    } else {
      kept.delete(entry);
      out.set(entry, reason ?? "");
    }
  }
  return { out, kept };
}
