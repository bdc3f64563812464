import { useState } from "react";
import { Button } from "react-aria-components";
import type { ServedProblem } from "../book/api.ts";
import { countChanges, type Trial, trialKey } from "../book/trial.ts";
import { useBook, useBookState } from "./hands.tsx";
import { useWords } from "./settings.tsx";

/** What is being tried and not kept yet, wherever one is: keep it, or put it back (A4). */
export function Trials() {
  const { trials, kept, changedElsewhere } = useBookState();
  const { say } = useWords();
  const { store } = useBook();
  if (trials.size === 0) return null;
  return (
    <section className="trials" aria-label={say("trial.title")}>
      {[...trials.entries()].map(([key, trial]) => (
        <TrialLine
          key={key}
          trial={trial}
          before={kept?.[trial.kind].find((document) => document.id === trial.id)}
          elsewhere={changedElsewhere.has(trialKey(trial.kind, trial.id))}
        />
      ))}
      {store.canUndo && (
        <Button className="button quiet-button" onPress={() => store.undo()}>
          {say("trial.undo")}
        </Button>
      )}
    </section>
  );
}

function TrialLine({
  trial,
  before,
  elsewhere,
}: {
  readonly trial: Trial;
  readonly before: unknown;
  readonly elsewhere: boolean;
}) {
  const { say } = useWords();
  const { store } = useBook();
  const [said, setSaid] = useState<{ problems: readonly ServedProblem[]; unreachable: boolean }>();
  const [busy, setBusy] = useState(false);
  const keep = async (over: boolean) => {
    setBusy(true);
    const done = await store.keep(trial.kind, trial.id, over);
    setBusy(false);
    setSaid({
      problems: done.outcome === "refused" ? done.problems : [],
      unreachable: done.outcome === "unreachable",
    });
  };
  const name = "name" in trial.document ? trial.document.name : trial.id;
  return (
    <div className="trial">
      <p className="trial-say" role="status">
        <span className="decide" aria-hidden="true">
          ▲{" "}
        </span>
        {before === undefined
          ? say("trial.new", { name })
          : say("trial.changes", { name, count: countChanges(before, trial.document) })}
        {elsewhere && <span className="decide"> {say("trial.elsewhere")}</span>}
        {said?.unreachable && <span className="decide"> {say("trial.unreachable")}</span>}
        {said?.problems.map((problem) => (
          <span key={problem.what} className="harm">
            {" "}
            {problem.what} {problem.mend}
          </span>
        ))}
      </p>
      <span className="trial-do">
        <Button className="button" isDisabled={busy} onPress={() => void keep(elsewhere)}>
          {say(elsewhere ? "trial.over" : "trial.keep")}
        </Button>
        <Button
          className="button quiet-button"
          isDisabled={busy}
          onPress={() => store.putBack(trial.kind, trial.id)}
        >
          {say(elsewhere ? "trial.theirs" : "trial.back")}
        </Button>
      </span>
    </div>
  );
}
