import { Button } from "react-aria-components";
import type { SeatCourse, SeatLine } from "../../../core/safety/seating.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";
import { VariantWords } from "./variant-words.tsx";

/** Who sits where and gets what at each course, table by table; changed plates, traces and what is missing are marked. */
export function Seating() {
  const { amounts, plan, behind } = useTold();
  const { menu } = useService();
  const names = useNames();
  const { say, write } = useWords();
  const told = behind ? amounts : (plan ?? amounts);
  if (!told) return null;
  const { seats, rest } = told.seating;
  const tables = [...Map.groupBy(seats, tableOf)];
  return (
    <div className="page sheet-page seating">
      <div className="row no-print">
        <Button className="button" onPress={() => window.print()}>
          {say("prep.print")}
        </Button>
      </div>
      <p className={behind ? "decide" : "quiet"}>
        {behind ? `▲ ${say("seating.planFirst")}` : say("seating.checked")}
      </p>
      {seats.length === 0 && <p>{say("seating.none")}</p>}
      {tables.map(([table, own]) => (
        <section key={table} className="seat-table">
          <h2 className="part">
            {table === NO_SEAT
              ? say("seating.noSeat")
              : table === NO_TABLE
                ? say("seating.noTable")
                : say("seating.table", { table })}
          </h2>
          {own.map((seat) => (
            <Seat key={seat.group} seat={seat} />
          ))}
        </section>
      ))}
      {rest.length > 0 && (
        <section className="seat-table">
          <h2 className="part">{say("seating.rest")}</h2>
          <ul className="rows">
            {rest.map((one, i) => (
              <li key={one.course + one.dish}>
                <span className="quiet">
                  {menu?.courses.find((course) => course.id === one.course)?.name ?? one.course}
                </span>{" "}
                <Figure at={`/seating/rest/${i}/count`} label={names.dish(one.dish)}>
                  {write.number(one.count, 0)} ×
                </Figure>{" "}
                <span className="dish">{names.dish(one.dish)}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

const NO_SEAT = "\u0000";
const NO_TABLE = "\u0001";
const tableOf = (seat: SeatLine) => (seat.seat === undefined ? NO_SEAT : (seat.table ?? NO_TABLE));

function Seat({ seat }: { readonly seat: SeatLine }) {
  const { menu } = useService();
  const names = useNames();
  const { say, write } = useWords();
  const needs = seat.needs.map((need) => wordFor(say, "need", need));
  return (
    <article className="seat" data-missing={seat.courses.some((one) => one.missing) || undefined}>
      <h3>
        <strong className="seat-at">{seat.seat ?? seat.group.replaceAll("-", " ")}</strong>
        {seat.count > 1 && <span> {seat.count} ×</span>}{" "}
        <span className="seat-needs">{needs.length > 0 ? write.list(needs) : say("guests.none")}</span>
      </h3>
      {seat.beside && (
        <p className="harm">
          ✕{" "}
          {say("seating.beside", {
            items: seat.beside
              .map(({ item, against }) =>
                say("seating.beside.one", {
                  item: names.item(item.preparation ?? item.ingredient ?? ""),
                  why: write.list(against.map(({ need, why }) => `${wordFor(say, "need", need)}: ${why}`)),
                }),
              )
              .join("; "),
          })}
        </p>
      )}
      <dl className="seat-courses">
        {seat.courses.map((one) => (
          <div key={one.course} data-changed={one.changes.length > 0 || undefined}>
            <dt>{menu?.courses.find((course) => course.id === one.course)?.name ?? one.course}</dt>
            <dd>
              <Plate of={one} />
            </dd>
          </div>
        ))}
      </dl>
    </article>
  );
}

function Plate({ of }: { readonly of: SeatCourse }) {
  const { menu } = useService();
  const names = useNames();
  const { say, write } = useWords();
  if (of.missing) {
    const course = menu?.courses.find((one) => one.id === of.course)?.name ?? of.course;
    return (
      <>
        <p className="harm">✕ {say("seating.missing", { course })}</p>
        <p className="small">{say("seating.why", { why: of.missing.why })}</p>
        <p className="small">{say("seating.mend", { mend: of.missing.mend })}</p>
      </>
    );
  }
  if (of.dish === undefined) return <p className="quiet">{say("seating.shares")}</p>;
  return (
    <>
      <p>
        <span className="dish">{names.dish(of.dish)}</span>
        <VariantWords of={of.variant ?? ""} />
      </p>
      {of.changes.length > 0 && (
        <p className="small">
          <strong>▲ {say("seating.changed")}:</strong> {of.changes.join("; ")}
        </p>
      )}
      {of.traces.map((trace) => (
        <p key={trace.way.tasks.join()} className="decide small">
          ◐ {wordFor(say, "need", trace.need)}:{" "}
          {say("seating.traces", {
            place: trace.way.placeName,
            at: write.clock(trace.way.at),
            how: trace.way.how,
            from: trace.way.from.map(names.item).join(" › "),
          })}{" "}
          {say("seating.tracesMend", { mend: trace.mend })}
        </p>
      ))}
      {of.flags?.map(({ flag, against }) => (
        <div key={flag} className="small">
          <p>
            {against.length > 0
              ? say("seating.flag", {
                  flag: wordFor(say, "flag", flag),
                  list: write.list(
                    against.map(({ why, path }) => `${why} (${path.map(names.item).join(" › ")})`),
                  ),
                })
              : say("seating.flag.nothing", { flag: wordFor(say, "flag", flag) })}
          </p>
          <p className="quiet">{say("seating.flags", { flag: wordFor(say, "flag", flag) })}</p>
        </div>
      ))}
    </>
  );
}
