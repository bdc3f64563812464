import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ALLERGENS } from "../pantry/schema.ts";
import { readGuestList, withGuests } from "./guest-list.ts";
import { GuestGroupSchema } from "./schema.ts";

const read = (line: string) => readGuestList(line)[0]!;

describe("A11 a list of guests", () => {
  test.each([
    ["T4 S2 coeliac, no nuts", "4-2", ["coeliac", "no-tree-nut", "no-peanut"]],
    ["4-2: vegan", "4-2", ["vegan"]],
    ["Table 12 seat 3 vegetarian and coeliac", "12-3", ["vegetarian", "coeliac"]],
    ["7/1 sesame allergy; dairy-free", "7-1", ["no-sesame", "no-milk"]],
    ["seat B7 allergic to fish", "B7", ["no-fish"]],
    ["pregnant + no alcohol", undefined, ["pregnant", "no-alcohol"]],
  ])("%s", (line, seat, needs) => {
    expect(read(line)).toMatchObject({ needs, asked: [], ...(seat === undefined ? {} : { seat }) });
    expect(read(line).seat).toBe(seat);
  });

  test("a count before or after the seat", () => {
    expect(read("3 x vegetarian")).toMatchObject({ count: 3, needs: ["vegetarian"] });
    expect(read("T2 S1 2× vegan")).toMatchObject({ count: 2, seat: "2-1", needs: ["vegan"] });
  });

  test("what is no word it knows is asked about, the rest still stands", () => {
    expect(read("T4 S2 coeliac, no nightshades, fruitarian")).toMatchObject({
      needs: ["coeliac"],
      asked: ["no nightshades", "fruitarian"],
    });
  });

  test("halal and kosher are flags a certifying person decides, no needs", () => {
    expect(read("T4 S2 kosher")).toMatchObject({ needs: [], flags: ["kosher-style"], asked: [] });
    expect(read("T4 S2 halal").doubts[0]).toContain("certifying person");
  });

  test("nuts count as tree nuts and peanuts, and it is said", () => {
    expect(read("T1 S1 nut allergy").doubts[0]).toContain("peanuts");
  });

  test("nothing is dropped in silence: every word of a line is seat, count, need or question", () => {
    const word = fc.oneof(
      fc.constantFrom(
        "vegan",
        "no milk",
        "gluten free",
        ...ALLERGENS.map((one) => `no ${one.replace("-", " ")}`),
      ),
      fc.stringMatching(/^[a-z]{3,9}( [a-z]{3,9})?$/),
    );
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 4 }), (words) => {
        const { needs, asked } = read(`T1 S2 ${words.join(", ")}`);
        for (const one of words) {
          const alone = read(`T1 S2 ${one}`);
          expect(alone.needs.length + alone.flags.length + alone.asked.length).toBeGreaterThan(0);
          for (const need of alone.needs) expect(needs).toContain(need);
          for (const question of alone.asked) expect(asked).toContain(question);
        }
      }),
    );
  });

  test("a need is never misread as its opposite or another's: each allergen by its own name", () => {
    for (const one of ALLERGENS) {
      const found = read(`T1 S1 no ${one.replace("-", " ")}`);
      expect(found.asked).toEqual([]);
      expect(found.needs).toContain(one === "gluten" ? "coeliac" : `no-${one}`);
    }
  });

  test("put to the guests there are, a known seat gets more needs and loses none", () => {
    const there = [GuestGroupSchema.parse({ id: "a", count: 1, seat: "4-2", needs: ["vegetarian"] })];
    const all = withGuests(there, readGuestList("T4 S2 coeliac\n4-3 vegan\n\n2 x no fish"));
    expect(all.map(({ id, seat, count, needs }) => [id, seat, count, needs])).toEqual([
      ["a", "4-2", 1, ["vegetarian", "coeliac"]],
      ["seat-4-3", "4-3", 1, ["vegan"]],
      ["guest-1", undefined, 2, ["no-fish"]],
    ]);
    for (const group of all) expect(GuestGroupSchema.safeParse(group).success).toBe(true);
  });
});
