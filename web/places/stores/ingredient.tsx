import type { Ingredient } from "../../../core/pantry/schema.ts";
import type { Supplier } from "../../../core/purchasing/schema.ts";
import type { Source } from "../../../core/quantity/index.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Fold } from "../../parts/fold.tsx";
import { StandIns } from "../../parts/stand-ins.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { offersOf, packText } from "./offers.ts";
import { RetentionGroupPick } from "./retention-group.tsx";

/** All that is known of an ingredient, each figure with where it comes from. */
export function IngredientSheet({ ingredient }: { readonly ingredient: Ingredient }) {
  const { book, store } = useBook();
  const { amounts } = useTold();
  const here = useMaybeService();
  const { say, write } = useWords();
  const offers = offersOf(book.suppliers, ingredient.id);
  const stock = (here?.service.stock ?? []).filter(
    (s) => "ingredient" in s.item && s.item.ingredient === ingredient.id,
  );
  const ordered = (amounts?.orders ?? []).flatMap((o) =>
    o.lines.filter((l) => l.ingredient === ingredient.id),
  );
  const contents = ingredient.composition;
  const price = (supplierId: string, offerId: string, text: string) => {
    const supplier = book.suppliers.find((s) => s.id === supplierId);
    if (!supplier) return;
    store.edit("suppliers", {
      ...supplier,
      offers: supplier.offers.map((o) => (o.id === offerId ? { ...o, price: text } : o)),
    });
  };
  const vary = (supplier: Supplier, offerId: string, typed: string) =>
    store.edit("suppliers", {
      ...supplier,
      offers: supplier.offers.map((o) => {
        if (o.id !== offerId) return o;
        const { weightSpread: _, ...rest } = o;
        const percent = readPercent(typed);
        return percent ? { ...rest, weightSpread: percent / 100 } : rest;
      }),
    });
  return (
    <div className="ingredient">
      <dl className="pairs">
        <dt>{say("stores.allergens")}</dt>
        <dd>
          {ingredient.allergens.status === "unknown" ? (
            <span className="decide">▲ {say("weak.allergens")}</span>
          ) : (
            <>
              {ingredient.allergens.contains.length > 0
                ? write.list(ingredient.allergens.contains.map((a) => wordFor(say, "allergen", a)))
                : say("stores.noAllergens")}
              {ingredient.allergens.mayContain.length > 0 && (
                <span className="quiet">
                  ;{" "}
                  {say("labels.may", {
                    list: write.list(ingredient.allergens.mayContain.map((a) => wordFor(say, "allergen", a))),
                  })}
                </span>
              )}
            </>
          )}
        </dd>
        {ingredient.cuts.map((cut) => (
          <Fact key={cut.id} name={cut.name} source={cut.source}>
            {write.share(cut.trimYield)} {cut.refuse && <span className="quiet">({cut.refuse})</span>}
          </Fact>
        ))}
        {ingredient.densities.map((density) => (
          <Fact
            key={density.state}
            name={say("stores.density", { state: density.state })}
            source={density.source}
          >
            {write.number(density.kgPerL, 3)} kg/L
          </Fact>
        ))}
        {ingredient.pieces.map((piece) => (
          <Fact key={piece.name} name={say("stores.piece", { name: piece.name })} source={piece.source}>
            {write.mass(piece.g)}
          </Fact>
        ))}
        {contents && (
          <Fact name={say("stores.composition")} source={contents.source}>
            {(["water", "protein", "fat", "carbohydrate", "sugars", "salt", "alcohol"] as const)
              .filter((key) => contents[key] !== undefined)
              .map((key) => `${say(`composition.${key}`)} ${write.number(contents[key]!, 1)}`)
              .join(", ")}
          </Fact>
        )}
        {ingredient.season && (
          <Fact name={say("stores.season")} source={ingredient.season.source}>
            {write.list(monthsOf(ingredient.season.months, write.preferences.locale))}
          </Fact>
        )}
        {ingredient.cookingYields?.map((one) => (
          <Fact key={one.method} name={say("stores.cooked", { method: one.method })} source={one.source}>
            {write.share(one.yield)}
          </Fact>
        ))}
        <dt>{say("stores.storage")}</dt>
        <dd>
          {say("stores.keeps", {
            state: say(`state.${ingredient.storage.state}`),
            days: ingredient.storage.days,
          })}
        </dd>
        {stock.map((s) => (
          <Fact key={s.lot ?? s.useBy} name={say("stores.stock")}>
            {s.amount.value} {s.amount.unit}, {say("labels.useBy", { date: write.date(s.useBy) })}
            {s.lot && <span className="quiet"> {s.lot}</span>}
          </Fact>
        ))}
        {ordered.map((line) => (
          <Fact key={line.offer} name={say("stores.ordered")}>
            {line.packs} × {line.pack}
          </Fact>
        ))}
      </dl>
      <RetentionGroupPick ingredient={ingredient} />
      {offers.length > 0 && (
        <div className="scroll-x">
          <table className="table">
            <thead>
              <tr>
                <th>{say("stores.supplier")}</th>
                <th>{say("orders.pack")}</th>
                <th className="num">{say("orders.price")}</th>
              </tr>
            </thead>
            <tbody>
              {offers
                .filter(({ offer }) => !ended(offer))
                .map(({ supplier, offer }) => (
                  <tr key={offer.id}>
                    <th scope="row">{supplier.name}</th>
                    <td>
                      {packText(offer)}
                      {offer.catchWeight && (
                        <TextEntry
                          label={say("stores.varies")}
                          className="price"
                          value={
                            offer.weightSpread === undefined
                              ? ""
                              : String(+(100 * offer.weightSpread).toFixed(2))
                          }
                          onChange={(typed) => vary(supplier, offer.id, typed)}
                          check={(typed) =>
                            readPercent(typed) === undefined
                              ? say("stores.varies.wrong", { typed })
                              : undefined
                          }
                        />
                      )}
                      {offer.breaks.map((b) => (
                        <span key={b.fromPacks} className="quiet block small">
                          {say("stores.break", { from: b.fromPacks, price: b.price })}
                        </span>
                      ))}
                    </td>
                    <td className="num">
                      <TextEntry
                        label={say("stores.priceOf", { name: ingredient.name, supplier: supplier.name })}
                        hideLabel
                        className="price"
                        value={offer.price}
                        onChange={(text) => price(supplier.id, offer.id, text.trim().replace(",", "."))}
                        check={(typed) =>
                          /^\d+([.,]\d+)?$/.test(typed.trim())
                            ? undefined
                            : say("stores.price.wrong", { typed })
                        }
                      />
                    </td>
                  </tr>
                ))}
            </tbody>
          </table>
        </div>
      )}
      {offers.some(({ offer }) => ended(offer)) && (
        <ul className="plain small quiet">
          {offers
            .filter(({ offer }) => ended(offer))
            .map(({ supplier, offer }) => (
              <li key={offer.id}>
                {say("stores.past", {
                  ...{ supplier: supplier.name, pack: packText(offer), price: offer.price },
                  date: write.date(offer.until!),
                })}
              </li>
            ))}
        </ul>
      )}
      <Fold summary={say("standIn.everywhere")}>
        <p className="quiet small">{say("standIn.everywhere.what")}</p>
        <StandIns
          food={ingredient}
          said={ingredient.substitutes ?? []}
          onChange={(substitutes) => {
            const { substitutes: _, ...rest } = ingredient;
            store.edit("ingredients", substitutes.length > 0 ? { ...rest, substitutes } : rest);
          }}
        />
      </Fold>
      {ingredient.notes && <p className="quiet">{ingredient.notes}</p>}
    </div>
  );
}

/** "12" or "12,5" as so many percent up to 50, none as 0; undefined when it is no such number. */
function readPercent(typed: string): number | undefined {
  const text = typed.trim().replace(/\s*%$/, "").replace(",", ".");
  if (text === "") return 0;
  const percent = /^\d{1,2}(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  return percent <= 50 ? percent : undefined;
}

/** An offer that held before: kept as the history of its price. */
const ended = (offer: { readonly until?: string | undefined }) =>
  offer.until !== undefined && offer.until < new Date().toISOString().slice(0, 10);

/** Names of months, runs as from and to: "September–March". */
function monthsOf(months: readonly number[], locale: string): string[] {
  const name = (month: number) =>
    new Date(Date.UTC(2027, month - 1, 1)).toLocaleDateString(locale, { month: "long", timeZone: "UTC" });
  const has = new Set(months);
  if (has.size === 12) return [`${name(1)}–${name(12)}`];
  return months
    .filter((month) => !has.has(((month + 10) % 12) + 1))
    .map((first) => {
      let last = first;
      while (has.has((last % 12) + 1)) last = (last % 12) + 1;
      return last === first ? name(first) : `${name(first)}–${name(last)}`;
    });
}

function Fact({
  name,
  source,
  children,
}: {
  readonly name: string;
  readonly source?: Source;
  readonly children: React.ReactNode;
}) {
  const { say } = useWords();
  return (
    <>
      <dt>{name}</dt>
      <dd>
        {children}
        {source && (
          <span
            className={`block small ${source.kind === "published" || source.kind === "measured" ? "quiet" : "decide"}`}
          >
            {say("trace.source", { doc: source.doc, table: source.table ?? "none" })} (
            {say(`trace.kind.${source.kind}`)})
          </span>
        )}
      </dd>
    </>
  );
}
