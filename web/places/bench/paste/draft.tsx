import { type Answered, type Answers, type ReadLine, SURE } from "../../../../core/intake/index.ts";
import { useBook } from "../../../app/hands.tsx";
import { useNames } from "../../../app/names.ts";
import { useWords } from "../../../app/settings.tsx";
import { FindPick } from "../../../parts/find-pick.tsx";
import { Line } from "../../../parts/line.tsx";

/** The reading as a draft: each part with its lines and steps, what they were understood as in the margin. */
export function PasteDraft({
  answered,
  answers,
  onAnswer,
}: {
  readonly answered: Answered;
  readonly answers: Answers;
  readonly onAnswer: (answers: Answers) => void;
}) {
  const { say, write } = useWords();
  const { recipe } = answered.linked;
  const parts = [
    ...recipe.parts.map((part, i) => ({ name: part.name, at: i as number | null })),
    { name: "", at: null },
  ];
  return (
    <>
      {parts.map(({ name, at }) => {
        const lines = recipe.lines.map((line, i) => ({ line, i })).filter(({ line }) => line.part === at);
        const steps = recipe.steps.map((step, i) => ({ step, i })).filter(({ step }) => step.part === at);
        if (lines.length + steps.length === 0) return null;
        return (
          <section key={name || "whole"}>
            <h2 className="part">
              {name || (recipe.parts.length > 0 ? say("paste.whole") : say("bench.formula"))}
            </h2>
            {lines.map(({ line, i }) => (
              <DraftLine key={i} line={line} at={i} {...{ answered, answers, onAnswer }} />
            ))}
            {steps.length > 0 && <h3 className="part">{say("bench.method")}</h3>}
            {steps.map(({ step, i }) => (
              <Line
                key={i}
                mark={step.minutes === null ? undefined : write.span(step.minutes)}
                margin={
                  step.minutes === null && step.temperatureC === null ? undefined : (
                    <p>
                      {[
                        ...(step.minutes === null ? [] : [write.span(step.minutes)]),
                        ...(step.temperatureC === null ? [] : [write.temperature(step.temperatureC)]),
                      ].join(", ")}
                    </p>
                  )
                }
              >
                <span className="paste-step">{step.text}</span>
              </Line>
            ))}
          </section>
        );
      })}
    </>
  );
}

function DraftLine({
  line,
  at,
  answered,
  answers,
  onAnswer,
}: {
  readonly line: ReadLine;
  readonly at: number;
  readonly answered: Answered;
  readonly answers: Answers;
  readonly onAnswer: (answers: Answers) => void;
}) {
  const { say, write } = useWords();
  const { book } = useBook();
  const names = useNames();
  const link = answered.linked.links[at];
  const fresh = link && answered.fresh.find((one) => one.id === link.ingredient);
  const nameOf = (id: string) => answered.fresh.find((one) => one.id === id)?.name ?? names.ingredient(id);
  const amount =
    line.low === null
      ? line.toTaste
        ? say("formula.toTaste")
        : "–"
      : `${line.exact?.low ?? line.low}${line.high === line.low ? "" : `–${line.exact?.high ?? line.high}`} ${line.unit}`;
  const choose = (ingredient: string) =>
    onAnswer({
      ...answers,
      lines: { ...answers.lines, [at]: { ...answers.lines?.[at], ingredient, asNew: false, leave: false } },
    });
  return (
    <Line
      className="paste-row"
      mark={
        link && link.confidence >= SURE ? <span className="done">✓</span> : <span className="decide">▲</span>
      }
      margin={
        <div>
          <FindPick
            label={say("paste.pick", { said: line.ingredient })}
            text={
              answers.lines?.[at]?.leave
                ? say("paste.left")
                : link
                  ? [link, ...(link.also ?? [])].map((one) => nameOf(one.ingredient)).join(" + ")
                  : say("list.tie.none")
            }
            list={book.ingredients}
            onPick={choose}
          />
          <p className="small quiet">
            {fresh
              ? say(link?.shelf ? "paste.shelf" : "paste.fresh")
              : link
                ? say("paste.confidence", { share: write.share(link.confidence) })
                : ""}
          </p>
        </div>
      }
    >
      <span className="list-said">
        <span>
          {line.ingredient || line.text}
          {line.note && <span className="quiet small block">{line.note}</span>}
        </span>
        <span className="num">{amount}</span>
      </span>
    </Line>
  );
}
