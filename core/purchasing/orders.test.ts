import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BookInput, changed, kg, library, meetsOf, SMALL_BOOK } from "../../tests/small-book.ts";
import { clockOf } from "../production/clock.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { Buying } from "./buying.ts";
import { deliveryFor } from "./delivery.ts";
import { type OrdersOptions, ordersResult } from "./orders-result.ts";
import { SupplierSchema } from "./schema.ts";

const clock = clockOf("2027-01-30T19:30", "Europe/London", "D-2 06:00");

function ordered(book: BookInput = SMALL_BOOK, options: Partial<OrdersOptions & { covers: number }> = {}) {
  const docs = library(book);
  const amounts = computeAmounts(docs, "small", { covers: options.covers, meets: meetsOf(docs) });
  const buying = new Buying(amounts, docs);
  return { docs, amounts, buying, ...ordersResult(buying, amounts, docs, { clock, ...options }) };
}
type Ordered = ReturnType<typeof ordered>;
const lines = (of: Ordered) => of.orders.flatMap((order) => order.lines);
const lineOf = (of: Ordered, offer: string) => lines(of).find((line) => line.offer === offer);

describe("orders of a service", () => {
  test("O1 O2 by hand: packs, prices, totals", () => {
    const of = ordered();
    // 6.48 kg trimmed rib at 0.75 is 8.64 kg bought: two pieces of 5 kg.
    expect(lineOf(of, "c-rib")).toMatchObject({
      ...{
        offer: "c-rib",
        ingredient: "short-rib",
        name: "short-rib",
        packs: 2,
        pack: "5 kg",
        price: "60.00",
      },
      ...{ need: { value: 8640, unit: "g" }, bought: { value: 10_000, unit: "g" }, total: "120.00" },
    });
    // 466.7 g of barley are needed and half a kilogram is in the store.
    expect(lineOf(of, "v-barley")).toBeUndefined();
    // The litre of cream in the store is past its date: a litre is bought, by its density.
    expect(lineOf(of, "c-cream-1")).toMatchObject({ packs: 1, bought: { value: 1010 } });
    // Celeriac by the 5 kg, and the last 68 g by the kilogram from the other supplier, share one need.
    expect([lineOf(of, "v-celeriac")!.need.value, lineOf(of, "c-celeriac")!.need.value]).toEqual([
      5000,
      expect.closeTo(68.125, 6),
    ]);
    const coast = of.orders.find((order) => order.supplier === "coast")!;
    expect(coast).toMatchObject({ goods: "183.50", charge: "8", total: "191.50", belowMinimum: "0" });
    expect(of.outcome.total).toBe("235.10");
    expect(lines(of).some((line) => line.ingredient === "water")).toBe(false);
  });

  test("O2 a price break is taken when it comes cheaper", () => {
    const of = ordered(SMALL_BOOK, { covers: 75 });
    const rib = lineOf(of, "c-rib")!;
    expect(rib).toMatchObject({ packs: 4, price: "54.00", total: "216.00" });
  });

  test("O2 O4 at any covers nothing ordered is below the need, and money adds up", () => {
    const docs = library();
    const amounts = computeAmounts(docs, "small", { meets: meetsOf(docs) });
    const buying = new Buying(amounts, docs);
    fc.assert(
      fc.property(fc.integer({ min: 7, max: 2000 }), (covers) => {
        const now = amounts.update(covers);
        const { orders, outcome } = ordersResult(buying, now, docs, { clock });
        const bought = new Map<string, number>();
        let total = 0n;
        const pence = (text: string) => BigInt(Math.round(Number(text) * 100));
        for (const order of orders) {
          expect(pence(order.goods)).toBe(order.lines.reduce((sum, line) => sum + pence(line.total), 0n));
          for (const line of order.lines) {
            expect(pence(line.total)).toBe(pence(line.price) * BigInt(line.packs));
            expect(line.bought.value).toBeGreaterThanOrEqual(line.need.value - 1e-6);
            bought.set(line.ingredient, (bought.get(line.ingredient) ?? 0) + line.bought.value);
          }
          total += pence(order.total);
        }
        expect(pence(outcome.total)).toBe(total);
        for (const each of now.ingredients) {
          const stock = each.ingredient === "barley" ? 500 : 0;
          if (each.ingredient === "water") continue;
          expect((bought.get(each.ingredient) ?? 0) + stock).toBeGreaterThanOrEqual(each.apG - 1e-3);
        }
      }),
      { seed: 74, numRuns: 60 },
    );
  });

  test("O2 after any history of covers the orders are what a fresh computation gives", () => {
    const kept = ordered();
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 7, max: 900 }), { minLength: 1, maxLength: 4 }), (history) => {
        let now = kept.amounts;
        for (const covers of history) now = now.update(covers);
        const { orders, ordering, outcome } = ordersResult(kept.buying, now, kept.docs, { clock });
        const fresh = ordered(SMALL_BOOK, { covers: history.at(-1)! });
        expect(orders).toEqual(fresh.orders);
        const { run: _, ...told } = outcome;
        expect(fresh.outcome).toMatchObject(told);
        expect(ordering).toEqual(fresh.ordering);
      }),
      { seed: 75, numRuns: 30 },
    );
  });

  test("O1 goods sold in the cut are not trimmed again; stock in the cut serves the cut", () => {
    const book = changed(({ suppliers, services }) => {
      const rib = { ingredient: "short-rib", cut: "trimmed", innerPerPack: 1 };
      suppliers[1]!.offers!.push({ ...rib, id: "c-rib-trimmed", inner: kg(1), price: "13.00" });
      services[0]!.stock!.push({
        ...{ item: { ingredient: "short-rib", cut: "trimmed" }, amount: kg(3), useBy: "2027-02-01" },
      });
    });
    const of = ordered(book);
    // 6.48 kg trimmed less 3 kg: four kilograms trimmed at 13 beat one piece of 5 kg at 60 only if cheaper: 52 < 60.
    expect(lineOf(of, "c-rib-trimmed")).toMatchObject({
      packs: 4,
      need: { value: 3480 },
      name: "short-rib, trimmed",
    });
    expect(lineOf(of, "c-rib")).toBeUndefined();
  });

  test("O4 offers out of their dates and suppliers not the kitchen's do not count", () => {
    const book = changed(({ suppliers, kitchens }) => {
      const one = { ingredient: "short-rib", inner: kg(5), innerPerPack: 1 };
      suppliers[1]!.offers!.push(
        { ...one, id: "was", price: "1.00", until: "2027-01-14" },
        { ...one, id: "will-be", price: "1.00", from: "2027-01-16" },
        { ...one, id: "is", price: "50.00", from: "2027-01-15", until: "2027-01-15" },
      );
      suppliers.push({
        ...{ id: "other", name: "Other", deliveryDays: ["mon"], cutoff: { daysBefore: 1, clock: "10:00" } },
        offers: [{ ...one, id: "not-ours", price: "1.00" }],
      });
      kitchens[0]!.suppliers = ["valley", "coast"];
    });
    const rib = lines(ordered(book)).filter((line) => line.ingredient === "short-rib");
    expect(rib.map((line) => line.offer)).toEqual(["is"]);
  });

  test("O4 a supplier that sells in another currency is not compared, and told", () => {
    const dollars = changed(({ suppliers }) => {
      suppliers[1]!.currency = "USD";
    });
    const of = ordered(dollars);
    expect(of.orders.map((order) => order.supplier)).not.toContain(dollars.suppliers![1]!.id);
    expect(of.outcome.warnings.map(({ path }) => path)).toContain("/suppliers/1/currency");
    // The kitchen's own currency, said or not, is the same.
    const said = changed(({ suppliers, kitchens }) => {
      suppliers[1]!.currency = kitchens[0]!.currency;
    });
    expect(ordered(said).orders).toEqual(ordered().orders);
  });

  test("O6 what nobody sells, and a minimum missed, are told with the mend", () => {
    const book = changed(({ suppliers }) => {
      suppliers[0]!.offers = suppliers[0]!.offers!.filter((offer) => offer.id !== "v-hazelnut");
    });
    const { outcome, orders } = ordered(book);
    const told = outcome.warnings.map((each) => [each.path, each.what]);
    expect(told).toContainEqual([
      "/ingredients/6",
      "no supplier of Fell kitchen offers hazelnut on 2027-01-15: it is neither ordered nor paid for",
    ]);
    expect(told).toContainEqual([
      "/suppliers/0/minimumOrder",
      `the order from Valley Produce is ${orders.find((each) => each.supplier === "valley")!.belowMinimum} GBP under its minimum`,
    ]);
  });

  test("O6 a pack that cannot be weighed is left out and told", () => {
    const book = changed(({ suppliers }) => {
      suppliers[0]!.offers!.push({
        ...{ id: "bag", ingredient: "mushroom", innerPerPack: 1, price: "0.10" },
        inner: { value: 1, unit: "L" },
      });
    });
    const of = ordered(book);
    expect(lineOf(of, "bag")).toBeUndefined();
    expect(of.outcome.warnings.map((each) => each.path)).toContain("/suppliers/0/offers/7/inner");
  });

  test("O6 goods that will not keep until the service are told", () => {
    const book = changed(({ ingredients }) => {
      ingredients.find((each) => each.id === "cream")!.storage = { state: "cold", days: 2 };
    });
    const told = ordered(book).outcome.warnings.find((each) => each.path === "/ingredients/3/storage")!;
    expect(told.what).toBe("cream comes 4 days before the service and keeps 2");
  });

  test("O1 stock serves what is used by its date, and nothing later", () => {
    const used = (last: string) => {
      const spanOf = () => ({ first: clock.minuteOf("D-2 07:00"), last: clock.minuteOf(last) });
      return lineOf(ordered(stocked("2027-01-29"), { spanOf }), "c-cream-1");
    };
    expect(used("D-1 10:00")).toBeUndefined();
    expect(used("D 10:00")).toBeDefined();
  });
});

/** The small book with its litre of cream good until a date. */
const stocked = (useBy: string) =>
  changed(({ services }) => {
    services[0]!.stock![1] = { ...services[0]!.stock![1]!, amount: { value: 2, unit: "L" }, useBy };
  });

describe("deliveries", () => {
  const supplier = SupplierSchema.parse({
    ...{ id: "x", name: "X", deliveryDays: ["tue", "thu", "sat"] },
    cutoff: { daysBefore: 2, clock: "11:00" },
  });
  test.each([
    // 2027-01-30 is a Saturday, D-2 a Thursday.
    ["D 12:00", "D 08:00", "D-2 11:00", "2027-01-30"],
    ["D 08:00", "D 08:00", "D-2 11:00", "2027-01-30"],
    ["D 07:59", "D-2 08:00", "D-4 11:00", "2027-01-28"],
    ["D-1 15:00", "D-2 08:00", "D-4 11:00", "2027-01-28"],
    ["D-2 06:30", "D-4 08:00", "D-6 11:00", "2027-01-26"],
  ])("O5 needed at %s: comes %s, ordered by %s", (needed, deliver, orderBy, date) => {
    expect(deliveryFor(supplier, needed, clock)).toMatchObject({ deliver, orderBy, date });
  });

  const span = (first: string, last = first) => ({
    first: clock.minuteOf(first),
    last: clock.minuteOf(last),
  });
  const butterEarly = (use: string) => span(use.includes("dough") ? "D-2 09:00" : "D 10:00");

  test("O5 goods come in the deliveries that cost the least together, what must be ordered first comes first", () => {
    const of = ordered(SMALL_BOOK, { spanOf: butterEarly });
    // One delivery of the coast on D-2 brings all its goods: a second one would cost its charge again.
    expect(of.orders.map((order) => [order.supplier, order.deliver, order.orderBy])).toEqual([
      ["coast", "D-2 08:00", "D-4 11:00"],
      ["valley", "D-2 08:00", "D-3 14:00"],
    ]);
  });

  test("O5 of deliveries that cost the same the later one is taken", () => {
    const flour = ordered(SMALL_BOOK, { spanOf: () => span("D 10:00") });
    expect(flour.orders.map((order) => [order.supplier, order.deliver])).toEqual([
      ["coast", "D 08:00"],
      ["valley", "D-1 08:00"],
    ]);
  });

  test("O5 what would not keep from the first delivery comes in a second one", () => {
    const book = changed(({ ingredients }) => {
      ingredients.find((each) => each.id === "cream")!.storage = { state: "cold", days: 1 };
    });
    const of = ordered(book, { spanOf: butterEarly });
    expect(
      of.orders.map((order) => [order.supplier, order.deliver, order.lines.map((l) => l.ingredient)]),
    ).toEqual([
      ["coast", "D-2 08:00", ["butter"]],
      ["valley", "D-2 08:00", expect.anything()],
      ["coast", "D 08:00", expect.arrayContaining(["cream"])],
    ]);
    expect(of.outcome.warnings.filter((each) => each.what.includes("cream"))).toEqual([]);
  });

  test("O6 what no delivery can bring in time and fresh is not ordered, and told", () => {
    const book = changed(({ ingredients, suppliers }) => {
      ingredients.find((each) => each.id === "cream")!.storage = { state: "cold", days: 1 };
      suppliers[1]!.deliveryDays = ["thu"];
    });
    const of = ordered(book, { spanOf: butterEarly });
    expect(lineOf(of, "c-cream-1")).toBeUndefined();
    const told = of.outcome.warnings.find((each) => each.path === "/ingredients/3/storage")!;
    expect(told.what).toBe(
      "cream is needed at D 10:00, used until D; its last delivery before that comes D-2 08:00 and it keeps 1 days: it is neither ordered nor paid for",
    );
  });
});
