import { Button } from "react-aria-components";
import { ALLERGENS } from "../../../core/pantry/schema.ts";
import { DIETS, type Need } from "../../../core/plating/schema.ts";
import type { GuestGroup } from "../../../core/production/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { variantWords } from "../../../words/variant.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Checks } from "../../parts/checks.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Line } from "../../parts/line.tsx";
import { Pick } from "../../parts/pick.tsx";
import { Table } from "../../parts/table.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { FlagWords, GuestFlags } from "./guest-flags.tsx";
import { GuestList } from "./guest-list.tsx";
import { ServiceEntries } from "./service-entries.tsx";
import { VariantWords } from "./variant-words.tsx";

const NEEDS: readonly Need[] = [...DIETS, ...ALLERGENS.map((a) => `no-${a}` as const)];

/** Guests with needs by seat, and what everyone is served. */
export function Guests() {
  const { service } = useService();
  const { amounts } = useTold();
  const covers = amounts?.summary.covers ?? service.covers;
  const { store } = useBook();
  const { say } = useWords();
  const withNeeds = service.guests.reduce((sum, group) => sum + group.count, 0);
  const set = (guests: GuestGroup[]) => store.edit("services", { ...service, guests });
  const add = () => {
    const taken = new Set(service.guests.map((g) => g.id));
    let n = service.guests.length + 1;
    while (taken.has(`guest-${n}`)) n++;
    set([...service.guests, { id: `guest-${n}`, count: 1, needs: [], choices: [] }]);
  };
  return (
    <div className="page">
      <Plates />
      <h2 className="part">{say("service.title")}</h2>
      <ServiceEntries service={service} onChange={(next) => store.edit("services", next)} />
      <h2 className="part">{say("guests.seats")}</h2>
      <p className="quiet">
        {say("guests.rest", { needs: withNeeds, rest: Math.max(0, covers - withNeeds) })}
      </p>
      <GuestList guests={service.guests} onChange={set} />
      {service.guests.map((group, i) => (
        <Guest
          key={group.id}
          group={group}
          onChange={(next) => set(service.guests.with(i, next))}
          onRemove={() => set(service.guests.toSpliced(i, 1))}
        />
      ))}
      <p className="row">
        <Button className="button" onPress={add}>
          {say("guests.add")}
        </Button>
      </p>
    </div>
  );
}

function Guest({
  group,
  onChange,
  onRemove,
}: {
  readonly group: GuestGroup;
  readonly onChange: (g: GuestGroup) => void;
  readonly onRemove: () => void;
}) {
  const { say } = useWords();
  const { menu } = useService();
  const names = useNames();
  const { amounts } = useTold();
  // What is the same for everyone needs no saying: only choices and variants are.
  const served = (amounts?.plates ?? []).filter(
    (plate) =>
      group.seat !== undefined &&
      plate.seats.includes(group.seat) &&
      (plate.variant !== "standard" ||
        (menu?.courses.find((c) => c.id === plate.course)?.options.length ?? 1) > 1),
  );
  const { write } = useWords();
  const title = group.seat ?? group.id;
  const needs = group.needs.map((need) => wordFor(say, "need", need));
  return (
    <Line
      className="guest"
      mark={`${group.count} ×`}
      margin={
        <ul className="plain small">
          {served.map((plate) => (
            <li key={plate.course + plate.dish + plate.variant}>
              {names.dish(plate.dish)}
              <VariantWords of={plate.variant} />
            </li>
          ))}
        </ul>
      }
    >
      <Fold
        summary={
          <>
            <strong>{title}</strong>
            <span className="quiet"> {group.count > 1 && `${group.count} × `}</span>{" "}
            {needs.length > 0 ? write.list(needs) : say("guests.none")}
            {group.flags && <FlagWords flags={group.flags} />}
          </>
        }
      >
        <div className="guest-edit">
          <TextEntry
            label={say("guests.seat")}
            value={group.seat ?? ""}
            onChange={(seat) => onChange(seat === "" ? without(group, "seat") : { ...group, seat })}
          />
          <CountEntry
            label={say("guests.count")}
            value={group.count}
            least={1}
            onChange={(count) => onChange({ ...group, count })}
          />
          <Checks
            label={say("guests.needs")}
            value={group.needs}
            options={NEEDS.map((need) => [need, wordFor(say, "need", need)])}
            onChange={(needs) => onChange({ ...group, needs })}
          />
          <GuestFlags group={group} onChange={onChange} />
          {menu?.courses
            .filter((course) => course.options.length > 1)
            .map((course) => (
              <Pick
                key={course.id}
                label={course.name}
                value={group.choices.find((c) => c.course === course.id)?.dish ?? "any"}
                options={[
                  ["any", say("guests.any")],
                  ...course.options.map((o) => [o.dish, names.dish(o.dish)] as const),
                ]}
                onChange={(dish) =>
                  onChange({
                    ...group,
                    choices: [
                      ...group.choices.filter((c) => c.course !== course.id),
                      ...(dish === "any" ? [] : [{ course: course.id, dish }]),
                    ],
                  })
                }
              />
            ))}
          <Button className="button quiet-button" onPress={onRemove}>
            {say("guests.remove", { seat: title })}
          </Button>
        </div>
      </Fold>
    </Line>
  );
}

function without<T extends object, K extends keyof T>(value: T, key: K): Omit<T, K> & Partial<Pick<T, K>> {
  const { [key]: _, ...rest } = value;
  return rest as Omit<T, K> & Partial<Pick<T, K>>;
}

/** Plates by course, dish and variant; who could not be placed is named. */
function Plates() {
  const { menu } = useService();
  const { amounts } = useTold();
  const names = useNames();
  const { say, write } = useWords();
  if (!amounts) return null;
  const notFed = amounts.plates.flatMap((plate) =>
    plate.notFed.map((who) => ({ course: plate.course, who })),
  );
  return (
    <>
      <h2 className="part">{say("guests.plates")}</h2>
      {notFed.map(({ course, who }) => (
        <p key={course + who} className="harm" role="alert">
          ✕{" "}
          {say("guests.notFed", { who, course: menu?.courses.find((c) => c.id === course)?.name ?? course })}
        </p>
      ))}
      <Table
        heads={[
          [say("guests.dish")],
          [say("guests.variant")],
          [say("guests.count"), "num"],
          [say("guests.spare"), "num"],
          [say("guests.plateG"), "num wide-only"],
          [say("guests.seat"), "wide-only"],
        ]}
      >
        {(menu?.courses ?? []).map((course) => (
          <tbody key={course.id}>
            <tr>
              <th colSpan={6} scope="rowgroup" className="group">
                {course.name}
              </th>
            </tr>
            {amounts.plates.map((plate, i) =>
              plate.course !== course.id || plate.count + plate.spare === 0 ? null : (
                <tr key={plate.dish + plate.variant}>
                  <th scope="row" className="dish">
                    {names.dish(plate.dish)}
                  </th>
                  <td>
                    {variantWords(say, plate.variant) ?? (
                      <span className="quiet">{say("guests.standard")}</span>
                    )}
                  </td>
                  <td className="num">
                    <Figure at={`/plates/${i}/count`} unfold="over" label={names.dish(plate.dish)}>
                      {write.number(plate.count, 0)}
                    </Figure>
                  </td>
                  <td className="num quiet">{plate.spare > 0 ? `+ ${write.number(plate.spare, 0)}` : ""}</td>
                  <td className="num wide-only">{write.mass(plate.plateG)}</td>
                  <td className="small wide-only">{plate.seats.join(", ")}</td>
                </tr>
              ),
            )}
          </tbody>
        ))}
      </Table>
    </>
  );
}
