import { useCallback, useEffect, useMemo, useSyncExternalStore } from "react";
import type { LearningBody } from "../../core/learning/schema.ts";
import type { LogLine } from "../../core/safety/log-lines.ts";
import type { LotBody } from "../../core/safety/lots-schema.ts";
import { useEntries } from "../app/hands.tsx";
import { useSettings } from "../app/settings.tsx";
import { type Entry, toSent } from "./entry.ts";
import { WholeLog } from "./whole-log.ts";

const whole = new WholeLog();

/** A measurement, or what happened to a lot. */
export type Recorded = LearningBody | LotBody;

/** The log of all services, with what was just written here. */
export function useLog(): {
  readonly lines: readonly LogLine[];
  readonly ready: boolean;
  readonly offline: boolean;
} {
  const { status, offline, lines } = useSyncExternalStore(whole.subscribe, whole.state);
  const { list } = useEntries();
  useEffect(() => void whole.load(), []);
  const all = useMemo(() => {
    const known = new Set(lines.map(({ id }) => id));
    return [...lines, ...list.filter(({ id, refused }) => !known.has(id) && !refused).map(toSent)];
  }, [lines, list]);
  return { lines: all, ready: status === "ready", offline };
}

/** Writes one down, by whoever holds the tablet unless another is named. */
export function useRecord(): (
  body: Recorded,
  more?: { readonly by?: string; readonly corrects?: string },
) => void {
  const { entries } = useEntries();
  const { settings } = useSettings();
  return useCallback(
    (body, { by = settings.name, corrects } = {}) =>
      void entries.write({
        ...(body as unknown as Omit<Entry, "id" | "at" | "service">),
        ...(by === "" ? {} : { by }),
        ...(corrects === undefined ? {} : { corrects }),
      }),
    [entries, settings.name],
  );
}
