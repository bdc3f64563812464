import { describe, expect, test } from "vitest";
import { unknownIngredient } from "../pantry/unknown.ts";
import { linkRecipe } from "./doubts.ts";
import { draftPreparations } from "./draft.ts";
import { type Oven, ovensOf, ovenUses } from "./ovens.ts";
import { readLine } from "./read-line.ts";
import { readStep } from "./read-step.ts";
import { readText } from "./read-text.ts";
import { lineChoices, stepChoices, stickChoices } from "./text-choices.ts";

const OVENS: Oven[] = [
  { kind: "combi", name: "Combi oven", rangeC: [30, 300] },
  { kind: "deck", name: "Deck oven", rangeC: [120, 300] },
];
const stepsOf = (...texts: string[]) => texts.map((text, at) => ({ ...readStep(text), at, part: null }));
const usesOf = (...texts: string[]) =>
  [...ovenUses(stepsOf(...texts), OVENS, {}).of].map(([i, { kind, setC }]) => [i, kind, setC]);

describe("IN22 ovens", () => {
  test("a step that bakes takes an oven at its own temperature, or at that of the preheating", () => {
    expect(usesOf("Bake at 180 °C for 20 minutes.")).toEqual([[0, "combi", 180]]);
    expect(usesOf("Heat the oven to 350 °F.", "Mix.", "Bake for 40 minutes.")).toEqual([[2, "combi", 177]]);
    expect(usesOf("Den Ofen auf 200 °C vorheizen.", "25 Minuten backen.")).toEqual([[1, "combi", 200]]);
    expect(usesOf("Enfourner 40 min à four chaud, th. 7.")).toEqual([[0, "combi", 210]]);
    expect(usesOf("Infornare a 190° per 30 minuti.")).toEqual([[0, "combi", 190]]);
    expect(usesOf("Hornear 3 horas a 160 °C.")).toEqual([[0, "combi", 160]]);
  });

  test("what names no oven, or no temperature, takes none", () => {
    expect(usesOf("Chill at 4 °C for 2 hours.")).toEqual([]);
    expect(usesOf("Fry at 180 °C for 3 minutes.")).toEqual([]);
    expect(usesOf("Bake until golden.")).toEqual([]);
    expect(usesOf("Simmer 20 minutes.")).toEqual([]);
  });

  test("it is asked, with every oven that holds the temperature and none; an answer settles it", () => {
    const steps = stepsOf("Dry in the oven at 90 °C for 3 hours.", "Bake at 220 °C for 10 minutes.");
    const { doubts } = ovenUses(steps, OVENS, {});
    expect(doubts.map(({ choices }) => choices!.map((one) => (one.kind === "oven" ? one.oven : "")))).toEqual(
      [
        ["combi", null],
        ["combi", "deck", null],
      ],
    );
    const answered = ovenUses(steps, OVENS, { 0: null, 1: "deck" });
    expect(answered.doubts).toEqual([]);
    expect([...answered.of].map(([i, { kind }]) => [i, kind])).toEqual([[1, "deck"]]);
  });

  test("the draft's step has it, and the document holds", () => {
    const salt = unknownIngredient("Salt", new Set());
    const linked = linkRecipe(readText("Crust\n500 g salt\n\nMethod\nBake at 200 °C for 30 minutes.\n"), [
      salt,
    ]);
    const { preparations } = draftPreparations(linked, new Map([[salt.id, salt]]), new Set(), {
      ovens: OVENS,
      chosen: {},
    });
    expect(preparations[0]!.steps[0]!.uses).toMatchObject([
      { kind: "combi", setC: 200, during: "passive", space: { value: 1, unit: "shelf" } },
    ]);
  });

  test("ovens are what has shelves and is hot enough", () => {
    const kit = [
      { kind: "combi", name: "Combi", capacity: [{ unit: "shelf" }], rangeC: [30, 300] as [number, number] },
      { kind: "combi", name: "Second", capacity: [{ unit: "shelf" }], rangeC: [30, 300] as [number, number] },
      {
        kind: "cabinet",
        name: "Hot cabinet",
        capacity: [{ unit: "shelf" }],
        rangeC: [30, 120] as [number, number],
      },
      { kind: "fryer", name: "Fryer", capacity: [{ unit: "litre" }], rangeC: [60, 190] as [number, number] },
      { kind: "rack", name: "Rack", capacity: [{ unit: "shelf" }] },
    ];
    expect(ovensOf(kit)).toEqual([{ kind: "combi", name: "Combi", rangeC: [30, 300] }]);
  });
});

describe("IN4 marks, scales and fans", () => {
  test("gas marks, also the low ones; °F and °C; a fan's figure beside the plain one is no second temperature", () => {
    // 25 °F a mark from 275 °F at 1, 225 and 250 °F at ¼ and ½: common practice, no source.
    const celsius = (text: string) => readStep(text).temperatureC;
    expect(celsius("Bake at gas mark 4 for 20 minutes.")).toBe(177);
    expect(celsius("Dry at gas ¼ overnight.")).toBe(107);
    expect(celsius("Dry at gas mark 1/2 for 3 hours.")).toBe(121);
    expect(celsius("Bake at 350°F.")).toBeCloseTo(176.67, 2);
    expect(celsius("Cuire th. 6, 40 min.")).toBe(180);
    expect(readStep("Roast at 180C/fan 160C/gas 4 for 1 hour.")).toMatchObject({
      temperatureC: 180,
      doubt: "",
    });
    expect(readStep("Bake at 180 °C (Umluft 160 °C) for 40 min.")).toMatchObject({
      temperatureC: 180,
      doubt: "",
    });
  });

  test("IN23 an open step comes with its likely answers, and each settles it", () => {
    const settled = (text: string) => {
      const choices = stepChoices({ ...readStep(text), at: 1, part: null });
      return choices.map((choice) => {
        const { temperatureC, minutes, doubt } = readStep(choice.text);
        return [temperatureC, minutes, doubt];
      });
    };
    expect(settled("Bake at 225 degrees for 10 minutes.")).toEqual([
      [225, 10, ""],
      [107.22, 10, ""],
    ]);
    expect(settled("Chill overnight.")).toEqual([
      [null, 480, ""],
      [null, 720, ""],
    ]);
    expect(settled("Bake in a moderate oven for 1 hour.")).toEqual([[180, 60, ""]]);
    expect(settled("Stir.")).toEqual([]);
    const labels = (text: string) =>
      lineChoices(text, readLine(text).doubt).map((one) => [one.label, readLine(one.text)]);
    expect(labels("1,500 g stock")).toMatchObject([
      ["1500 g", { low: 1500, doubt: "" }],
      ["1.5 g", { low: 1.5, doubt: "" }],
    ]);
    expect(stickChoices("2 sticks unsalted butter", 2)).toMatchObject([{ label: "8 oz" }]);
    expect(readLine(stickChoices("1 stick of butter", 1)[0]!.text)).toMatchObject({
      low: 4,
      unit: "oz",
      ingredient: "butter",
    });
  });
});
