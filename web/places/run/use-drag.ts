import {
  type PointerEvent as ReactPointerEvent,
  type RefObject,
  startTransition,
  useCallback,
  useEffect,
  useRef,
} from "react";
import type { Plan } from "../../../core/run/result.ts";
import type { Score, Stave } from "../../../drawing/index.ts";
import { Carry } from "./carry.ts";
import type { Instead } from "./instead.ts";
import { type Move, movable, stepped } from "./use-move.ts";

/** So far a pointer goes before a tap is a drag, px. */
const THRESHOLD = 6;

/** A finger that has not moved to another place for so long rests: the planner is asked, ms. */
const REST_MS = 150;

/** The stave that lies at a place across time. */
function staveAt({ staves }: Score, place: number): Stave | undefined {
  return staves.find(({ start, size }) => place >= start - 7 && place < start + size + 7)?.stave;
}

/** What is dragged on. */
export interface DragOn {
  /** Where the carried bar is laid, over the score. */
  readonly over: RefObject<HTMLElement | null>;
  readonly plan: Plan;
  readonly score: Score | undefined;
  readonly direction: "along" | "down";
  /** Minute of the run at which the day of the service begins. */
  readonly midnight: number;
  readonly writeTime: (minute: number) => string;
}

/**
 * Drags a task along time, or across to another person's or oven's stave, by mouse, or by finger once it is
 * chosen (a finger on any other task scrolls). The bar follows the pointer in steps of five minutes, a frame at a time,
 * without anything else being drawn; letting go leaves the question open, to keep or to give up.
 */
export function useDrag(
  { over, plan, score, direction, midnight, writeTime }: DragOn,
  move: Move,
  onChoose: (task: string | undefined) => void,
): { readonly down: (event: ReactPointerEvent) => void; readonly justDragged: () => boolean } {
  const dragged = useRef(false);
  const held = useRef(false);
  const carry = useRef<Carry>(undefined);
  carry.current ??= new Carry();

  const show = useCallback(
    (task: Plan["tasks"][number], startMin: number, instead: Instead | undefined) => {
      const layer = over.current;
      if (!layer || !score || !carry.current) return;
      carry.current.lift(layer, score, task.id);
      const at = (minute: number) => score.time.at(minute - midnight);
      const by = at(startMin) - at(task.startMin);
      const start = (id: string | undefined) => score.staves.find(({ stave }) => stave.id === id)?.start;
      const [was, is] = [start(instead?.from), start(instead?.to)];
      const side = was !== undefined && is !== undefined ? is - was : 0;
      const along = direction === "along";
      carry.current.place(
        along ? by : 0,
        along ? 0 : by,
        writeTime(startMin),
        instead && {
          ...{ id: `task-${instead.from}-${task.id}` },
          ...(along ? { x: 0, y: side } : { x: side, y: 0 }),
        },
      );
    },
    [over, score, direction, midnight, writeTime],
  );

  // The bar stands where it was put for as long as the move is open.
  const { moving } = move;
  useEffect(() => {
    // A finger on it knows better.
    if (held.current) return;
    if (moving) show(moving.task, moving.startMin, moving.instead);
    else carry.current?.drop();
  }, [moving, show]);
  useEffect(() => () => carry.current?.drop(), []);

  const down = useCallback(
    (event: ReactPointerEvent) => {
      dragged.current = false;
      const target = event.target as Element;
      const bar = target.closest<HTMLElement | SVGElement>("[data-task], [data-carries]");
      const id = bar?.dataset.task ?? bar?.dataset.carries;
      const met = plan.tasks.find((each) => each.id === id);
      const time = score?.time;
      const sheet = over.current?.parentElement?.querySelector("svg")?.getBoundingClientRect();
      if (event.button !== 0 || !met || !time || !score || !sheet) return;
      const across = (e: { clientX: number; clientY: number }) =>
        direction === "along" ? e.clientY - sheet.top : e.clientX - sheet.left;
      const own = staveAt(score, across(event));
      const hangs = met.kind === "passive" && own?.kind === "equipment";
      // Elsewhere a waiting is carried by its work, as by keys.
      const work = plan.tasks.find((each) => each.id === id?.replace(/\/wait$/, ""));
      const task = hangs ? met : (work ?? met);
      if (!movable(task) && !hangs) return;
      const chosen = target.closest("[aria-selected='true'], [data-carries]") !== null;
      if (event.pointerType === "touch" && !chosen) return;
      const place = (e: { clientX: number; clientY: number }) =>
        direction === "along" ? e.clientX : e.clientY;
      const [began, beside] = [place(event), across(event)];
      const from = time.at((move.moving?.task === task ? move.moving.startMin : task.startMin) - midnight);
      let last: PointerEvent | undefined;
      let frame: number | undefined;
      let resting: ReturnType<typeof setTimeout> | undefined;
      let put: { readonly startMin: number; readonly instead: Instead | undefined } | undefined;
      const follow = (e: PointerEvent) => {
        last = e;
        frame ??= requestAnimationFrame(draw);
      };
      const draw = () => {
        frame = undefined;
        const e = last!;
        const by = place(e) - began;
        const side = across(e) - beside;
        if (!dragged.current && Math.hypot(by, side) < THRESHOLD) return;
        dragged.current = true;
        held.current = true;
        const other = staveAt(score, across(e));
        const instead =
          own && other && own.kind !== "station" && other.kind === own.kind && other.id !== own.id
            ? { kind: own.kind, from: own.id, to: other.id }
            : undefined;
        // Carried straight across it keeps its time; a waiting keeps it in any case, that is its work's.
        const still = hangs || (instead !== undefined && Math.abs(by) < 3 * THRESHOLD);
        const startMin = Math.max(0, still ? task.startMin : stepped(time.minuteAt(from + by) + midnight));
        if (put?.startMin === startMin && put.instead?.to === instead?.to) return;
        put = { startMin, instead };
        show(task, startMin, instead);
        clearTimeout(resting);
        resting = setTimeout(ask, REST_MS);
      };
      const ask = () => {
        if (put) move.to(task, put.startMin, put.instead);
      };
      const end = () => {
        if (frame !== undefined) {
          cancelAnimationFrame(frame);
          draw();
        }
        clearTimeout(resting);
        held.current = false;
        ask();
        // What is chosen is drawn once the planner has been asked.
        if (dragged.current) startTransition(() => onChoose(task.id));
        window.removeEventListener("pointermove", follow);
        window.removeEventListener("pointerup", end);
        window.removeEventListener("pointercancel", end);
      };
      window.addEventListener("pointermove", follow);
      window.addEventListener("pointerup", end);
      window.addEventListener("pointercancel", end);
    },
    [over, plan, score, direction, midnight, show, move, onChoose],
  );
  const justDragged = useCallback(() => {
    const was = dragged.current;
    dragged.current = false;
    return was;
  }, []);
  return { down, justDragged };
}
