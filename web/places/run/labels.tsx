import { Button } from "react-aria-components";
import { allergensSaid } from "../../../words/allergens-said.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";

/** Container labels: what, made on, use by and whose clock sets it, allergens. */
export function Labels() {
  const { plan } = useTold();
  const names = useNames();
  const { say, write } = useWords();
  const { clock } = useService();
  if (!plan) return <p className="page quiet">{say("run.planning")}</p>;
  const words = (ids: readonly string[]) => ids.map((id) => wordFor(say, "allergen", id));
  // A label is read away from the run: it says the date.
  const moment = (text: string) => {
    const [day = "", hour] = text.split(" ");
    if (!/^D([-+]\d{1,2})?$/.test(day)) return text;
    const date = write.shortDate(clock.dateOf(day));
    return hour === undefined || hour === "00:00" ? date : `${date}, ${write.hour(text)}`;
  };
  return (
    <div className="page">
      <p className="row no-print">
        <Button className="button" onPress={() => window.print()}>
          {say("labels.print")}
        </Button>
      </p>
      <ul className="labels">
        {plan.labels.map((label) => (
          <li key={`${label.preparation} ${label.batch} ${label.for ?? ""}`} className="label">
            <p className="label-count">{label.count} ×</p>
            <div className="label-text">
              <p className="large">
                <strong>{label.name}</strong>
                {label.for && <span> {label.for}</span>}
              </p>
              <p>
                {write.quantity(label.amount)}, {label.storage}
              </p>
              <p>
                {say("labels.made", { date: moment(label.madeOn) })}{" "}
                <strong>{say("labels.useBy", { date: moment(label.useBy) })}</strong>
              </p>
              {label.useByFrom !== label.preparation && (
                <p className="quiet small">{say("labels.from", { name: names.item(label.useByFrom) })}</p>
              )}
              <p>
                {allergensSaid(
                  say,
                  { ...label, contains: label.allergens },
                  (ids) => write.list(words(ids)),
                  { loud: (ids) => write.list(words(ids).map((word) => word.toUpperCase())) },
                )}
              </p>
            </div>
          </li>
        ))}
      </ul>
    </div>
  );
}
