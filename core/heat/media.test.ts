import { describe, expect, test } from "vitest";
import { evaporation } from "./evaporation.ts";
import { type HeatResult, heat } from "./heat.ts";
import { airOf, mediumNamed } from "./media.ts";
import { media } from "./media-data.ts";
import { recovery } from "./oven.ts";
import type { HeatInput, Material, Stage } from "./schema.ts";
import { linearFace, surfaceTemperature } from "./surroundings.ts";

const lean: Material = { composition: { water: 0.75, protein: 0.22, fat: 0.02, ash: 0.01 } };
const given: Material = { conductivity: 0.5, density: 1050, specificHeat: 3500 };

function trial(stages: Stage[], more: Partial<HeatInput> = {}): HeatResult {
  const result = heat({
    shape: { kind: "slab", thicknessMm: 30 },
    material: lean,
    startC: 5,
    stages,
    ...more,
  });
  if ("problems" in result) throw new Error(JSON.stringify(result.problems));
  return result;
}
function problem(stages: Stage[], more: Partial<HeatInput> = {}) {
  const result = heat({
    shape: { kind: "slab", thicknessMm: 30 },
    material: lean,
    startC: 5,
    stages,
    ...more,
  });
  if (!("problems" in result)) throw new Error("was computed");
  return result.problems[0]!;
}

describe("H1 given properties and a given coefficient mean exactly that", () => {
  test("no drying and no cap, however hot the medium", () => {
    const { stages, notes } = trial([{ mediumC: 220, coefficient: 40, minutes: 240 }], { material: given });
    expect(stages[0]!.coreC).toBeGreaterThan(200);
    expect(notes.some((n) => n.code === "surface-dries")).toBe(false);
  });
  test("nor with a composition: it goes on past boiling, and says that no wet core does", () => {
    const { stages, notes } = trial([{ mediumC: 180, coefficient: 40, minutes: 240 }]);
    expect(stages[0]!.coreC).toBeGreaterThan(140);
    expect(notes.some((n) => n.code === "above-boiling")).toBe(true);
  });
  test("a medium's name with a coefficient of one's own is that coefficient, undried", () => {
    const named = trial([{ medium: "fan-oven", mediumC: 160, coefficient: 32, minutes: 20 }]);
    const bare = trial([{ mediumC: 160, coefficient: 32, minutes: 20 }]);
    expect(named.stages[0]!.coreC).toBe(bare.stages[0]!.coreC);
  });
});

describe("H7 media", () => {
  test("each name and nickname leads to one medium", () => {
    const all = media.flatMap((m) => [m.id, ...m.also]);
    expect(new Set(all).size).toBe(all.length);
    expect(mediumNamed("Boiling Water")?.id).toBe("boiling-water");
    expect(mediumNamed(" walk_in ")?.id).toBe("walk-in");
    expect(mediumNamed("lava")).toBeUndefined();
  });
  test("water boils at the kitchen's own temperature; a given boiling point wins", () => {
    expect(airOf({ altitudeM: 1150 }).boilingC).toBeCloseTo(96.17, 1);
    expect(airOf({ altitudeM: 1150, boilingC: 97 }).boilingC).toBe(97);
    expect(airOf({}).boilingC).toBeCloseTo(100, 1);
    const low = trial([{ medium: "boiling-water", untilCoreC: 71 }], { altitudeM: 0 });
    const high = trial([{ medium: "boiling-water", untilCoreC: 71 }], { altitudeM: 3000 });
    expect(high.totalMinutes / low.totalMinutes).toBeGreaterThan(1.15);
    expect(high.boilingC).toBeCloseTo(89.98, 1);
  });
  test("water hotter than it boils is refused with what it can be", () => {
    const p = problem([{ medium: "boiling-water", mediumC: 100, untilCoreC: 70 }], { altitudeM: 1150 });
    expect(p).toMatchObject({ path: "/stages/0/mediumC" });
    expect(p.what).toMatch(/boils at 96\.2/);
    expect(p.mend).toMatch(/96\.2/);
  });
  test("an oven needs a temperature, a temperature needs a coefficient, a medium must be known", () => {
    expect(problem([{ medium: "fan-oven", minutes: 10 }]).path).toBe("/stages/0/mediumC");
    expect(problem([{ mediumC: 160, minutes: 10 }]).path).toBe("/stages/0/coefficient");
    expect(problem([{ medium: "lava", minutes: 10 }]).mend).toMatch(/boiling-water/);
  });
  test("a wet surface in dry heat stays near the wet-bulb temperature", () => {
    // Air of 25 °C and no vapour: psychrometric tables give a wet bulb of about 8 °C.
    const air = airOf({});
    const face = (ambient: number, vapourShare: number) => ({
      coefficient: 20,
      ambientC: () => ambient,
      evaporation: evaporation(
        { kind: "air", convectiveShare: 1, vapourShare, halvedAtKgPerM2: 1 },
        20,
        air.pressurePa,
        air.boilingC,
      ),
    });
    const wetBulb = (ambient: number, vapour: number, dried = 0) =>
      // Insulated behind: the surface settles where convection pays for evaporation.
      surfaceTemperature(linearFace(face(ambient, vapour), 0, 20, 1e6, dried), 20, 1e6);
    expect(Math.abs(wetBulb(25, 0) - 8)).toBeLessThan(1);
    // 30 °C and half saturated (2.1 % vapour): 22 °C.
    expect(Math.abs(wetBulb(30, 0.021) - 22)).toBeLessThan(1);
    // Ovens: 40 to 60 °C for dry air of 100 to 250 °C.
    expect(wetBulb(160, 0.01)).toBeGreaterThan(40);
    expect(wetBulb(160, 0.01)).toBeLessThan(55);
    expect(wetBulb(160, 0.5)).toBeGreaterThan(80);
    expect(wetBulb(160, 0.01, 50)).toBeGreaterThan(wetBulb(160, 0.01) + 30);
    // Steam condenses on a colder surface and heats it to its dew point at least.
    expect(wetBulb(110, 0.9)).toBeGreaterThan(96);
  });
  test("drying slows the heating, keeps the surface low at first, and is told with its water", () => {
    const wet = trial([{ medium: "fan-oven", mediumC: 180, minutes: 20 }]);
    const dry = trial([{ mediumC: 180, coefficient: 32, minutes: 20 }]);
    expect(wet.stages[0]!.coreC).toBeLessThan(dry.stages[0]!.coreC - 5);
    expect(wet.curve.find((p) => p.minute > 3)!.surfaceC).toBeLessThan(60);
    expect(wet.notes.map((n) => n.code)).toEqual(expect.arrayContaining(["surface-dries", "water-lost"]));
  });
  test("a wrapped piece does not dry: its outside is no wet food", () => {
    const film = { conductivity: 0.2, density: 950, specificHeat: 2200 };
    const result = heat({
      shape: { kind: "slab", thicknessMm: 30 },
      material: lean,
      layers: [{ thicknessMm: 0.1, material: film }],
      startC: 5,
      stages: [{ medium: "fan-oven", mediumC: 120, minutes: 20 }],
    });
    if ("problems" in result) throw new Error("refused");
    expect(result.notes.some((n) => n.code === "surface-dries")).toBe(false);
  });
  test("frying: the surface waits at boiling, then passes it", () => {
    const { curve } = trial([{ medium: "frying-fat", minutes: 8 }], {
      shape: { kind: "cylinder", diameterMm: 30 },
    });
    const surface = curve.map((p) => p.surfaceC);
    expect(surface.find((_, i) => curve[i]!.minute > 0.5)).toBeLessThan(115);
    expect(surface[surface.length - 1]).toBeGreaterThan(110);
  });
});

describe("H7 a loaded oven recovers", () => {
  const load = {
    massKg: 1,
    areaM2: 0.06,
    specificHeat: 3500,
    overall: 20,
    coefficient: 30,
    startC: 5,
    wet: false,
  };
  const oven = { powerKW: 10, heatCapacityKJPerK: 60, pieces: 20 };
  test("it falls, comes back and never passes its setting; more load or less power is worse", () => {
    const base = recovery(180, oven, load);
    expect(base.lowestC).toBeLessThanOrEqual(180);
    const dropped = recovery(180, { ...oven, dropC: 40 }, load);
    expect(dropped.ambientC(0)).toBe(140);
    expect(dropped.backMinutes!).toBeGreaterThan(0);
    const full = recovery(180, { ...oven, pieces: 300, dropC: 40 }, load);
    expect(full.lowestC).toBeLessThan(dropped.lowestC);
    expect(full.backMinutes!).toBeGreaterThan(dropped.backMinutes!);
    const weak = recovery(180, { ...oven, powerKW: 4, dropC: 40 }, load);
    expect(weak.backMinutes!).toBeGreaterThan(dropped.backMinutes!);
    for (let s = 0; s < 40_000; s += 500) expect(full.ambientC(s)).toBeLessThanOrEqual(180);
    expect(full.ambientC(1e6)).toBeCloseTo(180, 6);
  });
  test("the energy of the walls: an empty oven after the door is open is back in C × drop / P", () => {
    const empty = recovery(
      180,
      { powerKW: 6, heatCapacityKJPerK: 60, pieces: 1, dropC: 60 },
      { ...load, areaM2: 1e-9 },
    );
    // To within 1 K of the setting: 59 of 60 K.
    expect(Math.abs(empty.backMinutes! * 60 - (60_000 * 59) / 6000)).toBeLessThan(8);
  });
  test("a load so light that it follows the air at once makes no trouble", () => {
    const light = recovery(180, { ...oven, dropC: 40 }, { ...load, massKg: 1e-6 });
    expect(light.lowestC).toBeGreaterThan(100);
    expect(light.backMinutes!).toBeLessThan(10);
  });
  test("a wet load cools the oven more; a load beyond its power is said not to come back", () => {
    const dry = recovery(160, { ...oven, pieces: 40 }, load);
    const wet = recovery(160, { ...oven, pieces: 40 }, { ...load, wet: true });
    expect(wet.lowestC).toBeLessThanOrEqual(dry.lowestC);
    const hopeless = recovery(250, { ...oven, powerKW: 0.5, pieces: 200 }, { ...load, wet: true });
    expect(hopeless.backMinutes).toBeUndefined();
  });
  test("in a trial it takes longer, and the notes say how low and for how long", () => {
    const shape = { kind: "brick", sidesMm: [50, 80, 100] } as const;
    const of = (more: Partial<Stage>) =>
      heat({
        shape: { ...shape, sidesMm: [...shape.sidesMm] },
        material: lean,
        startC: 5,
        stages: [{ mediumC: 160, coefficient: 32, minutes: 40, ...more }],
      }) as HeatResult;
    const loaded = of({ oven: { powerKW: 6, heatCapacityKJPerK: 60, pieces: 60, dropC: 30 } });
    expect(loaded.stages[0]!.coreC).toBeLessThan(of({}).stages[0]!.coreC - 2);
    expect(loaded.notes.some((n) => n.code === "oven-load")).toBe(true);
    expect(problem([{ mediumC: 160, coefficient: 30, minutes: 9, oven: { ...oven } }]).path).toBe(
      "/stages/0/oven",
    );
  });
});
