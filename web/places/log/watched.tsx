import type { ControlPoint } from "../../../core/run/result.ts";
import { useEntries } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { type Reading, readings } from "../../offline/entry.ts";
import { judge, type Limit, limitOf } from "./limit.ts";
import { OneReading } from "./one-reading.tsx";
import { ReadingCurve } from "./reading-curve.tsx";
import { ReadingEntry } from "./reading-entry.tsx";

/** One control point: its limit, a place to write a reading, what was read so far on a small curve. */
export function Watched({ point }: { readonly point: ControlPoint }) {
  const names = useNames();
  const { say, write } = useWords();
  const { list } = useEntries();
  const limit = limitOf(point);
  const read = readings(list).filter(
    ({ first }) =>
      first.preparation === point.preparation &&
      first.step === point.step &&
      (first.act === undefined || first.act === point.act),
  );
  const state = (reading: Reading) => stateOf(reading, read, limit);
  const last = read.at(-1);
  const now = last && state(last);
  return (
    <section className="line watched sheet-page">
      <div className="line-main">
        <h2 className="watched-name">
          {names.item(point.preparation)}
          {point.level === "critical" && <span className="critical"> {say("log.critical")}</span>}
        </h2>
        <p className="large">
          <strong>{point.limit}</strong>
          {point.when && /^D/.test(point.when) && <span className="quiet"> {write.clock(point.when)}</span>}
        </p>
        <p>{point.monitor}</p>
        {now === "on the way" && <p className="decide">▲ {say("log.onTheWay")}</p>}
        {now === "beyond" && (
          <p className="harm large" role="alert">
            ✕ {say("log.beyond")} {point.corrective}
          </p>
        )}
        <ReadingEntry point={point} limit={limit} />
        {read.map((reading) => (
          <OneReading
            key={reading.first.id}
            reading={reading}
            limit={limit}
            beyond={state(reading) === "beyond"}
          />
        ))}
        <div className="print-only write-here" aria-hidden="true">
          {[1, 2, 3].map((n) => (
            <span key={n}>{say("log.paper")}</span>
          ))}
        </div>
      </div>
      <div className="line-margin always">
        {limit && read.length > 0 && (
          <ReadingCurve
            read={read}
            limit={limit}
            title={`${names.item(point.preparation)}, ${point.limit}`}
          />
        )}
        <p className="quiet small">{say("log.else", { corrective: point.corrective })}</p>
        {point.source && <p className="quiet small">{point.source}</p>}
      </div>
    </section>
  );
}

/** A reading against the limit, minutes counted from the first reading of its point. */
function stateOf(reading: Reading, all: readonly Reading[], limit: Limit | undefined) {
  if (reading.value === undefined || limit === undefined) return undefined;
  const first = Math.min(...all.map((one) => Date.parse(one.first.at)));
  return judge(reading.value, limit, (Date.parse(reading.first.at) - first) / 60_000);
}
