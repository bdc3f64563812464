import type { Service } from "../../../core/production/schema.ts";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Pick } from "../../parts/pick.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";

const MOMENT = /^(\d{4}-\d{2}-\d{2})[T ](\d{1,2}):(\d{2})$/;

/** "2027-01-30 19:30" as a document keeps it; undefined when it is no moment of the calendar. */
export function readMoment(typed: string): string | undefined {
  const read = MOMENT.exec(typed.trim());
  if (!read) return undefined;
  const [, date = "", hour = "", minute = ""] = read;
  const real = new Date(`${date}T00:00:00Z`);
  if (Number.isNaN(real.getTime()) || real.toISOString().slice(0, 10) !== date) return undefined;
  if (Number(hour) > 23 || Number(minute) > 59) return undefined;
  return `${date}T${hour.padStart(2, "0")}:${minute}`;
}

/** What a service says of itself: name, moment, menu, kitchen, covers, plates for tasting. */
export function ServiceEntries({
  service,
  onChange,
}: {
  readonly service: Service;
  readonly onChange: (service: Service) => void;
}) {
  const { say } = useWords();
  const { book } = useBook();
  return (
    <div className="service-entries">
      <TextEntry
        label={say("service.name")}
        value={service.name}
        onChange={(name) => onChange({ ...service, name: name.trim() })}
        check={(typed) => (typed.trim() === "" ? say("service.name.empty") : undefined)}
      />
      <TextEntry
        label={say("service.at")}
        value={service.at.replace("T", " ")}
        onChange={(typed) => onChange({ ...service, at: readMoment(typed) ?? service.at })}
        check={(typed) => (readMoment(typed) === undefined ? say("service.at.wrong", { typed }) : undefined)}
      />
      <Pick
        label={say("service.menu")}
        value={service.menu}
        options={book.menus.map((menu) => [menu.id, menu.name])}
        onChange={(menu) => onChange({ ...service, menu, guests: withoutChoices(service) })}
      />
      <Pick
        label={say("run.kitchen")}
        value={service.kitchen}
        options={book.kitchens.map((kitchen) => [kitchen.id, kitchen.name])}
        onChange={(kitchen) => onChange({ ...service, kitchen })}
      />
      <CountEntry
        label={say("covers.label")}
        value={service.covers}
        least={1}
        onChange={(covers) => onChange({ ...service, covers })}
      />
      <CountEntry
        label={say("service.tasting")}
        value={service.tasting}
        onChange={(tasting) => onChange({ ...service, tasting })}
      />
    </div>
  );
}

/** Choices belong to a menu: with another they mean nothing. */
function withoutChoices(service: Service): Service["guests"] {
  return service.guests.map((group) => ({ ...group, choices: [] }));
}
