import type { Plan } from "../../../core/run/result.ts";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { blank, Sentence } from "../../parts/sentence.tsx";

/** Busy against open minutes of people and equipment, the fullest first; stores are meant to be full. */
export function Load({ plan }: { readonly plan: Plan }) {
  const { say, write } = useWords();
  const names = useNames();
  const { kitchen } = useService();
  const stores = new Set(
    kitchen.equipment
      .filter((one) => one.capacity.some(({ unit }) => unit === "position"))
      .map((one) => one.id),
  );
  const rows = plan.load
    .map((row, at) => ({ ...row, at }))
    .filter((row) => row.openMin > 0 && row.busyMin > 0 && !stores.has(row.resource.replace(/#\d+$/, "")))
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
              <td className="num">
                <Sentence
                  text={say("plan.load.of", { busy: blank("busy"), open: blank("open") })}
                  figures={{
                    busy: { at: `/plan/load/${row.at}/busyMin`, shown: write.span(row.busyMin) },
                    open: { at: `/plan/load/${row.at}/openMin`, shown: write.span(row.openMin) },
                  }}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
