import { Link } from "@tanstack/react-router";
import { Button } from "react-aria-components";
import type { SpaceUnit } from "../../../core/formula/schema.ts";
import type { Plan, PlanTask } from "../../../core/run/result.ts";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Pinned } from "./pinned.tsx";
import { stepsOnce } from "./told-tasks.ts";
import type { Move } from "./use-move.ts";
import { Why } from "./why.tsx";

/** All about one task of the plan. */
export function TaskNote({
  task,
  index,
  plan,
  onChoose,
  move,
}: {
  readonly move: Move;
  readonly task: PlanTask;
  readonly index: number;
  readonly plan: Plan;
  readonly onChoose: (id: string | undefined) => void;
}) {
  const { say, write } = useWords();
  const { library } = useBook();
  const names = useNames();
  const preparation = library.preparations.get(task.preparation);
  const step = preparation?.steps.find((s) => s.id === task.step);
  const before = stepsOnce(plan, task.after);
  return (
    <section className="note task-note" aria-live="polite">
      <div className="note-head">
        <h2 className="note-title">{task.name}</h2>
        <Button
          className="button quiet-button note-close"
          aria-label={say("task.close")}
          onPress={() => onChoose(undefined)}
        >
          ×
        </Button>
      </div>
      <p className="large">
        {write.clock(task.start)} – {write.hour(task.end)}
        <span className="quiet"> ({write.span(task.endMin - task.startMin)})</span>
      </p>
      {step && <p>{step.text}</p>}
      <dl className="pairs">
        {preparation && (
          <>
            <dt>{say("task.preparation")}</dt>
            <dd>
              <Link to="/bench/preparation/$id" params={{ id: preparation.id }}>
                {preparation.name}
              </Link>
            </dd>
          </>
        )}
        {task.hands.length > 0 && (
          <>
            <dt>{say("task.hands")}</dt>
            <dd>{write.list(task.hands.map(names.person))}</dd>
          </>
        )}
        {task.equipment.length > 0 && (
          <>
            <dt>{say("task.equipment")}</dt>
            <dd>
              {task.equipment.map((use) => (
                <span key={use.id} className="block">
                  {names.equipment(use.id)},{" "}
                  {say(`task.space.${use.unit as SpaceUnit}`, {
                    count: Math.round(use.space * 10) / 10,
                  })}
                  {use.setC !== undefined && `, ${write.temperature(use.setC)}`}
                </span>
              ))}
            </dd>
          </>
        )}
        <dt>{say("task.slack")}</dt>
        <dd>
          <Figure at={`/plan/tasks/${index}/slackMin`}>{write.span(task.slackMin)}</Figure>
          {task.earliest !== task.latest && (
            <span className="quiet block small">
              {say("task.window", { earliest: write.clock(task.earliest), latest: write.clock(task.latest) })}
            </span>
          )}
        </dd>
        {task.hold && task.hold.maxMin > 0 && (
          <>
            <dt>{say("task.held")}</dt>
            <dd>
              {say("task.hold.of", {
                used: write.span(task.hold.usedMin),
                most: write.span(task.hold.maxMin),
              })}
              {task.hold.usedMin > 0.9 * task.hold.maxMin && (
                <span className="decide"> ▲ {say("task.hold.end")}</span>
              )}
            </dd>
          </>
        )}
        {before.length > 0 && (
          <>
            <dt>{say("task.after")}</dt>
            <dd>
              {before.map((other) => (
                <Button key={other.id} className="link-button" onPress={() => onChoose(other.id)}>
                  {other.name}, {write.clock(other.end)}
                </Button>
              ))}
            </dd>
          </>
        )}
      </dl>
      <Pinned task={task} move={move} />
      <Why task={task} onChoose={onChoose} />
    </section>
  );
}
