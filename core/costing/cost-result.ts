import { type Reading, type Tracer, untraced } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import { LEFTOVER } from "../purchasing/order-trace.ts";
import type { OrdersOutcome } from "../purchasing/orders-result.ts";
import type { CostCells } from "./costs.ts";

/** `cost` of the result for the newest amounts and the orders made from them. */
export function costResult(costs: CostCells, amounts: Amounts, orders: OrdersOutcome, tracer?: Tracer) {
  const { ledger } = amounts;
  const read: Reading = tracer ? tracer.under("/cost") : untraced(ledger);
  const { currency } = amounts.kitchen;
  const served = costs.plates.filter(({ row }) => ledger.value(row.plates) > 0);
  read.note("leftover", () => ({
    value: orders.leftover,
    unit: currency,
    rule: "given",
    inputs: [LEFTOVER],
  }));
  return {
    currency,
    perPlate: served.map(({ row, plate, share }, i) => ({
      dish: row.row.dish.id,
      variant: row.row.form.name,
      plate: read.of(plate, `perPlate/${i}/plate`),
      ...(share === undefined ? {} : { share: read.of(share, `perPlate/${i}/share`) }),
    })),
    used: read.of(costs.used, "used"),
    leftover: orders.leftover,
    menu: read.of(costs.menu, "menu"),
    ...(costs.menuShare === undefined ? {} : { menuShare: read.of(costs.menuShare, "menuShare") }),
    preparations: costs.preparations
      .filter((_, i) => ledger.value(amounts.cells.preparations[i]!.batches.madeG) > 0)
      .map(({ preparation, perKg, total }, i) => ({
        preparation,
        perKg: read.of(perKg, `preparations/${i}/perKg`),
        total: read.of(total, `preparations/${i}/total`),
      })),
  };
}
