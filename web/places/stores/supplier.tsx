import { Link, useParams } from "@tanstack/react-router";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { Offer, Supplier } from "../../../core/purchasing/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { Lost } from "../../app/frame.tsx";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import type { Kept } from "../../book/api.ts";
import { Line } from "../../parts/line.tsx";
import { currencyOf } from "./currency.ts";
import { useKeepTogether } from "./keep-together.ts";
import { KeptNote } from "./kept-note.tsx";
import { PriceListReader } from "./list/reader.tsx";
import { packText } from "./offers.ts";
import { documentsOf, type SupplierDocuments } from "./supplier-draft.ts";
import { SupplierForm } from "./supplier-form.tsx";

/** A supplier: when it delivers, what it offers today, and a price list to read. */
export function SupplierSheet() {
  const { id } = useParams({ strict: false }) as { id: string };
  const { book } = useBook();
  const { say, write } = useWords();
  const [now, setNow] = useState<"reading" | "changing">();
  const supplier = book.suppliers.find((one) => one.id === id);
  if (!supplier) return <Lost />;
  const currency = currencyOf(book.kitchens, supplier);
  const buying = book.kitchens.filter((one) => one.suppliers.includes(id)).map((one) => one.name);
  return (
    <div className="page">
      <p>
        <Link to="/stores" className="link-button">
          {say("supplier.back")}
        </Link>
      </p>
      <h1>{supplier.name}</h1>
      <p className="quiet">
        {say("supplier.delivers", {
          days: write.list(supplier.deliveryDays.map((day) => wordFor(say, "weekday", day))),
          before: supplier.cutoff.daysBefore,
          clock: supplier.cutoff.clock,
        })}{" "}
        {say("supplier.terms", {
          ...{ minimum: write.money(supplier.minimumOrder, currency), clock: supplier.arrivesBy },
          charge: write.money(supplier.deliveryCharge, currency),
        })}{" "}
        {say("supplier.buys", { count: buying.length, list: write.list(buying) })}
      </p>
      {now === "changing" ? (
        <Change supplier={supplier} onDone={() => setNow(undefined)} />
      ) : now === "reading" ? (
        <PriceListReader supplier={supplier} currency={currency} onDone={() => setNow(undefined)} />
      ) : (
        <>
          <p className="row wrap">
            <Button className="button" onPress={() => setNow("reading")}>
              {say("supplier.read")}
            </Button>
            <Button className="button quiet-button" onPress={() => setNow("changing")}>
              {say("supplier.change")}
            </Button>
          </p>
          <Offers supplier={supplier} currency={currency} />
        </>
      )}
    </div>
  );
}

/** What is known of the supplier, to be changed. */
function Change({ supplier, onDone }: { readonly supplier: Supplier; readonly onDone: () => void }) {
  const { say } = useWords();
  const keepTogether = useKeepTogether();
  const [said, setSaid] = useState<Kept>();
  const keep = async (read: SupplierDocuments) => {
    const kept = await keepTogether(documentsOf(read));
    setSaid(kept);
    if (kept.outcome !== "refused") onDone();
  };
  return (
    <>
      <SupplierForm
        of={supplier}
        keep={say("supplier.keep")}
        onKeep={(read) => void keep(read)}
        onLeave={onDone}
      />
      <KeptNote said={said} />
    </>
  );
}

function Offers({ supplier, currency }: { readonly supplier: Supplier; readonly currency: string }) {
  const names = useNames();
  const { say, write } = useWords();
  const today = new Date().toISOString().slice(0, 10);
  const by = new Map<string, Offer[]>();
  for (const offer of supplier.offers) by.set(offer.ingredient, [...(by.get(offer.ingredient) ?? []), offer]);
  const rows = [...by].sort(([a], [b]) => names.ingredient(a).localeCompare(names.ingredient(b)));
  if (rows.length === 0) return <p className="quiet">{say("supplier.none")}</p>;
  return (
    <>
      <h2 className="part">{say("supplier.offers", { count: rows.length })}</h2>
      {rows.map(([ingredient, offers]) => {
        const open = offers.filter((one) => (one.until ?? "9999") >= today);
        const past = offers
          .filter((one) => (one.until ?? "9999") < today)
          .sort((a, b) => (b.until ?? "").localeCompare(a.until ?? ""));
        return (
          <Line
            key={ingredient}
            margin={past.length > 0 ? <History offers={past} currency={currency} /> : undefined}
            mark={past.length > 0 ? say("supplier.before", { count: past.length }) : undefined}
          >
            <span className="block">{names.ingredient(ingredient)}</span>
            {open.map((offer) => (
              <span key={offer.id} className="offer-line">
                <span className="quiet">
                  {packText(offer)}
                  {offer.code && ` · ${offer.code}`}
                  {offer.from &&
                    offer.from > today &&
                    ` · ${say("supplier.from", { date: write.date(offer.from) })}`}
                  {offer.until && ` · ${say("supplier.until", { date: write.date(offer.until) })}`}
                </span>
                <span className="num">{write.money(offer.price, currency)}</span>
              </span>
            ))}
          </Line>
        );
      })}
    </>
  );
}

/** Prices that held before, the last first. */
function History({ offers, currency }: { readonly offers: readonly Offer[]; readonly currency: string }) {
  const { say, write } = useWords();
  return (
    <ul className="plain small">
      {offers.map((offer) => (
        <li key={offer.id}>
          {write.money(offer.price, currency)} / {packText(offer)}{" "}
          <span className="quiet">{say("supplier.until", { date: write.date(offer.until!) })}</span>
        </li>
      ))}
    </ul>
  );
}
