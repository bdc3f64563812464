import { useState } from "react";
import { Button } from "react-aria-components";
import { useWords } from "../../../app/settings.tsx";
import type { Inverse } from "../../../compute/heat-protocol.ts";
import { Choice } from "../../../parts/choice.tsx";
import { Pick } from "../../../parts/pick.tsx";
import { TextEntry } from "../../../parts/text-entry.tsx";
import { type Draft, type Typed, trialOf } from "./draft.ts";
import { NumberEntry } from "./number-entry.tsx";
import { Problems, sentence } from "./problems.tsx";
import { useRunner } from "./use-heat.ts";

const ASKED = ["thickness", "medium", "start"] as const;
const DAY = 1440;

/** A trial turned round: how thick, how hot, when to start. Asked for by a button, for it takes many trials. */
export function InverseQuestions({
  draft,
  onChange,
}: {
  readonly draft: Draft;
  readonly onChange: (draft: Draft) => void;
}) {
  const { say, write } = useWords();
  const { runner, state } = useRunner();
  const [find, setFind] = useState<Inverse["find"]>("thickness");
  const [minutes, setMinutes] = useState<Typed>(45);
  const [stage, setStage] = useState(0);
  const [ready, setReady] = useState("19:30");
  /** What the answer on the page belongs to; another trial or question takes it away. */
  const [asked, setAsked] = useState<string>();
  const question = JSON.stringify([draft, find, minutes, stage, ready]);
  const fresh = asked === question;
  const minuteOfDay = readHour(ready);
  const ask = () => {
    setAsked(question);
    const wanted = typeof minutes === "number" ? minutes : Number.NaN;
    if (find === "start") {
      if (minuteOfDay !== undefined) runner.find(trialOf(draft), { find, readyAtMinute: minuteOfDay });
    } else if (find === "medium") runner.find(trialOf(draft), { find, stage, minutes: wanted });
    else runner.find(trialOf(draft), { find, minutes: wanted });
  };
  const problems = fresh ? state.problems : [];
  const found = fresh ? state.found : undefined;
  return (
    <section className="heat-inverse">
      <h3>{say("heat.inverse")}</h3>
      <Choice
        label={say("heat.inverse")}
        hideLabel
        value={find}
        onChange={setFind}
        options={ASKED.map((each) => [each, say(`heat.inverse.${each}`)])}
      />
      <Problems value={problems}>
        <div className="fields">
          {find === "start" ? (
            <TextEntry
              label={say("heat.inverse.ready")}
              value={ready}
              onChange={setReady}
              check={(typed) =>
                readHour(typed) === undefined ? say("heat.inverse.ready.wrong", { typed }) : undefined
              }
            />
          ) : (
            <NumberEntry
              label={say("heat.inverse.minutes")}
              unit="min"
              value={minutes}
              paths={["/minutes"]}
              onChange={setMinutes}
            />
          )}
          {find === "medium" && (
            <Pick
              label={say("heat.inverse.stage")}
              value={String(Math.min(stage, draft.stages.length - 1))}
              onChange={(id) => setStage(Number(id))}
              options={draft.stages.map((_, i) => [String(i), say("heat.stage", { n: i + 1 })])}
            />
          )}
          <Button className="button" onPress={ask}>
            {say("heat.inverse.find")}
          </Button>
          {state.working && fresh && (
            <Button className="button quiet-button" onPress={() => runner.stop()}>
              {say("heat.stop")}
            </Button>
          )}
        </div>
      </Problems>
      <div role="status">
        {state.working && fresh && <p className="quiet">{say("heat.working")}</p>}
        {problems
          .filter((problem) => problem.path !== "/minutes")
          .map((problem) => (
            <p key={problem.path} className="wrong">
              {say("heat.problem.short", sentence(problem))}
            </p>
          ))}
        {found && (
          <p className="large">
            {say(`heat.inverse.is.${find}`, {
              value: answerText(found.value),
              time: write.span(found.minutes),
              before: find === "start" ? Math.max(0, -Math.floor(found.value / DAY)) : 0,
            })}
          </p>
        )}
      </div>
      {found && find !== "start" && (
        <Button className="link-button" onPress={() => onChange(taken(draft, find, stage, found.value))}>
          {say("heat.inverse.use")}
        </Button>
      )}
    </section>
  );

  function answerText(value: number): string {
    if (find === "thickness") return write.length(value);
    if (find === "medium") return write.temperature(value);
    const minute = ((value % DAY) + DAY) % DAY;
    const two = (n: number) => String(n).padStart(2, "0");
    return write.hour(`D ${two(Math.floor(minute / 60))}:${two(minute % 60)}`);
  }
}

/** Minutes of the day of "19:30", "7:30 pm" or "1930"; undefined when it is no time. */
export function readHour(typed: string): number | undefined {
  const found = typed
    .trim()
    .toLowerCase()
    .match(/^(\d{1,2})[:.h]?(\d{2})?\s*(am|pm)?$/);
  if (!found) return undefined;
  const minute = Number(found[2] ?? 0);
  let hour = Number(found[1]);
  if (found[3]) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (found[3] === "pm" ? 12 : 0);
  }
  return hour < 24 && minute < 60 ? hour * 60 + minute : undefined;
}

/** The trial with the found size or temperature put in its place. */
function taken(draft: Draft, find: "thickness" | "medium", stage: number, value: number): Draft {
  const rounded = Math.round(value * 10) / 10;
  if (find === "medium") {
    const at = Math.min(stage, draft.stages.length - 1);
    return { ...draft, stages: draft.stages.with(at, { ...draft.stages[at]!, mediumC: rounded }) };
  }
  if (draft.kind === "slab") return { ...draft, thicknessMm: rounded };
  if (draft.kind !== "brick") return { ...draft, diameterMm: rounded };
  const sides = draft.sidesMm.map(Number);
  const [a, b, c] = draft.sidesMm.with(sides.indexOf(Math.min(...sides)), rounded);
  return { ...draft, sidesMm: [a, b, c] };
}
