import { Link, useNavigate } from "@tanstack/react-router";
import { useMemo, useState } from "react";
import { Button, Label, TextArea, TextField } from "react-aria-components";
import type { Answers } from "../../../../core/intake/index.ts";
import { useBook } from "../../../app/hands.tsx";
import { useWords } from "../../../app/settings.tsx";
import type { Kept } from "../../../book/api.ts";
import type { OpenedFile } from "../../../compute/intake-protocol.ts";
import { useAnswer } from "../../../compute/use-intake.ts";
import { FileDrop } from "../../../parts/file-drop.tsx";
import { Fold } from "../../../parts/fold.tsx";
import { Pick } from "../../../parts/pick.tsx";
import { TextEntry } from "../../../parts/text-entry.tsx";
import { PasteDoubts } from "./doubts.tsx";
import { PasteDraft } from "./draft.tsx";

/** Bench: a recipe pasted or opened is read, shown as a draft, its doubts asked, and kept as preparations. */
export function PastePlace() {
  const { say } = useWords();
  const [typed, setTyped] = useState("");
  const [source, setSource] = useState<string | OpenedFile>();
  const open = (next: string | OpenedFile | undefined) => setSource(next);
  return (
    <div className="page paste">
      <p>
        <Link to="/bench" className="link-button">
          {say("paste.back")}
        </Link>
      </p>
      <h1>{say("paste.title")}</h1>
      {source === undefined ? (
        <>
          <p className="large">{say("paste.what")}</p>
          <TextField className="entry paste-text" value={typed} onChange={setTyped}>
            <Label className="field-label">{say("paste.text")}</Label>
            <TextArea rows={10} />
          </TextField>
          <p className="row wrap">
            <Button className="button" isDisabled={typed.trim() === ""} onPress={() => open(typed)}>
              {say("paste.read")}
            </Button>
          </p>
          <FileDrop
            label={say("paste.open")}
            accept={[".txt", ".md", ".html", ".htm", ".csv", ".json", "text/plain"]}
            onOpen={([file]) => open(file)}
          />
        </>
      ) : (
        <Reading
          key={typeof source === "string" ? source : source.name}
          source={source}
          onAgain={() => open(undefined)}
        />
      )}
    </div>
  );
}

function Reading({
  source,
  onAgain,
}: {
  readonly source: string | OpenedFile;
  readonly onAgain: () => void;
}) {
  const { say, write } = useWords();
  const { store } = useBook();
  const navigate = useNavigate();
  const [nth, setNth] = useState(0);
  const [answers, setAnswers] = useState<Answers>({});
  const [said, setSaid] = useState<Kept>();
  const question = useMemo(() => ({ source, nth, answers }), [source, nth, answers]);
  const { told, failed } = useAnswer("recipe", question);
  if (failed) return <p className="harm">✕ {say("list.failed", { why: failed })}</p>;
  if (!told) return <p className="quiet">{say("paste.reading")}</p>;
  const { answered, titles, problems } = told;
  const { linked, drafted, fresh, doubts } = answered;
  const { recipe } = linked;
  const links = doubts.filter((doubt) => doubt.about === "link").length;
  const keep = async () => {
    const open = doubts.map((doubt) => doubt.ask);
    const whole = drafted.preparations.at(-1);
    const preparations = drafted.preparations.map((one) =>
      one === whole && open.length > 0
        ? { ...one, notes: say("paste.notes", { list: open.join("; ") }).slice(0, 5000) }
        : one,
    );
    const kept = await store.keepAll([
      ...fresh.map((document) => ({ kind: "ingredients" as const, document })),
      ...preparations.map((document) => ({ kind: "preparations" as const, document })),
    ]);
    setSaid(kept);
    if (kept.outcome !== "refused" && whole)
      void navigate({ to: "/bench/preparation/$id", params: { id: whole.id } });
  };
  if (recipe.lines.length + recipe.steps.length === 0)
    return (
      <>
        {problems.slice(0, 5).map(({ at, what, mend }) => (
          <p key={`${at}${what}`} className="decide">
            ▲ {what}: {mend}.
          </p>
        ))}
        <Button className="button" onPress={onAgain}>
          {say("paste.again")}
        </Button>
      </>
    );
  return (
    <>
      {titles.length > 1 && (
        <Pick
          label={say("paste.which", { count: titles.length })}
          value={String(nth)}
          options={titles.map((title, i) => [String(i), title || say("paste.untitled")])}
          onChange={(id) => {
            setNth(Number(id));
            setAnswers({});
          }}
        />
      )}
      <div className="paste-head">
        <TextEntry
          label={say("paste.name")}
          value={recipe.title}
          onChange={(title) => setAnswers({ ...answers, title })}
        />
        <TextEntry
          label={say("paste.yield")}
          value={answers.yield ?? recipe.yields[0]?.text ?? ""}
          onChange={(text) => setAnswers({ ...answers, yield: text })}
        />
      </div>
      <PasteDoubts answered={answered} answers={answers} onAnswer={setAnswers} />
      <PasteDraft answered={answered} answers={answers} onAnswer={setAnswers} />
      {(problems.length > 0 || recipe.other.length > 0) && (
        <Fold summary={say("paste.other", { count: problems.length + recipe.other.length })}>
          <ul className="plain">
            {problems.slice(0, 50).map(({ at, what, mend }) => (
              <li key={`${at}${what}`}>
                <span className="quiet">{say("list.line", { at })}</span> {what}. {mend}.
              </li>
            ))}
            {recipe.other.slice(0, 200).map(({ at, text }) => (
              <li key={at} className="quiet">
                {text}
              </li>
            ))}
          </ul>
        </Fold>
      )}
      <div className="list-keep">
        <Button
          className="button"
          isDisabled={links > 0 || drafted.preparations.length === 0}
          onPress={() => void keep()}
        >
          {say("paste.keep", { count: drafted.preparations.length, fresh: fresh.length })}
        </Button>
        <Button className="link-button" onPress={onAgain}>
          {say("paste.again")}
        </Button>
        <span className="quiet">
          {links > 0
            ? say("paste.blocked", { count: links })
            : doubts.length > 0
              ? say("paste.unsettled", { count: doubts.length })
              : write.list(drafted.preparations.map((one) => one.name))}
        </span>
      </div>
      <div role="status">
        {said?.outcome === "refused" &&
          said.problems.slice(0, 5).map((one) => (
            <p key={`${one.path}${one.what}`} className="harm">
              ✕ {one.path} {one.what}: {one.mend}
            </p>
          ))}
      </div>
    </>
  );
}
