import { useState } from "react";
import { Button } from "react-aria-components";
import type { PlanTask } from "../../../../core/run/result.ts";
import { useService } from "../../../app/service.tsx";
import { useSettings } from "../../../app/settings.tsx";
import { TextEntry } from "../../../parts/text-entry.tsx";
import { useBoard } from "./use-live.ts";

const STEPS = [5, 10, 20] as const;
const MOST = 600;

/** Says by how much a task is late: its end once it has begun, else its beginning. `word` names the button. */
export function Late({
  task,
  begun,
  word = begun ? "live.late" : "live.notYet",
}: {
  readonly task: PlanTask;
  readonly begun: boolean;
  readonly word?: "live.late" | "live.notYet" | "live.courseLater";
}) {
  const { say } = useSettings();
  const { clock } = useService();
  const board = useBoard();
  const [open, setOpen] = useState(false);
  const late = (byMin: number) => {
    const planned = begun ? task.endMin : task.startMin;
    // What is late already is late from now on.
    const to = Math.max(planned, board.clock.now) + byMin;
    board.say({
      ...{ kind: "late", task: task.id, edge: begun ? "end" : "start" },
      ...{ byMin: Math.max(1, to - planned), to: clock.textOf(to) },
    });
    setOpen(false);
  };
  if (!open)
    return (
      <Button className="board-button" aria-expanded={false} onPress={() => setOpen(true)}>
        {say(word)}
      </Button>
    );
  return (
    <div className="live-late">
      <p className="board-text live-late-what">{say(word)}</p>
      {STEPS.map((min) => (
        <Button key={min} className="board-button live-step" onPress={() => late(min)}>
          {say("live.late.by", { min })}
        </Button>
      ))}
      <TextEntry
        label={say("live.late.more")}
        className="live-typed"
        value=""
        check={(typed) =>
          typed.trim() === "" || minutes(typed) !== undefined ? undefined : say("live.late.wrong", { typed })
        }
        onChange={(typed) => late(minutes(typed)!)}
      />
      <Button className="button live-leave" onPress={() => setOpen(false)}>
        {say("live.never")}
      </Button>
    </div>
  );
}

function minutes(typed: string): number | undefined {
  const read = /^\+?\s*(\d{1,3})\s*(min)?$/.exec(typed.trim());
  const value = Number(read?.[1]);
  return read && value >= 1 && value <= MOST ? value : undefined;
}
