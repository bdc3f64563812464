import { memo } from "react";
import { Button } from "react-aria-components";
import type { Plan } from "../../../../core/run/result.ts";
import { useEntries } from "../../../app/hands.tsx";
import { useNames } from "../../../app/names.ts";
import { useService } from "../../../app/service.tsx";
import { useSettings } from "../../../app/settings.tsx";
import { alike, type TasksById, tasksById } from "../../../compute/live-changed.ts";
import type { Entry } from "../../../offline/entry.ts";
import { Fold } from "../../../parts/fold.tsx";
import { type Move, type Moved, movedBy, unseen } from "./moves.ts";
import { useBoard, useLive } from "./use-live.ts";

/** What moved because of what: in sentences, until the station says it has seen it. */
export function WhatMoved({ station }: { readonly station: string }) {
  const { list } = useEntries();
  const { live } = useLive();
  const { made, clock } = useBoard();
  const { say } = useSettings();
  const moved = movedBy(made, list, clock.rehearsal, live?.takenBack ?? []);
  const open = unseen(moved, list, station);
  if (open.length === 0) return null;
  return (
    <section className="live-moved" aria-label={say("live.moved")}>
      <h2 className="board-part">▲ {say("live.moved")}</h2>
      <div aria-live="polite">
        {open.slice(0, 4).map((moved) => (
          <OneEvent key={moved.id} moved={moved} station={station} />
        ))}
      </div>
    </section>
  );
}

/** Told one by one: the task at hand stands below and must not be pushed off the screen. */
const MOST = 5;

/** Of more hands than these the number is told. */
const MANY = 8;

/** What was told does not change, unless it is taken back. */
const OneEvent = memo(
  ToldEvent,
  (a, b) => a.station === b.station && a.moved.id === b.moved.id && alike(a.moved, b.moved),
);

function ToldEvent({ moved, station }: { readonly moved: Moved; readonly station: string }) {
  const { say } = useSettings();
  const board = useBoard();
  const cause = useCause();
  const tasks = useTasks();
  const moves = moved.back ? moved.moves.flatMap(wentBack) : moved.moves;
  const here = moves.filter((move) => tasks.get(move.task)?.station === station);
  const elsewhere = moves.filter((move) => tasks.get(move.task)?.station !== station);
  return (
    <article className="live-event">
      <p className="board-text">
        <strong>{cause(moved.cause)}</strong>{" "}
        {moved.back
          ? say("moved.back", { count: moved.moves.length })
          : say("live.moved.here", { count: here.length })}
      </p>
      <ul className="live-moves">
        {here.slice(0, MOST).map((move) => (
          <MoveLine key={move.task} move={move} />
        ))}
      </ul>
      {here.length > MOST && (
        <Fold summary={say("moves.more", { count: here.length - MOST })}>
          <ul className="live-moves">
            {here.slice(MOST).map((move) => (
              <MoveLine key={move.task} move={move} />
            ))}
          </ul>
        </Fold>
      )}
      {elsewhere.length > 0 && (
        <Fold summary={say("live.moved.elsewhere", { count: elsewhere.length })}>
          <ul className="live-moves">
            {elsewhere.map((move) => (
              <MoveLine key={move.task} move={move} />
            ))}
          </ul>
        </Fold>
      )}
      <Button
        className="board-button live-seen"
        onPress={() => board.say({ kind: "heard", of: moved.id, station })}
      >
        {say("live.moved.seen")}
      </Button>
    </article>
  );
}

const byId = new WeakMap<Plan, TasksById>();

/** Tasks by id, as to their names and stations, which no event changes. */
function useTasks(): TasksById {
  const { made } = useBoard();
  const known = byId.get(made) ?? tasksById(made.tasks);
  byId.set(made, known);
  return known;
}

const wentBack = ({ task, before, after }: Move): Move[] =>
  before ? [{ task, before: after, after: before }] : [];

/** "Kale: Blanch. 16:36 → 16:45, 9 min later; Wen instead of Jonas". */
function MoveLine({ move }: { readonly move: Move }) {
  const tasks = useTasks();
  const words = useMove();
  const name = tasks.get(move.task)?.name ?? move.task;
  const [time, ...rest] = words(move);
  return (
    <li>
      <span>{name}</span>
      <span>
        <strong className="live-time">{time}</strong>
        {rest.length > 0 && <span className="quiet"> {rest.join("; ")}</span>}
      </span>
    </li>
  );
}

function useMove(): (move: Move) => string[] {
  const names = useNames();
  const { clock } = useService();
  const { say, write } = useSettings();
  return ({ before, after }) => {
    const words: string[] = [];
    if (after.again && after.again.at !== before?.again?.at)
      words.push(say("live.move.again", { at: write.hour(after.again.at), to: write.hour(after.end) }));
    else if (!before || before.start !== after.start) {
      words.push(
        say("live.move.time", { from: before ? write.hour(before.start) : "", to: write.hour(after.start) }),
      );
      if (before) {
        const by = clock.minuteOf(after.start) - clock.minuteOf(before.start);
        words.push(say(by > 0 ? "live.move.later" : "live.move.sooner", { span: write.span(Math.abs(by)) }));
      }
    } else if (before.end !== after.end)
      words.push(say("live.move.end", { from: write.hour(before.end), to: write.hour(after.end) }));
    // A name may hold a comma itself: "Petra Lind, pastry".
    const list = (ids: readonly string[], name: (id: string) => string) => {
      const all = [...new Set(ids)];
      return name === names.person && all.length > MANY
        ? say("hands.many", { count: all.length })
        : all.map(name).join(" · ");
    };
    const gone = before?.hands.filter((id) => !after.hands.includes(id)) ?? [];
    const come = after.hands.filter((id) => !before?.hands.includes(id));
    if (gone.length > 0 && come.length > 0)
      words.push(say("live.move.hands", { now: list(come, names.person), before: list(gone, names.person) }));
    else if (gone.length + come.length > 0)
      words.push(say("live.move.handsMore", { now: list(after.hands, names.person) }));
    const left = before?.units.filter((id) => !after.units.includes(id)) ?? [];
    const taken = after.units.filter((id) => !before?.units.includes(id));
    if (taken.length > 0 && left.length > 0)
      words.push(
        say("live.move.units", { now: list(taken, names.equipment), before: list(left, names.equipment) }),
      );
    return words;
  };
}

/** What an entry says, as the cause of what moved. */
function useCause(): (entry: Entry | undefined) => string {
  const names = useNames();
  const tasks = useTasks();
  const { kitchen } = useService();
  const { say, write } = useSettings();
  const unit = (id = "") => kitchen.equipment.find((one) => one.id === id)?.name ?? names.equipment(id);
  const task = (id = "") => tasks.get(id)?.name ?? id;
  return (entry) => {
    const at = entry?.when ? write.hour(entry.when) : "";
    const until = entry?.to ? write.hour(entry.to) : "none";
    switch (entry?.kind) {
      case "started":
      case "done":
        return say(`live.cause.${entry.kind}`, { name: task(entry.task), at });
      case "undone":
        return say("live.cause.undone", { name: task(entry.task) });
      case "late":
        return say("live.cause.late", { name: task(entry.task), late: write.span(entry.byMin ?? 0) });
      case "absent":
        return say("live.isAway", {
          name: names.person(entry.person ?? ""),
          from: write.hour(entry.from!),
          until,
        });
      case "closed":
        return say("live.isOut", { name: unit(entry.unit), from: write.hour(entry.from!), until });
      case "instead":
        return say("live.cause.instead", {
          unit: [...new Set(entry.each?.map((one) => unit(one.unit)))].join(", "),
        });
      case "withdrawn":
        return say("live.cause.withdrawn");
      default:
        return say("live.cause.other");
    }
  };
}
