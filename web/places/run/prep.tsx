import { useState } from "react";
import { Button } from "react-aria-components";
import type { PrepList } from "../../../core/run/result.ts";
import { cleanSaid } from "../../../words/allergens-said.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Pick } from "../../parts/pick.tsx";

/** Prep lists by day and station in the order of the plan; a page each on paper. */
export function PrepLists() {
  const { plan, behind } = useTold();
  const { say } = useWords();
  const lists = plan?.prepLists ?? [];
  const { kitchen } = useService();
  const order = kitchen.stations.map((s) => s.id);
  const stations = [...new Map(lists.map((list) => [list.station, list.name]))].sort(
    ([a], [b]) => order.indexOf(a) - order.indexOf(b),
  );
  const [station, setStation] = useState("all");
  const days = [...new Set(lists.map((list) => list.day))];
  if (!plan) return <p className="page quiet">{say("run.planning")}</p>;
  if (lists.length === 0)
    return (
      <div className="page">
        <Empty title={say("prep.none")}>{say("prep.none.what")}</Empty>
      </div>
    );
  const shown = lists.filter((list) => station === "all" || list.station === station);
  return (
    <div className="page" data-behind={behind || undefined}>
      <div className="row no-print">
        <Pick
          label={say("prep.station")}
          hideLabel
          value={station}
          onChange={setStation}
          options={[["all", say("prep.all")], ...stations]}
        />
        <Button className="button" onPress={() => window.print()}>
          {say("prep.print")}
        </Button>
      </div>
      {days.map((day) => (
        <div key={day}>
          {shown
            .filter((list) => list.day === day)
            .map((list) => (
              <List key={list.day + list.station} list={list} />
            ))}
        </div>
      ))}
    </div>
  );
}

function List({ list }: { readonly list: PrepList }) {
  const { say, write } = useWords();
  const { service } = useService();
  const { plan } = useTold();
  const words = (ids: readonly string[]) => write.list(ids.map((id) => wordFor(say, "allergen", id)));
  const covers = plan?.summary.covers ?? service.covers;
  return (
    <section className="sheet-page prep">
      <h2 className="part">
        {list.name} <span className="quiet">{list.day}</span>
      </h2>
      <p className="quiet">
        {write.date(list.date)}
        <span className="print-only">
          {" "}
          · {service.name} · {say("prep.covers", { count: covers })}
        </span>
      </p>
      <ol className="prep-list">
        {list.entries.map((entry) => {
          // "Salted char: Salt. …": the name leads.
          const head = /^[^.]*?: [^.]*\./.exec(entry.text)?.[0] ?? "";
          return (
            <li key={entry.task} className="prep-entry">
              <span className="prep-box" aria-hidden="true" />
              <span className="prep-time">
                {write.hour(entry.start)}
                <span className="quiet small block">{write.hour(entry.end)}</span>
              </span>
              <div className="prep-text">
                <p>
                  <strong>{head}</strong>
                  {entry.text.slice(head.length)}
                </p>
                {entry.clean && <p className="prep-clean">▲ {cleanSaid(say, entry.clean, words)}</p>}
                {entry.note && <p className="quiet">{entry.note}</p>}
                {(entry.pull.length > 0 || entry.equipment.length > 0) && (
                  <p className="quiet small">{[...entry.equipment, ...entry.pull].join(" · ")}</p>
                )}
              </div>
              <strong className="prep-amount">{entry.amount}</strong>
              <span className="prep-hands small">{entry.hands.join(", ")}</span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
