import { Button } from "react-aria-components";
import { editedDocument } from "../../../core/production/apply.ts";
import type { Plan } from "../../../core/run/result.ts";
import { useBook } from "../../app/hands.tsx";
import { useCovers, useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import type { DocumentOf } from "../../book/trial.ts";
import { useFirst } from "../../parts/first.tsx";

const MOST = 6;
const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Rules that cannot all be kept, where the planner found them. */
export function ConflictNote({
  plan,
  onChoose,
}: {
  readonly plan: Plan;
  readonly onChoose: (id: string) => void;
}) {
  const { say } = useWords();
  const rules = plan.conflict ?? [];
  const { shown, more } = useFirst(rules, MOST);
  if (rules.length === 0) return null;
  return (
    <section className="note">
      <h2 className="note-title">{say("conflict.title")}</h2>
      <ul className="rows">
        {shown.map((rule) => (
          <li key={rule.what}>
            {rule.tasks[0] === undefined ? (
              sentence(rule.what)
            ) : (
              <Button className="link-button why-link" onPress={() => onChoose(rule.tasks.at(-1)!)}>
                {sentence(rule.what)}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {more}
      <p className="quiet small">{say("conflict.any")}</p>
    </section>
  );
}

/** What was tried by computation, each with its effect; one tap makes it a trial on the page. */
export function Remedies({ plan }: { readonly plan: Plan }) {
  const { say } = useWords();
  const { store, library } = useBook();
  const { setCovers } = useCovers();
  const { setKitchen } = useService();
  if (plan.remedies.length === 0) return null;
  const attempt = ({ apply }: Plan["remedies"][number]) => {
    if (apply.covers !== undefined) setCovers(apply.covers, true);
    if (apply.kitchen !== undefined) setKitchen(apply.kitchen);
    const edits = apply.edits ?? [];
    // One gesture: taken back together.
    const gesture = `remedy ${Date.now()}`;
    for (const kind of ["kitchens", "services", "preparations"] as const)
      for (const id of new Set(edits.flatMap((edit) => (edit.document === kind ? [edit.id] : [])))) {
        const document = library[kind].get(id);
        const own = edits.filter((edit) => edit.document === kind && edit.id === id);
        if (document) store.edit(kind, editedDocument(document, own) as DocumentOf<typeof kind>, gesture);
      }
  };
  return (
    <section className="note">
      <h2 className="note-title">{say("plan.remedies")}</h2>
      <ul className="rows">
        {plan.remedies.map((remedy) => (
          <li key={remedy.change} className="remedy">
            <p>
              <strong>{sentence(remedy.change)}</strong>
            </p>
            <p className={remedy.status === "feasible" ? "done" : "decide"}>
              {remedy.status === "feasible" ? "✓" : "▲"} {sentence(remedy.result)}
            </p>
            <Button
              className="button quiet-button"
              aria-label={say("remedy.try.what", { what: remedy.change })}
              onPress={() => attempt(remedy)}
            >
              {say("remedy.try")}
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
