import { describe, expect, test } from "vitest";
import { parseBook } from "../book/index.ts";
import { inOrder, judged, type Small, type Told, toldBy } from "./testing/breaking.ts";
import { smallBook } from "./testing/small-book.ts";

/** One thing made wrong, and exactly what the inspector must say of it. */
function breakage(name: string, breaking: (small: Small) => unknown, told: readonly Told[]): void {
  test(name, () => expect(inOrder(toldBy(judged(breaking)))).toEqual(inOrder(told)));
}

test("I1 nothing is wrong with the service worked by hand", () => {
  expect(parseBook(smallBook()).ok).toBe(true);
  expect(judged(() => {})).toEqual({ ok: true, findings: [], admitted: [] });
});

describe("I3 one plate a course for each guest", () => {
  breakage("a plate too many", (s) => (s.row("meat").count = 8), [["plates", [], 1]]);
  breakage("a course without plates", (s) => s.result.plates.splice(2, 2), [["plates", [], 10]]);
  breakage("plates of no course", (s) => (s.row("green").course = "tea"), [
    ["plates", [], 3],
    ["plates", [], 3],
  ]);
  breakage("a dish that is no option", (s) => (s.row("green").dish = "tart"), [["plates", [], 3]]);
  breakage("a variant that is not written", (s) => (s.row("tart", "coeliac").variant = "vegan"), [
    ["plates", [], 1],
  ]);
  breakage("half a plate", (s) => (s.row("meat").count = 6.5), [["plates", [], 1]]);
  breakage(
    "a choice not kept",
    (s) => {
      // All but the two with needs chose the meat, and one of them is given the green plate.
      s.service.guests[2].count = 8;
    },
    [["choice", [], 1]],
  );
  breakage(
    "shares not by largest remainder",
    (s) => {
      // Six follow 2 : 1, and two chose the meat: six plates of it at least.
      s.row("meat").count = 5;
      s.row("green").count = 5;
    },
    [["share", [], 1]],
  );
  breakage("named as not fed though a dish would do", (s) => s.row("tart").notFed.push("wheatless"), [
    ["fed", [], 1],
    ["plates", [], 1],
  ]);
  breakage(
    "nothing suits and it is not said",
    (s) => {
      s.book.dishes[2].variants = [];
      s.result.plates.pop();
      s.row("tart").count = 10;
    },
    [["fed", [], 1]],
  );
  breakage("spare plates forgotten", (s) => (s.row("tart", "coeliac").spare = 0), [["spare", [], 1]]);
  breakage("no tasting plates", (s) => (s.row("green").spare = 0), [["spare", [], 1]]);
  breakage("other covers than asked for", (s) => (s.options.covers = 12), [
    ["plates", [], 2],
    ["plates", [], 2],
  ]);
});

describe("I4 nothing that a need forbids", () => {
  // Seven plates of meat, one of them for the coeliac.
  const meat: Told[] = [["forbidden", [], 7]];
  breakage("wheat is gluten", (s) => (s.ingredient("butter").allergens.contains = ["wheat"]), meat);
  breakage("gluten without wheat", (s) => (s.ingredient("bones").allergens.contains = ["gluten"]), meat);
  breakage("may contain", (s) => (s.ingredient("bones").allergens.mayContain = ["gluten"]), meat);
  breakage("unknown", (s) => (s.ingredient("bones").allergens.status = "unknown"), meat);
  const declared = { contains: [], mayContain: ["gluten"] };
  breakage("declared by a supplier", (s) => (s.book.suppliers[0].offers[0].allergens = declared), meat);
  breakage(
    "declared by an offer that has ended: not",
    (s) => Object.assign(s.book.suppliers[0].offers[0], { allergens: declared, until: "2027-01-01" }),
    [],
  );
  const toTaste = { id: "x", item: { ingredient: "bones" }, amount: null, toTaste: true, step: "slice" };
  for (const origin of ["meat", "gelatin", "fish", "rennet", "insect", "pork", "raw-animal"])
    breakage(
      `${origin} to taste, for a vegetarian`,
      (s) => {
        s.ingredient("bones").origin = [origin];
        s.prep("gratin").lines.push(toTaste);
      },
      [["forbidden", [], 3]],
    );
  for (const [need, origin, ok] of [
    ["no-alcohol", "alcohol", false],
    ["no-alcohol", "plant", true],
    ["pescatarian", "fish", true],
    ["pescatarian", "poultry", false],
    ["no-pork", "gelatin", false],
    ["no-shellfish", "shellfish", false],
    ["vegan", "honey", false],
    ["vegan", "egg", false],
  ] as const)
    breakage(
      `${origin} for ${need}`,
      (s) => {
        delete s.result.allergens;
        s.ingredient("butter").origin = ["plant"];
        s.ingredient("butter").allergens.contains = [];
        s.ingredient("bones").origin = [origin];
        s.service.guests[1].needs = [need];
        for (const row of [s.row("meat"), s.row("tart", "coeliac")]) row.needs = [need];
      },
      ok ? [] : meat,
    );
});

describe("I4 raw food", () => {
  /** The coeliac is pregnant instead, and the bones are raw poultry until a step is held to a core temperature. */
  const pregnant = (
    s: Small,
    coreC: number,
    step = "simmer",
    origin: readonly string[] = ["poultry", "raw-animal"],
  ) => {
    delete s.result.allergens;
    s.service.guests[1].needs = ["pregnant"];
    for (const row of [s.row("meat"), s.row("tart", "coeliac")]) row.needs = ["pregnant"];
    s.ingredient("bones").origin = origin;
    s.step("stock", step).control = {
      ...{ hazard: "h", limit: { what: "coreC", op: ">=", value: coreC }, level: "critical" },
      ...{ monitor: "m", corrective: "c", record: "r" },
    };
  };
  breakage("cooked to 74 °C", (s) => pregnant(s, 74), []);
  breakage("cooked by a later step", (s) => pregnant(s, 74, "strain"), []);
  breakage("cooked to 73 °C", (s) => pregnant(s, 73), [["forbidden", [], 7]]);
  breakage("not raw as bought", (s) => pregnant(s, 20, "simmer", ["poultry"]), []);
  for (const [origin, limit] of [
    [["fish", "raw-animal"], 63],
    [["egg", "raw-egg"], 68],
    [["dairy", "unpasteurised"], 72],
  ] as const) {
    breakage(`${origin} at ${limit} °C`, (s) => pregnant(s, limit, "simmer", origin), []);
    breakage(`${origin} at ${limit - 1} °C`, (s) => pregnant(s, limit - 1, "simmer", origin), [
      ["forbidden", [], 7],
    ]);
  }
  breakage(
    "half of it goes round the cooking",
    (s) => {
      s.prep("stock").steps.push({
        ...s.step("stock", "strain"),
        id: "chill",
        from: [{ step: "simmer", share: 0.5 }],
      });
      s.step("stock", "strain").from = [{ step: "simmer", share: 0.5 }];
      pregnant(s, 74, "strain");
    },
    [["forbidden", [], 7]],
  );
});

describe("I5 what must be made", () => {
  const need = (s: Small, id: string) =>
    s.result.needs.find((each: { preparation: string }) => each.preparation === id);
  breakage("too little", (s) => (need(s, "sauce").amount.value = 430), [["need", [], 10]]);
  breakage("in kilograms, the same", (s) => (need(s, "sauce").amount = { value: 0.44, unit: "kg" }), []);
  breakage("not told", (s) => s.result.needs.splice(3, 1), [["need", [], 1000]]);
  breakage(
    "told and not asked for",
    (s) => s.result.needs.push({ ...need(s, "gratin"), preparation: "soup" }),
    [["need", [], 1280]],
  );
  breakage("overage counted twice", (s) => (need(s, "stock").overage.value = 66), [["overage", [], 66]]);
  breakage("another factor", (s) => (need(s, "gratin").factor = 1.3), [["factor", [], 0.02]]);
  breakage("a batch left out", (s) => need(s, "tart").batches.pop(), [["batches", [], 1]]);
  breakage(
    "batches not even",
    (s) => {
      need(s, "tart").batches[0].amount.value = 600;
      need(s, "tart").batches[1].amount.value = 400;
    },
    [
      ["batches", [], 100],
      ["batches", [], 100],
    ],
  );
  breakage("pieces of a batch", (s) => (need(s, "tart").batches[0].pieces = 6), [["batches", [], 1]]);
  breakage("a batch over its limit", (s) => (s.prep("tart").batch.maxPieces = 4), [["batches", [], 1]]);
  breakage("full ones first", (s) => (s.prep("tart").batch.policy = "full-then-rest"), [
    ["batches", [], 300],
    ["batches", [], 300],
  ]);
  breakage("full ones alone", (s) => (s.prep("tart").batch.policy = "whole-only"), [
    ["need", [], 600],
    ["factor", [], 0.3],
    ["batches", [], 300],
    ["batches", [], 300],
  ]);
  breakage(
    "stock on hand is not made again",
    (s) =>
      s.service.stock.push({
        ...{ item: { preparation: "stock" }, amount: { value: 160, unit: "g" }, useBy: "2027-01-30" },
      }),
    [
      ["need", [], 160],
      ["factor", [], 0.04],
      ["batches", [], 160],
    ],
  );
  breakage(
    "stock that is over its date",
    (s) =>
      s.service.stock.push({
        ...{ item: { preparation: "stock" }, amount: { value: 160, unit: "g" }, useBy: "2027-01-29" },
      }),
    [],
  );
  breakage("an amount that has no mass", (s) => (s.prep("tart").yield.amount = { value: 2, unit: "L" }), [
    ["amount", [], 1],
  ]);
});

describe("I4 the matrix", () => {
  const cell = (s: Small, dish: string, word: string) =>
    s.result.allergens.find(
      (each: { dish: string; allergen?: string; need?: string }) =>
        each.dish === dish && (each.allergen ?? each.need) === word,
    );
  const told: Told[] = [["matrix", [], 1]];
  breakage("an allergen told as free", (s) => (cell(s, "meat", "milk").state = "free"), told);
  breakage("an allergen told as perhaps", (s) => (cell(s, "meat", "milk").state = "may"), told);
  breakage("a free one told as contained", (s) => (cell(s, "meat", "egg").state = "contains"), told);
  breakage("a diet told as suiting", (s) => (cell(s, "green", "vegan").state = "free"), told);
  breakage("a diet told as not suiting", (s) => (cell(s, "green", "pregnant").state = "may"), told);
  breakage("a cell left out", (s) => s.result.allergens.splice(3, 1), told);
  breakage(
    "not known is not free",
    (s) => (s.ingredient("carrot").allergens.status = "unknown"),
    // The coeliac eats of it twice: that is told first.
    [
      ["forbidden", [], 7],
      ["forbidden", [], 1],
    ],
  );
});

describe("I5 balance", () => {
  const of = (s: Small, id: string) =>
    s.result.balance.find((each: { preparation: string }) => each.preparation === id);
  breakage("more goes in", (s) => (of(s, "stock").inG = 991), [
    ["balance", [], 1],
    ["balance", [], 1],
  ]);
  breakage("more comes out", (s) => (of(s, "stock").outG = 661), [
    ["balance", [], 1],
    ["balance", [], 1],
  ]);
  breakage("lost and not named", (s) => of(s, "stock").lost.pop(), [["balance", [], 132]]);
  breakage("another yield declared", (s) => (of(s, "sauce").declaredG = 450), [["balance", [], 10]]);
  breakage("no balance", (s) => s.result.balance.pop(), [["balance", [], 1280]]);
  breakage("closed to 0.1 g", (s) => (of(s, "tart").inG = 1000.09), []);
});

describe("I13 orders", () => {
  const line = (s: Small, id: string) =>
    s.result.orders[0].lines.find((each: { ingredient: string }) => each.ingredient === id);
  breakage("a pack too few", (s) => (line(s, "carrot").packs = 3), [
    ["money", [], 4],
    ["order", [], 40],
  ]);
  const order = (s: Small) => s.result.orders[0];
  breakage(
    "a price of another count",
    (s) => (s.supplier.offers[4].breaks = [{ fromPacks: 4, price: "3.50" }]),
    [["money", [], 0.5]],
  );
  breakage("goods summed wrong", (s) => (order(s).goods = "31.00"), [["money", [], 1]]);
  breakage("a charge left out", (s) => (s.supplier.deliveryCharge = "6"), [
    ["money", [], 6],
    ["money", [], 6],
  ]);
  breakage("a minimum missed and not told", (s) => (s.supplier.minimumOrder = "50"), [["money", [], 18]]);
  breakage("ordered after the cut-off", (s) => (order(s).orderBy = "D-1 13:30"), [["cut-off", [], 90]]);
  breakage("no day of delivery", (s) => (s.supplier.deliveryDays = ["fri"]), [["delivery", [], 1]]);
  breakage("gone off before it is used", (s) => (s.ingredient("carrot").storage.days = 0.5), []);
  breakage(
    "delivered the day before, and keeps no day",
    (s) => {
      order(s).deliver = "D-1 07:00";
      order(s).orderBy = "D-2 12:00";
      s.ingredient("flour").storage.days = 0.5;
    },
    [["delivery", ["tart/mix/1"], 500]],
  );
  breakage(
    "enough by the mean, not with the chance wanted",
    (s) => (s.ingredient("carrot").cuts[0].spread = 0.2),
    [["order", [], expect.closeTo(615.5, 0)]],
  );
  breakage("more covers may come", (s) => (s.service.coversSpread = 0.2), [
    ["order", [], expect.closeTo(164.5, 1)],
    ["order", [], expect.closeTo(164.5, 1)],
    ["order", [], expect.closeTo(46.6, 1)],
  ]);
  const ordering = (more: object) => ({
    ...{ value: 32, bound: 32, gap: 0, proved: true, chance: 0.95, varies: false, surer: [] },
    ...{ worthShare: 0.5, keepsDays: 14, left: [], ...more },
  });
  breakage("a value that is not theirs", (s) => (s.result.ordering = ordering({ value: 30, bound: 30 })), [
    ["money", [], 2],
  ]);
  breakage("a bound above the orders", (s) => (s.result.ordering = ordering({ bound: 33 })), [
    ["money", [], 1],
  ]);
  breakage("proof that is none", (s) => (s.result.ordering = ordering({ bound: 30, gap: 2 })), [
    ["money", [], 2],
  ]);
  breakage(
    "not ordered and not told",
    (s) => {
      order(s).lines.pop();
      order(s).goods = "16.00";
      order(s).total = "16.00";
      s.result.warnings = [];
    },
    [["order", [], 1540]],
  );
  breakage(
    "not ordered, and told",
    (s) => {
      order(s).lines.pop();
      order(s).goods = "16.00";
      order(s).total = "16.00";
      const path = `/ingredients/${s.book.ingredients.indexOf(s.ingredient("carrot"))}`;
      s.result.warnings = [{ path, what: "no supplier: it is neither ordered nor paid for", mend: "" }];
    },
    [],
  );
  const instead = (s: Small, more: object) => {
    s.book.ingredients.push({
      ...{
        id: "parsnip",
        name: "Parsnip",
        origin: ["plant"],
        cuts: [],
        densities: [],
        pieces: [],
        aliases: [],
      },
      ...{
        allergens: { status: "known", contains: [], mayContain: [] },
        storage: { state: "cold", days: 9 },
      },
      ...more,
    });
    s.ingredient("carrot").substitutes = [{ ingredient: "parsnip", factor: 1, when: "missing" }];
    s.supplier.offers[4].ingredient = "parsnip";
    Object.assign(line(s, "carrot"), {
      ...{ ingredient: "parsnip", insteadOf: { ingredient: "carrot", name: "carrot", when: "missing" } },
    });
  };
  breakage("a substitute that is allowed", (s) => instead(s, {}), []);
  breakage(
    "a substitute that brings an allergen",
    (s) => instead(s, { allergens: { status: "known", contains: ["celery"], mayContain: [] } }),
    [
      ["order", [], 1],
      ["order", [], 1540],
    ],
  );
  breakage(
    "a substitute nobody allowed",
    (s) => {
      instead(s, {});
      s.ingredient("carrot").substitutes = [];
    },
    [
      ["order", [], 1],
      ["order", [], 1540],
    ],
  );
  breakage("half a pack", (s) => (line(s, "flour").packs = 1.5), [["order", [], 1]]);
  breakage("what nobody offers", (s) => (line(s, "flour").offer = "o-salt"), [["order", [], 1]]);
  breakage("a supplier of another kitchen", (s) => (s.kitchen.suppliers = []), [
    ["order", [], 1],
    ...Array.from({ length: 5 }, (): Told => ["order", [], 1]),
  ]);
  breakage("there after it is first needed", (s) => (s.result.orders[0].deliver = "D 09:30"), [
    ["delivery", [], 1],
    ["delivery", ["stock/simmer/1"], 30],
  ]);
});
