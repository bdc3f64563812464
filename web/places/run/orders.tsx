import { type ReactNode, useState } from "react";
import type { OrderLine, SupplierOrder } from "../../../core/run/result.ts";
import { useWords } from "../../app/settings.tsx";
import type { Told } from "../../compute/protocol.ts";
import { Empty } from "../../parts/empty.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Table } from "../../parts/table.tsx";
import { orderCsv, saveFile } from "./order-csv.ts";
import { OrderLineRow } from "./order-line.tsx";
import { OrdersLeft, OrdersSure } from "./orders-sure.tsx";
import { useOrdered } from "./use-ordered.ts";

/** What to order, from whom, in which packs, by when; how good and how sure that is. */
export function Orders() {
  const { told, early } = useOrdered();
  const { say, write } = useWords();
  // What is opened stays so when other packs, or another supplier, are chosen for it.
  const [opened, setOpened] = useState<ReadonlySet<string>>(new Set());
  if (!told) return null;
  const { currency } = told.cost;
  const names = namesOf(told.orders);
  const turn = (key: string) => {
    const next = new Set(opened);
    if (!next.delete(key)) next.add(key);
    setOpened(next);
  };
  if (told.orders.length === 0)
    return (
      <div className="page">
        <Empty title={say("orders.none")}>{say("orders.none.what")}</Empty>
      </div>
    );
  return (
    <div className="page">
      <p className="large orders-total">
        {say("orders.total", { count: told.orders.length })}{" "}
        <Figure at="/summary/orderTotal">
          <strong>{write.money(told.summary.orderTotal, currency)}</strong>
        </Figure>
        <span className="quiet">
          {" "}
          {say("orders.leftover")}{" "}
          <Figure at="/cost/leftover">{write.money(told.cost.leftover, currency)}</Figure>
        </span>
      </p>
      <Proof told={told} early={early} />
      {told.orders.map((order, i) => (
        <Order
          key={`${order.supplier} ${order.deliver}`}
          order={order}
          ordering={told.ordering}
          at={`/orders/${i}`}
          currency={currency}
          names={names}
          opened={opened}
          onTurn={turn}
        />
      ))}
      <OrdersLeft told={told} />
      <OrdersSure told={told} early={early} />
    </div>
  );
}

/** How near the cheapest the orders are, in words. */
function Proof({ told, early }: { readonly told: Told; readonly early: boolean }) {
  const { say, write } = useWords();
  const { ordering, cost } = told;
  if (early) return <p className="quiet measure">{say("orders.early")}</p>;
  return (
    <p className={ordering.proved ? "quiet measure" : "decide measure"}>
      {ordering.proved ? (
        <>
          <span className="done" aria-hidden="true">
            ✓{" "}
          </span>
          {say("orders.proved")}
        </>
      ) : (
        <>
          ▲{" "}
          <Figure at="/ordering/gap">
            {say("orders.gap", { gap: write.money(ordering.gap, cost.currency) })}
          </Figure>
        </>
      )}{" "}
      <Figure at="/ordering/value">
        {say("orders.value", { value: write.money(ordering.value, cost.currency) })}
      </Figure>{" "}
      ({say("orders.value.what")}).
    </p>
  );
}

function Order({
  order,
  ordering,
  at,
  currency,
  names,
  opened,
  onTurn,
}: {
  readonly names: ReadonlyMap<OrderLine, string>;
  readonly opened: ReadonlySet<string>;
  readonly onTurn: (key: string) => void;
  readonly order: SupplierOrder;
  readonly ordering: Told["ordering"];
  readonly at: string;
  readonly currency: string;
}) {
  const { say, write } = useWords();
  const when = (text: string) => moment(text, write.clock);
  const csv = () => {
    const heads = {
      ...{ supplier: say("orders.csv.supplier"), orderBy: say("orders.csv.orderBy") },
      ...{ deliver: say("orders.csv.deliver"), offer: say("orders.csv.offer"), what: say("orders.what") },
      ...{ packs: say("orders.packs"), pack: say("orders.pack") },
      ...{ price: say("orders.price"), sum: say("orders.sum") },
    };
    saveFile(
      `order-${order.supplier}-${order.deliver.replace(/[^\w+-]+/g, "-")}.csv`,
      orderCsv(order, heads, when),
    );
  };
  return (
    <section className="sheet-page">
      <h2 className="part">{order.name}</h2>
      <p className="order-head">
        <span>
          <strong>{say("orders.by", { clock: when(order.orderBy) })}</strong>
          <span className="quiet"> {say("orders.deliver", { clock: when(order.deliver) })}</span>
        </span>
        <button
          type="button"
          className="button"
          aria-label={say("orders.csv.of", { supplier: order.name })}
          onClick={csv}
        >
          {say("orders.csv")}
        </button>
      </p>
      {Number(order.belowMinimum) > 0 && (
        <p className="decide">
          ▲ {say("orders.below", { missing: write.money(order.belowMinimum, currency) })}
        </p>
      )}
      <Table
        heads={[
          [say("orders.what")],
          [say("orders.packs"), "num"],
          [say("orders.pack")],
          [say("orders.need"), "num wide-only"],
          [say("orders.bought"), "num wide-only"],
          [say("orders.price"), "num wide-only"],
          [say("orders.sum"), "num"],
        ]}
        className="orders-table"
      >
        <tbody>
          {order.lines.map((line, i) => (
            <OrderLineRow
              key={`${line.offer} ${line.insteadOf?.ingredient ?? ""} ${line.insteadOf?.lines?.map((each) => each.preparation + each.line).join(" ") ?? ""}`}
              line={line}
              at={`${at}/lines/${i}`}
              currency={currency}
              supplier={order.supplier}
              chance={ordering.chance}
              varies={ordering.varies}
              open={opened.has(names.get(line)!)}
              onTurn={() => onTurn(names.get(line)!)}
            />
          ))}
        </tbody>
        <tfoot>
          {Number(order.charge) > 0 && (
            <Foot word={say("orders.charge")} sum={write.money(order.charge, currency)} />
          )}
          <Foot word={say("orders.together")} sum={<strong>{write.money(order.total, currency)}</strong>} />
        </tfoot>
      </Table>
    </section>
  );
}

/** A name for every line, by what it was asked for: the same whichever goods, packs or supplier are chosen. */
function namesOf(orders: readonly SupplierOrder[]): ReadonlyMap<OrderLine, string> {
  const count = new Map<string, number>();
  const named = (line: OrderLine) => {
    const asked = line.insteadOf?.ingredient ?? line.ingredient;
    const n = (count.get(asked) ?? 0) + 1;
    count.set(asked, n);
    return [line, `${asked} ${n}`] as const;
  };
  return new Map(orders.flatMap((order) => order.lines.map(named)));
}

function Foot({ word, sum }: { readonly word: string; readonly sum: ReactNode }) {
  return (
    <tr>
      <th scope="row">{word}</th>
      <td colSpan={2} />
      <td colSpan={3} className="wide-only" />
      <td className="num">{sum}</td>
    </tr>
  );
}

/** A moment of the run where it is one; what else the result says is shown as it stands. */
function moment(text: string, write: (clock: string) => string): string {
  return /^D([-+]\d{1,2})? \d\d:\d\d$/.test(text) ? write(text) : text;
}
