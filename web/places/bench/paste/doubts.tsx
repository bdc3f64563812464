import { Button } from "react-aria-components";
import {
  type Answered,
  type Answers,
  type Choice,
  type Doubt,
  doubtKey,
  type LineAnswer,
} from "../../../../core/intake/index.ts";
import { useBook } from "../../../app/hands.tsx";
import { useNames } from "../../../app/names.ts";
import { useWords } from "../../../app/settings.tsx";
import { FindPick } from "../../../parts/find-pick.tsx";
import { TextEntry } from "../../../parts/text-entry.tsx";
import { Choices } from "./choices.tsx";

interface Props {
  readonly answered: Answered;
  readonly answers: Answers;
  readonly onAnswer: (answers: Answers) => void;
}

/** All that a person should settle, in one list, each answered where it is asked. */
export function PasteDoubts({ answered, answers, onAnswer }: Props) {
  const { say } = useWords();
  const { doubts } = answered;
  if (doubts.length === 0) return <p className="done">✓ {say("paste.settled")}</p>;
  return (
    <section className="paste-doubts">
      <h2 className="part">{say("paste.doubts", { count: doubts.length })}</h2>
      {[doubts.filter(isLink), doubts.filter((doubt) => !isLink(doubt))].map(
        (some, i) =>
          some.length > 0 && (
            <div key={i === 0 ? "links" : "rest"} className={i === 0 ? undefined : "paste-wait"}>
              <p className="quiet">{say(i === 0 ? "paste.first" : "paste.may")}</p>
              <ul className="rows">
                {some.map((doubt) => (
                  <li key={doubtKey(doubt)}>
                    <OneDoubt doubt={doubt} {...{ answered, answers, onAnswer }} />
                  </li>
                ))}
              </ul>
            </div>
          ),
      )}
    </section>
  );
}

const isLink = ({ about }: Doubt) => about === "link";

function OneDoubt({ doubt, answered, answers, onAnswer }: Props & { readonly doubt: Doubt }) {
  const { say } = useWords();
  const { book } = useBook();
  const names = useNames();
  const { recipe, links } = answered.linked;
  const [, kind, place] = /^\/(lines|steps)\/(\d+)$/.exec(doubt.path) ?? [];
  const at = Number(place ?? -1);
  const line = kind === "lines" ? recipe.lines[at] : undefined;
  const step = kind === "steps" ? recipe.steps[at] : undefined;
  const settle = () => onAnswer({ ...answers, settled: [...(answers.settled ?? []), doubtKey(doubt)] });
  /** One answer for every line of the same ingredient: each thing is asked once. */
  const answerLines = (answer: LineAnswer) => {
    const same = recipe.lines.flatMap((other, i) =>
      i === at || other.ingredient.toLowerCase() === line?.ingredient.toLowerCase() ? [i] : [],
    );
    const lines = { ...answers.lines };
    for (const i of same) lines[i] = { ...lines[i], ...answer };
    onAnswer({ ...answers, lines });
  };
  const link = links[at];
  const nameOf = (id: string) => answered.fresh.find((one) => one.id === id)?.name ?? names.ingredient(id);
  const take = (choice: Choice) => {
    if (choice.kind === "country") return onAnswer({ ...answers, country: choice.country });
    if (choice.kind === "oven")
      return onAnswer({ ...answers, ovens: { ...answers.ovens, [at]: choice.oven } });
    return step
      ? onAnswer({ ...answers, steps: { ...answers.steps, [at]: choice.text } })
      : onAnswer({
          ...answers,
          lines: { ...answers.lines, [at]: { ...answers.lines?.[at], text: choice.text } },
        });
  };
  return (
    <div className="paste-doubt">
      <p>
        <span className="decide" aria-hidden="true">
          ▲{" "}
        </span>
        {doubt.about === "link" && link
          ? say(link.shelf ? "paste.isShelf" : "paste.is", {
              said: line!.ingredient,
              name: nameOf(link.ingredient),
            })
          : doubt.about === "link"
            ? say("paste.isNot", { said: line!.ingredient })
            : doubt.ask}
      </p>
      {step && doubt.about === "oven" && <p className="quiet">{step.text}</p>}
      {doubt.choices && <Choices choices={doubt.choices} onTake={take} />}
      {doubt.about === "link" ? (
        <div className="row wrap">
          {link && (
            <Button className="button" onPress={() => answerLines({ ingredient: link.ingredient })}>
              {say("paste.yes", { name: nameOf(link.ingredient) })}
            </Button>
          )}
          <FindPick
            label={say("paste.pick", { said: line!.ingredient })}
            text={say("paste.other.ingredient")}
            list={book.ingredients}
            onPick={(ingredient) => answerLines({ ingredient })}
          />
          <Button className="button quiet-button" onPress={() => answerLines({ asNew: true })}>
            {say("paste.asNew")}
          </Button>
          <Button className="link-button" onPress={() => answerLines({ leave: true })}>
            {say("paste.leave")}
          </Button>
        </div>
      ) : doubt.about === "measures" || doubt.about === "oven" ? null : doubt.path === "/yields" ? (
        <div className="row wrap">
          <TextEntry
            label={say("paste.yield")}
            hideLabel
            className="paste-line"
            value={answers.yield ?? recipe.yields[0]?.text ?? ""}
            onChange={(text) => onAnswer({ ...answers, yield: text })}
          />
          <Button className="button quiet-button" onPress={settle}>
            {say("paste.asItIs")}
          </Button>
        </div>
      ) : (
        <div className="row wrap">
          {line && (
            <TextEntry
              label={say("paste.line")}
              hideLabel
              className="paste-line"
              value={line.text}
              onChange={(text) =>
                onAnswer({ ...answers, lines: { ...answers.lines, [at]: { ...answers.lines?.[at], text } } })
              }
            />
          )}
          {step && (
            <TextEntry
              label={say("paste.step")}
              hideLabel
              long
              className="paste-line"
              value={step.text}
              onChange={(text) => onAnswer({ ...answers, steps: { ...answers.steps, [at]: text } })}
            />
          )}
          <Button className="button quiet-button" onPress={settle}>
            {say("paste.asItIs")}
          </Button>
        </div>
      )}
    </div>
  );
}
