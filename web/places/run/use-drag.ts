import {
  type PointerEvent as ReactPointerEvent,
  type RefObject,
  useCallback,
  useEffect,
  useRef,
} from "react";
import type { Plan } from "../../../core/run/result.ts";
import type { Score } from "../../../drawing/index.ts";
import { type Move, movable, stepped } from "./use-move.ts";

/** So far a pointer goes before a tap is a drag, px. */
const THRESHOLD = 6;

/**
 * Drags a task along time by mouse, or by finger once it is chosen (a finger on any other task scrolls). The bar
 * follows the pointer in steps of five minutes; letting go leaves the question open, to keep or to give up.
 */
export function useDrag(
  scroll: RefObject<HTMLElement | null>,
  plan: Plan,
  score: Score | undefined,
  direction: "along" | "down",
  midnight: number,
  move: Move,
  onChoose: (task: string | undefined) => void,
): { readonly down: (event: ReactPointerEvent) => void; readonly justDragged: () => boolean } {
  const dragged = useRef(false);
  // The bar stands where it was put for as long as the move is open.
  const { moving } = move;
  useEffect(() => {
    const root = scroll.current;
    if (!root || !moving || !score?.time) return;
    const at = (minute: number) => score.time.at(minute - midnight);
    const by = at(moving.startMin) - at(moving.task.startMin);
    const bars = [...root.querySelectorAll<SVGGElement>(`[data-task="${CSS.escape(moving.task.id)}"]`)];
    for (const bar of bars)
      bar.style.transform = direction === "along" ? `translateX(${by}px)` : `translateY(${by}px)`;
    return () => {
      for (const bar of bars) bar.style.transform = "";
    };
  }, [scroll, moving, score, direction, midnight]);

  const down = useCallback(
    (event: ReactPointerEvent) => {
      dragged.current = false;
      const id = (event.target as Element).closest("[data-task]")?.getAttribute("data-task");
      const task = plan.tasks.find((each) => each.id === id);
      const time = score?.time;
      if (event.button !== 0 || !movable(task) || !time) return;
      const chosen = (event.target as Element).closest("[aria-selected='true']") !== null;
      if (event.pointerType === "touch" && !chosen) return;
      const place = (e: { clientX: number; clientY: number }) =>
        direction === "along" ? e.clientX : e.clientY;
      const began = place(event);
      const from = time.at(
        move.moving?.task === task ? move.moving.startMin - midnight : task.startMin - midnight,
      );
      const follow = (e: PointerEvent) => {
        const by = place(e) - began;
        if (!dragged.current && Math.abs(by) < THRESHOLD) return;
        if (!dragged.current) onChoose(task.id);
        dragged.current = true;
        move.to(task, stepped(time.minuteAt(from + by) + midnight));
      };
      const end = () => {
        window.removeEventListener("pointermove", follow);
        window.removeEventListener("pointerup", end);
        window.removeEventListener("pointercancel", end);
      };
      window.addEventListener("pointermove", follow);
      window.addEventListener("pointerup", end);
      window.addEventListener("pointercancel", end);
    },
    [plan, score, direction, midnight, move, onChoose],
  );
  const justDragged = useCallback(() => {
    const was = dragged.current;
    dragged.current = false;
    return was;
  }, []);
  return { down, justDragged };
}
