import { expect, test } from "vitest";
import { starterPantry } from "./index.ts";
import { retentionGroups } from "./retention.ts";

test("P10 each food of a retention group is in the pantry, raw flesh in a group of flesh", () => {
  const byId = new Map(starterPantry.map((each) => [each.id, each]));
  expect([...retentionGroups.keys()].filter((id) => !byId.has(id))).toEqual([]);
  const flesh = new Set(["beef", "veal", "lamb", "pork", "cured-pork", "chicken", "turkey", "liver"]);
  for (const group of ["organ-meat", "lean-fish", "oily-fish", "shellfish", "shellfish-in-shell"])
    flesh.add(group);
  for (const [id, group] of retentionGroups) {
    const { origin } = byId.get(id)!;
    const animal = origin.some((word) => ["meat", "poultry", "fish", "shellfish"].includes(word));
    expect(animal, id).toBe(flesh.has(group));
  }
  // How much of the pantry that is: the rest is sugar, oil, spice, drink, or stands in no group of the table.
  expect(retentionGroups.size).toBeGreaterThan(300);
});
