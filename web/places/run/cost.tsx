import { Link } from "@tanstack/react-router";
import { useMemo, useRef, useState } from "react";
import type { Pricing } from "../../../core/production/schema.ts";
import { variantWords } from "../../../words/variant.ts";
import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Table } from "../../parts/table.tsx";
import { CostMoves } from "./cost-moves.tsx";
import { CostPrice } from "./cost-price.tsx";
import { type Changes, CostTry } from "./cost-try.tsx";
import { firstTry, useTriables } from "./triable.ts";
import { useTried } from "./use-tried.ts";

/** The share asked for where a service has none of its own (common practice, no source). */
const USUAL: Pricing = { wantedShare: 0.3 };

/** What the menu costs, what moves it, what it would cost otherwise, what to ask for it; then plates and preparations. */
export function CostView() {
  const { amounts } = useTold();
  const { service } = useService();
  const triables = useTriables();
  const [changes, setChanges] = useState<Changes>(new Map());
  const [pricing, setPricing] = useState<Pricing>(service.pricing ?? USUAL);
  const trial = useMemo(
    () => ({ changes: [...changes].map(([path, value]) => ({ path, value })), pricing }),
    [changes, pricing],
  );
  const tried = useTried(trial);
  const what = useRef<HTMLDivElement>(null);
  if (!amounts) return null;
  const tryOne = (path: string) => {
    const of = triables.find((each) => each.path === path);
    if (of && !changes.has(path)) setChanges(new Map(changes).set(path, firstTry(of)));
    what.current?.scrollIntoView({ block: "nearest" });
  };
  return (
    <div className="page">
      <Head />
      <CostMoves onTry={tryOne} />
      <div ref={what}>
        <CostTry changes={changes} tried={tried} onChange={setChanges} />
      </div>
      <CostPrice pricing={pricing} tried={tried} onChange={setPricing} />
      <Plates />
      <Preparations />
    </div>
  );
}

/** The menu by cover, what surrounds it, its share, and hands apart from food. */
function Head() {
  const { amounts, plan } = useTold();
  const { say, write } = useWords();
  if (!amounts) return null;
  const { cost } = amounts;
  const { labour, food, qFactor } = cost;
  const money = (value: number) => write.money(value, cost.currency);
  const planned = plan?.cost.labour?.planned;
  return (
    <>
      <p className="large">
        {say("cost.menu")}{" "}
        <Figure at="/cost/menu">
          <strong>{money(cost.menu)}</strong>
        </Figure>
        {cost.menuShare !== undefined && (
          <>
            {" "}
            <Figure at="/cost/menuShare">
              {say("figure.ofPrice", { share: write.share(cost.menuShare) })}
            </Figure>
          </>
        )}
      </p>
      {food && (
        <p>
          {say("cost.food")}{" "}
          <Figure at="/cost/food/perCover">
            <strong>{money(food.perCover)}</strong>
          </Figure>{" "}
          {qFactor && (
            <Figure at="/cost/qFactor/perCover">
              {say("cost.surround", { cost: money(qFactor.perCover) })}
            </Figure>
          )}
          {food.share !== undefined && (
            <>
              {", "}
              <Figure at="/cost/food/share">
                {say("cost.ofEarned", { share: write.share(food.share) })}
              </Figure>
            </>
          )}
        </p>
      )}
      {labour && (
        <p>
          {say("cost.hands")}{" "}
          <Figure at="/cost/labour/perCover">
            <strong>{money(labour.perCover)}</strong>
          </Figure>
          {", "}
          <Figure at="/cost/labour/total">
            {say("cost.hands.total", { total: money(labour.total), hours: write.hours(labour.minutes) })}
          </Figure>
          {planned !== undefined && (
            <>
              {", "}
              <Figure at="/cost/labour/planned">{say("cost.hands.planned", { cost: money(planned) })}</Figure>
            </>
          )}
          {labour.unrated.length > 0 && (
            <span className="decide">
              {" "}
              ▲ {say("cost.hands.unrated", { list: write.list(labour.unrated) })}
            </span>
          )}
        </p>
      )}
      <p className="quiet">
        {say("cost.used")} <Figure at="/cost/used">{money(cost.used)}</Figure>, {say("orders.leftover")}{" "}
        <Figure at="/cost/leftover">{money(cost.leftover)}</Figure>
      </p>
    </>
  );
}

function Plates() {
  const { amounts } = useTold();
  const names = useNames();
  const { say, write } = useWords();
  const { cost } = amounts!;
  const { labour, price } = cost;
  return (
    <>
      <h2 className="part">{say("cost.plates")}</h2>
      <Table
        heads={[
          [say("guests.dish")],
          [say("guests.variant")],
          [say("cost.plate"), "num"],
          [say("cost.share"), "num"],
          labour ? [say("cost.hands.column"), "num"] : undefined,
          price ? [say("cost.price.column"), "num"] : undefined,
        ]}
      >
        <tbody>
          {cost.perPlate.map((plate, i) => (
            <tr key={plate.dish + plate.variant}>
              <th scope="row" className="dish">
                <Link to="/bench/dish/$id" params={{ id: plate.dish }}>
                  {names.dish(plate.dish)}
                </Link>
              </th>
              <td>
                {variantWords(say, plate.variant) ?? <span className="quiet">{say("guests.standard")}</span>}
              </td>
              <td className="num">
                <Figure at={`/cost/perPlate/${i}/plate`} unfold="over" label={names.dish(plate.dish)}>
                  {write.money(plate.plate, cost.currency)}
                </Figure>
              </td>
              <td className="num quiet">{plate.share === undefined ? "" : write.share(plate.share)}</td>
              {labour && (
                <td className="num">
                  <Figure at={`/cost/labour/perPlate/${i}`} unfold="over" label={names.dish(plate.dish)}>
                    {write.money(labour.perPlate[i]!, cost.currency)}
                  </Figure>
                </td>
              )}
              {price && (
                <td className="num">
                  <Figure
                    at={`/cost/price/perPlate/${i}/printed`}
                    unfold="over"
                    label={names.dish(plate.dish)}
                  >
                    {write.money(price.perPlate[i]!.printed, cost.currency)}
                  </Figure>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </Table>
    </>
  );
}

function Preparations() {
  const { amounts } = useTold();
  const names = useNames();
  const { say, write } = useWords();
  const { cost } = amounts!;
  const preparations = cost.preparations.map((p, i) => ({ ...p, i })).sort((a, b) => b.total - a.total);
  return (
    <>
      <h2 className="part">{say("cost.preparations")}</h2>
      <Table heads={[[say("cost.preparation")], [say("cost.perKg"), "num"], [say("cost.total"), "num"]]}>
        <tbody>
          {preparations.map((p) => (
            <tr key={p.preparation}>
              <th scope="row">
                <Link to="/bench/preparation/$id" params={{ id: p.preparation }}>
                  {names.preparation(p.preparation)}
                </Link>
              </th>
              <td className="num quiet">{write.money(p.perKg, cost.currency)}</td>
              <td className="num">
                <Figure
                  at={`/cost/preparations/${p.i}/total`}
                  unfold="over"
                  label={names.preparation(p.preparation)}
                >
                  {write.money(p.total, cost.currency)}
                </Figure>
              </td>
            </tr>
          ))}
        </tbody>
      </Table>
    </>
  );
}
