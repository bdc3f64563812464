import { useCallback, useEffect, useMemo, useRef, useSyncExternalStore } from "react";
import type { LearningBody } from "../../core/learning/schema.ts";
import { LIVE_KINDS } from "../../core/production/live-schema.ts";
import type { LogLine } from "../../core/safety/log-lines.ts";
import type { LotBody } from "../../core/safety/lots-schema.ts";
import { useEntries } from "../app/hands.tsx";
import { useSettings } from "../app/settings.tsx";
import { type Entry, toSent } from "./entry.ts";
import { WholeLog } from "./whole-log.ts";

const whole = new WholeLog();

/** A measurement, or what happened to a lot. */
export type Recorded = LearningBody | LotBody;

interface LogHere {
  readonly lines: readonly LogLine[];
  readonly ready: boolean;
  readonly offline: boolean;
}

/** The log of all services, with what was just written here. */
export function useLog(): LogHere {
  const { list } = useEntries();
  return useWith(list);
}

/** The same without what was just marked on the board: with a mark no lot comes or goes. */
export function useLotLog(): LogHere {
  const { list } = useEntries();
  const kept = useRef<readonly Entry[]>([]);
  const own = useMemo(() => {
    const next = list.filter(({ kind }) => !LIVE_KINDS.has(kind));
    const before = kept.current;
    if (next.length !== before.length || next.some((entry, k) => entry !== before[k])) kept.current = next;
    return kept.current;
  }, [list]);
  return useWith(own);
}

function useWith(list: readonly Entry[]): LogHere {
  const { status, offline, lines } = useSyncExternalStore(whole.subscribe, whole.state);
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
