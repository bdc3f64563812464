import { Button, ProgressBar } from "react-aria-components";
import { useHands, useRunState } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";

/** How far the plan is; it can be stopped, and the best so far stays. The room for it is always kept. */
export function Planning() {
  const { runner } = useHands();
  const { planning, progress, plan } = useRunState();
  const { say } = useWords();
  return (
    <div className="planning" data-state={planning}>
      {planning === "working" && (
        <>
          <ProgressBar
            className="progress"
            aria-label={say("run.planning")}
            value={progress * 100}
            isIndeterminate={progress === 0}
          >
            <span
              className="progress-bar"
              style={{ inlineSize: progress === 0 ? undefined : `${progress * 100}%` }}
            />
          </ProgressBar>
          <Button className="button quiet-button" onPress={() => runner.stop()}>
            {say("run.stop")}
          </Button>
        </>
      )}
      {planning === "stopped" && (
        <>
          <span className="decide">▲ {say(plan ? "run.stopped" : "run.stopped.none")}</span>
          <Button className="button" onPress={() => runner.resume()}>
            {say("run.resume")}
          </Button>
        </>
      )}
    </div>
  );
}
