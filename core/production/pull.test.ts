import { describe, expect, test } from "vitest";
import { preparation, smallSite, step } from "../../tests/small-kitchen.ts";
import { mostInUse } from "./plan-rules.ts";
import type { Planned } from "./planned.ts";
import { isReusable, pullList, WASHED_IN_MIN } from "./pull.ts";
import type { Site } from "./site.ts";

const PULL = [
  { smallware: "sauteuse, 240 mm", count: 2, per: "batch" },
  { smallware: "vacuum bag, 200 × 300 mm", count: 3, per: "batch" },
  { smallware: "GN 1/1 tray, 65 mm", count: 1, per: "batch" },
];
const HOLD = { state: "hot", maxMin: 240 };
const sauce = preparation("sauce", [step("cook", { pull: PULL, hold: HOLD })]);
const other = preparation("other", [step("cook", { pull: PULL.slice(0, 1) })]);

/** Work on the day of service from and to a minute, as a plan has it. */
function at(site: Site, id: string, batch: number, from: number, to: number, usedMin = 0): Planned {
  const noon = site.clock.minuteOf("D 12:00");
  const task = { id: `${id}/cook/${batch}`, preparation: id, step: "cook", kind: "work", station: "range" };
  const plan = {
    startMin: noon + from,
    endMin: noon + to,
    hold: { state: "hot", maxMin: 240, usedMin },
  };
  return { task: { ...task, share: 1, outG: 1000, pieces: 0, uses: [] }, plan } as unknown as Planned;
}

describe("P19 pull list", () => {
  const site = smallSite({ preparations: [sauce, other] } as unknown as Parameters<typeof smallSite>[0]);
  const counts = (planned: readonly Planned[], of: Site = site) =>
    Object.fromEntries(pullList(of, planned).map(({ item }) => [item.smallware, item.count]));

  test("batches one after the other share tools, what is used up adds", () => {
    const after = 60 + WASHED_IN_MIN;
    const made = counts([at(site, "sauce", 1, 0, 60), at(site, "sauce", 2, after, after + 60)]);
    expect(made["sauteuse, 240 mm"]).toBe(2);
    expect(made["vacuum bag, 200 × 300 mm"]).toBe(6);
    expect(made["GN 1/1 tray, 65 mm"]).toBe(1);
  });

  test("at the same time, or before it is washed, they do not", () => {
    expect(counts([at(site, "sauce", 1, 0, 60), at(site, "sauce", 2, 30, 90)])["sauteuse, 240 mm"]).toBe(4);
    const early = 60 + WASHED_IN_MIN - 1;
    const made = counts([at(site, "sauce", 1, 0, 60), at(site, "sauce", 2, early, early + 60)]);
    expect(made["sauteuse, 240 mm"]).toBe(4);
  });

  test("a container is in use until what it keeps is used, and has a label each time", () => {
    const made = counts([at(site, "sauce", 1, 0, 60, 120), at(site, "sauce", 2, 100, 160)]);
    expect(made["GN 1/1 tray, 65 mm"]).toBe(2);
    expect(made["sauteuse, 240 mm"]).toBe(2);
    expect(made.label).toBeGreaterThanOrEqual(2);
  });

  test("what a guest's allergy depends on shares no tool", () => {
    const planned = [at(site, "sauce", 1, 0, 60), at(site, "other", 1, 200, 260)];
    expect(counts(planned)["sauteuse, 240 mm"]).toBe(2);
    const apart = {
      carried: () => new Set<never>(),
      keptFrom: (id: string) => new Set(id === "other" ? (["gluten"] as const) : []),
    };
    expect(counts(planned, { ...site, apart })["sauteuse, 240 mm"]).toBe(4);
  });

  test("the most at once is what counting minute by minute gives", () => {
    let seed = 7;
    const next = (n: number) => {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      return seed % n;
    };
    for (let round = 0; round < 50; round++) {
      const uses = Array.from({ length: 1 + next(12) }, () => {
        const from = next(60);
        return [1 + next(5), from, from + next(30)] as const;
      });
      const byMinute = Array.from({ length: 100 }, (_, minute) =>
        uses.reduce((sum, [count, from, until]) => sum + (from <= minute && minute < until ? count : 0), 0),
      );
      expect(mostInUse(...uses.flat())).toBe(Math.max(...byMinute));
    }
  });

  test("by its name film, bags, paper and cloth are used up, unless the book says", () => {
    for (const smallware of ["label", "vacuum bag, 200 × 300 mm", "baking paper", "muslin", "piping bags"])
      expect(isReusable({ smallware }), smallware).toBe(false);
    for (const smallware of ["bag clip", "GN 1/1 tray, 65 mm", "sauteuse, 240 mm", "squeeze bottle, 0.25 L"])
      expect(isReusable({ smallware }), smallware).toBe(true);
    expect(isReusable({ smallware: "muslin", reusable: true })).toBe(true);
  });
});
