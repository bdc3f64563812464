import { Button, ProgressBar } from "react-aria-components";
import { useHands, useRunState } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";

/** How far the plan is; it can be stopped, and the best so far stays. The room for it is always kept. */
export function Planning() {
  const { runner } = useHands();
  const { planning, stage, progress, plan } = useRunState();
  const { say } = useWords();
  return (
    <div className="planning" data-state={planning}>
      {planning === "working" && (
        <>
          <ProgressBar
            className="progress"
            aria-label={say(`run.stage.${stage}`)}
            value={progress * 100}
            isIndeterminate={progress === 0}
          >
            <span
              className="progress-bar"
              style={progress === 0 ? {} : { inlineSize: `${progress * 100}%` }}
            />
          </ProgressBar>
          <span className="quiet">{say(`run.stage.${stage}`)}</span>
          <Button className="link-button" onPress={() => runner.stop()}>
            {say("run.stop")}
          </Button>
        </>
      )}
      {planning === "stopped" && (
        <>
          <span className="decide">▲ {say(plan ? "run.stopped" : "run.stopped.none")}</span>
          <Button className="link-button" onPress={() => runner.resume()}>
            {say("run.resume")}
          </Button>
        </>
      )}
      {planning === "idle" && plan && (
        <p className="quiet">
          {say("run.tried", { tasks: plan.plan.tasks.length })}{" "}
          <Figure at="/plan/schedules" label={say("run.tried.label")}>
            {say("run.tried.schedules", { schedules: plan.plan.schedules })}
          </Figure>
        </p>
      )}
    </div>
  );
}
