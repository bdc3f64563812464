import { useState } from "react";
import { Button } from "react-aria-components";
import { standing } from "../../../core/safety/log-lines.ts";
import { doorLimit } from "../../../core/safety/lots-door.ts";
import type { Delivery } from "../../../core/safety/lots-schema.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import type { ServiceHere } from "../../app/service.tsx";
import { useSettings } from "../../app/settings.tsx";
import { useLog, useRecord } from "../../offline/use-log.ts";
import { amountText, readTyped } from "../../parts/amount-entry.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Pick } from "../../parts/pick.tsx";
import { useRecordWords } from "../log/record-words.ts";
import { toCelsius } from "../log/typed.ts";
import { Entry } from "./entry.tsx";

/** What is expected of one line of an order. */
interface Expected {
  readonly supplier: string;
  readonly ingredient: string;
  readonly offer?: string;
  readonly amount: string;
}

/** Goods at the door: what is on order, line by line, and anything else. */
export function ReceiveList({ here }: { readonly here: ServiceHere }) {
  const { say, write } = useSettings();
  const { book } = useBook();
  const { amounts } = useTold();
  const { lines } = useLog();
  const words = useRecordWords();
  const names = useNames();
  const { service } = here;
  const came = standing<Delivery>(lines, ["delivery"])
    .filter(({ first }) => first.service === service.id)
    .map(({ now }) => now.body);
  const [supplier, setSupplier] = useState(book.suppliers[0]?.id ?? "");
  const [ingredient, setIngredient] = useState("");
  const sold = [
    ...new Set(book.suppliers.find(({ id }) => id === supplier)?.offers.map((offer) => offer.ingredient)),
  ].sort((a, b) => names.ingredient(a).localeCompare(names.ingredient(b)));
  const chosen = sold.includes(ingredient) ? ingredient : sold[0];
  return (
    <>
      <h2 className="part">{say("stock.receive.ordered", { service: service.name })}</h2>
      {(amounts?.orders ?? []).map((order) => (
        <section key={order.supplier}>
          <h3 className="stock-name">
            {order.name} <span className="quiet small">{write.clock(order.deliver)}</span>
          </h3>
          {order.lines.map((line) => {
            const own = came.filter(
              ({ offer, of }) => offer === line.offer && of.supplier === order.supplier,
            );
            return (
              <Fold
                key={line.offer}
                summary={
                  <>
                    {line.name}{" "}
                    <span className="quiet">
                      {line.packs} × {line.pack}
                    </span>
                    {own.map((one) => (
                      <span
                        key={`${one.of.lot} ${one.accepted}`}
                        className={`block small ${one.accepted ? "done" : "harm"}`}
                      >
                        {one.accepted ? "✓" : "✕"} {words(one)}
                      </span>
                    ))}
                  </>
                }
              >
                <ReceiveForm
                  here={here}
                  expected={{
                    ...{ supplier: order.supplier, ingredient: line.ingredient, offer: line.offer },
                    amount: `${Number(line.bought.value.toFixed(3))} ${line.bought.unit}`,
                  }}
                />
              </Fold>
            );
          })}
        </section>
      ))}
      <h2 className="part">{say("stock.receive.other")}</h2>
      <div className="row wrap">
        <Pick
          label={say("stock.supplier")}
          value={supplier}
          options={book.suppliers.map(({ id, name }) => [id, name] as const)}
          onChange={setSupplier}
        />
        {chosen && (
          <Pick
            label={say("stock.ingredient")}
            value={chosen}
            options={sold.map((id) => [id, names.ingredient(id)] as const)}
            onChange={setIngredient}
          />
        )}
      </div>
      {chosen && (
        <ReceiveForm
          key={`${supplier} ${chosen}`}
          here={here}
          expected={{ supplier, ingredient: chosen, amount: amountText({ value: 1, unit: "kg" }) }}
        />
      )}
    </>
  );
}

/** Lot, date, amount and temperature of goods; taken in, or refused with the reason. */
function ReceiveForm({ here, expected }: { readonly here: ServiceHere; readonly expected: Expected }) {
  const { say, write, settings } = useSettings();
  const { library } = useBook();
  const record = useRecord();
  const [lot, setLot] = useState("");
  const [useBy, setUseBy] = useState("");
  const [amount, setAmount] = useState(expected.amount);
  const [reading, setReading] = useState("");
  const [reason, setReason] = useState("");
  const [refusing, setRefusing] = useState(false);
  const [wrong, setWrong] = useState<Wrong>({});
  const [sure, setSure] = useState(false);
  const ingredient = library.ingredients.get(expected.ingredient);
  const limit = ingredient && doorLimit(ingredient, here.kitchen);
  const celsius = reading.trim() === "" ? undefined : toCelsius(reading, settings.degrees === "F");
  const tooWarm = limit !== undefined && celsius !== undefined && celsius > limit.celsius;
  const submit = (accepted: boolean) => {
    const read = readTyped(amount, "kg");
    const today = new Date().toISOString().slice(0, 10);
    const found: Wrong = {
      ...(lot.trim() === "" ? { lot: say("stock.needLot") } : {}),
      ...(useBy === "" ? { useBy: say("stock.needDate") } : {}),
      ...(accepted && useBy !== "" && useBy < today ? { useBy: say("stock.past") } : {}),
      ...("amount" in read ? {} : { amount: say("write.wrong", { typed: amount }) }),
      ...(celsius !== undefined && !Number.isFinite(celsius)
        ? { reading: say("log.wrong", { typed: reading }) }
        : {}),
      ...(accepted && limit && celsius === undefined
        ? { reading: say("stock.noReading", { limit: write.temperature(limit.celsius) }) }
        : {}),
      ...(!accepted && reason.trim() === "" ? { reason: say("stock.reason") } : {}),
    };
    setWrong(found);
    if (Object.keys(found).length > 0 || !("amount" in read)) return;
    if (accepted && tooWarm && !sure) return setSure(true);
    record({
      ...{ kind: "delivery", amount: read.amount, useBy, accepted },
      of: { ingredient: expected.ingredient, lot: lot.trim(), supplier: expected.supplier },
      ...(expected.offer === undefined ? {} : { offer: expected.offer }),
      ...(celsius === undefined ? {} : { celsius: Number(celsius.toFixed(1)) }),
      ...(reason.trim() === "" ? {} : { reason: reason.trim() }),
    });
    setLot("");
    setReading("");
    setReason("");
    setRefusing(false);
    setSure(false);
  };
  return (
    <form
      className="receive"
      onSubmit={(event) => {
        event.preventDefault();
        submit(!refusing);
      }}
    >
      <div className="row wrap">
        <Entry
          label={say("stock.lot")}
          className="lot-code"
          value={lot}
          onChange={setLot}
          wrong={wrong.lot}
        />
        <Entry label={say("stock.useBy")} type="date" value={useBy} onChange={setUseBy} wrong={wrong.useBy} />
        <Entry label={say("stock.amount")} value={amount} onChange={setAmount} wrong={wrong.amount} />
        {limit && (
          <Entry
            label={`${say("stock.celsius", { unit: `°${settings.degrees}` })}, ${say("stock.limit", { limit: write.temperature(limit.celsius) })}`}
            value={reading}
            onChange={setReading}
            wrong={wrong.reading}
          />
        )}
      </div>
      {tooWarm && limit && (
        <p className="harm" role="alert">
          ✕{" "}
          {say("stock.tooWarm", {
            ...{ value: write.temperature(celsius), limit: write.temperature(limit.celsius) },
            doc: limit.source.doc,
          })}
        </p>
      )}
      <div className="row wrap">
        {refusing ? (
          <>
            <Entry label={say("stock.reason")} value={reason} onChange={setReason} wrong={wrong.reason} />
            <Button type="submit" className="button">
              {say("stock.refuse")}
            </Button>
            <Button className="button quiet-button" onPress={() => setRefusing(false)}>
              {say("stock.leave")}
            </Button>
          </>
        ) : (
          <>
            <Button type="submit" className={`button ${tooWarm ? "quiet-button" : ""}`}>
              {say(sure && tooWarm ? "stock.tooWarm.take" : "stock.accept")}
            </Button>
            <Button
              className={`button ${tooWarm ? "" : "quiet-button"}`}
              onPress={() => {
                setRefusing(true);
                if (tooWarm && reason === "") setReason(write.temperature(celsius));
              }}
            >
              {say("stock.refuse")}
            </Button>
          </>
        )}
      </div>
    </form>
  );
}

interface Wrong {
  readonly lot?: string;
  readonly useBy?: string;
  readonly amount?: string;
  readonly reading?: string;
  readonly reason?: string;
}
