import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Empty } from "../../parts/empty.tsx";

/** Pans, moulds, trays, film: what to lay ready, by day. */
export function PullList() {
  const { plan, amounts } = useTold();
  const names = useNames();
  const { say, write } = useWords();
  const items = (plan ?? amounts)?.pull ?? [];
  const days = [...new Set(items.map((item) => item.day))];
  if (items.length === 0)
    return (
      <div className="page">
        <Empty title={say("pull.none")}>{say("pull.none.what")}</Empty>
      </div>
    );
  return (
    <div className="page">
      {days.map((day) => (
        <section key={day} className="sheet-page">
          <h2 className="part">{day}</h2>
          <table className="table">
            <thead>
              <tr>
                <th className="num">{say("pull.count")}</th>
                <th>{say("pull.what")}</th>
                <th>{say("pull.station")}</th>
                <th>{say("pull.for")}</th>
              </tr>
            </thead>
            <tbody>
              {items
                .filter((item) => item.day === day)
                .map((item) => (
                  <tr key={item.smallware + (item.station ?? "")}>
                    <td className="num">
                      <strong>{write.number(item.count, 1)}</strong>
                    </td>
                    <th scope="row">{item.smallware}</th>
                    <td>{item.station && names.station(item.station)}</td>
                    <td className="quiet small">{item.for.map(names.item).join(", ")}</td>
                  </tr>
                ))}
            </tbody>
          </table>
        </section>
      ))}
    </div>
  );
}
