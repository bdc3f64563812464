import { useState } from "react";
import { Button } from "react-aria-components";
import type { PlanTask } from "../../../../core/run/result.ts";
import { useService } from "../../../app/service.tsx";
import { useSettings } from "../../../app/settings.tsx";
import { useBoard } from "./use-live.ts";

/**
 * What comes next at the station, each to be begun with one tap, the first of them with the large button. What was
 * just begun stays said where the finger was, so that a wrong tap is taken back there.
 */
export function NextUp({
  tasks,
  begun,
}: {
  readonly tasks: readonly PlanTask[];
  /** Marked as begun, or under way by the plan. */
  readonly begun: (task: PlanTask) => "marked" | "byPlan" | undefined;
}) {
  const board = useBoard();
  const { clock } = useService();
  const { say, write } = useSettings();
  const [last, setLast] = useState<{ readonly task: PlanTask; readonly at: string }>();
  const just = last && begun(last.task) === "marked" ? last : undefined;
  const { now } = board.clock;
  const waiting = tasks.filter((task) => task.id !== just?.task.id);
  if (waiting.length === 0 && !just) return null;
  const large = waiting.find((task) => isSoon(task, now) && !begun(task))?.id;
  return (
    <section>
      <h2 className="board-part">{say("board.next")}</h2>
      {just && (
        <p className="board-text next-just" role="status">
          <span className="done">
            ✓ {say("next.begun", { name: just.task.name, at: write.hour(just.at) })}
          </span>
          <Button
            className="button live-leave"
            onPress={() => board.say({ kind: "undone", task: just.task.id })}
          >
            {say("live.unmarkedDone.not")}
          </Button>
        </p>
      )}
      <ol className="board-next next-up">
        {waiting.map((task) => (
          <li key={task.id} id={`next-${task.id}`} data-task={task.id}>
            <span className="board-time">{write.hour(task.start)}</span>
            <span>
              {task.name}{" "}
              <span className="quiet">
                {task.hands.length === 0 && `${say("next.noHands")} `}
                {begun(task)
                  ? say("next.underWay", { until: write.hour(task.end) })
                  : task.startMin > now
                    ? say("board.in", { span: write.span(task.startMin - now) })
                    : say("board.waiting")}
              </span>
            </span>
            {startable(task, now) &&
              (begun(task) === "marked" ? (
                <Button
                  className="button live-leave"
                  onPress={() => board.say({ kind: "done", task: task.id })}
                >
                  {say("board.finish")}
                </Button>
              ) : (
                <Button
                  className={task.id === large ? "board-button live-step board-main" : "button live-leave"}
                  aria-label={say("next.start", { name: task.name })}
                  onPress={() => {
                    setLast({ task, at: clock.textOf(now) });
                    board.say({ kind: "started", task: task.id });
                  }}
                >
                  {say("board.start")}
                </Button>
              ))}
          </li>
        ))}
      </ol>
    </section>
  );
}

/** A plate is begun no sooner than this before its time, and what is begun later is no next thing, min (common practice, no source). */
const SOON = { plate: 30, work: 60 } as const;

/** A wait begins by itself when its work ends; nobody plates hours ahead. */
const startable = ({ hands, kind, startMin }: PlanTask, now: number) =>
  hands.length > 0 && (kind !== "plate" || startMin - now <= SOON.plate);

/** Whether it is what a free pair of hands would begin now. */
const isSoon = (task: PlanTask, now: number) => startable(task, now) && task.startMin - now <= SOON.work;
