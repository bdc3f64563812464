import { Link } from "@tanstack/react-router";
import { useState } from "react";
import { Button } from "react-aria-components";
import { LEAST, type Stock, type StockDoubt } from "../../../core/safety/lots-stock.ts";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { type ServiceHere, useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Choice } from "../../parts/choice.tsx";
import { useStock } from "../log/use-lots.ts";
import { NoService } from "../no-service.tsx";
import { OnHand } from "./on-hand.tsx";
import { ReceiveList } from "./receive.tsx";

/** Stores, what is there: goods at the door, lots on hand, what does not add up. */
export function StockPlace() {
  const here = useMaybeService();
  if (!here) return <NoService />;
  return <Here here={here} />;
}

function Here({ here }: { readonly here: ServiceHere }) {
  const { say } = useWords();
  const { stock, ready, offline } = useStock();
  const [view, setView] = useState<"receive" | "onHand">("receive");
  const today = new Date().toISOString().slice(0, 10);
  const lots = [...stock.lots.values()].filter(({ onHand }) => Math.abs(onHand) > LEAST);
  return (
    <div className="page stock">
      <div className="place-head">
        <h1>{say("stock.title")}</h1>
        <Link to="/stores" className="big-link">
          {say("stock.back")}
        </Link>
      </div>
      {!ready ? (
        <p className="quiet">{say("log.reading.all")}</p>
      ) : (
        <>
          <p className="large">
            {say("stock.sentence", {
              lots: lots.length,
              old: lots.filter(({ useBy }) => useBy !== undefined && useBy < today).length,
              doubts: stock.doubts.length,
            })}
            {offline && <span className="quiet"> {say("log.offline")}</span>}
          </p>
          <Choice
            label={say("stock.title")}
            hideLabel
            value={view}
            onChange={setView}
            options={[
              ["receive", say("stock.receive")],
              ["onHand", say("stock.onHand")],
            ]}
          />
          {view === "receive" ? (
            <ReceiveList here={here} />
          ) : (
            <>
              <TakeStock here={here} stock={stock} />
              <OnHand lots={lots} today={today} />
              <Doubts stock={stock} />
            </>
          )}
        </>
      )}
    </div>
  );
}

/** Puts what is on hand into the service as a trial: nothing is kept by itself. */
function TakeStock({ here, stock }: { readonly here: ServiceHere; readonly stock: Stock }) {
  const { say } = useWords();
  const { library, store } = useBook();
  const [taken, setTaken] = useState(false);
  const { service } = here;
  const lots = [...stock.lots.values()].filter(
    ({ onHand, useBy, ref }) =>
      onHand > LEAST &&
      useBy !== undefined &&
      useBy >= service.at.slice(0, 10) &&
      library.ingredients.has(ref.ingredient),
  );
  if (lots.length === 0) return null;
  const take = () => {
    store.edit("services", {
      ...service,
      // What the book says of other things stays: the log knows only the lots it has seen.
      stock: [
        ...service.stock.filter(
          ({ item }) =>
            !("ingredient" in item) || !lots.some(({ ref }) => ref.ingredient === item.ingredient),
        ),
        ...lots.map(({ ref, onHand, unit, useBy }) => ({
          item: { ingredient: ref.ingredient },
          amount: { value: Number(onHand.toFixed(1)), unit },
          useBy: useBy!,
          lot: ref.lot,
        })),
      ],
    });
    setTaken(true);
  };
  return (
    <p className="row wrap">
      <Button className="button" onPress={take}>
        {say("stock.take")}
      </Button>
      <span className="quiet" role="status">
        {taken ? say("stock.taken") : say("stock.take.what", { service: service.name, count: lots.length })}
      </span>
    </p>
  );
}

function Doubts({ stock }: { readonly stock: Stock }) {
  const { say } = useWords();
  if (stock.doubts.length === 0) return null;
  return (
    <>
      <h2 className="part">{say("stock.doubts")}</h2>
      <ul className="rows">
        {stock.doubts.map((doubt) => (
          <li key={`${doubt.what} ${doubt.key} ${"entry" in doubt ? doubt.entry : ""}`} className="decide">
            ▲ <DoubtWords doubt={doubt} stock={stock} />
          </li>
        ))}
      </ul>
    </>
  );
}

function DoubtWords({ doubt, stock }: { readonly doubt: StockDoubt; readonly stock: Stock }) {
  const { say, write } = useWords();
  const names = useNames();
  const ref = stock.lots.get(doubt.key)?.ref;
  return say(`stock.doubt.${doubt.what}`, {
    ...{ item: names.ingredient(ref?.ingredient ?? ""), lot: ref?.lot ?? "" },
    by: doubt.what === "more-used" ? write.quantity({ value: doubt.by, unit: doubt.unit }) : "",
  });
}
