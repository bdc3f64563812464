import { describe, expect, test } from "vitest";
import { chooseCritical, controlFor, type Handled } from "./control-points.ts";

const point = (h: Handled) => controlFor(h)!;

describe("H15 control points", () => {
  const acts: Handled[] = [
    { food: "poultry", act: "cook", coreC: 74 },
    { food: "ground-meat", act: "cook", coreC: 70 },
    { food: "rice", act: "cool" },
    { food: "other", act: "reheat" },
    { food: "roast", act: "hold-hot" },
    { food: "other", act: "hold-cold" },
    { food: "fish", act: "serve-raw", parasites: "farm-letter" },
    { food: "whole-meat", act: "thaw" },
    { food: "fish", act: "cure" },
  ];
  test("each has hazard, limit, monitoring, corrective action, record and source, and none says safe", () => {
    for (const h of acts) {
      const p = point(h);
      for (const text of [p.hazard, p.limit, p.monitor, p.corrective, p.record, p.source.doc])
        expect(text.length, h.act).toBeGreaterThan(3);
      expect(JSON.stringify(p)).not.toMatch(/\bsafe\b/i);
    }
  });
  test("poultry at 74 °C is within the Code; below it is said what it needs, and which species no table names", () => {
    expect(point({ food: "poultry", act: "cook", coreC: 74 })).toMatchObject({
      limit: "core at least 74 °C",
      notes: [],
    });
    const low = point({
      food: "poultry",
      species: "guinea-fowl",
      act: "cook",
      coreC: 61,
      log10: 7,
      reducedOxygen: true,
    });
    expect(low.limit).toBe("reduction at least 7 log10; core at least 61 °C");
    expect(low.notes.join(" ")).toMatch(/variance.*HACCP plan.*guinea-fowl.*3-502\.12/s);
    expect(point({ food: "poultry", species: "chicken", act: "cook", coreC: 61 }).notes.join()).not.toMatch(
      /No FSIS/,
    );
  });
  test("the hold goes with the temperature that is asked", () => {
    expect(point({ food: "ground-meat", act: "cook", coreC: 68 }).limit).toBe("core at least 68 °C for 17 s");
    expect(point({ food: "ground-meat", act: "cook", coreC: 65 }).limit).toBe(
      "core at least 63 °C for 180 s",
    );
    expect(point({ food: "ground-meat", act: "cook" }).limit).toBe("core at least 70 °C");
    expect(point({ food: "whole-meat", act: "cook", coreC: 54 }).notes.join()).toMatch(/advisory/);
  });
  test("no wet core passes the local boiling point", () => {
    const p = point({ food: "plant", act: "cook", coreC: 96, boilingC: 96.2 });
    expect(p.notes.join()).toMatch(/boils at 96\.2/);
  });
  test("cooling is two stages and says which remedy; reheating is within two hours", () => {
    const cool = point({ food: "rice", act: "cool" });
    expect(cool.parts).toHaveLength(2);
    expect(cool.limit).toBe(
      "from 57 °C: core at most 21 °C within 120 min; core at most 5 °C within 360 min",
    );
    expect(cool.corrective).toMatch(/reheat.*discard/);
    expect(point({ food: "other", act: "reheat" }).limit).toBe("core at least 74 °C for 15 s within 120 min");
  });
  test("raw fish: the letter, or freezing for days; neither is said", () => {
    expect(point({ food: "fish", act: "serve-raw", parasites: "farm-letter" }).limit).toMatch(/letter/);
    expect(point({ food: "fish", act: "serve-raw", parasites: "frozen" }).limit).toMatch(/-20 °C.*168 h/);
    expect(point({ food: "fish", act: "serve-raw" }).notes.join()).toMatch(/Neither/);
    expect(point({ food: "egg", act: "serve-raw" }).limit).toMatch(/advisory/);
  });
  test("salted is not cured: nitrite has its own demands", () => {
    expect(point({ food: "fish", act: "cure" })).toMatchObject({ level: "practice" });
    expect(point({ food: "fish", act: "cure" }).notes.join()).toMatch(/salted, not cured/);
    expect(point({ food: "whole-meat", act: "cure", nitrite: true }).notes.join()).toMatch(/variance/);
  });
  test("cold holding without air is critical, with air it is good practice", () => {
    expect(point({ food: "fish", act: "hold-cold", reducedOxygen: true }).level).toBe("critical");
    expect(point({ food: "fish", act: "hold-cold" }).level).toBe("practice");
  });
  test("a plan keeps at most seven critical points; the rest are practice", () => {
    const many = Array.from({ length: 12 }, () => point({ food: "poultry", act: "cook", coreC: 74 }));
    const chosen = chooseCritical(many);
    expect(chosen.filter((p) => p.level === "critical")).toHaveLength(7);
    expect(chosen).toHaveLength(12);
  });
});
