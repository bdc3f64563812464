import type { Back, Found, Recall } from "../../../core/safety/lots-recall.ts";
import { LEAST, type LotStock } from "../../../core/safety/lots-stock.ts";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { type Plate, plateWords } from "./plate-words.ts";

/** Where a lot went. */
export function ForwardAnswer({ recall, lot }: { readonly recall: Recall; readonly lot: LotStock }) {
  const { say, write } = useWords();
  const names = useNames();
  const { batches, plates, covers, seats } = recall.forward([lot.key]);
  const service = (id: string) => recall.shapes.get(id)?.name ?? id;
  const day = (id: string) => {
    const to = recall.shapes.get(id)?.to;
    return to === undefined ? "" : write.date(to.slice(0, 10));
  };
  return (
    <section>
      <p className="sentence">
        {say("recall.forward", {
          ...{ item: names.ingredient(lot.ref.ingredient), lot: lot.ref.lot, left: useLeft()(lot) },
          ...{ batches: batches.length, seats: seats.length },
        })}
      </p>
      <p className="quiet">
        {lot.ref.supplier ? names.supplier(lot.ref.supplier) : ""}
        {lot.useBy && `, ${say("labels.useBy", { date: write.date(lot.useBy) })}`}
      </p>
      <List
        title={say("recall.batches")}
        found={batches}
        text={({ service: id, preparation, batch }) =>
          `${say("record.batch", { name: names.preparation(preparation), batch })}, ${service(id)}, ${day(id)}`
        }
      />
      <List
        title={say("recall.dishes")}
        found={plates}
        text={({ service: id, row }) =>
          `${plateWords(say, names, recall.shapes.get(id)!.plates[row]!)}, ${service(id)}, ${day(id)}`
        }
      />
      <List
        title={say("recall.covers")}
        found={covers}
        text={({ service: id }) =>
          `${say("recall.everyCover", { covers: recall.shapes.get(id)!.beside!.covers })}, ${service(id)}, ${day(id)}`
        }
      />
      <List
        title={say("recall.seats")}
        found={seats}
        text={({ service: id, seat }) => `${seat}, ${service(id)}, ${day(id)}`}
      />
      <Shapeless recall={recall} />
    </section>
  );
}

/** What may be in a row of plates, or in what one seat had. */
export function BackAnswer({ recall, plate }: { readonly recall: Recall; readonly plate: Plate }) {
  const { say, write } = useWords();
  const names = useNames();
  const left = useLeft();
  const shape = recall.shapes.get(plate.service);
  const row = shape?.plates[plate.row];
  if (!row) return null;
  const back: Back =
    plate.seat === undefined
      ? recall.backFromPlates(plate.service, plate.row)
      : recall.backFromSeat(plate.service, plate.seat);
  const certain = back.lots.filter((one) => one.certain).length;
  const unknown = [...new Set(back.unexplained.map(({ item }) => item))];
  return (
    <section>
      <p className="sentence">
        {say("recall.back", {
          what:
            plate.seat === undefined ? plateWords(say, names, row) : `${say("recall.seatOf")} ${plate.seat}`,
          ...{ certain, possible: back.lots.length - certain },
        })}
      </p>
      {unknown.length > 0 && (
        <p className="decide">
          ▲ {say("recall.unexplained")} {write.list(unknown.map(names.item))}.
        </p>
      )}
      <List
        title={say("recall.lots")}
        found={back.lots}
        text={(lot) => `${names.ingredient(lot.ref.ingredient)}, ${lot.ref.lot}; ${left(lot)}`}
      />
      <List
        title={say("recall.batches")}
        found={back.batches}
        text={({ preparation, batch }) =>
          say("record.batch", { name: names.preparation(preparation), batch })
        }
      />
    </section>
  );
}

/** Services of which only what was noted is known. */
function Shapeless({ recall }: { readonly recall: Recall }) {
  const { say, write } = useWords();
  if (recall.shapeless.length === 0) return null;
  return <p className="decide">▲ {say("recall.shapeless", { list: write.list(recall.shapeless) })}</p>;
}

function useLeft(): (lot: LotStock) => string {
  const { say, write } = useWords();
  return ({ onHand, unit, atMost }) => {
    const amount = write.quantity({ value: Math.abs(onHand), unit });
    if (onHand < -LEAST) return say("recall.left.less", { amount });
    if (onHand <= LEAST) return say("recall.left.none");
    return say(atMost ? "recall.left.most" : "recall.left", { amount });
  };
}

function List<T>({
  title,
  found,
  text,
}: {
  readonly title: string;
  readonly found: readonly Found<T>[];
  readonly text: (what: T) => string;
}) {
  const { say } = useWords();
  if (found.length === 0) return null;
  return (
    <>
      <h2 className="recall-part">{title}</h2>
      <ul className="recall-list">
        {found.map(({ what, certain }) => (
          <li key={text(what)}>
            <span>{text(what)}</span>
            <span className={`recall-sure ${certain ? "harm" : "decide"}`}>
              {certain ? "✕ " : "▲ "}
              {say(certain ? "recall.certain" : "recall.possible")}
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}
