import type { Plan } from "../../../core/run/result.ts";
import { useWords } from "../../app/settings.tsx";
import { useFirst } from "../../parts/first.tsx";

const MOST = 3;

/** Whether it is proved that no plan keeps every rule, and from which rules alone; else that none was found. */
export function NoPlanNote({ plan }: { readonly plan: Plan }) {
  const { say } = useWords();
  const { noPlan, conflict, schedules } = plan;
  const { shown, more } = useFirst(noPlan?.rules ?? [], MOST);
  if (!noPlan) return null;
  if (!noPlan.proved) return <p>{say("noPlan.searched", { schedules })}</p>;
  const named = shown.length > 0;
  return (
    <>
      <p>
        <strong>{say("noPlan.proved")}</strong>{" "}
        {say(!named ? "noPlan.proved.all" : conflict ? "noPlan.proved.conflict" : "noPlan.proved.rules")}
      </p>
      {named && !conflict && (
        <>
          <ul>
            {shown.map(({ what }) => (
              <li key={what}>{what}</li>
            ))}
          </ul>
          {more}
        </>
      )}
    </>
  );
}
