import { useState } from "react";
import { Button } from "react-aria-components";
import { coversOf, dishesOf, MENU_COVERS, sharesAfter } from "../../../core/learning/forecast.ts";
import type { Covers } from "../../../core/learning/schema.ts";
import type { Menu } from "../../../core/production/schema.ts";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useCovers, useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Table } from "../../parts/table.tsx";
import { useCame } from "./use-came.ts";

/** How many will come, and what they will choose, by past services; each can be tried in the service. */
export function ForecastView() {
  const { say } = useWords();
  const { ready, past, came } = useCame();
  const { service, menu } = useService();
  const { store } = useBook();
  const [guaranteed, setGuaranteed] = useState(service.covers);
  if (!ready) return <p className="page quiet">{say("log.reading.all")}</p>;
  if (past.length === 0 || !menu)
    return (
      <div className="page">
        <Empty title={say("forecast.none")}>{say("forecast.none.what")}</Empty>
      </div>
    );
  const covers = coversOf(came, guaranteed);
  return (
    <div className="page forecast">
      <h2>{say("forecast.covers")}</h2>
      <p className="sentence">{say("forecast.sentence", { ...covers })}</p>
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
  readonly past: readonly Covers[];
}) {
  const { say, write } = useWords();
  const { store } = useBook();
  const { service } = useService();
  const { covers } = useCovers();
  const names = useNames();
  // Dishes meant for needs are placed by them: shares are for everyone else.
  const options = course.options.filter((option) => option.share > 0 || option.for === undefined);
  const held = past
    .filter((body) => body.menu === menu.id && body.course === course.id)
    .map((body) => options.map(({ dish }) => body.dishes.find((one) => one.dish === dish)?.count ?? 0));
  if (options.length < 2) return null;
  const placed = service.guests
    .filter(
      ({ needs, choices }) =>
        choices.some((choice) => choice.course === course.id) ||
        course.options.some((option) => option.for?.some((need) => needs.includes(need))),
    )
    .reduce((sum, { count }) => sum + count, 0);
  const open = Math.max(0, covers - placed);
  const shares = sharesAfter(
    options.map(({ share }) => share),
    held,
  );
  const dishes = dishesOf(shares, open);
  const total = options.reduce((sum, { share }) => sum + share, 0);
  const percent = dishes.map(({ share }) => Math.round(share * 100));
  const same = options.every(({ share }, i) => Math.abs(share / total - dishes[i]!.share) < 0.005);
  return (
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
          {options.map(({ dish, share }, i) => (
            <tr key={dish}>
              <th scope="row" className="dish">
                {names.dish(dish)}
              </th>
              <td className="num">{write.share(share / total)}</td>
              <td className="num">{write.share(dishes[i]!.share)}</td>
              <td className="num">
                {write.number(dishes[i]!.mean, 0)}{" "}
                <span className="quiet">
                  {say("forecast.range", { low: dishes[i]!.low, high: dishes[i]!.high })}
                </span>
              </td>
            </tr>
          ))}
        </tbody>
      </Table>
      <p className="quiet">
        {say("forecast.past", {
          ...{ services: held.length, prior: MENU_COVERS },
          covers: held.flat().reduce((sum, n) => sum + n, 0),
        })}{" "}
        {shares.dispersion > 1.05 && say("forecast.apart", { times: write.number(shares.dispersion, 1) })}
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
  );
}
