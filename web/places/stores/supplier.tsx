import { Link, useParams } from "@tanstack/react-router";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { Offer, Supplier } from "../../../core/purchasing/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { Lost } from "../../app/frame.tsx";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Line } from "../../parts/line.tsx";
import { PriceListReader } from "./list/reader.tsx";
import { packText } from "./offers.ts";

/** A supplier: when it delivers, what it offers today, and a price list to read. */
export function SupplierSheet() {
  const { id } = useParams({ strict: false }) as { id: string };
  const { book } = useBook();
  const { say, write } = useWords();
  const [reading, setReading] = useState(false);
  const supplier = book.suppliers.find((one) => one.id === id);
  if (!supplier) return <Lost />;
  const currency = currencyOf(book.kitchens, supplier);
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
        })}
      </p>
      {reading ? (
        <PriceListReader supplier={supplier} currency={currency} onDone={() => setReading(false)} />
      ) : (
        <>
          <p className="row wrap">
            <Button className="button" onPress={() => setReading(true)}>
              {say("supplier.read")}
            </Button>
          </p>
          <Offers supplier={supplier} currency={currency} />
        </>
      )}
    </div>
  );
}

/** The currency of the first kitchen that buys there; all of a supplier's prices are in it. */
function currencyOf(
  kitchens: readonly { readonly suppliers: readonly string[]; readonly currency: string }[],
  supplier: Supplier,
): string {
  return (kitchens.find((one) => one.suppliers.includes(supplier.id)) ?? kitchens[0])?.currency ?? "EUR";
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
