import { memo, useMemo, useState } from "react";
import type { KeptPlan } from "../../../core/run/compare.ts";
import type { StaveKind } from "../../../drawing/index.ts";
import { useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Choice } from "../../parts/choice.tsx";
import { Compare } from "./compare.tsx";
import { Conflicts } from "./conflicts.tsx";
import { ghostsShown, otherPlaces, triedPlaces } from "./ghosts.ts";
import { Good } from "./good.tsx";
import { Load } from "./load.tsx";
import { MoveNote } from "./move-note.tsx";
import { ScoreView } from "./score-view.tsx";
import { TaskNote } from "./task-note.tsx";
import { useMove } from "./use-move.ts";

/** The plan as a score, with what needs a decision in the margin. */
export function PlanView() {
  const { plan, behind } = useTold();
  const { say, write } = useWords();
  const { service } = useService();
  const [kind, setKind] = useState<StaveKind>("station");
  const [chosen, setChosen] = useState<string>();
  const move = useMove(plan?.plan);
  const [against, setAgainst] = useState<KeptPlan>();
  const ghosts = useMemo(
    () =>
      move.tried
        ? triedPlaces(move.tried)
        : against && plan && ghostsShown(otherPlaces(against, plan.plan), plan.plan, chosen),
    [move.tried, against, plan, chosen],
  );
  if (!plan) return <p className="page quiet plan-wait">{say("run.planning")}</p>;
  const task = plan.plan.tasks.find((t) => t.id === chosen);
  return (
    <div className="page plan" data-behind={behind || undefined}>
      <div className="plan-score">
        <ScoreView
          plan={plan.plan}
          kind={kind}
          chosen={chosen}
          onChoose={setChosen}
          move={move}
          ghosts={ghosts}
        >
          <Choice
            label={say("plan.staves")}
            hideLabel
            value={kind}
            onChange={setKind}
            options={[
              ["station", say("plan.stations")],
              ["person", say("plan.people")],
              ["equipment", say("plan.equipment")],
            ]}
          />
        </ScoreView>
        <p className="legend small quiet no-print">{say("plan.legend")}</p>
        <p className="legend small quiet no-print" id="score-keys">
          {say("move.keys")}
        </p>
      </div>
      <div className="plan-margin">
        <h1 className="print-only plan-title">
          {service.name}, {write.date(service.at.slice(0, 10))}. {plan.summary.sentence}
        </h1>
        <p className="print-only legend small">{say("plan.legend")}</p>
        {move.moving ? (
          <MoveNote move={move} />
        ) : task ? (
          <TaskNote
            task={task}
            index={plan.plan.tasks.indexOf(task)}
            plan={plan.plan}
            onChoose={setChosen}
            move={move}
          />
        ) : (
          <p className="quiet plan-hint">{say("plan.hint")}</p>
        )}
        <OfThePlan told={plan} against={against} onAgainst={setAgainst} onChoose={setChosen} />
      </div>
    </div>
  );
}

/** What is told of the plan as it is: the same whatever is being moved. */
const OfThePlan = memo(function OfThePlan({ told, ...of }: Parameters<typeof Compare>[0]) {
  return (
    <>
      <Conflicts plan={told.plan} onChoose={of.onChoose} />
      <Compare told={told} {...of} />
      <Good plan={told.plan} />
      <Load plan={told.plan} />
    </>
  );
});
