import { memo, useDeferredValue, useEffect, useMemo, useRef, useState } from "react";
import { Button, Slider, SliderThumb, SliderTrack } from "react-aria-components";
import type { PrepEntry } from "../../../core/production/plan-types.ts";
import { courseTask } from "../../../core/production/tasks.ts";
import type { Plan, PlanTask } from "../../../core/run/result.ts";
import { useEntries, useRunState, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useSettings } from "../../app/settings.tsx";
import type { Told } from "../../compute/protocol.ts";
import { type Entry, lastMarks, stateOf } from "../../offline/entry.ts";
import { Empty } from "../../parts/empty.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Pick } from "../../parts/pick.tsx";
import { useSlide } from "../run/use-slide.ts";
import { BoardStave } from "./board-stave.tsx";
import { Breaks, Unfollowed } from "./live/breaks.tsx";
import { Judged } from "./live/judged.tsx";
import { Late } from "./live/late.tsx";
import { WhatMoved } from "./live/moved.tsx";
import { NextUp } from "./live/next-up.tsx";
import { Out } from "./live/out.tsx";
import {
  BoardProvider,
  LiveProvider,
  useBoard,
  useBoardClock,
  useLive,
  useLivePlan,
} from "./live/use-live.ts";
import { DoneLots, TaskLots } from "./lots.tsx";

const STATION_KEY = "tournant.board.station";

/** The live board: one station, what now, what next, what is late; works without network (A6). */
export function Board() {
  const { plan } = useTold();
  const { planning } = useRunState();
  const { say } = useSettings();
  // A plan that is still being bettered is nothing to work by.
  const [settled, setSettled] = useState<Told>();
  useEffect(() => {
    if (plan && planning !== "working") setSettled(plan);
  }, [plan, planning]);
  if (!settled) return <p className="page quiet">{say("run.planning")}</p>;
  return <BoardOf told={settled} />;
}

function BoardOf({ told }: { readonly told: Told }) {
  const { clock: run } = useService();
  const made = told.plan;
  const first = useMemo(() => {
    const staffed = made.tasks.filter((t) => t.station !== undefined && t.kind !== "milestone");
    const today = staffed.filter((t) => t.startMin >= run.minuteOf("D 00:00"));
    return Math.min(...(today.length > 0 ? today : staffed).map((t) => t.startMin));
  }, [made, run]);
  const board = useBoardClock(Number.isFinite(first) ? first : 0);
  const { here, live } = useLivePlan(made, board);
  return (
    <BoardProvider value={here}>
      <LiveProvider value={live}>
        <BoardPage />
      </LiveProvider>
    </BoardProvider>
  );
}

function BoardPage() {
  const { plan, live } = useLive();
  const { clock: board, say: tell } = useBoard();
  const { now } = board;
  const { clock, service } = useService();
  const names = useNames();
  const { say, write } = useSettings();
  const { list } = useEntries();
  const place = useRef<HTMLDivElement>(null);
  const tasks = useMemo(
    () => plan.tasks.filter((t) => t.station !== undefined && t.kind !== "milestone"),
    [plan],
  );
  const places = useStations(tasks, names.station);
  const stations = places.map(([id]) => id);
  const [station, setStation] = useState(() => localStorage.getItem(STATION_KEY) ?? "");
  const here = stations.includes(station) ? station : (stations[0] ?? "");
  const own = tasks.filter((t) => t.station === here).sort((a, b) => a.startMin - b.startMin);
  useEffect(() => localStorage.setItem(STATION_KEY, here), [here]);
  useSlide(place, plan, plan);
  const counted = useMemo(() => {
    const mine = list.filter((entry) => (entry.rehearsal === true) === board.rehearsal);
    return mine.slice(mine.findLastIndex((entry) => entry.kind === "cleared") + 1);
  }, [list, board.rehearsal]);
  const stands = useMemo(() => new Map(live?.states.map((one) => [one.task, one])), [live]);
  const marks = useMemo(() => lastMarks(counted), [counted]);
  const sheets = useSheets();
  // The glimpse of the day follows a moment later: a tap is answered first.
  const [drawnPlan, drawnMarks] = [useDeferredValue(plan), useDeferredValue(marks)];
  if (own.length === 0)
    return (
      <div className="page">
        <Empty title={say("board.none")}>{say("board.none.what")}</Empty>
      </div>
    );
  const marked = (task: PlanTask) => stateOf(marks.get(task.id));
  // A mark shows at once; what follows from it comes with the mended plan.
  const isDone = (task: PlanTask) => marked(task) === "done";
  const assumed = own.filter(
    (t) => marked(t) === "open" && stands.get(t.id)?.status === "done" && t.hands.length > 0,
  );
  const gone = new Set([...assumed, ...own.filter(isDone)]);
  const open = own.filter((t) => !gone.has(t) && stands.get(t.id)?.status !== "done");
  const begun = open.filter((t) => marked(t) === "started" || stands.get(t.id)?.status === "started");
  const due = open.filter((t) => !begun.includes(t) && t.startMin <= now);
  const first = open.find((t) => !begun.includes(t) && !due.includes(t));
  const lateBy = (t: PlanTask) => (begun.includes(t) ? now - t.endMin : now - t.startMin);
  const worked = (t: PlanTask) => Number(t.hands.length > 0);
  const current = [...begun, ...due].sort((a, b) => worked(b) - worked(a) || lateBy(b) - lateBy(a));
  const shown =
    current.some((t) => t.hands.length > 0) || !first ? current.slice(0, 3) : [...current.slice(0, 2), first];
  const next = open.filter((t) => !shown.includes(t)).slice(0, 5);
  const done = own.filter(isDone);
  return (
    <div className="board" ref={place}>
      <div className="board-head">
        <h1 className="unseen">{say("pass.board")}</h1>
        <Stations
          label={say("board.station")}
          hideLabel
          value={here}
          options={places}
          onChange={setStation}
        />
        <p className="board-clock">
          <span className="board-hour">{write.hour(clock.textOf(now))}</span>{" "}
          <span className="quiet">{clock.dayOf(now)}</span>
        </p>
      </div>
      {Math.abs(board.skewMin) >= 2 && (
        <p className="board-text decide" role="status">
          ▲{" "}
          {say("live.skew", {
            span: write.span(Math.abs(board.skewMin)),
            way: board.skewMin > 0 ? "behind" : "ahead",
          })}
        </p>
      )}
      <Breaks />
      <WhatMoved station={here} />
      <Judged />
      <section aria-label={say("board.now")} className="board-now">
        {shown.map((task) => (
          <Now
            key={task.id}
            task={task}
            course={courseOf(plan, task)}
            sheet={sheets.get(task.id)}
            state={marked(task) === "started" ? "started" : "open"}
            byPlan={marked(task) === "open" && begun.includes(task)}
          />
        ))}
        {shown.length === 0 && <p className="board-name done">✓ {say("board.allDone")}</p>}
      </section>
      <NextUp
        tasks={next}
        begun={(task) =>
          marked(task) === "started" ? "marked" : begun.includes(task) ? "byPlan" : undefined
        }
      />
      <Out />
      {assumed.length > 0 && (
        <Fold summary={say("live.unmarkedDone", { count: assumed.length })}>
          <ul className="live-unmarked">
            {assumed.toReversed().map((task) => (
              <li key={task.id}>
                <span>
                  <span className="board-time">{write.hour(task.start)}</span> {task.name}
                </span>
                <span className="live-unmarked-do">
                  <Button className="button live-leave" onPress={() => tell({ kind: "done", task: task.id })}>
                    {say("board.finish")}
                  </Button>
                  <Button
                    className="button live-leave"
                    onPress={() =>
                      tell({
                        ...{ kind: "late", task: task.id, edge: "start" },
                        ...{ byMin: Math.max(1, now - task.startMin), to: clock.textOf(now) },
                      })
                    }
                  >
                    {say("live.unmarkedDone.not")}
                  </Button>
                </span>
              </li>
            ))}
          </ul>
        </Fold>
      )}
      {done.length > 0 && (
        <section>
          <h2 className="board-part">{say("board.done", { count: done.length })}</h2>
          <ul className="board-next">
            {done.map((task) => (
              <DoneLine key={task.id} task={task} mark={marks.get(task.id)} />
            ))}
          </ul>
        </section>
      )}
      <Unfollowed />
      <BoardStave plan={drawnPlan} station={here} now={now} marks={drawnMarks} />
      {board.rehearsal && (
        <div className="rehearse">
          <Hour
            least={Math.max(board.leastMin, Math.min(...tasks.map((t) => t.startMin)))}
            most={clock.service + 180}
            now={now}
            onChange={board.rehearse}
          />
          <p className="quiet">
            {say("board.rehearse.what", { date: write.date(service.at.slice(0, 10)) })}{" "}
            {say("live.rehearsing")}
          </p>
          {counted.length > 0 && (
            <Button className="button live-leave" onPress={() => tell({ kind: "cleared" })}>
              {say("live.clear")}
            </Button>
          )}
        </div>
      )}
    </div>
  );
}

/** The hour of a rehearsal. */
const Hour = memo(function Hour({
  least,
  most,
  now,
  onChange,
}: {
  readonly least: number;
  readonly most: number;
  readonly now: number;
  readonly onChange: (minute: number) => void;
}) {
  const { say } = useSettings();
  return (
    <Slider
      className="covers-slider"
      aria-label={say("board.rehearse")}
      minValue={least}
      maxValue={most}
      step={5}
      value={now}
      onChange={(value) => onChange(value as number)}
    >
      <SliderTrack className="slider-track">
        <SliderThumb className="thumb" />
      </SliderTrack>
    </Slider>
  );
});

const Stations = memo(Pick);

/** Stations that have tasks, with their names; the same list as long as they are the same. */
function useStations(tasks: readonly PlanTask[], name: (id: string) => string) {
  const key = [...new Set(tasks.map((t) => t.station!))].join(" ");
  return useMemo(() => key.split(" ").map((id) => [id, name(id)] as const), [key, name]);
}

/** What the prep lists say of a task. */
function useSheets(): ReadonlyMap<string, PrepEntry> {
  const { plan } = useTold();
  return useMemo(
    () => new Map(plan?.prepLists.flatMap(({ entries }) => entries).map((entry) => [entry.task, entry])),
    [plan],
  );
}

/** The floor asks for a course later: all its plates go with it. */
const courseOf = (plan: Plan, task: PlanTask) =>
  task.kind === "plate" ? plan.tasks.find(({ id }) => id === courseTask(task.step)) : undefined;

/** Of more hands than these the number is told first. */
const MANY = 8;

/** A task to be begun or under way. With an event elsewhere it is not drawn anew. */
const Now = memo(function Now({
  task,
  course,
  sheet,
  state,
  byPlan,
}: {
  readonly task: PlanTask;
  readonly course: PlanTask | undefined;
  readonly sheet: PrepEntry | undefined;
  readonly state: "open" | "started";
  readonly byPlan: boolean;
}) {
  const board = useBoard();
  const { now } = board.clock;
  const names = useNames();
  const { say, write } = useSettings();
  const people = task.hands.map(names.person);
  const begun = state === "started" || byPlan;
  const late = begun ? Math.max(0, now - task.endMin) : Math.max(0, now - task.startMin);
  const over = begun ? 0 : Math.max(0, late - task.slackMin);
  return (
    <article
      className="now"
      data-state={state}
      data-waits={task.kind === "passive" || undefined}
      id={`now-${task.id}`}
      data-task={task.id}
    >
      {late > 0 && (
        <p className={`board-text ${over > 0 ? "harm" : "decide"}`} role="status">
          {begun
            ? `▲ ${say("live.overdue", { late: write.span(late) })}`
            : over > 0
              ? `✕ ${say("board.tooLate", { late: write.span(late), over: write.span(over) })}`
              : `▲ ${say("board.late", { late: write.span(late), left: write.span(task.slackMin - late) })}`}
        </p>
      )}
      <p className="board-time">
        {write.hour(task.start)} – {write.hour(task.end)}
        {task.startMin > now && (
          <span className="quiet"> {say("board.in", { span: write.span(task.startMin - now) })}</span>
        )}
      </p>
      <h2 className="board-name">{task.name}</h2>
      {task.kind === "passive" && <Waiting task={task} now={now} />}
      {sheet && (
        <p className="board-text">
          <strong>{sheet.amount}</strong> {withoutName(sheet.text, task.name)}
        </p>
      )}
      <p className="quiet board-text">
        {[
          ...(people.length > MANY ? [] : people),
          ...task.equipment.map((e) =>
            e.setC === undefined
              ? names.equipment(e.id)
              : `${names.equipment(e.id)} ${write.temperature(e.setC)}`,
          ),
        ].join(" · ")}
      </p>
      {people.length > MANY && (
        <Fold summary={say("hands.many", { count: people.length })}>
          <p className="quiet board-text">{people.join(" · ")}</p>
        </Fold>
      )}
      {byPlan && task.hands.length > 0 && (
        <p className="quiet board-text">{say("live.unmarked", { from: write.hour(task.start) })}</p>
      )}
      <div className="board-do">
        {state === "open" && task.hands.length > 0 && (
          <Button className="board-button" onPress={() => board.say({ kind: "started", task: task.id })}>
            {say("board.start")}
          </Button>
        )}
        <Button
          className={`board-button ${state === "started" ? "board-main" : ""}`}
          onPress={() => board.say({ kind: "done", task: task.id })}
        >
          {say("board.finish")}
        </Button>
        <Late task={task} begun={begun} />
        {course && !begun && <Late task={course} begun={false} word="live.courseLater" />}
        {state === "started" && (
          <Button className="button live-leave" onPress={() => board.say({ kind: "undone", task: task.id })}>
            {say("live.unmarkedDone.not")}
          </Button>
        )}
      </div>
      <TaskLots task={task} />
    </article>
  );
});

/** What waits by itself: nobody stands at it, and for how long still. */
function Waiting({ task, now }: { readonly task: PlanTask; readonly now: number }) {
  const { say, write } = useSettings();
  const [from, until] = [write.hour(task.start), write.hour(task.end)];
  const words =
    task.startMin > now
      ? say("waits.from", { from, until })
      : now < task.endMin
        ? say("waits.until", { until, left: write.span(task.endMin - now) })
        : say("waits.over");
  return <p className="board-text waits">{words}</p>;
}

const DoneLine = memo(function DoneLine({
  task,
  mark,
}: {
  readonly task: PlanTask;
  readonly mark: Entry | undefined;
}) {
  const board = useBoard();
  const { say, write } = useSettings();
  return (
    <li>
      <span className="board-time done" aria-hidden="true">
        ✓
      </span>
      <span>
        {task.name}
        {mark?.when && <span className="quiet"> {write.hour(mark.when)}</span>} <DoneLots task={task} />
      </span>
      <Button
        className="button quiet-button live-leave"
        onPress={() => board.say({ kind: "undone", task: task.id })}
      >
        {say("board.undo")}
      </Button>
    </li>
  );
});

/** What a prep list says of a task, without the name that stands above it already. */
function withoutName(text: string, name: string): string {
  return text.startsWith(name) ? text.slice(name.length).replace(/^[.\s]+/, "") : text;
}
