import { describe, expect, it } from "vitest";
import { preparation, type SmallBook, smallSite, step, work } from "../../tests/small-kitchen.ts";
import { serviceTasks } from "./service-tasks.ts";
import type { Site } from "./site.ts";
import type { TaskSet } from "./tasks.ts";

function tasks(book: SmallBook, change: (site: Site) => Site = (s) => s): TaskSet {
  return serviceTasks(change(smallSite(book)));
}
const one = (steps: readonly object[], more: object = {}, kitchen: object = {}) =>
  tasks({ preparations: [preparation("dough", steps, more)], kitchen });
const find = (set: TaskSet, id: string) => {
  const task = set.tasks.find((t) => t.id === id);
  if (!task) throw new Error(`no task ${id} among ${set.tasks.map((t) => t.id).join(", ")}`);
  return task;
};

describe("P2 work", () => {
  it("P2 shares the variable part among the hands and adds the share around, rounded up", () => {
    // 1 kg: (4 + 12 ÷ n) × 1.25 = 20, 12.5, 10.
    const set = one(
      [step("knead", { work: work(4, { perKgMin: 12, hands: { least: 1, most: 3, split: "divides" } }) })],
      {},
      { around: 0.25, crew: threeCooks },
    );
    expect(find(set, "dough/knead/1").ways).toEqual([
      { hands: 1, minutes: 20 },
      { hands: 2, minutes: 13 },
      { hands: 3, minutes: 10 },
    ]);
  });

  it("P2 offers more hands only while they save a minute, and no more than can do it", () => {
    const steps = [
      step("knead", { work: work(10, { perBatchMin: 1, hands: { least: 1, most: 9, split: "divides" } }) }),
    ];
    expect(find(one(steps), "dough/knead/1").ways).toEqual([{ hands: 1, minutes: 11 }]);
    const some = [
      step("knead", { work: work(0, { perBatchMin: 60, hands: { least: 1, most: 9, split: "divides" } }) }),
    ];
    expect(find(one(some), "dough/knead/1").ways.map((w) => w.hands)).toEqual([1, 2]);
  });

  it("P2 needs all hands the whole time with `each`", () => {
    const set = one([
      step("carry", { work: work(3, { perKgMin: 5, hands: { least: 2, most: 4, split: "each" } }) }),
    ]);
    expect(find(set, "dough/carry/1").ways).toEqual([{ hands: 2, minutes: 8 }]);
  });

  it("P2 counts the kg that enter, piece by piece and batch by batch", () => {
    const set = one(
      [
        step("mix", { work: work(0, { perKgMin: 10 }), change: { factor: 0.5, as: "evaporated" } }),
        step("cut", { from: ["mix"], work: work(1, { perKgMin: 10, perPieceMin: 2, perBatchMin: 3 }) }),
      ],
      { yield: { amount: { value: 500, unit: "g" }, pieces: 5 } },
    );
    // 10 plates of 100 g: 1 kg out of 2 kg in; 10 pieces.
    expect(find(set, "dough/mix/1").ways[0]!.minutes).toBe(20);
    expect(find(set, "dough/cut/1").ways[0]!.minutes).toBe(1 + 10 + 20 + 3);
  });
});

const threeCooks = ["a", "b", "c"].map((id) => ({
  id,
  name: id,
  skills: ["prep"],
  shifts: [{ from: "D 08:00", to: "D 22:00" }],
}));

describe("P3 to P6 waiting, loads, look-ins", () => {
  it("P3 rounds waiting up, by mass or from a target", () => {
    expect(find(one([step("rest", { passive: { min: 20.2 } })]), "dough/rest/1/wait").ways).toEqual([
      { hands: 0, minutes: 21 },
    ]);
    const byMass = one([step("chill", { passive: { fixedMin: 10, perKgMin: 15 } })]);
    expect(find(byMass, "dough/chill/1/wait").ways[0]!.minutes).toBe(25);
    const target = { startC: 20, stages: [{ medium: "water", mediumC: 60, minutes: 5 }] };
    const heated = one([step("cook", { target })]);
    expect(find(heated, "dough/cook/1/wait").ways[0]!.minutes).toBe(60);
  });

  it("P3 says when a target cannot be filled, and plans on", () => {
    const target = { startC: 20, stages: [{ medium: "water", mediumC: 60, minutes: 5 }] };
    const set = tasks({ preparations: [preparation("dough", [step("cook", { target })])] }, (site) => ({
      ...site,
      fillTarget: () => ({ doubt: "it has no shape", mend: "give it a piece" }),
    }));
    expect(set.doubts).toContainEqual({
      path: "/preparations/0/steps/0/target",
      what: "it has no shape",
      mend: "give it a piece",
    });
    expect(find(set, "dough/cook/1/wait").ways[0]!.minutes).toBe(0);
  });

  it("P4 waits at once after the work of the same step", () => {
    const set = one([step("bake", { work: work(5), passive: { min: 40 } })]);
    expect(set.links).toContainEqual({
      from: { task: "dough/bake/1", at: "end" },
      to: { task: "dough/bake/1/wait", at: "start" },
      rule: "follows",
      least: 0,
      most: 0,
    });
    expect(find(one([step("stand")]), "dough/stand/1/wait").ways).toEqual([{ hands: 0, minutes: 0 }]);
  });

  it("P5 goes in the fewest equal loads that fit one unit", () => {
    const bake = step("bake", {
      work: work(2, { perKgMin: 9 }),
      passive: { min: 30 },
      uses: [{ kind: "oven", during: "passive", space: { value: 9, unit: "shelf" } }],
    });
    const set = one([bake, step("cool", { from: ["bake"], passive: { min: 5 } })]);
    const loads = set.tasks.filter((t) => t.step === "bake" && t.kind === "wait");
    expect(loads.map((t) => t.id)).toEqual([
      "dough/bake/1.1/wait",
      "dough/bake/1.2/wait",
      "dough/bake/1.3/wait",
    ]);
    expect(loads.map((t) => t.uses[0]!.space)).toEqual(loads.map(() => [{ unit: "shelf", value: 3 }]));
    // A third of the kilogram, the fixed minutes in full.
    expect(find(set, "dough/bake/1.1").ways[0]!.minutes).toBe(5);
    const ready = set.links.filter((l) => l.to.task === "dough/cool/1/wait");
    expect(ready.map((l) => l.from.task)).toEqual(loads.map((t) => t.id));
  });

  it("P5 carries loads on where the first could not wait for the last", () => {
    const freeze = (maxMin: number) =>
      one([
        step("freeze", {
          work: work(5),
          passive: { min: 30 },
          uses: [{ kind: "oven", during: "both", space: { value: 8, unit: "shelf" } }],
          hold: { state: "frozen", maxMin },
        }),
        step("harden", { from: ["freeze"], passive: { min: 60 } }),
      ]);
    const harden = (set: TaskSet) => set.tasks.filter((t) => t.step === "harden").map((t) => t.id);
    // The second load is done 35 min after the first.
    expect(harden(freeze(34))).toEqual(["dough/harden/1.1/wait", "dough/harden/1.2/wait"]);
    expect(harden(freeze(35))).toEqual(["dough/harden/1/wait"]);
    const links = freeze(34).links.filter((l) => l.rule === "hold");
    expect(links.map((l) => [l.from.task, l.to.task])).toEqual([
      ["dough/freeze/1.1/wait", "dough/harden/1.1/wait"],
      ["dough/freeze/1.2/wait", "dough/harden/1.2/wait"],
    ]);
  });

  it("P7 loads wait for those before whose share they take", () => {
    const oven = (shelves: number) => ({
      uses: [{ kind: "oven", during: "passive", space: { value: shelves, unit: "shelf" } }],
      passive: { min: 10 },
    });
    // Two loads, then three: the second of the three takes of both.
    const set = one([step("bake", oven(8)), step("dry", { from: ["bake"], ...oven(12) })]);
    const feeds = set.links.filter((l) => l.rule === "ready" && l.to.task.startsWith("dough/dry"));
    expect(feeds.map((l) => `${l.from.task.slice(13, 14)}>${l.to.task.slice(12, 13)}`)).toEqual([
      "1>1",
      "1>2",
      "2>2",
      "2>3",
    ]);
  });

  it("P6 looks in every so often, a quarter either way, and never after the end", () => {
    const set = one([step("stew", { work: work(1), passive: { min: 60 }, attended: { min: 2, every: 20 } })]);
    const looks = set.tasks.filter((t) => t.kind === "look");
    expect(looks.map((t) => t.id)).toEqual(["dough/stew/1/look-1", "dough/stew/1/look-2"]);
    const window = set.links.find((l) => l.to.task === "dough/stew/1/look-2")!;
    expect(window).toMatchObject({ from: { task: "dough/stew/1/wait", at: "start" }, least: 35, most: 45 });
  });
});

describe("P8, P9 equipment", () => {
  const use = (more: object) => ({
    kind: "oven",
    during: "passive",
    space: { value: 1, unit: "shelf" },
    ...more,
  });
  const baked = (uses: readonly object[], kitchen: object = {}) =>
    one([step("bake", { work: work(5), passive: { min: 30 }, uses })], {}, kitchen);

  it("P8 takes any unit of the kind that has the room and reaches the temperature", () => {
    const set = baked([use({ setC: 200 })], {
      equipment: [
        {
          id: "deck",
          name: "Deck",
          kind: "oven",
          count: 2,
          capacity: [{ unit: "shelf", value: 1 }],
          rangeC: [100, 300],
        },
        {
          id: "warmer",
          name: "Warmer",
          kind: "oven",
          capacity: [{ unit: "shelf", value: 9 }],
          rangeC: [40, 90],
        },
      ],
    });
    expect(find(set, "dough/bake/1/wait").uses[0]!.units).toEqual(["deck#1", "deck#2"]);
  });

  const chillers = [
    { id: "deep", name: "Deep", kind: "oven", capacity: [{ unit: "shelf", value: 4 }], maxDepthMm: 65 },
    { id: "flat", name: "Flat", kind: "oven", capacity: [{ unit: "shelf", value: 4 }], maxDepthMm: 50 },
  ];
  it("P8 takes only units that take food so deep; where none does, says by how many mm", () => {
    const units = (depthMm: number) => baked([use({ depthMm })], { equipment: chillers });
    expect(find(units(60), "dough/bake/1/wait").uses[0]!.units).toEqual(["deep"]);
    expect(find(units(50), "dough/bake/1/wait").uses[0]!.units).toEqual(["deep", "flat"]);
    const over = units(80);
    expect(over.lacks[0]).toMatchObject({ rule: "depth", by: 15, unit: "mm" });
    expect(find(over, "dough/bake/1/wait").uses[0]!.units).toEqual(["deep"]);
    expect(baked([use({})], { equipment: chillers }).lacks).toEqual([]);
  });

  it("P8 joins uses of one kind, time and temperature to one need of two dimensions", () => {
    const set = baked([use({}), use({ space: { value: 1, unit: "kg" }, per: "kg" })], {
      equipment: [
        {
          id: "oven",
          name: "Oven",
          kind: "oven",
          capacity: [
            { unit: "shelf", value: 4 },
            { unit: "kg", value: 20 },
          ],
        },
      ],
    });
    expect(find(set, "dough/bake/1/wait").uses).toEqual([
      {
        units: ["oven"],
        space: [
          { unit: "shelf", value: 1 },
          { unit: "kg", value: 1 },
        ],
      },
    ]);
  });

  it("P9 keeps the unit from the work to the waiting when it is used during both", () => {
    const set = baked([use({ during: "both" })]);
    const [a, b] = [find(set, "dough/bake/1"), find(set, "dough/bake/1/wait")];
    expect(a.uses[0]!.same).toBeDefined();
    expect(a.uses[0]!.same).toBe(b.uses[0]!.same);
  });

  it("P9 counts the larger mass for room per kg, and whole shelves", () => {
    const soak = step("soak", {
      passive: { min: 5 },
      change: { addWaterFactor: 1 },
      uses: [use({ per: "kg", space: { value: 0.6, unit: "shelf" } })],
    });
    const set = one([soak], { yield: { amount: { value: 2, unit: "kg" } } });
    // 1 kg out of 0.5 kg: 0.6 of a shelf is a shelf.
    expect(find(set, "dough/soak/1/wait").uses[0]!.space).toEqual([{ unit: "shelf", value: 1 }]);
    expect(find(set, "dough/soak/1/wait")).toMatchObject({ inG: 500, outG: 1000 });
  });

  it("P9 lets a vessel hold one preparation at a time", () => {
    const set = one(
      [
        step("mix", {
          work: work(5),
          uses: [{ kind: "mixer", during: "work", space: { value: 1, unit: "litre" } }],
        }),
      ],
      {},
      {
        equipment: [{ id: "mixer", name: "Mixer", kind: "mixer", capacity: [{ unit: "litre", value: 20 }] }],
      },
    );
    expect(find(set, "dough/mix/1").uses[0]!.exclusive).toBe(true);
  });

  it("P17 says what the kitchen lacks: the equipment, the heat, the skill, the hands", () => {
    expect(baked([use({ kind: "kiln" })]).lacks).toEqual([
      {
        rule: "equipment",
        by: 1,
        unit: "piece",
        what: "The kitchen has no kiln",
        tasks: ["dough/bake/1", "dough/bake/1/wait"],
      },
    ]);
    expect(baked([use({ setC: 280 })]).lacks[0]).toMatchObject({ rule: "range", by: 30, unit: "°C" });
    const glaze = one([step("glaze", { work: work(5, { skill: "sugar" }) })]);
    expect(glaze.lacks[0]).toMatchObject({ rule: "skill", tasks: ["dough/glaze/1"] });
    expect(find(glaze, "dough/glaze/1").skill).toBeUndefined();
    const lift = one([step("lift", { work: work(5, { hands: { least: 5, most: 5, split: "each" } }) })]);
    expect(lift.lacks[0]).toMatchObject({ rule: "hands", by: 3, tasks: ["dough/lift/1"] });
    expect(find(lift, "dough/lift/1").ways[0]!.hands).toBe(2);
  });

  it("P9 says when the room is asked per piece of what has no pieces", () => {
    const set = baked([use({ per: "piece" })]);
    expect(set.doubts[0]).toMatchObject({ path: "/preparations/0/yield/pieces" });
  });
});
