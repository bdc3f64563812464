import { Button } from "react-aria-components";
import type { Problem } from "../../../../core/heat/problem.ts";
import { useWords } from "../../../app/settings.tsx";
import type { HeatRunner, HeatState } from "../../../compute/heat-runner.ts";
import type { Draft } from "./draft.ts";
import { BandTable, Notes } from "./figures.tsx";
import { InverseQuestions } from "./inverse.tsx";
import { KitchenForm } from "./kitchen-form.tsx";
import { Limits } from "./limits.tsx";
import { outcome } from "./outcome.ts";
import { Pictures, type Scales } from "./pictures.tsx";
import { PieceForm } from "./piece-form.tsx";
import { placeWords } from "./place-words.ts";
import { Problems, sentence } from "./problems.tsx";
import { StagesForm } from "./stages-form.tsx";

/** One trial: what comes of it in a sentence, what was asked on one side, what was computed on the other. */
export function Trial({
  name,
  draft,
  onChange,
  runner,
  state,
  scales,
  close,
}: {
  /** "A" or "B" where there are two. */
  readonly name?: string | undefined;
  readonly draft: Draft;
  readonly onChange: (draft: Draft) => void;
  readonly runner: HeatRunner;
  readonly state: HeatState;
  readonly scales: Scales | undefined;
  readonly close?: (() => void) | undefined;
}) {
  const { say } = useWords();
  const { told, problems, working } = state;
  const wrong = problems.length > 0;
  return (
    <section
      className="heat-trial"
      aria-label={name === undefined ? say("heat.title") : say("heat.side", { side: name })}
      data-working={working}
    >
      {name === undefined ? (
        <h2 className="unseen">{say("heat.outcome")}</h2>
      ) : (
        <div className="heat-part-head">
          <h2>{say("heat.side", { side: name })}</h2>
          {close && (
            <Button className="button quiet-button" onPress={close}>
              {say("heat.close", { side: name })}
            </Button>
          )}
        </div>
      )}
      <Outcome state={state} runner={runner} />
      <div className="heat-body">
        <div className="heat-asked">
          <Problems value={problems}>
            <PieceForm draft={draft} onChange={onChange} />
            <StagesForm draft={draft} onChange={onChange} />
            <KitchenForm draft={draft} onChange={onChange} />
          </Problems>
        </div>
        <div className="heat-computed" data-stale={wrong || undefined}>
          {told && scales && <Pictures told={told} scales={scales} />}
          {told && <BandTable told={told} />}
          {told?.more && <Limits more={told.more} food={draft.food} />}
          {told && <Notes told={told} />}
          <InverseQuestions draft={draft} onChange={onChange} />
        </div>
      </div>
    </section>
  );
}

/** The outcome in sentences; what is wrong, with its place, while something is. */
function Outcome({ state, runner }: { readonly state: HeatState; readonly runner: HeatRunner }) {
  const { say, write } = useWords();
  const { told, problems, working } = state;
  const problemText = (problem: Problem) => {
    const where = placeWords(problem.path, say);
    // The form has parts of 100 g, not the fractions of the heat room.
    if (problem.path.includes("/composition")) return say("heat.parts.short", { where });
    return say("heat.problem", { where, ...sentence(problem) });
  };
  return (
    <div className="heat-outcome" role="status">
      {problems.map((problem) => (
        <p key={`${problem.path} ${problem.what}`} className="harm">
          ✕ {problemText(problem)}
        </p>
      ))}
      {told && problems.length > 0 && <p className="quiet">{say("heat.stale")}</p>}
      {told && (
        <p className={problems.length > 0 ? "sentence quiet" : "sentence"}>
          {outcome(told, { say, write }).join(" ")}
        </p>
      )}
      {told?.more && problems.length === 0 && (
        <p>{say("heat.plan", { time: write.span(told.more.planMinutes) })}</p>
      )}
      <p className="planning heat-working">
        {working && (
          <>
            <span className="quiet">{say("heat.working")}</span>
            <Button className="button quiet-button" onPress={() => runner.stop()}>
              {say("heat.stop")}
            </Button>
          </>
        )}
      </p>
    </div>
  );
}
