import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { Clock } from "../../../core/production/clock.ts";
import type { Plan, PlanTask } from "../../../core/run/result.ts";
import type { TaskPin, TriedMove } from "../../../core/run/try-move.ts";
import type { StaveKind } from "../../../drawing/index.ts";
import { useBook, useHands } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { type Instead, othersFor, pinOf } from "./instead.ts";
import { withPin } from "./pins.ts";

/** Where a task stands or would stand, minutes of the run. */
export interface Place {
  readonly startMin: number;
  readonly endMin: number;
}

/** A task on the move: tried place by place, kept as a pin or given up. */
export interface Move {
  readonly moving:
    | { readonly task: PlanTask; readonly startMin: number; readonly instead?: Instead | undefined }
    | undefined;
  /** What would give, once the planner has said. */
  readonly tried: TriedMove | undefined;
  readonly asking: boolean;
  /** Puts a task to another start, in steps of five minutes, or gives it to somebody or something else. */
  readonly to: (task: PlanTask, startMin: number, instead?: Instead) => void;
  readonly keep: () => void;
  readonly cancel: () => void;
  /** Keys of the score that move a task; true when the key was one of them. */
  readonly press: (
    event: KeyboardEvent,
    chosen: string | undefined,
    along: boolean,
    stave?: OnStave,
  ) => boolean;
}

/** The stave on which a task was chosen. */
export interface OnStave {
  readonly kind: StaveKind;
  readonly id: string;
}

/** Steps of a drag, minutes. */
const STEP = 5;
export const stepped = (minute: number): number => Math.round(minute / STEP) * STEP;

/** Only work and plate-ups are put elsewhere: a waiting goes with its work, a moment of the service is fixed. */
export const movable = (task: PlanTask | undefined): task is PlanTask =>
  task !== undefined && (task.kind === "plate" || task.kind === "work");

/** A waiting stands on its equipment, and may do so on other equipment. */
const waitsOn = (task: PlanTask | undefined, stave: OnStave | undefined): task is PlanTask =>
  task?.kind === "passive" && stave?.kind === "equipment";

/** A page that has shown its plan for so long is idle, ms. */
const IDLE_MS = 1500;

/** Made-up moves, sooner and later, of tasks in the middle of the plan: each with others in its way. */
function warmings({ tasks }: Plan, clock: Clock): TaskPin[] {
  const worked = tasks.filter((task) => movable(task) && task.hands.length > 0);
  return [0.4, 0.6].flatMap((share, k) => {
    const task = worked[Math.floor(share * worked.length)];
    const startMin = task && Math.max(0, task.startMin + (k === 0 ? 20 : -20));
    return startMin === undefined ? [] : [{ task: task!.id, start: clock.textOf(startMin) }];
  });
}

/** Drags a task of the plan and asks the planner at each place what gives; the newest place wins. */
export function useMove(plan: Plan | undefined): Move {
  const { runner } = useHands();
  const { store } = useBook();
  const { service, clock, kitchen } = useService();
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
      const answer = await runner.tryMove(pinOf(asked, clock.textOf));
      if (wanted.current === asked) {
        setTried(answer);
        break;
      }
      asked = wanted.current;
    }
    busy.current = false;
    setAsking(false);
  }, [runner, clock]);

  const to = useCallback<Move["to"]>(
    (task, startMin, given) => {
      const held = Math.max(0, startMin);
      // Given back to whom it belongs it is not given away.
      const instead = given && given.from !== given.to ? given : undefined;
      const now = wanted.current;
      if (now?.task === task && now.startMin === held && now.instead?.to === instead?.to) return;
      wanted.current = { task, startMin: held, instead };
      setMoving(wanted.current);
      void ask();
    },
    [ask],
  );
  const cancel = useCallback(() => {
    setAsking(busy.current);
    wanted.current = undefined;
    setMoving(undefined);
    setTried(undefined);
  }, []);
  const keep = useCallback(() => {
    const asked = wanted.current;
    cancel();
    if (asked) store.edit("services", withPin(service, pinOf(asked, clock.textOf)));
  }, [cancel, store, service, clock]);
  // A new plan answers another question.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `plan` is what makes the question new
  useEffect(cancel, [plan, cancel]);

  // The first answer about a plan takes three times as long as those after it: it is asked while nobody waits for it.
  useEffect(() => {
    if (!plan) return;
    const timer = setTimeout(async () => {
      for (const pin of warmings(plan, clock)) {
        const idle = plan === runner.state().plan?.plan && runner.state().planning === "idle";
        if (!idle || wanted.current) return;
        await runner.tryMove(pin);
      }
    }, IDLE_MS);
    return () => clearTimeout(timer);
  }, [plan, clock, runner]);

  const press = useCallback(
    (event: KeyboardEvent, chosen: string | undefined, along: boolean, stave?: OnStave): boolean => {
      const find = (id: string | undefined) => plan?.tasks.find((each) => each.id === id);
      // A waiting goes with its work; only what it stands on is its own.
      const workOf = (id: string | undefined) => find(id?.replace(/\/wait$/, "")) ?? find(id);
      const own = find(chosen);
      const task = waitsOn(own, stave) ? own : workOf(chosen);
      const now = wanted.current;
      const [before, after] = along ? ["ArrowLeft", "ArrowRight"] : ["ArrowUp", "ArrowDown"];
      const [up, down] = along ? ["ArrowUp", "ArrowDown"] : ["ArrowLeft", "ArrowRight"];
      const way = event.key === before ? -1 : event.key === after ? 1 : 0;
      const across = event.key === up ? -1 : event.key === down ? 1 : 0;
      if (!now) {
        if (event.key !== "Enter" || !(movable(task) || waitsOn(task, stave))) return false;
        to(task, task.startMin);
      } else if (way !== 0) {
        const moved = now.task.kind === "passive" ? workOf(now.task.id) : now.task;
        if (movable(moved))
          to(moved, stepped((moved === now.task ? now.startMin : moved.startMin) + way * STEP), now.instead);
      } else if (across !== 0 && stave && stave.kind !== "station") {
        const from = now.instead?.from ?? stave.id;
        const all = othersFor(kitchen, stave.kind, from);
        const next = all[all.indexOf(now.instead?.to ?? from) + across];
        if (next) to(now.task, now.startMin, { kind: stave.kind, from, to: next });
      } else if (event.key === "Enter") keep();
      else if (event.key === "Escape") cancel();
      else return event.key.startsWith("Arrow");
      event.preventDefault();
      return true;
    },
    [plan, kitchen, to, keep, cancel],
  );
  return useMemo(
    () => ({ moving, tried, asking, to, keep, cancel, press }),
    [moving, tried, asking, to, keep, cancel, press],
  );
}
