import type { Ledger } from "../ledger/ledger.ts";
import { nothing, stated } from "../ledger/stated.ts";
import type { Reading } from "../ledger/tracer.ts";
import { smallestCoin } from "../money/money.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Pricing } from "../production/schema.ts";
import type { BuyingDocuments } from "../purchasing/documents.ts";
import type { CostCells } from "./costs.ts";
import { priceAtShare, priceDown, priceNearest, priceUp, withCharge, withoutCharges } from "./rules.ts";

const ROUNDINGS = { up: priceUp, nearest: priceNearest, down: priceDown } as const;

/** A price for a cost, and the share the cost is of it once rounded. */
export interface Price {
  /** Before tax, service charge and rounding. */
  readonly net: number;
  /** As printed: with both, on its step. */
  readonly printed: number;
  /** Cost over the printed price without tax and service charge. */
  readonly share: number;
}

/** Prices for a wanted share: of the menu by cover and of each plate. */
export interface PriceOutcome {
  readonly wantedShare: number;
  readonly step: number;
  readonly rounding: keyof typeof ROUNDINGS;
  readonly tax: number;
  readonly service: number;
  readonly menu: Price;
  readonly perPlate: readonly Price[];
}

/**
 * Prices at which food is the wanted share of what is left without tax and service charge: cost / share, with the
 * service charge, with tax on both, then on the step of prices. Rounding is up if not said, so that the share is kept.
 * @param pricing the service's own, or one that is tried. @param base where `read` stands in the result.
 */
export function pricesFor(
  costs: CostCells,
  amounts: Amounts,
  docs: BuyingDocuments,
  pricing: Pricing,
  read: Reading,
  base: string,
): PriceOutcome {
  const { ledger, kitchen, service } = amounts;
  const { currency } = kitchen;
  const at = `book:${docs.pointer("services", service.id)}/pricing`;
  // A pricing that is tried stands in no book.
  const tried = pricing !== service.pricing;
  const coin = smallestCoin(currency);
  const known = (key: "wantedShare" | "step" | "tax" | "service", value: number, unit: string) => {
    read.note(`price/${key}`, () => {
      const usual = () => (key === "step" ? coinOf(ledger, currency, coin) : nothing(ledger));
      const inputs = tried ? [] : pricing[key] === undefined ? [usual()] : [`${at}/${key}`];
      // Written down so that the trace can cite it.
      if (!tried && pricing[key] !== undefined) stated(ledger, `${at}/${key}`, unit, value);
      return { value, unit, rule: "given", inputs };
    });
    return value;
  };
  const wantedShare = known("wantedShare", pricing.wantedShare, "ratio");
  const step = known("step", pricing.step === undefined ? coin : Number(pricing.step), currency);
  const tax = known("tax", pricing.tax ?? 0, "ratio");
  const serviceShare = known("service", pricing.service ?? 0, "ratio");
  const rounding = pricing.rounding ?? "up";
  const round = ROUNDINGS[rounding];
  const of = (key: string, cost: number, costAt: string): Price => {
    const net = priceAtShare(cost, wantedShare);
    const served = withCharge(net, serviceShare);
    const taxed = withCharge(served, tax);
    const printed = round(taxed, step);
    const bare = withoutCharges(printed, tax, serviceShare);
    const share = cost === 0 ? 0 : cost / bare;
    const here = read.under(`price/${key}`);
    const note = (name: string, value: number, rule: string, inputs: string[], unit = currency) =>
      here.note(name, () => ({ value, unit, rule, inputs: inputs.map((input) => `${base}/${input}`) }));
    const mine = `price/${key}`;
    note("net", net, "priceAtShare", [costAt, "price/wantedShare"]);
    note("served", served, "withCharge", [`${mine}/net`, "price/service"]);
    note("taxed", taxed, "withCharge", [`${mine}/served`, "price/tax"]);
    note("printed", printed, round.name, [`${mine}/taxed`, "price/step"]);
    note("bare", bare, "withoutCharges", [`${mine}/printed`, "price/tax", "price/service"]);
    note("share", share, "over", [costAt, `${mine}/bare`], "ratio");
    return { net, printed, share };
  };
  const served = costs.plates.filter(({ row }) => ledger.value(row.plates) > 0);
  return {
    wantedShare,
    step,
    rounding,
    tax,
    service: serviceShare,
    menu: of("menu", ledger.value(costs.food), costs.surround ? "food/perCover" : "menu"),
    perPlate: served.map(({ plate }, i) => of(`perPlate/${i}`, ledger.value(plate), `perPlate/${i}/plate`)),
  };
}

/** The smallest coin of a currency, by ISO 4217. */
function coinOf(ledger: Ledger, currency: string, value: number) {
  return stated(ledger, `const:/money/coin/${currency}`, currency, value, {
    doc: "ISO 4217",
    kind: "published",
  });
}
