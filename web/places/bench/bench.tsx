import { Link } from "@tanstack/react-router";
import { useMemo, useState } from "react";
import { Button, Input, Label, SearchField } from "react-aria-components";
import { Finder } from "../../../core/book/find.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Line } from "../../parts/line.tsx";
import { NewPreparation } from "./new-preparation.tsx";

/** Drawn at once: a library may hold ten thousand. */
const MOST = 100;

/** Bench: what there is to open, the dishes of the service in hand first. */
export function BenchPlace() {
  const { book } = useBook();
  const { say, write } = useWords();
  const { amounts } = useTold();
  const here = useMaybeService();
  const [sought, setSought] = useState("");
  const [most, setMost] = useState(MOST);
  const dishFinder = useMemo(() => new Finder(book.dishes), [book.dishes]);
  const preparationFinder = useMemo(() => new Finder(book.preparations), [book.preparations]);
  const onMenu = new Set(here?.menu?.courses.flatMap((c) => c.options.map((o) => o.dish)));
  const dishes = dishFinder.find(sought).sort((a, b) => Number(onMenu.has(b.id)) - Number(onMenu.has(a.id)));
  const needOf = (id: string) => amounts?.needs.findIndex((n) => n.preparation === id) ?? -1;
  const preparations = useMemo(() => preparationFinder.find(sought), [preparationFinder, sought]);
  if (book.preparations.length + book.dishes.length === 0)
    return (
      <div className="page">
        <h1>{say("place.bench")}</h1>
        <Empty
          title={say("bench.empty")}
          step={
            <>
              <NewPreparation />
              <Link to="/bench/paste" className="button quiet-button">
                {say("paste.open.place")}
              </Link>
            </>
          }
        >
          {say("bench.empty.what")}
        </Empty>
      </div>
    );
  return (
    <div className="page">
      <div className="place-head">
        <h1>{say("place.bench")}</h1>
        <SearchField className="entry search" value={sought} onChange={setSought}>
          <Label className="unseen">{say("bench.search")}</Label>
          <Input placeholder={say("bench.search")} />
          {sought !== "" && (
            <Button className="clear" aria-label={say("bench.search.clear")}>
              ✕
            </Button>
          )}
        </SearchField>
      </div>
      {dishes.length > 0 && <h2 className="part">{say("bench.dishes")}</h2>}
      {dishes.slice(0, most).map((dish) => {
        const at =
          amounts?.cost.perPlate.findIndex(
            (p) => p.dish === dish.id && (p.variant === "standard" || p.variant === ""),
          ) ?? -1;
        const plate = amounts?.cost.perPlate[at];
        return (
          <Line
            key={dish.id}
            mark={plate && write.money(plate.plate, amounts!.cost.currency)}
            margin={
              plate ? (
                <>
                  <Figure at={`/cost/perPlate/${at}/plate`} label={dish.name}>
                    {write.money(plate.plate, amounts!.cost.currency)}
                  </Figure>
                  <span className="quiet"> {say("bench.aPlate")}</span>
                </>
              ) : (
                amounts && <span className="quiet">{say("bench.notServed")}</span>
              )
            }
          >
            <Link to="/bench/dish/$id" params={{ id: dish.id }} className="big-link dish">
              {dish.name}
            </Link>
          </Line>
        );
      })}
      <h2 className="part">{say("bench.preparations")}</h2>
      <div className="row wrap">
        <NewPreparation />
        <Link to="/bench/paste" className="button quiet-button">
          {say("paste.open.place")}
        </Link>
        <Link to="/bench/heat" className="button quiet-button">
          {say("heat.open")}
        </Link>
      </div>
      {preparations.slice(0, most).map((preparation) => {
        const at = needOf(preparation.id);
        const need = amounts?.needs[at];
        return (
          <Line
            key={preparation.id}
            mark={need && write.quantity(need.amount)}
            margin={
              need ? (
                <>
                  <Figure at={`/needs/${at}/amount/value`} label={preparation.name}>
                    {write.quantity(need.amount)}
                  </Figure>
                  <span className="quiet"> {say("bench.batches", { count: need.batches.length })}</span>
                </>
              ) : (
                amounts && <span className="quiet">{say("bench.notServed")}</span>
              )
            }
          >
            <Link to="/bench/preparation/$id" params={{ id: preparation.id }} className="big-link">
              {preparation.name}
            </Link>
          </Line>
        );
      })}
      {preparations.length > most && (
        <Button className="link-button" onPress={() => setMost(most * 5)}>
          {say("list.more", { count: preparations.length - most })}
        </Button>
      )}
    </div>
  );
}
