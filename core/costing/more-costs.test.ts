import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BookInput, changed, g, library, meetsOf, SMALL_BOOK, step } from "../../tests/small-book.ts";
import { untraced } from "../ledger/tracer.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { Buying } from "../purchasing/buying.ts";
import { plateCosts } from "./cost-result.ts";
import { costCells } from "./costs.ts";
import { priceDown, priceNearest, priceUp, wagesOfSpans } from "./rules.ts";
import { menuWith, PRICE_RISE, priceLevers, sensitivityOf, YIELD_FALL, yieldLevers } from "./sensitivity.ts";
import { tryCost } from "./what-if.ts";

function opened(book: BookInput = SMALL_BOOK, covers?: number) {
  const docs = library(book);
  const amounts = computeAmounts(docs, "small", { covers, meets: meetsOf(docs) });
  const cells = costCells(amounts, docs, new Buying(amounts, docs).offers);
  const read = untraced(amounts.ledger);
  const cost = plateCosts(cells, amounts, docs, read, "/cost", amounts.service.pricing);
  return { docs, amounts, cells, cost, menu: amounts.ledger.value(cells.menu) };
}

/** The book with another number at a pointer. */
function written(path: string, to: (now: number) => number): BookInput {
  return changed((book) => {
    const keys = path.split("/").slice(1);
    const last = keys.pop()!;
    const at = keys.reduce<unknown>((here, key) => (here as Record<string, unknown>)[key], book) as Record<
      string,
      unknown
    >;
    const now = at[last];
    const next = to(Number(now));
    at[last] = typeof now === "string" ? next.toFixed(9) : next;
  });
}

describe("C7 what goes with every cover", () => {
  const around = (surround: NonNullable<BookInput["menus"]>[number]["surround"]) =>
    opened(changed(({ menus }) => Object.assign(menus[0]!, { surround })));

  test("C7 an amount, a ratio of the plates, or the items at their usable price", () => {
    const bare = opened();
    expect(bare.cost.qFactor).toBeUndefined();
    expect(around({ perCover: "0.45" }).cost.food!.perCover).toBeCloseTo(bare.menu + 0.45, 12);
    expect(around({ ratio: 0.08 }).cost.food!.perCover).toBeCloseTo(bare.menu * 1.08, 12);
    const listed = around({
      items: [
        { item: { ingredient: "butter" }, amount: g(15) },
        { item: { ingredient: "mushroom", cut: "trimmed" }, amount: g(9) },
        // Of no plate: it is costed from its own formula.
        { item: { preparation: "dough" }, amount: g(30) },
      ],
    }).cost.qFactor!;
    const butter = 45 / 5000;
    const flour = 1.6 / 1500;
    expect(listed.items.map(({ cost }) => cost)).toEqual([
      expect.closeTo(15 * butter, 12),
      expect.closeTo((9 * 5.5) / 1000 / 0.9, 12),
      expect.closeTo((30 * (1000 * flour + 500 * butter)) / 1500, 12),
    ]);
  });

  test("C7 its share is of what is earned: without tax and service charge", () => {
    const book = changed(({ menus, services }) => {
      Object.assign(menus[0]!, { surround: { perCover: "1" } });
      services[0]!.sellPerCover = "55";
      services[0]!.pricing = { wantedShare: 0.3, tax: 0.1, service: 0.125 };
    });
    const { cost, menu } = opened(book);
    expect(cost.food!.share).toBeCloseTo((menu + 1) / (55 / 1.1 / 1.125), 12);
  });

  test("C7 an amount that cannot be weighed is refused in words", () => {
    const items = [{ item: { ingredient: "barley" }, amount: { value: 1, unit: "cup" as const } }];
    expect(() => around({ items })).toThrow(/barley/);
  });
});

describe("C8 hands", () => {
  const work = (more: object) => ({
    ...{
      fixedMin: 10,
      hands: { least: 1, most: 2, split: "divides" as const },
      skill: "prep",
      station: "hot",
    },
    ...more,
  });
  const book = (kitchen: object, skill: object = {}) =>
    changed(({ preparations, kitchens, dishes }) => {
      const soup = preparations.find(({ id }) => id === "soup")!;
      soup.steps = [
        step("cook", { change: { factor: 0.88 }, work: work({ perKgMin: 4 }) }),
        step("blend", {
          from: ["cook"],
          change: { factor: 0.99, as: "stuck" },
          work: work({ fixedMin: 6, hands: { least: 2, most: 2, split: "each" } }),
        }),
      ];
      Object.assign(kitchens[0]!, { around: 0.25 }, kitchen);
      Object.assign(kitchens[0]!.skills![0]!, skill);
      for (const dish of dishes) for (const placed of dish.placements) placed.seconds = 6;
    });

  test("C8 nobody's hour has a cost: nothing is said of hands", () => {
    expect(opened().cost.labour).toBeUndefined();
  });

  test("C8 minutes of the steps at each batch, with the share around, at the kitchen's rate", () => {
    const { cost, amounts } = opened(book({ rate: "18" }));
    const soup = amounts.preparations.get("soup")!;
    const cook = amounts.ledger.value(amounts.cells.sheets.get("soup")!.rest.steps[0]!.inG) / 1000;
    const minutes = Math.ceil((10 + 4 * cook) * 1.25 - 1e-9) + 2 * Math.ceil(6 * 1.25 - 1e-9);
    expect(soup.batches.length).toBe(1);
    expect(cost.labour!.preparations).toEqual([
      { preparation: "soup", minutes, cost: expect.closeTo((minutes * 18) / 60, 9) },
    ]);
    const at = cost.perPlate.findIndex(({ dish, variant }) => dish === "soup" && variant === "standard");
    const plating = (12 / 3600) * 18;
    const portion = (180 / soup.grams) * ((minutes * 18) / 60);
    expect(cost.labour!.perPlate[at]).toBeCloseTo(portion + plating, 9);
    // Food costs what it did.
    expect(cost.menu).toBe(opened(book({})).cost.menu);
  });

  test("C8 a skill's own rate goes before that of the people who have it, theirs before the kitchen's", () => {
    const crew = [
      { id: "a", name: "A", skills: ["prep"], rate: "20", shifts: [] },
      { id: "b", name: "B", skills: ["prep"], rate: "30", shifts: [] },
      { id: "c", name: "C", skills: ["prep"], shifts: [] },
    ];
    const of = (kitchen: object, skill: object = {}) => {
      const { minutes, cost } = opened(book(kitchen, skill)).cost.labour!.preparations[0]!;
      return (cost / minutes) * 60;
    };
    expect(of({ crew, rate: "18" })).toBeCloseTo(25, 9);
    expect(of({ crew, rate: "18" }, { rate: "40" })).toBeCloseTo(40, 9);
    const none = opened(book({ crew: [{ ...crew[0]!, skills: [] }] })).cost.labour!;
    expect(none.unrated).toEqual(["prep"]);
    expect(none.preparations).toEqual([]);
  });

  test("C8 a plan's hands are paid by the minute", () => {
    expect(wagesOfSpans(90, 30, 20, 60, 45, 32)).toBeCloseTo(20 + 8, 12);
  });
});

describe("C9 price for a wanted share", () => {
  test("C9 cost / share, with service charge, with tax, up to the step; the share it comes to", () => {
    const book = changed(({ services }) => {
      services[0]!.pricing = { wantedShare: 0.3, step: "0.50", tax: 0.2, service: 0.1 };
    });
    const { cost, menu } = opened(book);
    const exact = (menu / 0.3) * 1.1 * 1.2;
    const { net, printed, share } = cost.price!.menu;
    expect(net).toBeCloseTo(menu / 0.3, 12);
    expect(printed).toBe(Math.ceil(exact * 2) / 2);
    expect(share).toBeCloseTo(menu / (printed / 1.1 / 1.2), 12);
    expect(share).toBeLessThanOrEqual(0.3);
    expect(cost.price!.perPlate).toHaveLength(cost.perPlate.length);
  });

  test("C9 without a step the currency's smallest coin is taken", () => {
    const of = (currency: string) =>
      opened(
        changed(({ services, kitchens }) => {
          services[0]!.pricing = { wantedShare: 0.3 };
          kitchens[0]!.currency = currency;
        }),
      ).cost.price!.step;
    expect([of("JPY"), of("EUR"), of("KWD"), of("CLF")]).toEqual([1, 0.01, 0.001, 0.0001]);
    // Not by tens: five khoums are an ouguiya, five iraimbilanja an ariary.
    expect([of("MRU"), of("MGA")]).toEqual([0.2, 0.2]);
  });

  test("C9 rounding is exact in decimals: a sum of doubles does not push a price a step up", () => {
    expect(priceUp(0.1 + 0.2, 0.1)).toBe(0.3);
    expect(priceUp(4.1 * 3, 0.1)).toBe(12.3);
    expect([priceUp(12.01, 0.5), priceNearest(12.25, 0.5), priceDown(12.49, 0.5)]).toEqual([12.5, 12.5, 12]);
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1e7 }),
        fc.constantFrom(0.001, 0.01, 0.05, 0.5, 1, 5),
        (n, unit) => {
          const price = n / 1000;
          const up = priceUp(price, unit);
          expect(up).toBeGreaterThanOrEqual(price - 1e-9);
          expect(up - price).toBeLessThan(unit + 1e-9);
          expect(Math.abs(up / unit - Math.round(up / unit))).toBeLessThan(1e-6);
        },
      ),
      { seed: 91 },
    );
  });
});

describe("C10 what moves the menu", () => {
  test("C10 every lever, carried forward by the ledger, gives what a book with that number gives", () => {
    const kept = opened();
    const prices = priceLevers(kept.amounts, kept.cells);
    expect(prices.length).toBeGreaterThan(8);
    for (const lever of [...prices.filter(({ cells }) => cells.length === 1), ...yieldLevers(kept.amounts)]) {
      const { to } = lever.cells[0]!;
      const fresh = opened(written(lever.path, to));
      expect(menuWith(kept.amounts, kept.cells, lever), lever.path).toBeCloseTo(fresh.menu, 9);
      expect(kept.amounts.ledger.value(kept.cells.menu)).toBe(kept.menu);
    }
  });

  test("C10 the five that move it most, most first; the price elasticities of all add to one", () => {
    const { amounts, cells, menu } = opened();
    const found = sensitivityOf(amounts, cells, undefined);
    expect(found.prices).toHaveLength(5);
    expect(found.prices[0]!.ingredient).toBe("short-rib");
    const changes = found.prices.map(({ change }) => change);
    expect(changes).toEqual(changes.toSorted((a, b) => b - a));
    const all = priceLevers(amounts, cells).map((lever) => menuWith(amounts, cells, lever) - menu);
    expect(Math.max(...all)).toBeCloseTo(changes[0]!, 12);
    // A menu is a sum of prices times grams: raised together by a tenth it rises by a tenth.
    expect(all.reduce((a, b) => a + b, 0) / menu / PRICE_RISE).toBeCloseTo(1, 9);
    for (const { elasticity, change } of found.prices)
      expect(elasticity).toBeCloseTo(change / menu / PRICE_RISE, 12);
    // Five points off the trim of the rib: 12.00 / 0.70 instead of 12.00 / 0.75 a kilogram.
    const rib = found.yields.find(({ kind, ingredient }) => kind === "trim" && ingredient === "short-rib")!;
    expect(rib.path).toMatch(/cuts\/0\/trimYield$/);
    expect(YIELD_FALL).toBe(0.05);
  });
});

describe("C11 what-if", () => {
  const price = "/suppliers/1/offers/0/price";

  test("C11 a price, a trim yield, a portion and a yield move plates and menu as a book so written would", () => {
    const kept = opened();
    const paths = [
      price,
      "/ingredients/2/cuts/0/trimYield",
      "/dishes/0/placements/0/amount/value",
      "/preparations/2/yield/amount/value",
    ];
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.double({ min: 0.3, max: 1, noNaN: true }), (path, by) => {
        const now = kept.amounts.ledger.value(kept.amounts.ledger.find(`book:${path}`)!);
        const value = Number((now * by).toFixed(6));
        const tried = tryCost(kept.amounts, kept.docs, kept.cells, { changes: [{ path, value }] });
        const fresh = opened(written(path, () => value));
        if (tried.refused !== undefined) throw new Error(tried.refused);
        expect(tried.cost.menu).toBeCloseTo(fresh.cost.menu, 9);
        tried.cost.perPlate.forEach((plate, i) => {
          expect(plate.plate).toBeCloseTo(fresh.cost.perPlate[i]!.plate, 9);
        });
        // Nothing is kept.
        expect(kept.amounts.ledger.value(kept.cells.menu)).toBe(kept.menu);
      }),
      { seed: 92, numRuns: 40 },
    );
  });

  test("C11 another wanted share is tried with the rest; every figure has its node", () => {
    const { amounts, docs, cells } = opened();
    const tried = tryCost(amounts, docs, cells, { changes: [], pricing: { wantedShare: 0.25 } });
    if (tried.refused !== undefined) throw new Error(tried.refused);
    expect(tried.cost.price!.menu.net).toBeCloseTo(tried.cost.menu / 0.25, 12);
    for (const key of ["menu", "price/menu/printed", "price/menu/share", "perPlate/0/plate"])
      expect(tried.trace[`/tried/${key}`], key).toBeDefined();
  });

  test("C11 what cannot be is refused in words, and nothing is kept", () => {
    const { amounts, docs, cells, menu } = opened();
    const refusal = (path: string, value: number) =>
      tryCost(amounts, docs, cells, { changes: [{ path, value }] }).refused;
    expect(refusal(price, -1)).toContain("0 or more");
    expect(refusal(price, Number.NaN)).toBeDefined();
    expect(refusal("/ingredients/2/cuts/0/trimYield", 1.2)).toContain("at most 1");
    expect(refusal("/services/0/covers", 3)).toContain("not tried here");
    expect(refusal("/suppliers/9/offers/0/price", 3)).toContain("nothing of this service");
    const share = tryCost(amounts, docs, cells, { changes: [], pricing: { wantedShare: 0 } });
    expect(share.refused).toContain("share");
    expect(amounts.ledger.value(cells.menu)).toBe(menu);
  });
});
