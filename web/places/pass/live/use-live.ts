import { createContext, useContext, useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { LiveEntry } from "../../../../core/production/live-entries.ts";
import { LIVE_KINDS } from "../../../../core/production/live-schema.ts";
import type { Plan } from "../../../../core/run/result.ts";
import { useBook, useEntries, useHands, useRunState } from "../../../app/hands.tsx";
import { useNow } from "../../../app/now.ts";
import { useService } from "../../../app/service.tsx";
import { useSettings } from "../../../app/settings.tsx";
import type { FromLive, ToLive } from "../../../compute/live-protocol.ts";
import { type LiveAnswer, type LiveHand, LiveRunner, NOTHING } from "../../../compute/live-runner.ts";
import { type Entry, toLive } from "../../../offline/entry.ts";

function makeWorker(): LiveHand {
  const worker = new Worker(new URL("../../../live-worker.ts", import.meta.url), { type: "module" });
  const hand: LiveHand = {
    onmessage: null,
    postMessage: (message: ToLive) => worker.postMessage(message),
    terminate: () => worker.terminate(),
  };
  worker.onmessage = (event: MessageEvent<FromLive>) => hand.onmessage?.({ data: event.data });
  return hand;
}

/** The board's clock: the wall's on the day, put right by the server's; else a rehearsal's. */
export interface BoardClock {
  readonly now: number;
  readonly rehearsal: boolean;
  /** The server's clock ahead of this tablet's, whole minutes. */
  readonly skewMin: number;
  /** Earliest minute a rehearsal may be set to: nothing that was marked lies ahead of it. */
  readonly leastMin: number;
  readonly rehearse: (minute: number) => void;
}

export function useBoardClock(first: number): BoardClock {
  const wall = useNow();
  const { clock } = useService();
  const { list, entries } = useEntries();
  const skew = useSyncExternalStore(entries.subscribe, entries.skew);
  const skewMin = Math.round(skew / 60_000);
  const [rehearsed, rehearse] = useState<number>();
  const leastMin = useMemo(() => {
    const cleared = list.findLastIndex((entry) => entry.kind === "cleared");
    const marked = list
      .slice(cleared + 1)
      .flatMap((entry) => (entry.rehearsal && entry.when ? [clock.minuteOf(entry.when)] : []));
    return marked.length > 0 ? Math.max(...marked) : Number.NEGATIVE_INFINITY;
  }, [list, clock]);
  const rehearsal = wall === undefined;
  const now = rehearsal ? Math.max(rehearsed ?? first, leastMin) : wall + skewMin;
  return useMemo(
    () => ({ now, rehearsal, skewMin, leastMin, rehearse }),
    [now, rehearsal, skewMin, leastMin],
  );
}

const nothing = () => NOTHING;
const never = () => () => {};

/** Writes an entry of the board. */
export type SayLive = (entry: Omit<Entry, "id" | "at" | "service">) => void;

export interface LiveHere extends LiveAnswer {
  /** The plan as it is now: mended, else as it was made. */
  readonly plan: Plan;
}

/** What stands while events come in: a row that needs no more is not drawn anew with each answer. */
export interface BoardHere {
  /** The plan as it was made: what tasks are called, and where they belong. */
  readonly made: Plan;
  readonly clock: BoardClock;
  readonly say: SayLive;
}

const Here = createContext<BoardHere | undefined>(undefined);
const Answer = createContext<LiveHere | undefined>(undefined);
export const BoardProvider = Here.Provider;
export const LiveProvider = Answer.Provider;

export function useBoard(): BoardHere {
  const here = useContext(Here);
  if (!here) throw new Error("the board's hour is used outside of the board");
  return here;
}

export function useLive(): LiveHere {
  const here = useContext(Answer);
  if (!here) throw new Error("the live plan is used outside of the board");
  return here;
}

const asRead = new WeakMap<Entry, LiveEntry>();

/** An entry as the plan reads it, the same object each time. */
function readOnce(entry: Entry): LiveEntry {
  const known = asRead.get(entry) ?? toLive(entry);
  asRead.set(entry, known);
  return known;
}

/**
 * Keeps the plan mended while the log grows; what this page's own entries move it writes down. Neither waits for the
 * board to be drawn: the worker is asked as soon as an entry is there, and the answer is drawn with what it moved.
 */
export function useLivePlan(
  made: Plan,
  board: BoardClock,
): { readonly here: BoardHere; readonly live: LiveHere } {
  const { book } = useBook();
  const { question } = useRunState();
  const { entries } = useHands();
  const { clock } = useService();
  const { settings } = useSettings();
  const { now, rehearsal } = board;
  const runner = useMemo(
    () =>
      question && made.tasks.length > 0
        ? new LiveRunner(makeWorker, { book, question, plan: made })
        : undefined,
    [book, question, made],
  );
  useEffect(() => () => runner?.close(), [runner]);
  const { name } = settings;
  const say = useMemo<SayLive>(
    () => (entry) =>
      void entries.write({
        ...entry,
        when: entry.when ?? clock.textOf(now),
        ...(rehearsal ? { rehearsal: true as const } : {}),
        ...(name === "" ? {} : { by: name }),
      }),
    [entries, clock, now, rehearsal, name],
  );
  useEffect(() => {
    if (!runner) return;
    const ask = () => {
      const live = entries.list().filter(({ kind }) => LIVE_KINDS.has(kind));
      runner.ask({ entries: live.map(readOnce), now, rehearsal });
    };
    ask();
    return entries.subscribe(ask);
  }, [runner, entries, now, rehearsal]);
  const written = useRef(new Set<string>());
  useEffect(
    () =>
      runner?.subscribe(() => {
        const { live: told, write } = runner.state();
        const cause = told?.because;
        if (!cause || told.answered || told.changes.length === 0 || written.current.has(cause)) return;
        if (!entries.isOwn(cause)) return;
        written.current.add(cause);
        say({ kind: "placed", because: cause, places: write });
      }),
    [runner, entries, say],
  );
  const answer = useSyncExternalStore(runner?.subscribe ?? never, runner?.state ?? nothing);
  const here = useMemo(() => ({ made, clock: board, say }), [made, board, say]);
  const live = useMemo(() => ({ ...answer, plan: answer.live?.plan ?? made }), [answer, made]);
  return { here, live };
}
