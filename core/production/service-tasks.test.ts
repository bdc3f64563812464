import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dish, preparation, type SmallBook, smallSite, step, work } from "../../tests/small-kitchen.ts";
import { feedsOf } from "./feeds.ts";
import { serviceTasks } from "./service-tasks.ts";
import type { Link } from "./tasks.ts";

const COLD = { state: "cold", maxMin: 600 };
const made = (book: SmallBook) => serviceTasks(smallSite(book));
const between = (links: readonly Link[], from: string, to: string) =>
  links.filter((l) => l.from.task === from && l.to.task === to);
const part = (id: string, of: string, g: number, more: object = {}) =>
  preparation(id, [step("mix", { work: work(5) })], {
    yield: { amount: { value: g, unit: "g" } },
    lines: [{ id: "part", item: { preparation: of }, amount: { value: g, unit: "g" }, step: "mix" }],
    ...more,
  });

describe("P7 order", () => {
  it("P7 begins a step when what enters it is done and within its hold", () => {
    const steps = [
      step("cook", { work: work(5), passive: { min: 30 }, hold: { state: "hot", maxMin: 45.5 } }),
      step("cut", { from: ["cook"], work: work(5) }),
    ];
    const { links } = made({ preparations: [preparation("roast", steps)] });
    expect(between(links, "roast/cook/1/wait", "roast/cut/1")).toEqual([
      {
        from: { task: "roast/cook/1/wait", at: "end" },
        to: { task: "roast/cut/1", at: "start" },
        rule: "hold",
        least: 0,
        most: 45,
        state: "hot",
      },
    ]);
  });

  it("P7 what is left of a step that is taken in part goes to the plate within its own hold", () => {
    const steps = [
      step("cook", { work: work(5), hold: { state: "hot", maxMin: 40 } }),
      step("crisp", { from: [{ step: "cook", share: 0.3 }], work: work(5) }),
    ];
    const book = { preparations: [preparation("roast", steps)], dishes: [dish("plate", ["roast"])] };
    const plated = (of: string, links = made(book).links) =>
      links.filter((l) => l.from.task === of && l.to.task.startsWith("plate") && l.rule === "hold");
    expect(plated("roast/cook/1").map((l) => [l.to.at, l.most])).toEqual([["end", 40]]);
    // Taken whole it is not on the plate.
    const whole = [steps[0]!, step("crisp", { from: ["cook"], work: work(5) })];
    const { links } = made({ ...book, preparations: [preparation("roast", whole)] });
    expect(plated("roast/cook/1", links)).toEqual([]);
  });

  it("P7 `after` adds waits: least rounded up, longest down, from start or end", () => {
    const steps = [
      step("proof", { passive: { min: 60 } }),
      step("bake", {
        work: work(5),
        after: [{ step: "proof", from: "start", leastMin: 20.2, mostMin: 70.9 }],
      }),
    ];
    const { links } = made({ preparations: [preparation("bread", steps)] });
    expect(between(links, "bread/proof/1/wait", "bread/bake/1")).toMatchObject([
      { from: { at: "start" }, to: { at: "start" }, rule: "after", least: 21, most: 70 },
    ]);
  });

  it("P7 feeds batch by batch: each batch waits for those that fill it", () => {
    const base = preparation("base", [step("boil", { work: work(5) })], {
      batch: { maxAmount: { value: 500, unit: "g" } },
    });
    const book = {
      preparations: [base, part("soup", "base", 1000, { batch: { maxAmount: { value: 250, unit: "g" } } })],
      dishes: [dish("bowl", ["soup"])],
    };
    const { amounts, docs } = smallSite(book);
    const feeds = feedsOf(amounts, docs);
    const into = feeds.map((f) => [f.producer, f.batch, "line" in f.into ? f.into.batch : f.into.dish]);
    expect(into).toEqual([
      ["base", 1, 1],
      ["base", 1, 2],
      ["base", 2, 3],
      ["base", 2, 4],
      ["soup", 1, "bowl"],
      ["soup", 2, "bowl"],
      ["soup", 3, "bowl"],
      ["soup", 4, "bowl"],
    ]);
    const { links } = made(book);
    expect(between(links, "base/boil/2", "soup/mix/3")).toHaveLength(1);
    expect(between(links, "base/boil/2", "soup/mix/2")).toHaveLength(0);
  });

  it("P7 takers with the longest way to the plate go first, plates last, overage stays with the last", () => {
    const stock = preparation("stock", [step("boil", { work: work(5) })], { overage: 0.5 });
    const book = {
      preparations: [stock, part("sauce", "stock", 1000), part("glaze", "sauce", 1000)],
      dishes: [dish("bowl", ["stock", "sauce", "glaze"])],
    };
    const { amounts, docs } = smallSite(book);
    const feeds = feedsOf(amounts, docs).filter((f) => f.producer === "stock");
    expect(feeds.map((f) => ("line" in f.into ? f.into.preparation : f.into.dish))).toEqual([
      "sauce",
      "bowl",
    ]);
    // 1 kg on plates and half of it over; 2 kg into the sauce.
    expect(feeds.map((f) => Math.round(f.grams))).toEqual([2000, 1500]);
  });

  it("P7 stock on hand goes first", () => {
    const book = {
      preparations: [preparation("stock", [step("boil", { work: work(5) })]), part("sauce", "stock", 1000)],
      dishes: [dish("bowl", ["sauce"]), dish("cup", ["stock"])],
      service: {
        stock: [{ item: { preparation: "stock" }, amount: { value: 400, unit: "g" }, useBy: "2027-02-10" }],
      },
    };
    const { amounts, docs } = smallSite(book);
    const feeds = feedsOf(amounts, docs).filter((f) => f.producer === "stock");
    // Five bowls and five cups of 100 g; 400 g of the 500 for the sauce are there.
    expect(feeds.map((f) => Math.round(f.grams))).toEqual([100, 500]);
  });

  it("P7 grams of feeds add up to what is made, and each batch feeds something (random books)", () => {
    const max = fc.option(fc.integer({ min: 90, max: 1500 }), { nil: undefined });
    fc.assert(
      fc.property(
        max,
        max,
        max,
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (a, b, c, covers, overage) => {
          const batch = (g: number | undefined) =>
            g === undefined ? {} : { batch: { maxAmount: { value: g, unit: "g" } } };
          const site = smallSite({
            preparations: [
              preparation("base", [step("boil", { work: work(5) })], { overage, ...batch(a) }),
              part("left", "base", 700, batch(b)),
              part("right", "base", 300, batch(c)),
            ],
            dishes: [dish("one", ["left", "right"], 90), dish("two", ["base", "left"], 35)],
            service: { covers },
          });
          const feeds = feedsOf(site.amounts, site.docs);
          for (const [id, amount] of site.amounts.preparations) {
            const own = feeds.filter((f) => f.producer === id);
            expect(new Set(own.map((f) => f.batch)).size).toBe(amount.batches.length);
            for (const each of amount.batches) {
              const grams = own.filter((f) => f.batch === each.index).reduce((sum, f) => sum + f.grams, 0);
              expect(grams).toBeCloseTo(each.grams, 2);
            }
          }
          const wanted = site.amounts.preparations.get("left")!.grams;
          const base = feeds.filter(
            (f) => f.producer === "base" && "line" in f.into && f.into.preparation === "left",
          );
          expect(base.reduce((sum, f) => sum + f.grams, 0)).toBeCloseTo(wanted, 2);
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  it("P7 food on a plate is held until the plate-up ends, within the preparation's life", () => {
    const { links } = made({
      preparations: [
        preparation("cream", [step("whip", { work: work(5), hold: COLD })], {
          life: [{ state: "cold", maxMinutes: 240 }],
          bestWithinMinutes: 30,
        }),
      ],
    });
    expect(between(links, "cream/whip/1", "plate/main/plate")).toEqual([
      {
        from: { task: "cream/whip/1", at: "end" },
        to: { task: "plate/main/plate", at: "start" },
        rule: "ready",
        least: 0,
        best: 30,
      },
      {
        from: { task: "cream/whip/1", at: "end" },
        to: { task: "plate/main/plate", at: "end" },
        rule: "life",
        most: 240,
        state: "cold",
      },
    ]);
  });
});

describe("P10, P11 stores and thawing", () => {
  const kitchen = {
    equipment: [
      { id: "cold", name: "Cold room", kind: "cold-room", capacity: [{ unit: "position", value: 5 }] },
      { id: "ice", name: "Freezer", kind: "freezer", capacity: [{ unit: "position", value: 5 }] },
    ],
  };

  it("P10 takes positions from made to used: by the pans pulled, else by mass", () => {
    const pans = [{ smallware: "GN 1/2 tray", count: 3 }];
    const set = made({
      preparations: [
        preparation("jelly", [step("set", { work: work(5), hold: COLD, pull: pans })]),
        preparation("cream", [step("whip", { work: work(5), hold: COLD })]),
        preparation("crumb", [step("dry", { work: work(5), hold: { state: "ambient", maxMin: 600 } })]),
      ],
      dishes: [dish("plate", ["jelly", "cream", "crumb"], 600)],
      kitchen,
    });
    expect(set.stays.map((s) => [s.id, s.positions, s.units])).toEqual([
      ["stay/jelly/set/1>main/plate", 1.5, ["cold"]],
      ["stay/cream/whip/1>main/plate", 1, ["cold"]],
    ]);
  });

  it("P10 asks for no store in a kitchen that has none", () => {
    expect(
      made({ preparations: [preparation("cream", [step("whip", { work: work(5), hold: COLD })])] }).stays,
    ).toEqual([]);
  });

  const pea = (g: number) => ({
    id: "peas",
    name: "Peas",
    pieces: [{ name: "bag", g, source: { doc: "test", kind: "invented" } }],
    allergens: { status: "known" },
    origin: ["plant"],
    storage: { state: "frozen", days: 300 },
  });
  const purée = (more: object = {}, line: object = {}) =>
    preparation("puree", [step("boil", { work: work(5), ...more })], {
      lines: [
        { id: "peas", item: { ingredient: "peas" }, amount: { value: 1, unit: "kg" }, step: "boil", ...line },
      ],
    });

  it("P11 thaws before the step it enters: a day for each 2 kg of a piece, an hour for little", () => {
    const big = made({ ingredients: [pea(2500)], preparations: [purée()], kitchen });
    const thaw = big.tasks.find((t) => t.kind === "thaw")!;
    expect(thaw).toMatchObject({ id: "thaw/puree/peas/1", ways: [{ hands: 0, minutes: 2880 }], inG: 1000 });
    expect(thaw.uses[0]!.units).toEqual(["cold"]);
    expect(between(big.links, "thaw/puree/peas/1", "puree/boil/1")).toMatchObject([
      { rule: "thawed", least: 0 },
    ]);
    const little = made({
      ingredients: [pea(100)],
      preparations: [purée()],
      dishes: [dish("plate", ["puree"], 20)],
      kitchen,
    });
    expect(little.tasks.find((t) => t.kind === "thaw")!.ways[0]!.minutes).toBe(60);
  });

  it("P11 does not thaw what goes in frozen", () => {
    const line = { note: "from frozen" };
    expect(
      made({ ingredients: [pea(100)], preparations: [purée({}, line)] }).tasks.some((t) => t.kind === "thaw"),
    ).toBe(false);
  });
});

describe("P12, P13 milestones and slack", () => {
  const cream = (hold: object) => preparation("cream", [step("whip", { work: work(5), hold })]);

  it("P12 plates inside the window, ended by the course, with the hands it needs or more", () => {
    // 10 plates and one placement of 40 s: 400 s in a window of 5 min wants 2 hands.
    const d = dish("plate", ["cream"], 100, { windowMin: 5 });
    (d as { placements: { seconds: number }[] }).placements[0]!.seconds = 40;
    const set = made({ preparations: [cream(COLD)], dishes: [d] });
    const plate = set.tasks.find((t) => t.id === "plate/main/plate")!;
    expect(plate).toMatchObject({
      kind: "plate",
      station: "pass",
      pieces: 10,
      ways: [{ hands: 2, minutes: 4 }],
    });
    const site = smallSite({ preparations: [cream(COLD)] });
    const { service } = site.clock;
    expect(plate).toMatchObject({ release: service - 5, deadline: service });
    expect(set.tasks.find((t) => t.id === "course/main")!.at).toBe(service);
  });

  it("P12 what may wait cold is made by the line check; what is hot or waits too little is not", () => {
    const checks = (hold: object) =>
      made({ preparations: [cream(hold)] }).links.filter((l) => l.rule === "line-check").length;
    expect(checks({ state: "cold", maxMin: 60 })).toBe(1);
    expect(checks({ state: "cold", maxMin: 59 })).toBe(0);
    expect(checks({ state: "hot", maxMin: 300 })).toBe(0);
  });

  it("P13 leaves the chosen slack before plate-up, or half of what a shorter hold leaves", () => {
    const dueOf = (hold: object, slackMin: number) => {
      const book = { preparations: [cream(hold)], service: { slackMin } };
      const due = made(book).tasks.find((t) => t.id === "cream/whip/1")!.due!;
      return smallSite(book).clock.service - due;
    };
    // The window is 10 min; what waits cold is made by the line check, 60 min before.
    expect(dueOf(COLD, 20)).toBe(80);
    expect(dueOf({ state: "cold", maxMin: 70 }, 20)).toBe(65);
    expect(dueOf({ state: "hot", maxMin: 300 }, 20)).toBe(30);
    expect(dueOf({ state: "hot", maxMin: 30 }, 20)).toBe(20);
    expect(dueOf({ state: "hot", maxMin: 8 }, 20)).toBe(10);
  });
});

describe("P14 pins", () => {
  const bread = preparation("bread", [
    step("bake", {
      work: work(30, { hands: { least: 1, most: 2, split: "divides" }, perBatchMin: 30 }),
      uses: [{ kind: "oven", during: "work", space: { value: 1, unit: "shelf" } }],
    }),
  ]);
  const pin = (more: object, kitchen: object = {}) =>
    made({ preparations: [bread], service: { pins: [{ task: "bread/bake/1", ...more }] }, kitchen });
  const two = {
    equipment: [
      { id: "oven", name: "Oven", kind: "oven", count: 2, capacity: [{ unit: "shelf", value: 4 }] },
      { id: "grill", name: "Grill", kind: "grill", capacity: [{ unit: "shelf", value: 4 }] },
    ],
  };

  it("P14 narrows start, crew and equipment", () => {
    const set = pin({ start: "D 10:00", crew: ["bob"], equipment: ["oven#2"] }, two);
    expect(set.doubts).toEqual([]);
    const task = set.tasks.find((t) => t.id === "bread/bake/1")!;
    expect(task).toMatchObject({ at: 1680, crew: ["bob"], ways: [{ hands: 1, minutes: 60 }] });
    expect(task.uses[0]!.units).toEqual(["oven#2"]);
  });

  it("P14 says what it cannot follow and where", () => {
    const path = (more: object) => pin(more, two).doubts.map((d) => d.path);
    expect(path({ task: "bread/bake/9" })).toEqual(["/services/0/pins/0/task"]);
    expect(path({ crew: ["zoe"] })).toEqual(["/services/0/pins/0/crew"]);
    expect(path({ equipment: ["grill"] })).toEqual(["/services/0/pins/0/equipment"]);
    expect(path({ equipment: ["moon"] })).toEqual(["/services/0/pins/0/equipment"]);
    expect(path({ status: "done" })).toEqual(["/services/0/pins/0/status"]);
    expect(path({ start: "D-3 10:00" })).toEqual(["/services/0/pins/0/start"]);
  });
});

describe("the size it takes", () => {
  it("P7 links grow with the batches, not with their square", () => {
    const base = preparation(
      "base",
      [step("a", { work: work(5) }), step("b", { from: ["a"], work: work(5) })],
      {
        batch: { maxAmount: { value: 100, unit: "g" } },
      },
    );
    const soup = part("soup", "base", 1000, { batch: { maxAmount: { value: 150, unit: "g" } } });
    const size = (covers: number) => {
      const set = made({ preparations: [base, soup], dishes: [dish("bowl", ["soup"])], service: { covers } });
      return set.links.length / set.tasks.length;
    };
    expect(size(3000)).toBeLessThan(1.1 * size(300));
  });
});
