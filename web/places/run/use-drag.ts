import {
  type PointerEvent as ReactPointerEvent,
  type RefObject,
  useCallback,
  useEffect,
  useRef,
} from "react";
import type { Plan } from "../../../core/run/result.ts";
import type { Score, Stave } from "../../../drawing/index.ts";
import { type Move, movable, stepped } from "./use-move.ts";

/** So far a pointer goes before a tap is a drag, px. */
const THRESHOLD = 6;

/** The stave that lies at a place across time. */
function staveAt({ staves }: Score, place: number): Stave | undefined {
  return staves.find(({ start, size }) => place >= start - 7 && place < start + size + 7)?.stave;
}

/**
 * Drags a task along time, or across to another person's or oven's stave, by mouse, or by finger once it is
 * chosen (a finger on any other task scrolls). The bar follows the pointer in steps of five minutes; letting go leaves the question open, to keep or to give up.
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
    const { instead } = moving;
    const start = (id: string | undefined) => score.staves.find(({ stave }) => stave.id === id)?.start;
    const [was, is] = [start(instead?.from), start(instead?.to)];
    const bars = [...root.querySelectorAll<SVGGElement>(`[data-task="${CSS.escape(moving.task.id)}"]`)];
    for (const bar of bars) {
      const own = instead && bar.id === `task-${instead.from}-${moving.task.id}`;
      const over = own && was !== undefined && is !== undefined ? is - was : 0;
      bar.style.transform =
        direction === "along" ? `translate(${by}px, ${over}px)` : `translate(${over}px, ${by}px)`;
    }
    return () => {
      for (const bar of bars) bar.style.transform = "";
    };
  }, [scroll, moving, score, direction, midnight]);

  const down = useCallback(
    (event: ReactPointerEvent) => {
      dragged.current = false;
      const id = (event.target as Element).closest("[data-task]")?.getAttribute("data-task");
      const met = plan.tasks.find((each) => each.id === id);
      const time = score?.time;
      const sheet = (event.target as Element).closest("svg")?.getBoundingClientRect();
      if (event.button !== 0 || !met || !time || !score || !sheet) return;
      const across = (e: { clientX: number; clientY: number }) =>
        direction === "along" ? e.clientY - sheet.top : e.clientX - sheet.left;
      const own = staveAt(score, across(event));
      const hangs = met.kind === "passive" && own?.kind === "equipment";
      // Elsewhere a waiting is carried by its work, as by keys.
      const work = plan.tasks.find((each) => each.id === id?.replace(/\/wait$/, ""));
      const task = hangs ? met : (work ?? met);
      if (!movable(task) && !hangs) return;
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
        const side = across(e) - across(event);
        if (!dragged.current && Math.hypot(by, side) < THRESHOLD) return;
        if (!dragged.current) onChoose(task.id);
        dragged.current = true;
        const other = staveAt(score, across(e));
        const given =
          own && other && own.kind !== "station" && other.kind === own.kind && other.id !== own.id
            ? { kind: own.kind, from: own.id, to: other.id }
            : undefined;
        // Carried straight across it keeps its time; a waiting keeps it in any case, that is its work's.
        const still = hangs || (given !== undefined && Math.abs(by) < 3 * THRESHOLD);
        move.follow(task, still ? task.startMin : stepped(time.minuteAt(from + by) + midnight), given);
      };
      const end = () => {
        move.letGo();
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
