import { useState } from "react";
import { Button, Dialog, DialogTrigger, Popover } from "react-aria-components";
import { type Service, ServiceSchema } from "../../../core/production/schema.ts";
import { useBook } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { idOf } from "../../parts/id-of.ts";
import { ServiceEntries } from "./service-entries.tsx";

/** Begins a service: the one in hand again on another evening, or one from the first menu and kitchen. */
export function NewService() {
  const { say } = useWords();
  const { book } = useBook();
  if (book.menus.length === 0 || book.kitchens.length === 0) return null;
  return (
    <DialogTrigger>
      <Button className="button">{say("service.new")}</Button>
      <Popover className="over sheet" placement="bottom end">
        <Dialog aria-label={say("service.new")}>{({ close }) => <Begin close={close} />}</Dialog>
      </Popover>
    </DialogTrigger>
  );
}

function Begin({ close }: { readonly close: () => void }) {
  const { say } = useWords();
  const { book, library, store } = useBook();
  const here = useMaybeService();
  const [service, setService] = useState<Service>(() =>
    first(here?.service, book.menus[0]!.id, book.kitchens[0]!.id, say("service.new")),
  );
  const begin = () => {
    let id = idOf(service.name) || "service";
    for (let n = 2; library.services.has(id); n++) id = `${idOf(service.name) || "service"}-${n}`;
    store.edit("services", { ...service, id });
    here?.setService(id);
    close();
  };
  return (
    <>
      <ServiceEntries service={service} onChange={setService} />
      <Button className="button" onPress={begin}>
        {say("new.begin")}
      </Button>
    </>
  );
}

/** The service in hand without its guests and stock, a week later; else an empty one a week from today. */
function first(like: Service | undefined, menu: string, kitchen: string, name: string): Service {
  const from = like ? new Date(`${like.at.slice(0, 10)}T12:00:00Z`) : new Date();
  const date = new Date(from.getTime() + 7 * 86_400_000).toISOString().slice(0, 10);
  return ServiceSchema.parse({
    id: "new",
    name: like ? like.name : name,
    menu: like?.menu ?? menu,
    kitchen: like?.kitchen ?? kitchen,
    at: `${date}T${like?.at.slice(11) ?? "19:30"}`,
    horizon: like?.horizon ?? "D-2 06:00",
    covers: like?.covers ?? 20,
    tasting: like?.tasting ?? 0,
    priceAsOf: like?.priceAsOf ?? date,
    ...(like?.sellPerCover === undefined ? {} : { sellPerCover: like.sellPerCover }),
  });
}
