import { useState } from "react";
import { Button } from "react-aria-components";
import { LEAST, type LotStock } from "../../../core/safety/lots-stock.ts";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { useRecord } from "../../offline/use-log.ts";
import { readTyped } from "../../parts/amount-entry.tsx";
import { useMoment } from "../log/use-moment.ts";
import { Entry } from "./entry.tsx";

/** Lots by ingredient, the one to be used first in front; a count or a discard is one line more in the log. */
export function OnHand({ lots, today }: { readonly lots: readonly LotStock[]; readonly today: string }) {
  const { say } = useWords();
  const names = useNames();
  if (lots.length === 0) return <p className="quiet">{say("stock.onHand.none")}</p>;
  const groups = [...Map.groupBy(lots, ({ ref }) => ref.ingredient)].sort(([a], [b]) =>
    names.ingredient(a).localeCompare(names.ingredient(b)),
  );
  return groups.map(([ingredient, own]) => (
    <section key={ingredient}>
      <h3 className="stock-name">{names.ingredient(ingredient)}</h3>
      {own
        .toSorted((a, b) => (a.useBy ?? "9999").localeCompare(b.useBy ?? "9999"))
        .map((lot) => (
          <OneLot key={lot.key} lot={lot} today={today} />
        ))}
    </section>
  ));
}

function OneLot({ lot, today }: { readonly lot: LotStock; readonly today: string }) {
  const { say, write } = useWords();
  const names = useNames();
  const moment = useMoment();
  const record = useRecord();
  const [doing, setDoing] = useState<"count" | "discard" | "moves">();
  const [typed, setTyped] = useState("");
  const [why, setWhy] = useState("");
  const [wrong, setWrong] = useState<string>();
  const { ref, unit, useBy, onHand, atMost, movements } = lot;
  const submit = () => {
    const read = readTyped(typed, unit);
    if (!("amount" in read)) return setWrong(say("write.wrong", { typed }));
    setWrong(undefined);
    if (doing === "count") record({ kind: "counted", lot: ref, amount: read.amount });
    else if (why.trim() === "") return setWrong(say("stock.why"));
    else record({ kind: "discarded", lot: ref, amount: read.amount, reason: why.trim() });
    setTyped("");
    setDoing(undefined);
  };
  const amount = (value: number) => write.quantity({ value, unit });
  return (
    <div className="lot-line">
      <span>
        <strong className={onHand < -LEAST ? "decide" : ""}>
          {atMost && `${say("stock.most")} `}
          {amount(onHand)}
        </strong>{" "}
        {ref.lot}
        {ref.supplier && <span className="quiet">, {names.supplier(ref.supplier)}</span>}
        {useBy && (
          <span className={`block small ${useBy < today ? "harm" : "quiet"}`}>
            {useBy < today && `✕ ${say("stock.gone")}: `}
            {say("labels.useBy", { date: write.date(useBy) })}
          </span>
        )}
      </span>
      <span className="row wrap">
        {(["count", "discard", "moves"] as const).map((one) => (
          <Button
            key={one}
            className="button quiet-button"
            aria-expanded={doing === one}
            onPress={() => setDoing(doing === one ? undefined : one)}
          >
            {say(one === "moves" ? "stock.movements" : `stock.${one}`)}
          </Button>
        ))}
      </span>
      {doing === "moves" && (
        <ol className="happened lot-do">
          {movements.map((one) => (
            <li key={one.entry}>
              <span className="quiet">{moment(one.at)}</span>
              <span>
                {say(`stock.move.${one.kind}`)}{" "}
                {one.change === 0 && one.kind === "used" ? say("stock.unnoted") : amount(one.change)} →{" "}
                <strong>{amount(one.after)}</strong> <span className="quiet">{one.by}</span>
              </span>
            </li>
          ))}
        </ol>
      )}
      {(doing === "count" || doing === "discard") && (
        <form
          className="lot-do receive"
          onSubmit={(event) => {
            event.preventDefault();
            submit();
          }}
        >
          <div className="row wrap">
            <Entry
              label={say(doing === "count" ? "stock.counted" : "stock.discarded")}
              value={typed}
              onChange={setTyped}
              wrong={wrong}
            />
            {doing === "discard" && <Entry label={say("stock.why")} value={why} onChange={setWhy} />}
            <Button type="submit" className="button">
              {say("stock.do")}
            </Button>
          </div>
        </form>
      )}
    </div>
  );
}
