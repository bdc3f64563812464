import {
  type KeyboardEvent,
  type MouseEvent,
  type ReactNode,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import { Button } from "react-aria-components";
import { mostInUse } from "../../../core/production/plan-rules.ts";
import type { Plan } from "../../../core/run/result.ts";
import {
  PAGE_INK,
  PAGE_MEASURES,
  runTime,
  type ScoreInput,
  type Span,
  type Stave,
  type StaveKind,
  scoreChosen,
  scoreDrawing,
  scoreGhosts,
  scoreHead,
} from "../../../drawing/index.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Drawing } from "../../parts/drawing.tsx";
import { Pick } from "../../parts/pick.tsx";
import { useWidth } from "../../parts/use-size.ts";
import { useWide } from "../../parts/use-wide.ts";
import { useDrag } from "./use-drag.ts";
import type { Move, Place } from "./use-move.ts";
import { useScore } from "./use-score.ts";
import { useSlide } from "./use-slide.ts";

const ZOOMS = [1, 2, 4, 8] as const;
const NAMES = 132;
const HEAD_DOWN = 64;

/** The score on the page: time along on a wide screen, downwards on a narrow one, tasks chosen by tap or arrows. */
export function ScoreView({
  plan,
  kind,
  chosen,
  onChoose,
  move,
  ghosts,
  children,
}: {
  /** Stands before the score's own tools. */
  readonly children: ReactNode;
  readonly move: Move;
  /** Where tasks stand in another plan, or would stand: minutes of the run. */
  readonly ghosts: ReadonlyMap<string, Place> | undefined;
  readonly plan: Plan;
  readonly kind: StaveKind;
  readonly chosen: string | undefined;
  readonly onChoose: (task: string | undefined) => void;
}) {
  const wide = useWide(700);
  const { say, write } = useWords();
  const { clock } = useService();
  const midnight = clock.minuteOf("D 00:00");
  const scroll = useRef<HTMLDivElement>(null);
  const head = useRef<HTMLDivElement>(null);
  const width = useWidth(scroll);
  const [zoom, setZoom] = useState<number>(1);
  const [only, setOnly] = useState<string>();
  const { staves, busy, from, to, input } = useScore(plan, kind);
  const shown = useMemo(
    () => (wide ? staves : staves.filter((s) => s.id === (only ?? staves[0]?.id))),
    [wide, staves, only],
  );

  // What is carried, and what would give, lie over the score on layers of their own: the score is not drawn again.
  const over = useRef<HTMLDivElement>(null);
  // Where things lie, without what is chosen.
  const laid: Omit<ScoreInput, "chosen"> | undefined = useMemo(() => {
    if (width === 0 || shown.length === 0) return undefined;
    const folded = runTime(from, to, busy, { perMinute: 1 });
    const folds = folded.folds.length * 26;
    const perMinute = wide
      ? (Math.max(320, width - NAMES - 24 - folds) / (folded.length - folds)) * zoom
      : 1.6 * Math.min(zoom, 2);
    const time = wide
      ? runTime(from, to, busy, { perMinute })
      : runTime(from, to, busyOn(shown[0]!, input.service), { perMinute, foldOver: 60 });
    const lanes = wide
      ? 0
      : Math.max(1, mostInUse(...shown[0]!.tasks.flatMap((task) => [1, task.from, task.to])));
    const lane = Math.max(96, (width - HEAD_DOWN - 12) / Math.max(1, lanes));
    return {
      ...input,
      staves: shown,
      time,
      direction: wide ? "along" : "down",
      measures: wide
        ? PAGE_MEASURES
        : { ...PAGE_MEASURES, lane, bar: lane - 6, head: HEAD_DOWN, shelf: 20, heat: 70, foot: 0 },
    };
  }, [width, shown, from, to, busy, zoom, wide, input]);
  const plain = useMemo(() => laid && scoreDrawing(laid, PAGE_INK), [laid]);
  const score = useMemo(
    () => (laid && plain && chosen !== undefined ? scoreChosen(plain, laid, PAGE_INK, chosen) : plain),
    [laid, plain, chosen],
  );
  const hours = useMemo(() => (laid && wide ? scoreHead(laid, PAGE_INK) : undefined), [laid, wide]);
  const shades = useMemo(
    () => score && laid && ghosts && scoreGhosts(score, laid, fromMidnight(ghosts, midnight), PAGE_INK),
    [score, laid, ghosts, midnight],
  );

  useSlide(scroll, plan, laid);

  // The newest view opens at the end of time: the service.
  const opened = useRef("");
  useEffect(() => {
    const key = `${zoom} ${kind}`;
    if (!scroll.current || !score || opened.current === key) return;
    opened.current = key;
    scroll.current.scrollLeft = scroll.current.scrollWidth;
  }, [zoom, kind, score]);

  const writeTime = useCallback((minute: number) => write.clock(clock.textOf(minute)), [write, clock]);
  const direction = wide ? "along" : "down";
  const drag = useDrag({ over, plan, score, direction, midnight, writeTime }, move, onChoose);

  const order = useMemo(
    () => shown.flatMap((s) => s.tasks.map((t) => ({ stave: s.id, id: t.task.id }))),
    [shown],
  );
  const press = (event: KeyboardEvent) => {
    const at = order.findIndex((o) => o.id === chosen);
    const on = shown.find((s) => s.id === order[at]?.stave);
    if (move.press(event, chosen, wide, on)) return;
    const step = (next: number) => {
      event.preventDefault();
      const target = order[Math.max(0, Math.min(order.length - 1, next))];
      if (!target) return;
      onChoose(target.id);
      document
        .getElementById(`task-${target.stave}-${target.id}`)
        ?.scrollIntoView({ block: "nearest", inline: "nearest" });
    };
    const stave = order[at]?.stave;
    if (event.key === "ArrowRight") step(at + 1);
    else if (event.key === "ArrowLeft") step(at < 0 ? 0 : at - 1);
    else if (event.key === "ArrowDown") step(order.findIndex((o, i) => i > at && o.stave !== stave));
    else if (event.key === "ArrowUp")
      step(
        at < 0
          ? 0
          : Math.max(
              0,
              order.findIndex(
                (o) => o.stave === order.findLast((p, i) => i < at && p.stave !== stave)?.stave,
              ),
            ),
      );
    else if (event.key === "Home") step(0);
    else if (event.key === "End") step(order.length - 1);
    else if (event.key === "Escape") onChoose(undefined);
  };
  const tap = (event: MouseEvent) => {
    // The click that ends a drag chooses nothing.
    if (drag.justDragged()) return;
    const target = event.target as Element;
    if (target.closest("[data-carries]")) return;
    const task = target.closest("[data-task]")?.getAttribute("data-task");
    onChoose(task && task !== chosen ? task : undefined);
  };
  const days = useMemo(
    () => [
      ...new Set(plan.tasks.toSorted((a, b) => a.startMin - b.startMin).map((t) => clock.dayOf(t.startMin))),
    ],
    [plan, clock],
  );
  const toDay = (day: string) => {
    const drawing = scroll.current?.querySelector("svg");
    if (!drawing || !score) return;
    const place = score.time.at(clock.minuteOf(`${day} 00:00`) - midnight);
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    const behavior = still ? "auto" : "smooth";
    // Downwards it is the page that scrolls, and its head stays over it.
    if (wide) scroll.current?.scrollTo({ left: place, behavior });
    else window.scrollBy({ top: drawing.getBoundingClientRect().top + place - 40, behavior });
  };
  // The hours stay at the top of the screen, and go along with what is scrolled below them.
  const alongWith = () => {
    const time = head.current?.querySelector("svg");
    if (time && scroll.current) time.style.transform = `translateX(${-scroll.current.scrollLeft}px)`;
  };
  const chosenAt = order.find((o) => o.id === chosen);
  return (
    <div className="score">
      <div className="score-tools">
        {children}
        {!wide && (
          <Pick
            label={say("plan.stave")}
            hideLabel
            value={shown[0]?.id ?? ""}
            options={staves.map((s) => [s.id, s.name])}
            onChange={setOnly}
          />
        )}
        {zoom > 1 || !wide ? (
          <span className="row">
            {days.map((day) => (
              <Button key={day} className="button quiet-button" onPress={() => toDay(day)}>
                {day}
              </Button>
            ))}
          </span>
        ) : null}
        <span className="row">
          <Button
            className="button quiet-button"
            isDisabled={zoom === ZOOMS[0]}
            onPress={() => setZoom(zoom / 2)}
            aria-label={say("plan.wider")}
          >
            −
          </Button>
          <Button
            className="button quiet-button"
            isDisabled={zoom === ZOOMS.at(-1)}
            onPress={() => setZoom(zoom * 2)}
            aria-label={say("plan.closer")}
          >
            +
          </Button>
        </span>
      </div>
      {hours && (
        <div className="score-head" ref={head} aria-hidden="true">
          <div className="score-head-names" />
          <div className="score-head-time">
            <Drawing of={hours} />
          </div>
        </div>
      )}
      <div
        className="score-scroll"
        ref={scroll}
        role="listbox"
        tabIndex={0}
        aria-label={say("plan.score")}
        aria-activedescendant={chosenAt ? `task-${chosenAt.stave}-${chosenAt.id}` : undefined}
        aria-describedby="score-keys"
        onKeyDown={press}
        onClick={tap}
        onPointerDown={drag.down}
        onScroll={alongWith}
      >
        {score && (
          <div className="score-inner">
            {wide && (
              <div className="score-names" style={{ blockSize: score.size }} aria-hidden="true">
                {score.staves.map((laid) => (
                  <span
                    key={laid.stave.kind + laid.stave.id}
                    className="score-name"
                    style={{ insetBlockStart: laid.start }}
                  >
                    {laid.stave.name}
                  </span>
                ))}
              </div>
            )}
            <div className="score-sheet">
              <Drawing of={score.drawing} />
              {shades && (
                <div className="score-over" aria-hidden="true">
                  <Drawing of={shades} />
                </div>
              )}
              <div className="score-over" ref={over} aria-hidden="true" />
            </div>
          </div>
        )}
      </div>
    </div>
  );
}

/** When something is to be done on a stave, and the courses: on a narrow screen the rest is folded. */
function busyOn({ kind, tasks }: Stave, service: ScoreInput["service"]): Span[] {
  return [
    ...tasks.filter(({ task }) => kind === "equipment" || task.kind !== "passive"),
    ...service.map(({ minute }) => ({ from: minute, to: minute })),
  ];
}

function fromMidnight(
  ghosts: ReadonlyMap<string, Place>,
  midnight: number,
): Map<string, { from: number; to: number }> {
  return new Map(
    [...ghosts].map(([id, { startMin, endMin }]) => [
      id,
      { from: startMin - midnight, to: endMin - midnight },
    ]),
  );
}
