import { useState } from "react";
import { Button } from "react-aria-components";
import type { ControlPoint } from "../../../core/run/result.ts";
import { clockMinutes } from "../../../words/clock.ts";
import { useEntries, useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useSettings, useWords } from "../../app/settings.tsx";
import { Choice } from "../../parts/choice.tsx";
import { Empty } from "../../parts/empty.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { Happened } from "./happened.tsx";
import { Watched } from "./watched.tsx";

/** A page a day: what is to be watched, in the order it comes up, then what happened. */
export function DayView() {
  const { say } = useWords();
  const { plan, amounts } = useTold();
  const { service } = useService();
  const points = (plan ?? amounts)?.control ?? [];
  const days = [
    ...new Set(points.flatMap((p) => (p.when && /^D/.test(p.when) ? [p.when.split(" ")[0]!] : []))),
  ].sort((a, b) => dayOf(a) - dayOf(b));
  const [day, setDay] = useState<string>();
  const shown = day ?? days.at(-1) ?? "all";
  if (!plan && !amounts) return <p className="page quiet">{say("run.computing")}</p>;
  if (points.length === 0)
    return (
      <div className="page">
        <h1>{say("place.log")}</h1>
        <Empty title={say("control.none")}>{say("control.none.what")}</Empty>
        <Happened />
      </div>
    );
  const ofDay = points.filter(
    (p) => shown === "all" || (p.when ?? "").startsWith(`${shown} `) || (!p.when && shown === days.at(-1)),
  );
  return (
    <div className="page">
      <div className="place-head">
        <h1>{say("place.log")}</h1>
        <p className="quiet">{service.name}</p>
      </div>
      <div className="row no-print wrap">
        <Choice
          label={say("log.day")}
          hideLabel
          value={shown}
          onChange={setDay}
          options={[...days.map((d) => [d, d] as const), ["all", say("log.all")] as const]}
        />
        <Button className="button" onPress={() => window.print()}>
          {say("log.print")}
        </Button>
      </div>
      {ofDay
        .toSorted((a, b) => minuteOf(a) - minuteOf(b))
        .map((point) => (
          <Watched key={`${point.preparation} ${point.step} ${point.limit}`} point={point} />
        ))}
      <Happened />
      <Note />
    </div>
  );
}

/** When a point comes up; those without a moment last. */
function minuteOf(point: ControlPoint): number {
  return point.when && /^D/.test(point.when) ? clockMinutes(point.when) : Number.POSITIVE_INFINITY;
}

function dayOf(day: string): number {
  return Number(day.slice(1) || 0);
}

function Note() {
  const { say, settings } = useSettings();
  const { entries } = useEntries();
  const [round, setRound] = useState(0);
  return (
    <div className="no-print log-note">
      <TextEntry
        key={round}
        label={say("log.note")}
        value=""
        onChange={(text) => {
          void entries.write({ kind: "note", text, ...(settings.name === "" ? {} : { by: settings.name }) });
          setRound(round + 1);
        }}
      />
    </div>
  );
}
