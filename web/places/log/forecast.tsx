import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { courseForecast, optionsOf } from "../../../core/learning/course-forecast.ts";
import { coversOf } from "../../../core/learning/forecast.ts";
import { COVERS_AT, courseAt, courseTrace, coversTrace } from "../../../core/learning/forecast-trace.ts";
import type { Covers } from "../../../core/learning/schema.ts";
import type { Menu } from "../../../core/production/schema.ts";
import type { Standing } from "../../../core/safety/log-lines.ts";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useCovers, useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Figure } from "../../parts/figure.tsx";
import { blank, Sentence } from "../../parts/sentence.tsx";
import { Table } from "../../parts/table.tsx";
import { TraceSource } from "../../parts/trace-source.ts";
import { forecastSource } from "./forecast-source.ts";
import { useCame } from "./use-came.ts";

/** How many will come, and what they will choose, by past services; each can be tried in the service. */
export function ForecastView() {
  const { say } = useWords();
  const { ready, past, came } = useCame();
  const { service, menu } = useService();
  const { store } = useBook();
  const [guaranteed, setGuaranteed] = useState(service.covers);
  const source = useMemo(
    () => forecastSource(() => coversTrace(came, guaranteed), String, say),
    [came, guaranteed, say],
  );
  if (!ready) return <p className="page quiet">{say("log.reading.all")}</p>;
  if (past.length === 0 || !menu)
    return (
      <div className="page">
        <Empty title={say("forecast.none")}>{say("forecast.none.what")}</Empty>
      </div>
    );
  const covers = coversOf(came, guaranteed);
  const of = (name: keyof typeof covers) => ({ at: `${COVERS_AT}/${name}`, shown: covers[name] });
  return (
    <div className="page forecast">
      <h2>{say("forecast.covers")}</h2>
      <p className="sentence">
        <TraceSource value={source}>
          <Sentence
            text={say("forecast.sentence", {
              ...{ services: covers.services, past: blank("services"), guaranteed: blank("guaranteed") },
              ...{ expected: blank("expected"), set: blank("set"), low: blank("low"), high: blank("high") },
            })}
            figures={{
              ...{ services: of("services"), guaranteed: of("guaranteed"), expected: of("expected") },
              ...{ low: of("low"), high: of("high"), set: of("set") },
            }}
          />
        </TraceSource>
      </p>
      <div className="row wrap">
        <CountEntry
          label={say("forecast.guarantee")}
          value={guaranteed}
          least={1}
          onChange={(next) => setGuaranteed(Math.round(next))}
        />
        {covers.set !== service.covers && (
          <Button
            className="button"
            onPress={() => store.edit("services", { ...service, covers: covers.set })}
          >
            {say("forecast.try", { count: covers.set })}
          </Button>
        )}
      </div>
      {menu.courses
        .filter(({ options }) => options.length > 1)
        .map((course) => (
          <Course key={course.id} menu={menu} course={course} past={past} />
        ))}
    </div>
  );
}

function Course({
  menu,
  course,
  past,
}: {
  readonly menu: Menu;
  readonly course: Menu["courses"][number];
  readonly past: readonly Standing<Covers>[];
}) {
  const { say, write } = useWords();
  const { store, library } = useBook();
  const { service } = useService();
  const { covers } = useCovers();
  const names = useNames();
  const asked = useMemo(
    () => ({ menu, course, service, covers, past }),
    [menu, course, service, covers, past],
  );
  const source = useMemo(() => {
    const dish = (place: number) => names.dish(optionsOf(course)[place]!.dish);
    const [menuAt, serviceAt] = [library.pointer("menus", menu.id), library.pointer("services", service.id)];
    return forecastSource(() => courseTrace(asked, menuAt, serviceAt), dish, say);
  }, [asked, library, menu, service, course, names, say]);
  const options = optionsOf(course);
  if (options.length < 2) return null;
  const told = courseForecast(asked);
  const { dishes } = told;
  const at = courseAt(course.id);
  const percent = dishes.map(({ share }) => Math.round(share * 100));
  const same = options.every((_, i) => Math.abs(dishes[i]!.menu - dishes[i]!.share) < 0.005);
  return (
    <TraceSource value={source}>
      <section>
        <h2 className="part">{say("forecast.course", { course: course.name })}</h2>
        <Table
          heads={[
            [say("forecast.dish")],
            [say("forecast.menu"), "num"],
            [say("forecast.share"), "num"],
            [say("forecast.plates"), "num"],
          ]}
        >
          <tbody>
            {dishes.map((one, i) => {
              const figure = (key: "menu" | "share" | "mean", shown: string) => (
                <Figure at={`${at}/dishes/${i}/${key}`} unfold="over" label={names.dish(one.dish)}>
                  {shown}
                </Figure>
              );
              return (
                <tr key={one.dish}>
                  <th scope="row" className="dish">
                    {names.dish(one.dish)}
                  </th>
                  <td className="num">{figure("menu", write.share(one.menu))}</td>
                  <td className="num">{figure("share", write.share(one.share))}</td>
                  <td className="num">
                    {figure("mean", write.number(one.mean, 0))}{" "}
                    <span className="quiet forecast-ends">
                      <Sentence
                        text={say("forecast.range", { low: blank("low"), high: blank("high") })}
                        figures={{
                          low: { at: `${at}/dishes/${i}/low`, shown: one.low },
                          high: { at: `${at}/dishes/${i}/high`, shown: one.high },
                        }}
                      />
                    </span>
                  </td>
                </tr>
              );
            })}
          </tbody>
        </Table>
        <p className="quiet">
          <Sentence
            text={say("forecast.past", {
              ...{ services: told.services, past: blank("services") },
              ...{ covers: blank("came"), prior: blank("prior") },
            })}
            figures={{
              services: { at: `${at}/services`, shown: told.services },
              came: { at: `${at}/came`, shown: told.came },
              prior: { at: `${at}/prior`, shown: told.prior },
            }}
          />{" "}
          {told.dispersion > 1.05 && (
            <Sentence
              text={say("forecast.apart", { times: blank("times") })}
              figures={{ times: { at: `${at}/dispersion`, shown: write.number(told.dispersion, 1) } }}
            />
          )}
        </p>
        {same ? (
          <p className="quiet">{say("forecast.shares.same")}</p>
        ) : (
          <p className="row">
            <Button
              className="button"
              onPress={() =>
                store.edit("menus", {
                  ...menu,
                  courses: menu.courses.map((one) =>
                    one.id === course.id
                      ? {
                          ...one,
                          options: one.options.map((option) => {
                            const at = options.findIndex(({ dish }) => dish === option.dish);
                            return at < 0 ? option : { ...option, share: percent[at]! };
                          }),
                        }
                      : one,
                  ),
                })
              }
            >
              {say("forecast.shares")}
            </Button>
          </p>
        )}
      </section>
    </TraceSource>
  );
}
