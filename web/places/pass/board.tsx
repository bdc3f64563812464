import { useEffect, useMemo, useState } from "react";
import { Button, Slider, SliderThumb, SliderTrack } from "react-aria-components";
import type { PlanTask } from "../../../core/run/result.ts";
import { useEntries, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useNow } from "../../app/now.ts";
import { useService } from "../../app/service.tsx";
import { useSettings } from "../../app/settings.tsx";
import { taskState } from "../../offline/entry.ts";
import { Empty } from "../../parts/empty.tsx";
import { Pick } from "../../parts/pick.tsx";
import { BoardStave } from "./board-stave.tsx";

const STATION_KEY = "tournant.board.station";

/** The live board: one station, what now, what next, what is late; works without network (A6). */
export function Board() {
  const { plan } = useTold();
  const { clock, service } = useService();
  const names = useNames();
  const { say, write } = useSettings();
  const { list } = useEntries();
  const wall = useNow();
  const tasks = useMemo(
    () => (plan?.plan.tasks ?? []).filter((t) => t.station !== undefined && t.kind !== "milestone"),
    [plan],
  );
  const stations = [...new Set(tasks.map((t) => t.station!))];
  const [station, setStation] = useState(() => localStorage.getItem(STATION_KEY) ?? "");
  const here = stations.includes(station) ? station : (stations[0] ?? "");
  const own = tasks.filter((t) => t.station === here).sort((a, b) => a.startMin - b.startMin);
  const [rehearsed, setRehearsed] = useState<number>();
  const day = own.find((t) => t.startMin >= clock.minuteOf("D 00:00")) ?? own[0];
  const now = wall ?? rehearsed ?? day?.startMin ?? 0;
  useEffect(() => localStorage.setItem(STATION_KEY, here), [here]);
  if (!plan) return <p className="page quiet">{say("run.planning")}</p>;
  if (own.length === 0)
    return (
      <div className="page">
        <Empty title={say("board.none")}>{say("board.none.what")}</Empty>
      </div>
    );
  const stateOf = (task: PlanTask) => taskState(list, task.id).state;
  const open = own.filter((t) => stateOf(t) !== "done");
  const begun = open.filter((t) => stateOf(t) === "started");
  const due = open.filter((t) => stateOf(t) === "open" && t.startMin <= now);
  const first = open.find((t) => stateOf(t) === "open");
  const current = [...begun, ...due];
  const shown = current.length > 0 ? current.slice(0, 3) : first ? [first] : [];
  const next = open.filter((t) => !shown.includes(t)).slice(0, 4);
  const done = own.filter((t) => stateOf(t) === "done");
  return (
    <div className="board">
      <div className="board-head">
        <h1 className="unseen">{say("pass.board")}</h1>
        <Pick
          label={say("board.station")}
          hideLabel
          value={here}
          options={stations.map((id) => [id, names.station(id)])}
          onChange={setStation}
        />
        <p className="board-clock">
          <span className="board-hour">{write.hour(clock.textOf(now))}</span>{" "}
          <span className="quiet">{clock.dayOf(now)}</span>
        </p>
      </div>
      {wall === undefined && (
        <div className="rehearse">
          <Slider
            className="covers-slider"
            aria-label={say("board.rehearse")}
            minValue={own[0]!.startMin}
            maxValue={clock.service}
            step={5}
            value={now}
            onChange={(value) => setRehearsed(value as number)}
          >
            <SliderTrack className="track">
              <SliderThumb className="thumb" />
            </SliderTrack>
          </Slider>
          <p className="quiet">{say("board.rehearse.what", { date: write.date(service.at.slice(0, 10)) })}</p>
        </div>
      )}
      <BoardStave plan={plan.plan} station={here} now={now} />
      <section aria-label={say("board.now")} className="board-now">
        {shown.map((task) => (
          <Now key={task.id} task={task} now={now} state={stateOf(task)} early={task.startMin > now} />
        ))}
        {shown.length === 0 && <p className="board-name done">✓ {say("board.allDone")}</p>}
      </section>
      {next.length > 0 && (
        <section>
          <h2 className="board-part">{say("board.next")}</h2>
          <ol className="board-next">
            {next.map((task) => (
              <li key={task.id}>
                <span className="board-time">{write.hour(task.start)}</span>
                <span>{task.name}</span>
                <span className="quiet">
                  {task.startMin > now
                    ? say("board.in", { span: write.span(task.startMin - now) })
                    : say("board.waiting")}
                </span>
              </li>
            ))}
          </ol>
        </section>
      )}
      {done.length > 0 && (
        <section>
          <h2 className="board-part">{say("board.done", { count: done.length })}</h2>
          <ul className="board-next">
            {done.map((task) => (
              <DoneLine key={task.id} task={task} />
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

function Now({
  task,
  now,
  state,
  early,
}: {
  readonly task: PlanTask;
  readonly now: number;
  readonly state: "open" | "started" | "done";
  readonly early: boolean;
}) {
  const { entries } = useEntries();
  const { plan } = useTold();
  const names = useNames();
  const { say, write, settings } = useSettings();
  const sheet = plan?.prepLists.flatMap((l) => l.entries).find((e) => e.task === task.id);
  const late = state === "open" ? Math.max(0, now - task.startMin) : Math.max(0, now - task.endMin);
  const mark = (kind: "started" | "done") =>
    void entries.write({ kind, task: task.id, ...(settings.name === "" ? {} : { by: settings.name }) });
  return (
    <article className="now" data-state={state}>
      <p className="board-time">
        {write.hour(task.start)} – {write.hour(task.end)}
        {early && (
          <span className="quiet"> {say("board.in", { span: write.span(task.startMin - now) })}</span>
        )}
      </p>
      <h2 className="board-name">{task.name}</h2>
      {sheet && (
        <p className="board-text">
          <strong>{sheet.amount}</strong> {withoutName(sheet.text, task.name)}
        </p>
      )}
      <p className="quiet board-text">
        {[
          ...task.hands.map(names.person),
          ...task.equipment.map((e) =>
            e.setC === undefined
              ? names.equipment(e.id)
              : `${names.equipment(e.id)} ${write.temperature(e.setC)}`,
          ),
        ].join(" · ")}
      </p>
      {late > 0 && (
        <p className={`board-text ${late > task.slackMin ? "harm" : "decide"}`} role="status">
          {late > task.slackMin
            ? `✕ ${say("board.tooLate", { late: write.span(late), over: write.span(late - task.slackMin) })}`
            : `▲ ${say("board.late", { late: write.span(late), left: write.span(task.slackMin - late) })}`}
        </p>
      )}
      <div className="board-do">
        {state === "open" && (
          <Button className="board-button" onPress={() => mark("started")}>
            {say("board.start")}
          </Button>
        )}
        <Button
          className={`board-button ${state === "started" ? "board-main" : ""}`}
          onPress={() => mark("done")}
        >
          {say("board.finish")}
        </Button>
      </div>
    </article>
  );
}

function DoneLine({ task }: { readonly task: PlanTask }) {
  const { list, entries } = useEntries();
  const { say, write, settings } = useSettings();
  const { at } = taskState(list, task.id);
  return (
    <li>
      <span className="board-time done" aria-hidden="true">
        ✓
      </span>
      <span>
        {task.name}
        {at && (
          <span className="quiet">
            {" "}
            {new Date(at).toLocaleTimeString(write.preferences.locale, {
              hour: "2-digit",
              minute: "2-digit",
              hour12: settings.clock === "12",
            })}
          </span>
        )}
      </span>
      <Button
        className="button quiet-button"
        onPress={() => void entries.write({ kind: "undone", task: task.id })}
      >
        {say("board.undo")}
      </Button>
    </li>
  );
}

/** What a prep list says of a task, without the name that stands above it already. */
function withoutName(text: string, name: string): string {
  return text.startsWith(name) ? text.slice(name.length).replace(/^[.\s]+/, "") : text;
}
