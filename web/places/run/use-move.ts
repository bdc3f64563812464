import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { Plan, PlanTask } from "../../../core/run/result.ts";
import type { TriedMove } from "../../../core/run/try-move.ts";
import { useBook, useHands } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { withPin } from "./pins.ts";

/** Where a task stands or would stand, minutes of the run. */
export interface Place {
  readonly startMin: number;
  readonly endMin: number;
}

/** A task on the move: tried place by place, kept as a pin or given up. */
export interface Move {
  readonly moving: { readonly task: PlanTask; readonly startMin: number } | undefined;
  /** What would give, once the planner has said. */
  readonly tried: TriedMove | undefined;
  readonly asking: boolean;
  /** Puts a task to another start, in steps of five minutes. */
  readonly to: (task: PlanTask, startMin: number) => void;
  readonly keep: () => void;
  readonly cancel: () => void;
  /** Keys of the score that move a task; true when the key was one of them. */
  readonly press: (event: KeyboardEvent, chosen: string | undefined, along: boolean) => boolean;
}

/** Steps of a drag, minutes. */
const STEP = 5;
export const stepped = (minute: number): number => Math.round(minute / STEP) * STEP;

/** Only work and plate-ups are put elsewhere: a waiting goes with its work, a moment of the service is fixed. */
export const movable = (task: PlanTask | undefined): task is PlanTask =>
  task !== undefined && (task.kind === "plate" || task.kind === "work");

/** Drags a task of the plan and asks the planner at each place what gives; the newest place wins. */
export function useMove(plan: Plan | undefined): Move {
  const { runner } = useHands();
  const { store } = useBook();
  const { service, clock } = useService();
  const [moving, setMoving] = useState<Move["moving"]>();
  const [tried, setTried] = useState<TriedMove>();
  const [asking, setAsking] = useState(false);
  const wanted = useRef<Move["moving"]>(undefined);
  const busy = useRef(false);

  const ask = useCallback(async () => {
    if (busy.current) return;
    busy.current = true;
    setAsking(true);
    for (let asked = wanted.current; asked; ) {
      const answer = await runner.tryMove({ task: asked.task.id, start: clock.textOf(asked.startMin) });
      if (wanted.current === asked) {
        setTried(answer);
        break;
      }
      asked = wanted.current;
    }
    busy.current = false;
    setAsking(false);
  }, [runner, clock]);

  const to = useCallback(
    (task: PlanTask, startMin: number) => {
      const held = Math.max(0, startMin);
      if (wanted.current?.task === task && wanted.current.startMin === held) return;
      wanted.current = { task, startMin: held };
      setMoving(wanted.current);
      void ask();
    },
    [ask],
  );
  const cancel = useCallback(() => {
    wanted.current = undefined;
    setMoving(undefined);
    setTried(undefined);
  }, []);
  const keep = useCallback(() => {
    const asked = wanted.current;
    cancel();
    if (asked)
      store.edit("services", withPin(service, { task: asked.task.id, start: clock.textOf(asked.startMin) }));
  }, [cancel, store, service, clock]);
  // A new plan answers another question.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `plan` is what makes the question new
  useEffect(cancel, [plan, cancel]);

  const press = useCallback(
    (event: KeyboardEvent, chosen: string | undefined, along: boolean): boolean => {
      // A waiting goes with its work.
      const work = chosen?.replace(/\/wait$/, "");
      const task =
        plan?.tasks.find((each) => each.id === work) ?? plan?.tasks.find((each) => each.id === chosen);
      const now = wanted.current;
      const [before, after] = along ? ["ArrowLeft", "ArrowRight"] : ["ArrowUp", "ArrowDown"];
      const way = event.key === before ? -1 : event.key === after ? 1 : 0;
      if (!now) {
        if (event.key !== "Enter" || !movable(task)) return false;
        to(task, task.startMin);
      } else if (way !== 0) to(now.task, stepped(now.startMin + way * STEP));
      else if (event.key === "Enter") keep();
      else if (event.key === "Escape") cancel();
      else return event.key.startsWith("Arrow");
      event.preventDefault();
      return true;
    },
    [plan, to, keep, cancel],
  );
  return useMemo(
    () => ({ moving, tried, asking, to, keep, cancel, press }),
    [moving, tried, asking, to, keep, cancel, press],
  );
}
