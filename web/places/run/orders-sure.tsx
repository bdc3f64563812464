import { useBook } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import type { Told } from "../../compute/protocol.ts";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Fold } from "../../parts/fold.tsx";
import { CoversSpread } from "./covers-spread.tsx";

/** The chance wanted of having enough, and what it costs to be surer. */
export function OrdersSure({ told, early }: { readonly told: Told; readonly early: boolean }) {
  const { say, write } = useWords();
  const { service } = useService();
  const { store } = useBook();
  const { ordering, cost, summary } = told;
  const more = (total: string) => {
    const by = Number(total) - Number(summary.orderTotal);
    return `${by < 0 ? "−" : "+"}${write.money(Math.abs(by), cost.currency)}`;
  };
  return (
    <section aria-labelledby="orders-sure">
      <h2 className="part" id="orders-sure">
        {say("orders.sure")}
      </h2>
      <div className="orders-sure">
        <CountEntry
          label={say("orders.sure.chance")}
          value={Math.round(100 * service.chance)}
          least={50}
          most={99}
          onChange={(next) => store.edit("services", { ...service, chance: next / 100 }, "chance")}
        />
        {ordering.varies ? (
          <p className="quiet measure">{say("orders.sure.what")}</p>
        ) : (
          <p className="measure">{say("orders.sure.nothing")}</p>
        )}
      </div>
      <CoversSpread />
      {ordering.varies && early && <p className="quiet">{say("orders.sure.later")}</p>}
      {ordering.surer.length > 0 && (
        <table className="table orders-surer">
          <thead>
            <tr>
              <th>{say("orders.sure")}</th>
              <th className="num">{say("orders.sure.costs")}</th>
              <th className="num">{say("orders.sure.more")}</th>
            </tr>
          </thead>
          <tbody>
            {ordering.surer.map((each, i) => (
              <tr key={each.chance} className={each.chance === ordering.chance ? "now" : undefined}>
                <th scope="row">{say("orders.sure.at", { share: write.share(each.chance) })}</th>
                <td className="num">
                  <Figure at={`/ordering/surer/${i}/total`} unfold="over" label={write.share(each.chance)}>
                    {write.money(each.total, cost.currency)}
                  </Figure>
                </td>
                <td className="num">{each.chance === ordering.chance ? "" : more(each.total)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

/** What is left over of whole packs, and what of it keeps and is worth something. */
export function OrdersLeft({ told }: { readonly told: Told }) {
  const { say, write } = useWords();
  const { ordering, cost } = told;
  if (ordering.left.length === 0) return null;
  const worth = ordering.left.reduce((sum, each) => sum + each.worth, 0);
  return (
    <Fold summary={say("orders.left", { worth: write.money(worth, cost.currency) })}>
      <p className="quiet measure">
        {say("orders.left.what", {
          days: write.number(ordering.keepsDays, 0),
          share: write.share(ordering.worthShare),
        })}
      </p>
      <table className="table orders-left">
        <tbody>
          {ordering.left.map((each, i) => (
            <tr key={each.ingredient}>
              <th scope="row">{each.name}</th>
              <td className="num">
                <Figure at={`/ordering/left/${i}/amount/value`} unfold="over" label={each.name}>
                  {write.quantity(each.amount)}
                </Figure>
              </td>
              <td className="num">
                {each.keeps ? (
                  <Figure at={`/ordering/left/${i}/worth`} unfold="over" label={each.name}>
                    {write.money(each.worth, cost.currency)}
                  </Figure>
                ) : (
                  <span className="quiet">{say("orders.left.spoils")}</span>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Fold>
  );
}
