import { LIVE_KINDS, type LiveBody } from "../../../core/production/live-schema.ts";
import { useEntries, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useSettings } from "../../app/settings.tsx";
import { type Entry, toSent } from "../../offline/entry.ts";
import type { Recorded } from "../../offline/use-log.ts";
import { useRecordWords } from "./record-words.ts";
import { useMoment } from "./use-moment.ts";

function isLive(kind: Entry["kind"]): kind is LiveBody["kind"] {
  return LIVE_KINDS.has(kind);
}

/** Everything written down, in the order it happened. */
export function Happened() {
  const { list } = useEntries();
  const { plan } = useTold();
  const names = useNames();
  const { say, write } = useSettings();
  const moment = useMoment();
  const recordWords = useRecordWords();
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
            <span className="quiet">{moment(entry.at)}</span>
            <span>
              {entry.kind === "note"
                ? entry.text
                : entry.kind === "reading"
                  ? `${entry.corrects ? `${say("log.corrected")} ` : ""}${names.preparation(entry.preparation ?? "")}: ${entry.unit === "°C" ? write.temperature(entry.value ?? 0) : write.number(entry.value ?? 0, 2)}`
                  : isLive(entry.kind)
                    ? `${say(`log.${entry.kind}`)} ${nameOf(entry)}`
                    : `${entry.corrects ? `${say("log.corrected")} ` : ""}${recordWords(toSent(entry).body as Recorded)}`}
              {entry.refused && <span className="harm"> ✕ {say("log.refused", { why: entry.refused })}</span>}
              {entry.by && <span className="quiet"> {entry.by}</span>}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
