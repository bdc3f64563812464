import { Button } from "react-aria-components";
import type { Time } from "../../../../core/learning/schema.ts";
import { standing } from "../../../../core/safety/log-lines.ts";
import { useEntries, useTold } from "../../../app/hands.tsx";
import { useWords } from "../../../app/settings.tsx";
import { toSent } from "../../../offline/entry.ts";
import { useRecord } from "../../../offline/use-log.ts";

/** Tasks the board saw begun and done, beside what the plan had given them; a tap keeps one as a measured time. */
export function FromBoard() {
  const { say, write } = useWords();
  const { list } = useEntries();
  const { plan } = useTold();
  const record = useRecord();
  const kept = new Set(standing<Time>(list.map(toSent), ["time"]).map(({ now }) => now.body.task));
  const tasks = (plan?.plan.tasks ?? []).flatMap((task) => {
    if (task.kind !== "work" || kept.has(task.id)) return [];
    const marks = list.filter((entry) => entry.task === task.id && !("rehearsal" in entry));
    const done = marks.at(-1);
    const started = marks.findLast(({ kind }) => kind === "started");
    if (done?.kind !== "done" || !started || started.at >= done.at) return [];
    const actualMin = Math.round((Date.parse(done.at) - Date.parse(started.at)) / 6000) / 10;
    const by = done.by ?? started.by;
    return actualMin > 0 ? [{ task, actualMin, by, plannedMin: task.endMin - task.startMin }] : [];
  });
  if (tasks.length === 0) return null;
  return (
    <section>
      <h2 className="part">{say("write.board")}</h2>
      <p className="quiet">{say("write.board.what")}</p>
      <ul className="rows">
        {tasks.map(({ task, actualMin, plannedMin, by }) => (
          <li key={task.id} className="row wrap">
            <span>{task.name}</span>
            <Button
              className="button quiet-button"
              onPress={() =>
                record(
                  {
                    ...{ kind: "time", preparation: task.preparation, step: task.step, task: task.id },
                    ...{ plannedMin, actualMin },
                  },
                  by === undefined ? {} : { by },
                )
              }
            >
              {say("write.board.keep", {
                actual: write.span(actualMin),
                planned: write.span(plannedMin),
              })}
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
