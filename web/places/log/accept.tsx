import { useState } from "react";
import { Button } from "react-aria-components";
import { figureKey } from "../../../core/learning/figures.ts";
import type { Estimate } from "../../../core/learning/learn.ts";
import { ingredientWith, preparationWith, workTimes } from "../../../core/learning/overlay.ts";
import { useBook, useBookState } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import type { Kept } from "../../book/api.ts";
import { trialKey } from "../../book/trial.ts";
import { useRecord } from "../../offline/use-log.ts";
import { useFigureWords } from "./figure-words.ts";

/** Takes one learned figure into the book: saved as a revision of its document, and written down in the log. */
export function Accept({ estimate }: { readonly estimate: Estimate }) {
  const { say } = useWords();
  const { library, store } = useBook();
  const { trials } = useBookState();
  const names = useNames();
  const record = useRecord();
  const { value } = useFigureWords();
  const [said, setSaid] = useState<Kept>();
  const [busy, setBusy] = useState(false);
  const { of, kind } = estimate.figure;
  const documents = kind === "cut" || kind === "piece" ? "ingredients" : "preparations";
  const name = names.item(of);
  const tried = trials.has(trialKey(documents, of));
  const take = async () => {
    const [ingredient, preparation] = [library.ingredients.get(of), library.preparations.get(of)];
    if (documents === "ingredients" && ingredient)
      store.edit("ingredients", ingredientWith(ingredient, [estimate]));
    else if (documents === "preparations" && preparation)
      store.edit("preparations", preparationWith(preparation, [estimate]));
    setBusy(true);
    const kept = await store.keep(documents, of);
    setBusy(false);
    setSaid(kept);
    if (kept.outcome === "kept")
      record({
        ...{ kind: "accepted", figure: figureKey(estimate.figure), from: estimate.was, to: estimate.value },
        ...{ sourceBefore: estimate.bookSource, n: Math.max(1, estimate.n) },
        ...(estimate.work ? { work: workTimes(estimate.work, estimate.value) } : {}),
      });
  };
  if (tried && !busy && said === undefined)
    return <p className="decide">▲ {say("learned.accept.trial", { name })}</p>;
  return (
    <div className="accept">
      {said?.outcome !== "kept" && (
        <Button className="button" isDisabled={busy} onPress={() => void take()}>
          {kind === "work"
            ? say("learned.accept.work")
            : say("learned.accept", { value: value(estimate, estimate.value) })}
        </Button>
      )}
      <p role="status">
        {said?.outcome === "kept" && <span className="done">✓ {say("learned.accepted")}</span>}
        {said?.outcome === "unreachable" && <span className="decide">▲ {say("learned.accept.waits")}</span>}
        {said?.outcome === "changed elsewhere" && (
          <span className="decide">▲ {say("learned.accept.elsewhere", { name })}</span>
        )}
        {said?.outcome === "refused" &&
          said.problems.map((problem) => (
            <span key={problem.what} className="harm">
              ✕ {problem.what} {problem.mend}
            </span>
          ))}
      </p>
    </div>
  );
}
