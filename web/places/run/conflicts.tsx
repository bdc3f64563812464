import { Button } from "react-aria-components";
import type { Plan } from "../../../core/run/result.ts";
import { nearlyUsed, tightTasks } from "../../../drawing/index.ts";
import { useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { ConflictNote, Remedies } from "./remedies.tsx";

const MOST = 6;

/** With a capital, as a line of its own. */
const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** What can't be done and why, with remedies that were tried; then what is tight and what is to settle. */
export function Conflicts({
  plan,
  onChoose,
}: {
  readonly plan: Plan;
  readonly onChoose: (id: string) => void;
}) {
  const { say, write } = useWords();
  const { service } = useService();
  const { amounts } = useTold();
  const tight = tightTasks(plan, service.slackMin);
  const warnings = amounts?.warnings ?? [];
  return (
    <>
      {plan.broken.length > 0 && (
        <section className="note">
          <h2 className="note-title harm">✕ {say("plan.broken", { count: plan.broken.length })}</h2>
          <ul className="rows">
            {plan.broken.slice(0, MOST).map((rule) => (
              <li key={rule.what}>
                <p>{sentence(rule.what)}</p>
                {rule.tasks.slice(0, 3).map((id) => (
                  <Button key={id} className="link-button" onPress={() => onChoose(id)}>
                    {plan.tasks.find((t) => t.id === id)?.name ?? id}
                  </Button>
                ))}
              </li>
            ))}
          </ul>
          {plan.broken.length > MOST && (
            <p className="quiet">{say("plan.more", { count: plan.broken.length - MOST })}</p>
          )}
        </section>
      )}
      <ConflictNote plan={plan} onChoose={onChoose} />
      <Remedies plan={plan} />
      {tight.length > 0 && (
        <section className="note">
          <h2 className="note-title decide">▲ {say("plan.tight", { count: tight.length })}</h2>
          <ul className="rows">
            {tight.slice(0, MOST).map((task) => (
              <li key={task.id}>
                <Button className="link-button" onPress={() => onChoose(task.id)}>
                  {task.name}, {write.clock(task.start)}
                </Button>
                <span className="num">
                  {nearlyUsed(task)
                    ? say("plan.holdLeft", { left: write.span(task.hold!.maxMin - task.hold!.usedMin) })
                    : write.span(task.slackMin)}
                </span>
              </li>
            ))}
          </ul>
          {tight.length > MOST && <p className="quiet">{say("plan.more", { count: tight.length - MOST })}</p>}
        </section>
      )}
      {warnings.length > 0 && (
        <section className="note">
          <h2 className="note-title decide">▲ {say("plan.warnings", { count: warnings.length })}</h2>
          <ul className="rows">
            {warnings.slice(0, MOST).map((warning) => (
              <li key={`${warning.path}${warning.what}`}>
                <p>{sentence(warning.what)}</p>
                <p className="quiet small">{sentence(warning.mend)}</p>
              </li>
            ))}
          </ul>
          {warnings.length > MOST && (
            <p className="quiet">{say("plan.more", { count: warnings.length - MOST })}</p>
          )}
        </section>
      )}
    </>
  );
}
