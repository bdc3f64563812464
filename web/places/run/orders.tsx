import type { SupplierOrder } from "../../../core/run/result.ts";
import { useTold } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Figure } from "../../parts/figure.tsx";

/** What to order, from whom, in which packs, by when. */
export function Orders() {
  const { amounts } = useTold();
  const { say, write } = useWords();
  if (!amounts) return null;
  if (amounts.orders.length === 0)
    return (
      <div className="page">
        <Empty title={say("orders.none")}>{say("orders.none.what")}</Empty>
      </div>
    );
  return (
    <div className="page">
      <p className="large orders-total">
        {say("orders.total", { count: amounts.orders.length })}{" "}
        <Figure at="/summary/orderTotal">
          <strong>{write.money(amounts.summary.orderTotal, amounts.cost.currency)}</strong>
        </Figure>
        <span className="quiet">
          {" "}
          {say("orders.leftover")}{" "}
          <Figure at="/cost/leftover">{write.money(amounts.cost.leftover, amounts.cost.currency)}</Figure>
        </span>
      </p>
      {amounts.orders.map((order, i) => (
        <Order
          key={`${order.supplier} ${order.deliver}`}
          order={order}
          at={`/orders/${i}`}
          currency={amounts.cost.currency}
        />
      ))}
    </div>
  );
}

function Order({
  order,
  at,
  currency,
}: {
  readonly order: SupplierOrder;
  readonly at: string;
  readonly currency: string;
}) {
  const { say, write } = useWords();
  return (
    <section className="sheet-page">
      <h2 className="part">{order.name}</h2>
      <p>
        <strong>{say("orders.by", { clock: moment(order.orderBy, write.clock) })}</strong>
        <span className="quiet"> {say("orders.deliver", { clock: moment(order.deliver, write.clock) })}</span>
      </p>
      {Number(order.belowMinimum) > 0 && (
        <p className="decide">
          ▲ {say("orders.below", { missing: write.money(order.belowMinimum, currency) })}
        </p>
      )}
      <div className="scroll-x">
        <table className="table">
          <thead>
            <tr>
              <th>{say("orders.what")}</th>
              <th className="num">{say("orders.packs")}</th>
              <th>{say("orders.pack")}</th>
              <th className="num wide-only">{say("orders.need")}</th>
              <th className="num wide-only">{say("orders.bought")}</th>
              <th className="num wide-only">{say("orders.price")}</th>
              <th className="num">{say("orders.sum")}</th>
            </tr>
          </thead>
          <tbody>
            {order.lines.map((line, i) => (
              <tr key={line.offer}>
                <th scope="row">{line.name}</th>
                <td className="num">
                  <Figure at={`${at}/lines/${i}/packs`} unfold="over" label={line.name}>
                    <strong>{write.number(line.packs, 0)}</strong>
                  </Figure>
                </td>
                <td>{line.pack}</td>
                <td className="num wide-only">
                  <Figure at={`${at}/lines/${i}/need/value`} unfold="over" label={line.name}>
                    {write.quantity(line.need)}
                  </Figure>
                </td>
                <td className="num quiet wide-only">{write.quantity(line.bought)}</td>
                <td className="num quiet wide-only">{write.money(line.price, currency)}</td>
                <td className="num">{write.money(line.total, currency)}</td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            {Number(order.charge) > 0 && (
              <tr>
                <th scope="row">{say("orders.charge")}</th>
                <td colSpan={2} />
                <td colSpan={3} className="wide-only" />
                <td className="num">{write.money(order.charge, currency)}</td>
              </tr>
            )}
            <tr>
              <th scope="row">{say("orders.together")}</th>
              <td colSpan={2} />
              <td colSpan={3} className="wide-only" />
              <td className="num">
                <strong>{write.money(order.total, currency)}</strong>
              </td>
            </tr>
          </tfoot>
        </table>
      </div>
    </section>
  );
}

/** A moment of the run where it is one; what else the result says is shown as it stands. */
function moment(text: string, write: (clock: string) => string): string {
  return /^D([-+]\d{1,2})? \d\d:\d\d$/.test(text) ? write(text) : text;
}
