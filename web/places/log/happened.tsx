import { useEntries, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useSettings } from "../../app/settings.tsx";

/** Everything written down, in the order it happened. */
export function Happened() {
  const { list } = useEntries();
  const { plan } = useTold();
  const names = useNames();
  const { say, write, settings } = useSettings();
  if (list.length === 0) return <p className="quiet">{say("log.nothing")}</p>;
  const taskName = (task: string) => plan?.plan.tasks.find((t) => t.id === task)?.name ?? task;
  const nameOf = ({ task, person, unit, station }: (typeof list)[number]) =>
    task !== undefined
      ? taskName(task)
      : person !== undefined
        ? names.person(person)
        : unit !== undefined
          ? names.equipment(unit)
          : names.station(station ?? "");
  return (
    <section>
      <h2 className="part">{say("log.happened")}</h2>
      <ol className="happened">
        {list.map((entry) => (
          <li key={entry.id}>
            <span className="quiet">
              {new Date(entry.at).toLocaleString(write.preferences.locale, {
                day: "numeric",
                month: "short",
                hour: "2-digit",
                minute: "2-digit",
                hour12: settings.clock === "12",
              })}
            </span>
            <span>
              {entry.kind === "note"
                ? entry.text
                : entry.kind === "reading"
                  ? `${entry.corrects ? `${say("log.corrected")} ` : ""}${names.preparation(entry.preparation ?? "")}: ${entry.unit === "°C" ? write.temperature(entry.value ?? 0) : write.number(entry.value ?? 0, 2)}`
                  : `${say(`log.${entry.kind}`)} ${nameOf(entry)}`}
              {entry.by && <span className="quiet"> {entry.by}</span>}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
