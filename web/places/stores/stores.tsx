import { useState } from "react";
import { Button, Input, Label, SearchField } from "react-aria-components";
import type { Ingredient } from "../../../core/pantry/schema.ts";
import type { Offer, Supplier } from "../../../core/purchasing/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useBook } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { BookFile } from "../../book/book-file.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Line } from "../../parts/line.tsx";
import { IngredientSheet } from "./ingredient.tsx";
import { offersOf, packText } from "./offers.ts";
import { StoresDoors } from "./suppliers.tsx";
import { isGrave, weakest } from "./weakest.ts";

/** Stores: a line an ingredient, the figure least known first in the margin. */
export function StoresPlace() {
  const { book } = useBook();
  const { say } = useWords();
  const [sought, setSought] = useState("");
  const [onlyWeak, setOnlyWeak] = useState(false);
  if (book.ingredients.length === 0)
    return (
      <div className="page">
        <h1>{say("place.stores")}</h1>
        <Empty title={say("stores.empty")} step={<BookFile />}>
          {say("stores.empty.what")}
        </Empty>
        <StoresDoors />
      </div>
    );
  const rows = book.ingredients
    .map((ingredient) => ({
      ingredient,
      weak: weakest(ingredient, offersOf(book.suppliers, ingredient.id).length),
    }))
    .filter(
      ({ ingredient, weak }) =>
        (!onlyWeak || weak.length > 0) &&
        [ingredient.name, ...ingredient.aliases].some((name) => fold(name).includes(fold(sought))),
    )
    .sort((a, b) => rank(a.weak) - rank(b.weak) || a.ingredient.name.localeCompare(b.ingredient.name));
  const weakCount = book.ingredients.filter(
    (i) => weakest(i, offersOf(book.suppliers, i.id).length).length > 0,
  ).length;
  return (
    <div className="page">
      <div className="place-head">
        <h1>{say("place.stores")}</h1>
        <SearchField className="entry search" value={sought} onChange={setSought}>
          <Label className="unseen">{say("stores.search")}</Label>
          <Input placeholder={say("stores.search")} />
          {sought !== "" && (
            <Button className="clear" aria-label={say("bench.search.clear")}>
              ✕
            </Button>
          )}
        </SearchField>
      </div>
      <p className="large">
        {say("stores.sentence", { count: book.ingredients.length, weak: weakCount })}{" "}
        {weakCount > 0 && (
          <Button className="link-button" aria-pressed={onlyWeak} onPress={() => setOnlyWeak(!onlyWeak)}>
            {say(onlyWeak ? "stores.all" : "stores.onlyWeak")}
          </Button>
        )}
      </p>
      <StoresDoors />
      {rows.map(({ ingredient, weak }) => (
        <Line
          key={ingredient.id}
          mark={weak.some(isGrave) ? <span className="decide">▲</span> : undefined}
          margin={
            weak.length > 0 ? (
              <ul className="plain">
                {weak.slice(0, 2).map((w) => (
                  <li key={w} className={isGrave(w) ? "decide" : "quiet"}>
                    {isGrave(w) && "▲ "}
                    {say(`weak.${w}`)}
                  </li>
                ))}
              </ul>
            ) : (
              <OfferNote offers={offersOf(book.suppliers, ingredient.id)} />
            )
          }
        >
          <Fold
            summary={
              <>
                {ingredient.name}
                <span className="quiet small"> {allergenWords(ingredient, say)}</span>
              </>
            }
          >
            <IngredientSheet ingredient={ingredient} />
          </Fold>
        </Line>
      ))}
    </div>
  );
}

function OfferNote({ offers }: { readonly offers: readonly { supplier: Supplier; offer: Offer }[] }) {
  const { write } = useWords();
  const currency = useMaybeService()?.kitchen.currency;
  const first = offers[0];
  if (!first || !currency) return null;
  return (
    <span className="small quiet">
      {write.money(first.offer.price, currency)} / {packText(first.offer)}
    </span>
  );
}

function allergenWords(ingredient: Ingredient, say: ReturnType<typeof useWords>["say"]): string {
  return ingredient.allergens.contains.map((a) => wordFor(say, "allergen", a)).join(", ");
}

function rank(weak: readonly string[]): number {
  return weak.length === 0
    ? 100
    : ["allergens", "offer", "density", "invented", "memory", "composition"].indexOf(weak[0]!);
}

function fold(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}
