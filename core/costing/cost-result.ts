import { nothing, stated } from "../ledger/stated.ts";
import { type Reading, type Tracer, untraced } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Pricing } from "../production/schema.ts";
import type { BuyingDocuments } from "../purchasing/documents.ts";
import { LEFTOVER } from "../purchasing/order-trace.ts";
import type { OrdersOutcome } from "../purchasing/orders-result.ts";
import type { Cost, PlateCosts } from "./cost-types.ts";
import type { CostCells } from "./costs.ts";
import type { LabourCells } from "./labour.ts";
import { pricesFor } from "./pricing.ts";
import { withoutCharges } from "./rules.ts";

/** `cost` of the result for the newest amounts and the orders made from them. */
export function costResult(
  costs: CostCells,
  amounts: Amounts,
  docs: BuyingDocuments,
  orders: OrdersOutcome,
  tracer?: Tracer,
): Cost {
  const { ledger } = amounts;
  const read: Reading = tracer ? tracer.under("/cost") : untraced(ledger);
  const { currency } = amounts.kitchen;
  read.note("leftover", () => ({
    value: orders.leftover,
    unit: currency,
    rule: "given",
    inputs: [LEFTOVER],
  }));
  return {
    ...plateCosts(costs, amounts, docs, read, "/cost", amounts.service.pricing),
    used: read.of(costs.used, "used"),
    leftover: orders.leftover,
    preparations: costs.preparations
      .filter((_, i) => ledger.value(amounts.cells.preparations[i]!.batches.madeG) > 0)
      .map(({ preparation, perKg, total }, i) => ({
        preparation,
        perKg: read.of(perKg, `preparations/${i}/perKg`),
        total: read.of(total, `preparations/${i}/total`),
      })),
  };
}

/**
 * What plates and the menu cost, with what surrounds them, hands and prices: without the orders.
 * @param base where `read` stands in the result.
 */
export function plateCosts(
  costs: CostCells,
  amounts: Amounts,
  docs: BuyingDocuments,
  read: Reading,
  base: string,
  pricing: Pricing | undefined,
): PlateCosts {
  const { ledger } = amounts;
  const { currency } = amounts.kitchen;
  const served = costs.plates.filter(({ row }) => ledger.value(row.plates) > 0);
  return {
    currency,
    perPlate: served.map(({ row, plate, share }, i) => ({
      dish: row.row.dish.id,
      variant: row.row.form.name,
      plate: read.of(plate, `perPlate/${i}/plate`),
      ...(share === undefined ? {} : { share: read.of(share, `perPlate/${i}/share`) }),
    })),
    menu: read.of(costs.menu, "menu"),
    ...(costs.menuShare === undefined ? {} : { menuShare: read.of(costs.menuShare, "menuShare") }),
    ...surroundResult(costs, read),
    ...foodResult(costs, amounts, docs, read, base),
    ...labourResult(costs.labour, amounts, read),
    ...(pricing === undefined ? {} : { price: pricesFor(costs, amounts, docs, pricing, read, base) }),
  };
}

function surroundResult({ surround }: CostCells, read: Reading) {
  if (!surround) return {};
  return {
    qFactor: {
      by: surround.by,
      perCover: read.of(surround.perCover, "qFactor/perCover"),
      items: surround.items.map(({ item, g, cost }, i) => ({
        item: "preparation" in item ? item.preparation : item.ingredient,
        g: read.of(g, `qFactor/items/${i}/g`),
        cost: read.of(cost, `qFactor/items/${i}/cost`),
      })),
    },
  };
}

/** Plates with what surrounds them, and their share of what a cover pays without tax and service charge. */
function foodResult(costs: CostCells, amounts: Amounts, docs: BuyingDocuments, read: Reading, base: string) {
  const { ledger, service, kitchen } = amounts;
  const { sellPerCover, pricing } = service;
  const [tax, charge] = [pricing?.tax ?? 0, pricing?.service ?? 0];
  if (!costs.surround && tax === 0 && charge === 0) return {};
  const perCover = read.of(costs.food, "food/perCover");
  if (sellPerCover === undefined) return { food: { perCover } };
  const at = `book:${docs.pointer("services", service.id)}`;
  const earned = withoutCharges(Number(sellPerCover), tax, charge);
  const ratio = (key: "tax" | "service", value: number) => {
    read.note(`food/${key}`, () => ({
      value,
      unit: "ratio",
      rule: "given",
      inputs:
        pricing?.[key] === undefined
          ? [nothing(ledger)]
          : [stated(ledger, `${at}/pricing/${key}`, "ratio", value)],
    }));
    return `${base}/food/${key}`;
  };
  const sell = stated(ledger, `${at}/sellPerCover`, kitchen.currency, Number(sellPerCover));
  const inputs = [sell, ratio("tax", tax), ratio("service", charge)];
  const unit = kitchen.currency;
  read.note("food/earned", () => ({ value: earned, unit, rule: withoutCharges.name, inputs }));
  const share = ledger.value(costs.food) / earned;
  read.note("food/share", () => ({
    value: share,
    unit: "ratio",
    rule: "over",
    inputs: [`${base}/food/perCover`, `${base}/food/earned`],
  }));
  return { food: { perCover, earned, share } };
}

function labourResult(labour: LabourCells | undefined, amounts: Amounts, read: Reading) {
  if (!labour) return {};
  const { ledger } = amounts;
  const made = labour.preparations.filter(({ cost }) => ledger.value(cost) > 0);
  const plates = labour.plates.filter(({ row }) => ledger.value(row.plates) > 0);
  return {
    labour: {
      perCover: read.of(labour.perCover, "labour/perCover"),
      total: read.of(labour.total, "labour/total"),
      minutes: read.of(labour.minutes, "labour/minutes"),
      perPlate: plates.map(({ plate }, i) => read.of(plate, `labour/perPlate/${i}`)),
      preparations: made.map(({ preparation, minutes, cost }, i) => ({
        preparation,
        minutes: read.of(minutes, `labour/preparations/${i}/minutes`),
        cost: read.of(cost, `labour/preparations/${i}/cost`),
      })),
      unrated: labour.unrated,
    },
  };
}
