import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  anHour,
  preparation,
  type SmallBook,
  smallDocuments,
  step,
  work,
} from "../../tests/small-kitchen.ts";
import { smallEngine, smallPlan } from "../../tests/small-plan.ts";
import { applied, applyOf, editedDocument } from "./apply.ts";
import { makePlan } from "./make-plan.ts";

const OVEN = { during: "passive", setC: 200, toleranceC: 30 };
const bake = (id: string) =>
  preparation(id, [
    step("bake", {
      passive: { min: 60 },
      uses: [{ ...OVEN, kind: "combi", space: { value: 2, unit: "shelf" } }],
      hold: { state: "hot", maxMin: 15 },
    }),
  ]);
const equipment = (days?: object[], deckC: [number, number] = [50, 250]) => [
  {
    ...{ id: "combi-1", name: "Combi oven", kind: "combi", rangeC: [50, 250], ...(days ? { days } : {}) },
    capacity: [{ unit: "shelf", value: 4 }],
  },
  { id: "deck-1", name: "Deck oven", kind: "deck", rangeC: deckC, capacity: [{ unit: "shelf", value: 4 }] },
];
const plan = (book: SmallBook) => smallPlan(book, { schedules: 40 });

/** Each remedy made by its own words for a machine is what its proof is of. */
function reproved(book: SmallBook) {
  const { docs, amounts, plan: broken, made } = plan(book);
  return broken.remedies
    .filter(({ apply }) => apply.covers === undefined)
    .map((remedy) => {
      const before = { docs, kitchen: made.site.kitchen, service: amounts.service };
      const { docs: tried, kitchen, service } = applied(before, remedy.apply);
      const effort = { seed: 1, schedules: 100, any: true };
      const again = makePlan(
        tried,
        { ...amounts, kitchen, service },
        { fillTarget: anHour, kitchen },
        smallEngine,
        effort,
      );
      return { remedy, again: again.plan };
    });
}

describe("P21 remedies that can be tried", () => {
  const dead = [{ from: "D-1 06:00", to: "D 16:00" }];

  it("P21 an oven dead at 16:00: the deck oven, with the words, the edits and the proof", () => {
    const book = { preparations: [bake("cake"), bake("pie")], kitchen: { equipment: equipment(dead) } };
    const proved = reproved(book);
    const deck = proved.find(({ remedy }) => remedy.change.includes("Deck oven"))!;
    expect(deck.remedy).toMatchObject({
      status: "feasible",
      result: expect.stringMatching(/^fits, \d+ min spare$/),
    });
    expect(deck.remedy.change).toBe(
      "Cake: Step; Pie: Step in Deck oven instead of Combi oven, if the food may go there",
    );
    expect(deck.again.status).toBe("feasible");
    const stands = deck.again.tasks.find((task) => task.id === "cake/bake/1/wait")!;
    expect(stands.equipment[0]!.id).toBe("deck-1");
    for (const { remedy, again } of proved) {
      expect(again.status, remedy.change).toBe(remedy.status);
      const starts = again.tasks.map(({ id, start }) => ({ id, start }));
      expect(starts, remedy.change).toEqual(remedy.proof);
      expect(remedy.change, remedy.change).not.toMatch(/combi-1|deck-1|\w\/\w/);
    }
  });

  it("P21 at the nearest temperature inside the step's own tolerance, and not beyond it", () => {
    const cool = (to: number) => ({
      preparations: [bake("cake")],
      kitchen: { equipment: equipment(dead, [50, to]) },
    });
    expect(reproved(cool(175)).map(({ remedy }) => remedy.change)).toContain(
      "Cake: Step at 175 °C instead of 200 in Deck oven instead of Combi oven, if the food may go there",
    );
    expect(reproved(cool(160)).filter(({ remedy }) => remedy.change.includes("Deck oven"))).toEqual([]);
  });

  it("P21 a pin that cannot be kept is given up, and the hands asked for come by the half hour with names", () => {
    const pinned = {
      preparations: [preparation("stew", [step("simmer", { work: work(90) })])],
      service: { pins: [{ task: "stew/simmer/1", start: "D 19:00" }] },
    };
    const unpinned = reproved(pinned).find(({ remedy }) => remedy.change.startsWith("without"))!;
    expect(unpinned.remedy).toMatchObject({ change: "without the pin of Stew: Step", status: "feasible" });
    expect(unpinned.remedy.apply).toEqual({
      edits: [{ document: "services", id: "service", at: "/pins", value: [] }],
    });
    const carve = (id: string) =>
      preparation(id, [step("carve", { work: work(35), hold: { state: "hot", maxMin: 20 } })]);
    const [hands] = reproved({ preparations: ["a", "b", "c"].map(carve) }).map(({ remedy }) => remedy);
    expect(hands!.change).toMatch(/^one more pair of hands \(Any cook\), D \d\d:[03]0 to D \d\d:[03]0$/);
    expect(hands!.apply.edits).toMatchObject([{ document: "kitchens", at: "/crew/2" }]);
  });

  it("P21 the edits of any two documents make the one of the other", () => {
    const value = fc.jsonValue({ maxDepth: 3 }).map((x) => JSON.parse(JSON.stringify(x)) as unknown);
    fc.assert(
      fc.property(
        fc.dictionary(fc.stringMatching(/^[a-z]{1,3}$/), value),
        fc.dictionary(fc.stringMatching(/^[a-z]{1,3}$/), value),
        (a, b) => {
          const docs = smallDocuments({ preparations: [bake("cake")] });
          const [kitchen, service] = [docs.kitchens.get("kitchen")!, docs.services.get("service")!];
          // What a kitchen can only gain: a remedy takes no field away.
          const after = { ...kitchen, ...a, ...b } as typeof kitchen;
          const before = { ...kitchen, ...a } as typeof kitchen;
          const apply = applyOf({ docs, kitchen: before, service }, { docs, kitchen: after, service });
          expect(editedDocument(before, apply.edits ?? [])).toEqual(after);
          expect(applied({ docs, kitchen: before, service }, apply).kitchen).toEqual(after);
        },
      ),
      { numRuns: 60, seed: 5 },
    );
  });
});
