import { Link } from "@tanstack/react-router";
import { useMemo, useState } from "react";
import { Button, Checkbox, Input, Label, SearchField } from "react-aria-components";
import type { Ingredient } from "../../../core/pantry/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import type { Kept } from "../../book/api.ts";
import type { Found, OpenedFile } from "../../compute/intake-protocol.ts";
import { useAnswer } from "../../compute/use-intake.ts";
import { FileDrop } from "../../parts/file-drop.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Line } from "../../parts/line.tsx";
import { Unread } from "../../parts/unread.tsx";
import { IngredientSheet } from "./ingredient.tsx";

/** Drawn at once; the rest is found by typing. */
const MOST = 30;

/** Adds ingredients: from the starter pantry, or from a file of one's own; each is seen before it is kept. */
export function AddPlace() {
  const { say } = useWords();
  const { book, store } = useBook();
  const [typed, setTyped] = useState("");
  const [files, setFiles] = useState<readonly OpenedFile[]>();
  const [chosen, setChosen] = useState<ReadonlyMap<string, Ingredient>>(new Map());
  const [said, setSaid] = useState<Kept>();
  const starter = useAnswer(
    "starter",
    useMemo(() => (files ? undefined : { typed }), [files, typed]),
  );
  const imported = useAnswer(
    "import",
    useMemo(() => (files ? { files } : undefined), [files]),
  );
  const { told, failed } = files ? imported : starter;
  const have = useMemo(() => new Set(book.ingredients.map((one) => one.id)), [book.ingredients]);
  const offered = told?.ingredients.filter((one) => !files || fits(one, typed)) ?? [];
  const free = offered.filter((one) => !have.has(one.id));
  const choose = (list: readonly Ingredient[], on: boolean) => {
    const next = new Map(chosen);
    for (const one of list)
      if (on) next.set(one.id, one);
      else next.delete(one.id);
    setChosen(next);
  };
  const keep = async () => {
    const kept = await store.keepAll(
      [...chosen.values()].map((document) => ({ kind: "ingredients" as const, document })),
    );
    setSaid(kept);
    if (kept.outcome !== "refused") setChosen(new Map());
  };
  return (
    <div className="page">
      <p>
        <Link to="/stores" className="link-button">
          {say("supplier.back")}
        </Link>
      </p>
      <div className="place-head">
        <h1>{say("add.title")}</h1>
        <SearchField className="entry search" value={typed} onChange={setTyped}>
          <Label className="unseen">{say("stores.search")}</Label>
          <Input placeholder={say("stores.search")} />
        </SearchField>
      </div>
      <p className="large">
        {say(files ? "add.file" : "add.starter", { count: told?.ingredients.length ?? 0 })}
      </p>
      <FileDrop
        label={say("add.open.file")}
        accept={[".csv", ".json", "text/csv", "application/json"]}
        several
        onOpen={(opened) => {
          setFiles(opened);
          setChosen(new Map());
        }}
      >
        {files && (
          <Button className="link-button" onPress={() => setFiles(undefined)}>
            {say("add.starter.back")}
          </Button>
        )}
      </FileDrop>
      <p className="quiet small">{say("add.file.what")}</p>
      {failed && <p className="harm">✕ {say("list.failed", { why: failed })}</p>}
      {told && <Unread problems={told.problems} />}
      {free.length > 0 && (
        <Button className="link-button" onPress={() => choose(free, true)}>
          {say("add.all", { count: free.length })}
        </Button>
      )}
      {offered.slice(0, MOST).map((one) => (
        <Line
          key={one.id}
          mark={one.allergens.status === "unknown" ? <span className="decide">▲</span> : undefined}
          margin={<Doubts of={one} told={told!} />}
        >
          <div className="add-line-choice">
            <Checkbox
              className="take-check"
              isSelected={chosen.has(one.id)}
              isDisabled={have.has(one.id)}
              onChange={(on) => choose([one], on)}
              aria-label={one.name}
            >
              <span className="take-check-box" aria-hidden="true">
                {have.has(one.id) || chosen.has(one.id) ? "✓" : ""}
              </span>
            </Checkbox>
            <Fold
              summary={
                <>
                  {one.name}
                  <span className="quiet small">
                    {" "}
                    {have.has(one.id)
                      ? say("add.have")
                      : one.allergens.contains.map((a) => wordFor(say, "allergen", a)).join(", ")}
                  </span>
                </>
              }
            >
              <IngredientSheet ingredient={one} />
            </Fold>
          </div>
        </Line>
      ))}
      {offered.length > MOST && <p className="quiet">{say("find.more", { count: offered.length - MOST })}</p>}
      <div className="list-keep">
        <Button className="button" isDisabled={chosen.size === 0} onPress={() => void keep()}>
          {say("add.keep", { count: chosen.size })}
        </Button>
        {chosen.size > 0 && (
          <Button className="link-button" onPress={() => setChosen(new Map())}>
            {say("add.none")}
          </Button>
        )}
        <span role="status">
          {said?.outcome === "kept" && <span className="done">✓ {say("add.kept")}</span>}
          {said?.outcome === "refused" && (
            <span className="harm">
              ✕ {said.problems[0]?.what}: {said.problems[0]?.mend}
            </span>
          )}
        </span>
      </div>
    </div>
  );
}

const fits = (one: Ingredient, typed: string) => one.name.toLowerCase().includes(typed.trim().toLowerCase());

function Doubts({ of, told }: { readonly of: Ingredient; readonly told: Found }) {
  const own = told.doubts.filter((doubt) => doubt.ingredient === of.id);
  if (own.length === 0) return null;
  return (
    <ul className="plain small decide">
      {own.slice(0, 4).map(({ what }) => (
        <li key={what}>▲ {what}</li>
      ))}
    </ul>
  );
}
