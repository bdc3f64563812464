import type { Preparation, Step } from "../../../core/formula/schema.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Line } from "../../parts/line.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { StepCooks } from "./step-cooks.tsx";

/** The method: a sentence a step, with hands, heat and wait in the margin. */
export function Steps({ preparation }: { readonly preparation: Preparation }) {
  const { store } = useBook();
  const { say } = useWords();
  const set = (i: number, step: Step) =>
    store.edit("preparations", { ...preparation, steps: preparation.steps.with(i, step) });
  return (
    <ol className="steps">
      {preparation.steps.map((step, i) => (
        <li key={step.id}>
          <Line margin={<StepMargin preparation={preparation} step={step} />} mark={<StepMark step={step} />}>
            <div className="step-text">
              <span className="step-number" aria-hidden="true">
                {i + 1}
              </span>
              <div className="step-body">
                <TextEntry
                  label={say("steps.text", { n: i + 1 })}
                  hideLabel
                  long
                  value={step.text}
                  onChange={(text) => set(i, { ...step, text })}
                  check={(typed) => (typed.trim() === "" ? say("steps.text.empty") : undefined)}
                />
                {(step.work || (step.passive && "min" in step.passive)) && (
                  <Fold summary={<span className="quiet">{say("steps.minutes")}</span>}>
                    <div className="row wrap">
                      {step.work && (
                        <>
                          <CountEntry
                            label={say("steps.fixed")}
                            value={step.work.fixedMin}
                            onChange={(fixedMin) => set(i, { ...step, work: { ...step.work!, fixedMin } })}
                          />
                          {step.work.perKgMin !== undefined && (
                            <CountEntry
                              label={say("steps.perKg")}
                              value={step.work.perKgMin}
                              step={0.5}
                              onChange={(perKgMin) => set(i, { ...step, work: { ...step.work!, perKgMin } })}
                            />
                          )}
                          {step.work.perPieceMin !== undefined && (
                            <CountEntry
                              label={say("steps.perPiece")}
                              value={step.work.perPieceMin}
                              step={0.1}
                              onChange={(perPieceMin) =>
                                set(i, { ...step, work: { ...step.work!, perPieceMin } })
                              }
                            />
                          )}
                          <CountEntry
                            label={say("steps.most")}
                            value={step.work.hands.most}
                            least={step.work.hands.least}
                            onChange={(most) =>
                              set(i, {
                                ...step,
                                work: { ...step.work!, hands: { ...step.work!.hands, most } },
                              })
                            }
                          />
                        </>
                      )}
                      {step.passive && "min" in step.passive && (
                        <CountEntry
                          label={say("steps.wait")}
                          value={step.passive.min}
                          onChange={(min) => set(i, { ...step, passive: { min } })}
                        />
                      )}
                      {step.hold && (
                        <CountEntry
                          label={say("steps.hold")}
                          value={step.hold.maxMin}
                          onChange={(maxMin) => set(i, { ...step, hold: { ...step.hold!, maxMin } })}
                        />
                      )}
                    </div>
                    <StepCooks step={step} onChange={(changed) => set(i, changed)} />
                  </Fold>
                )}
              </div>
            </div>
          </Line>
        </li>
      ))}
    </ol>
  );
}

/** Hands, heat, wait and hold of a step; when it is planned. */
function StepMargin({ preparation, step }: { readonly preparation: Preparation; readonly step: Step }) {
  const { plan } = useTold();
  const here = useMaybeService();
  const { say, write } = useWords();
  const tasks = (plan?.plan.tasks ?? []).filter(
    (t) => t.preparation === preparation.id && t.step === step.id,
  );
  const temperatures = [...new Set(step.uses.flatMap((use) => (use.setC === undefined ? [] : [use.setC])))];
  return (
    <div className="line-notes small">
      {step.work && (
        <p>
          {say("steps.hands", {
            fixed: write.span(step.work.fixedMin),
            perKg: step.work.perKgMin ? write.span(step.work.perKgMin) : "none",
            least: step.work.hands.least,
            most: step.work.hands.most,
          })}
        </p>
      )}
      {step.passive && (
        <p>
          {say("steps.waits", {
            span:
              "min" in step.passive
                ? write.span(step.passive.min)
                : `${write.span(step.passive.fixedMin)} + ${write.span(step.passive.perKgMin)}/kg`,
          })}
        </p>
      )}
      {step.target && <p>{say("steps.target")}</p>}
      {temperatures.map((c) => (
        <p key={c}>{write.temperature(c)}</p>
      ))}
      {step.hold && (
        <p>
          {say("steps.holds", { state: say(`state.${step.hold.state}`), span: write.span(step.hold.maxMin) })}
        </p>
      )}
      {step.control && (
        <p className={step.control.level === "critical" ? "decide" : "quiet"}>
          {step.control.level === "critical" ? "▲ " : ""}
          {step.control.hazard}
        </p>
      )}
      {here &&
        tasks.map((t) => (
          <p key={t.id} className="quiet">
            {write.clock(t.start)} – {write.hour(t.end)}
          </p>
        ))}
    </div>
  );
}

function StepMark({ step }: { readonly step: Step }) {
  const { write } = useWords();
  const minutes = step.work
    ? step.work.fixedMin
    : step.passive && "min" in step.passive
      ? step.passive.min
      : undefined;
  return minutes === undefined ? <span aria-hidden="true">⋯</span> : write.span(minutes);
}
