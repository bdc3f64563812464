import { useParams } from "@tanstack/react-router";
import { type ReactNode, useState } from "react";
import { Button } from "react-aria-components";
import type { ControlPoint } from "../../../core/run/result.ts";
import { curveDrawing, PAGE_INK } from "../../../drawing/index.ts";
import type { Key } from "../../../words/catalogue.ts";
import { clockMinutes } from "../../../words/clock.ts";
import { useEntries, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useMaybeService, useService } from "../../app/service.tsx";
import { useSettings, useWords } from "../../app/settings.tsx";
import { type Reading, readings } from "../../offline/entry.ts";
import { Choice } from "../../parts/choice.tsx";
import { Drawing } from "../../parts/drawing.tsx";
import { Empty } from "../../parts/empty.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { Views } from "../../parts/views.tsx";
import { NoService } from "../no-service.tsx";
import { ForecastView } from "./forecast.tsx";
import { Happened } from "./happened.tsx";
import { LearnedView } from "./learned.tsx";
import { judge, type Limit, limitOf } from "./limit.ts";
import { LotsView } from "./lots.tsx";
import { ReadingEntry } from "./reading-entry.tsx";
import { RecallView } from "./recall.tsx";
import { toCelsius } from "./typed.ts";
import { WriteView } from "./write/write.tsx";

const VIEWS: readonly (readonly [id: string, key: Key, view: () => ReactNode])[] = [
  ["day", "log.view.day", Pages],
  ["write", "log.view.write", WriteView],
  ["lots", "log.view.lots", LotsView],
  ["learned", "log.view.learned", LearnedView],
  ["forecast", "log.view.forecast", ForecastView],
  ["recall", "log.view.recall", RecallView],
];
const NAMES = VIEWS.map(([id, key]) => [id, key] as const);

/** Log: a page a day; what is to be watched, what happened, what was measured and learned, where lots went. */
export function LogPlace() {
  const here = useMaybeService();
  const { say } = useWords();
  const { view: asked = "day" } = useParams({ strict: false }) as { view?: string };
  if (!here) return <NoService />;
  const [id, , View] = VIEWS.find(([name]) => name === asked) ?? VIEWS[0]!;
  return (
    <>
      <Views place="log" label="log.views" views={NAMES} current={id} />
      {id !== "day" && (
        <div className="page">
          <h1>{say(`log.view.${id}` as Key)}</h1>
        </div>
      )}
      <View />
    </>
  );
}

function Pages() {
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

/** One control point: its limit, a place to write a reading, what was read so far on a small curve. */
function Watched({ point }: { readonly point: ControlPoint }) {
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

function ReadingCurve({
  read,
  limit,
  title,
}: {
  readonly read: readonly Reading[];
  readonly limit: Limit;
  readonly title: string;
}) {
  const { write } = useWords();
  const values = read.flatMap((r) => (r.value === undefined ? [] : [r.value]));
  const times = read.map((r) => Date.parse(r.first.at) / 60_000);
  const [t0, t1] = [Math.min(...times), Math.max(...times)];
  const spread = Math.max(5, Math.max(limit.value, ...values) - Math.min(limit.value, ...values));
  const hour = (minute: number) =>
    new Date(minute * 60_000).toLocaleTimeString(write.preferences.locale, {
      hour: "2-digit",
      minute: "2-digit",
      hour12: write.preferences.clock === "12",
    });
  return (
    <Drawing
      of={curveDrawing(
        {
          points: read.flatMap((r) =>
            r.value === undefined ? [] : [[Date.parse(r.first.at) / 60_000, r.value] as const],
          ),
          limits: [...new Set([limit.value, ...limit.marks.map((mark) => mark.value)])].map((y) => ({
            y,
            side: limit.least ? "below" : "above",
            name: limit.celsius ? write.temperature(y) : write.number(y, 1),
          })),
          x: { from: t0 - 10, to: Math.max(t1, t0 + 60) + 10, step: 15, write: hour },
          y: {
            from: Math.min(limit.value, ...values) - spread * 0.3,
            to: Math.max(limit.value, ...values) + spread * 0.3,
            write: (v) => (limit.celsius ? write.temperature(v) : write.number(v, 1)),
          },
          title,
          width: 300,
          height: 150,
          readings: true,
        },
        PAGE_INK,
      )}
    />
  );
}

/** A reading as first written, with every correction beside it (A7). */
function OneReading({
  reading,
  limit,
  beyond,
}: {
  readonly reading: Reading;
  readonly limit: Limit | undefined;
  readonly beyond: boolean;
}) {
  const { say, write, settings } = useSettings();
  const [correcting, setCorrecting] = useState(false);
  const { entries } = useEntries();
  const show = (value: number | undefined) =>
    value === undefined ? "" : limit?.celsius ? write.temperature(value) : write.number(value, 2);
  const at = new Date(reading.first.at).toLocaleTimeString(write.preferences.locale, {
    hour: "2-digit",
    minute: "2-digit",
    hour12: settings.clock === "12",
  });
  return (
    <div className="reading">
      <p>
        <span className="quiet">{at}</span>{" "}
        {reading.corrections.length > 0 ? (
          <>
            <s>{show(reading.first.value)}</s>
            {reading.corrections.map((c, i) => (
              <span key={c.id}>
                {" "}
                {i < reading.corrections.length - 1 ? (
                  <s>{show(c.value)}</s>
                ) : (
                  <strong>{show(c.value)}</strong>
                )}
              </span>
            ))}
          </>
        ) : (
          <strong>{show(reading.first.value)}</strong>
        )}
        {beyond && <span className="harm"> ✕</span>}
        {reading.first.by && <span className="quiet"> {reading.first.by}</span>}
      </p>
      {correcting ? (
        <TextEntry
          label={say("log.correct.to")}
          className="price"
          value=""
          check={(typed) =>
            typed.trim() === "" ||
            Number.isFinite(toCelsius(typed, limit?.celsius === true && settings.degrees === "F"))
              ? undefined
              : say("log.wrong", { typed })
          }
          onChange={(typed) => {
            setCorrecting(false);
            void entries.write({
              kind: "reading",
              corrects: (reading.corrections.at(-1) ?? reading.first).id,
              value: toCelsius(typed, limit?.celsius === true && settings.degrees === "F"),
              ...(reading.first.preparation === undefined ? {} : { preparation: reading.first.preparation }),
              ...(reading.first.step === undefined ? {} : { step: reading.first.step }),
              ...(settings.name === "" ? {} : { by: settings.name }),
            });
          }}
        />
      ) : (
        <Button className="button quiet-button no-print" onPress={() => setCorrecting(true)}>
          {say("log.correct")}
        </Button>
      )}
    </div>
  );
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
