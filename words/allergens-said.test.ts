import { describe, expect, test } from "vitest";
import { allergensSaid, cleanSaid, leftOffSaid } from "./allergens-said.ts";
import { words } from "./catalogue.ts";
import { en } from "./en/index.ts";

const { say } = words("en");
const list = (ids: readonly string[]) => ids.join(" and ");
const said = (contains: string[], mayContain: string[] = [], traces: string[] = []) =>
  allergensSaid(say, { contains, mayContain, traces }, list);

describe("S24 nothing is called free", () => {
  test("none of the fifteen is said of ingredients only, traces in the same sentence", () => {
    expect(said([])).toBe("None of the fifteen as an ingredient.");
    expect(said([], [], ["milk"])).toBe(
      "None of the fifteen as an ingredient; perhaps traces of milk (shared equipment, benches).",
    );
    expect(said(["egg"], ["soy"], ["milk", "fish"])).toBe(
      "Contains egg; may contain soy; perhaps traces of milk and fish (shared equipment, benches).",
    );
  });

  test("what is left off leaves traces where they may come another way", () => {
    const off = (frees: string[], traces?: string[]) =>
      leftOffSaid(say, { what: "Crumb", frees, ...(traces ? { traces } : {}) }, list);
    expect(off(["gluten"])).toBe("Without Crumb, not an ingredient: gluten.");
    expect(off(["gluten"], ["gluten"])).toContain("; traces of gluten still possible");
    expect(off([])).toBe("Crumb may be left off.");
  });

  test("no message calls food free of an allergen, or safe", () => {
    const bold = Object.entries(en).filter(([, text]) => /\bfree of\b|allergen.free|\bis safe\b/i.test(text));
    expect(bold).toEqual([]);
  });

  test("P18 what is cleaned first", () => {
    expect(cleanSaid(say, [{ name: "Kettle", noTraceOf: [] }, { noTraceOf: ["milk"] }], list)).toBe(
      "Clean Kettle first. Clean the bench first: nothing may be left of milk.",
    );
  });
});
