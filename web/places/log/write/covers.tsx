import { useState } from "react";
import { Button } from "react-aria-components";
import { useTold } from "../../../app/hands.tsx";
import { useNames } from "../../../app/names.ts";
import { useService } from "../../../app/service.tsx";
import { useWords } from "../../../app/settings.tsx";
import { useRecord } from "../../../offline/use-log.ts";
import { CountEntry } from "../../../parts/count-entry.tsx";
import { Pick } from "../../../parts/pick.tsx";

/** Plates of a course as they were eaten: begins with what was planned, so that only differences are typed. */
export function CoversServed() {
  const { say } = useWords();
  const { amounts } = useTold();
  const { service, menu } = useService();
  const names = useNames();
  const record = useRecord();
  const [course, setCourse] = useState(
    menu?.courses.find(({ options }) => options.length > 1)?.id ?? menu?.courses[0]?.id ?? "",
  );
  const [counts, setCounts] = useState<Readonly<Record<string, number>>>({});
  const [guaranteed, setGuaranteed] = useState(service.covers);
  const here = menu?.courses.find(({ id }) => id === course);
  if (!here) return <p className="quiet">{say("write.nothing")}</p>;
  const planned = (dish: string) =>
    (amounts?.plates ?? [])
      .filter((row) => row.course === course && row.dish === dish)
      .reduce((sum, row) => sum + row.count, 0);
  const count = (dish: string) => counts[`${course} ${dish}`] ?? planned(dish);
  return (
    <form
      className="measuring"
      onSubmit={(event) => {
        event.preventDefault();
        record({
          ...{ kind: "covers", menu: service.menu, course, guaranteed },
          dishes: here.options.map(({ dish }) => ({ dish, count: count(dish) })),
        });
        setCounts({});
      }}
    >
      <Pick
        label={say("write.which")}
        value={course}
        options={(menu?.courses ?? []).map(({ id, name }) => [id, name] as const)}
        onChange={setCourse}
      />
      <div className="row wrap measure-figures">
        {here.options.map(({ dish }) => (
          <CountEntry
            key={dish}
            label={names.dish(dish)}
            value={count(dish)}
            onChange={(next) => setCounts({ ...counts, [`${course} ${dish}`]: Math.round(next) })}
          />
        ))}
        <CountEntry
          label={say("write.guaranteed")}
          value={guaranteed}
          least={1}
          onChange={(next) => setGuaranteed(Math.round(next))}
        />
        <Button type="submit" className="button big-button">
          {say("write.down")}
        </Button>
      </div>
    </form>
  );
}
