import type { Plan } from "../../../core/run/result.ts";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";

/** Busy against open minutes of people and equipment, the fullest first. */
export function Load({ plan }: { readonly plan: Plan }) {
  const { say, write } = useWords();
  const names = useNames();
  const rows = plan.load
    .filter((row) => row.openMin > 0 && row.busyMin > 0)
    .sort((a, b) => b.busyMin / b.openMin - a.busyMin / a.openMin)
    .slice(0, 8);
  if (rows.length === 0) return null;
  return (
    <section className="note">
      <h2 className="note-title">{say("plan.load")}</h2>
      <table className="table small-table">
        <thead className="unseen">
          <tr>
            <th>{say("plan.load.who")}</th>
            <th>{say("plan.load.day")}</th>
            <th>{say("plan.load.share")}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.resource + row.day}>
              <th scope="row">{names.crew.get(row.resource) ?? names.equipment(row.resource)}</th>
              <td className="quiet">{row.day}</td>
              <td className="num">{write.share(row.busyMin / row.openMin)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
