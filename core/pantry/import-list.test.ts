import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { importIngredientList, LIST_HEADINGS } from "./import-list.ts";
import { IngredientSchema } from "./schema.ts";

const LIST = `Name;Other names;Density (kg per L);Piece g;Trim yield;Allergens;May contain;Origin;Storage;Days;Water;Colour
Rowan berry;sorb | mountain ash;0,62;;95 %;none;;plant;cold;6;72,5;red
Nut bread;;;40;;nuts, wheat;sesame;plant;ambient;3;;
Mystery paste;;;;;glutine;;plant;;;;
Bad yield;;;;1,2;none;;plant;;;;
No origin;;;;;none;;;;;;
Short;row
;;;;;none;;plant;;;;
Shell stock;;;;;shellfish;;shellfish;frozen;90;;
Rowan berry;;;;;;;plant;;;;
`;

describe("a list of one's own", () => {
  const read = importIngredientList(LIST, "mine.csv");
  const [rowan, bread, paste, stock, again] = read.ingredients;

  test("I8 rows with semicolons, decimal commas and percents are read, and the schema accepts them", () => {
    for (const each of read.ingredients) expect(IngredientSchema.safeParse(each).success).toBe(true);
    expect(rowan).toMatchObject({
      id: "rowan-berry",
      aliases: ["sorb", "mountain ash"],
      densities: [{ state: "plain", kgPerL: 0.62 }],
      cuts: [{ id: "trimmed", trimYield: 0.95 }],
      composition: { water: 72.5 },
      allergens: { status: "known", contains: [], mayContain: [] },
      storage: { state: "cold", days: 6 },
    });
    expect(rowan!.densities![0]!.source).toEqual({
      doc: "own list",
      table: "mine.csv, line 2",
      kind: "memory",
    });
    expect(again!.id).toBe("rowan-berry-2");
  });

  test("I6 spoken words for allergens; empty or not understood is unknown", () => {
    expect(bread!.allergens).toEqual({
      ...{ status: "known", contains: ["tree-nut", "gluten", "wheat"], mayContain: ["sesame"] },
    });
    expect(stock!.allergens.contains).toEqual(["crustacean", "mollusc"]);
    expect(paste!.allergens.status).toBe("unknown");
    expect(again!.allergens.status).toBe("unknown");
    expect(read.doubts.map(({ ingredient }) => ingredient)).toEqual(["mystery-paste", "rowan-berry-2"]);
  });

  test("I7 bad rows by line, the rest kept; a heading that is not read is said", () => {
    expect(read.problems.map(({ line, what }) => [line, what])).toEqual([
      [4, 'allergens has "glutine", which is none of the words: all allergens count as unknown'],
      [5, 'trim_yield is "1,2"'],
      [6, "origin is empty"],
      [7, "the row has 2 cells, the headings have 12"],
      [8, "the row has no name"],
      [1, "not read: colour"],
    ]);
  });

  test("I7 broken letters and parts that overfill 100 g are named", () => {
    const bad = importIngredientList("name,origin,water,fat\nCr\uFFFDme,dairy,,\nOil,plant,50,90\n");
    expect(bad.ingredients).toEqual([]);
    expect(bad.problems.map(({ line, what }) => [line, what])).toEqual([
      [2, "letters were broken by the encoding"],
      [3, "its parts add up to 140.0 g in 100 g"],
    ]);
  });

  test("I7 whatever the text, what is read is valid and nothing is thrown", () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 8 }),
      fc.constantFrom("plant", "none", "0.5", "1e9", '"', ","),
    );
    fc.assert(
      fc.property(fc.array(fc.array(cell, { maxLength: 22 }), { maxLength: 6 }), (rows) => {
        const text = [LIST_HEADINGS.join(","), ...rows.map((row) => row.join(","))].join("\n");
        for (const each of importIngredientList(text).ingredients)
          expect(IngredientSchema.safeParse(each).success).toBe(true);
      }),
      { seed: 8 },
    );
  });
});
