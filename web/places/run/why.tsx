import { useEffect, useState } from "react";
import { Button } from "react-aria-components";
import type { Bound, Explained } from "../../../core/production/explain.ts";
import type { PlanTask } from "../../../core/run/result.ts";
import { useHands, useTold } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";

/** Why a task does not start later, nor earlier: asked of the planner when the task is chosen. */
export function Why({
  task,
  onChoose,
}: {
  readonly task: PlanTask;
  readonly onChoose: (id: string | undefined) => void;
}) {
  const { runner } = useHands();
  const { plan, behind } = useTold();
  const { say } = useWords();
  const [explained, setExplained] = useState<Explained>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new plan makes the question new
  useEffect(() => {
    let current = true;
    setExplained(undefined);
    if (!behind) void runner.explain(task.id).then((answer) => current && setExplained(answer));
    return () => {
      current = false;
    };
  }, [runner, task.id, plan, behind]);
  if (!explained) return <p className="quiet small">{say(behind ? "why.later.plan" : "why.asking")}</p>;
  return (
    <>
      <Side title={say("why.later")} bound={explained.later} onChoose={onChoose} />
      <Side title={say("why.earlier")} bound={explained.earlier} onChoose={onChoose} />
    </>
  );
}

function Side({
  title,
  bound,
  onChoose,
}: {
  readonly title: string;
  readonly bound: Bound;
  readonly onChoose: (id: string | undefined) => void;
}) {
  const { say, write } = useWords();
  const line = (reason: Bound["because"][number]) =>
    reason.task === undefined ? (
      sentence(reason.what)
    ) : (
      <Button className="link-button why-link" onPress={() => onChoose(reason.task)}>
        {sentence(reason.what)}
      </Button>
    );
  return (
    <div className="why">
      <h3 className="why-title">{title}</h3>
      <p>
        {bound.playMin === 0
          ? say("why.stands")
          : say("why.play", { play: write.span(bound.playMin), until: write.clock(bound.until) })}
      </p>
      <ul className="why-because">
        {bound.because.map((reason) => (
          <li key={reason.what}>{line(reason)}</li>
        ))}
      </ul>
      {bound.chain.length > 0 && (
        <ol className="why-chain">
          {bound.chain.map((reason) => (
            <li key={reason.what}>{line(reason)}</li>
          ))}
        </ol>
      )}
      {bound.end === "circle" && <p className="quiet small">{say("why.circle")}</p>}
    </div>
  );
}

const sentence = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
