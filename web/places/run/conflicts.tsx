import { Button } from "react-aria-components";
import type { Plan } from "../../../core/run/result.ts";
import { nearlyUsed, tightTasks } from "../../../drawing/index.ts";
import { useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { useFirst } from "../../parts/first.tsx";
import { NoPlanNote } from "./no-plan.tsx";
import { ConflictNote, Remedies } from "./remedies.tsx";
import { stepsOnce, toldApart } from "./told-tasks.ts";

const MOST = 6;
/** Where something was tried that may help, that is to be read first. */
const MOST_WITH_REMEDIES = 3;

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
  const broken = useFirst(plan.broken, plan.remedies.length > 0 ? MOST_WITH_REMEDIES : MOST);
  const tightest = useFirst(tight, MOST);
  const unsettled = useFirst(warnings, MOST);
  return (
    <>
      {plan.broken.length > 0 && (
        <section className="note">
          <h2 className="note-title harm">✕ {say("plan.broken", { count: plan.broken.length })}</h2>
          <NoPlanNote plan={plan} />
          <ul className="rows">
            {broken.shown.map((rule) => (
              <li key={rule.what}>
                <p>{sentence(rule.what)}</p>
                <div className="note-links">
                  {toldApart(stepsOnce(plan, rule.tasks).slice(0, 3), write.clock).map(({ id, text }) => (
                    <Button key={id} className="link-button" onPress={() => onChoose(id)}>
                      {text}
                    </Button>
                  ))}
                </div>
              </li>
            ))}
          </ul>
          {broken.more}
        </section>
      )}
      <ConflictNote plan={plan} onChoose={onChoose} />
      <Remedies plan={plan} />
      {tight.length > 0 && (
        <section className="note">
          <h2 className="note-title decide">▲ {say("plan.tight", { count: tight.length })}</h2>
          <ul className="rows">
            {tightest.shown.map((task) => (
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
          {tightest.more}
        </section>
      )}
      {warnings.length > 0 && (
        <section className="note">
          <h2 className="note-title decide">▲ {say("plan.warnings", { count: warnings.length })}</h2>
          <ul className="rows">
            {unsettled.shown.map((warning) => (
              <li key={`${warning.path}${warning.what}`}>
                <p>{sentence(warning.what)}</p>
                <p className="quiet small">{sentence(warning.mend)}</p>
              </li>
            ))}
          </ul>
          {unsettled.more}
        </section>
      )}
    </>
  );
}
