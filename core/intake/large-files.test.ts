import { expect, test } from "vitest";
import { importFile } from "../pantry/import-file.ts";
import { readSource } from "./read.ts";
import { readListFile } from "./read-list.ts";
import { MOST_LINES } from "./read-text.ts";

const TEN_MB = 10_000_000;

/** `line` of the number, again and again until ten million characters are there; `odd` stands in the third place. */
function large(head: string, line: (n: number) => string, odd: string): string {
  const lines = [head, line(1), odd];
  let length = lines.join("\n").length;
  for (let n = 2; length < TEN_MB; n++) {
    lines.push(line(n));
    length += lines.at(-1)!.length + 1;
  }
  return lines.join("\n");
}
const told = (problems: readonly { at: number | string; what: string }[]) =>
  problems.map(({ at, what }) => `${at} ${what}`).join("\n");

test("IN8 IN9 IN15 a price list of 10 MB in an old encoding, with a negative price: each named by line, the rest kept", async () => {
  const wide = "from the walled garden behind the house ".repeat(20);
  const text = large(
    "Code;Article;Pack;Price",
    (n) => `A${n};Möhren No ${n} ${wide};${(n % 9) + 1} kg;${(n % 40) + 1},50`,
    "A0;Leeks;5 kg;-3,00",
  );
  // One byte a letter: "ö" is 0xF6, which is no UTF-8.
  const list = await readListFile(Buffer.from(text, "latin1"));
  expect(list.rows.length).toBeGreaterThan(10_000);
  expect(list.rows[0]!.description).toMatch(/^Möhren No 1 /);
  expect(told(list.problems)).toMatch(/^2 this is not UTF-8/m);
  expect(told(list.problems)).toMatch(/^3 .*-3.*negative/m);
}, 60_000);

test("IN9 a recipe of 10 MB: what is read is kept, the line is named at which reading ends", () => {
  const text = large(
    "Pot of everything",
    (n) => `${n} g carrots no ${n}, ${"from the far field ".repeat(9)}`,
    "a lost letter \uFFFD",
  );
  const { recipes, problems } = readSource(text);
  expect(recipes[0]!.lines.length).toBeGreaterThan(MOST_LINES - 5);
  expect(told(problems)).toMatch(/^3 a letter was lost/m);
  expect(told(problems)).toMatch(new RegExp(`^${MOST_LINES + 1} more than ${MOST_LINES} lines`, "m"));
}, 60_000);

test("I7 a FoodData Central list of 10 MB with a bad food in it: it is named, all others come", () => {
  const nutrients = Array.from({ length: 40 }, (_, i) => ({ nutrient: { id: 5000 + i }, amount: 1 }));
  const food = (n: number) => ({
    ...{ fdcId: n, description: `Root ${n}, raw`, dataType: "Foundation" },
    foodCategory: { description: "Vegetables and Vegetable Products" },
    foodNutrients: [{ nutrient: { id: 1051 }, amount: 80 }, ...nutrients],
  });
  const count = Math.ceil(TEN_MB / JSON.stringify(food(1000)).length);
  const foods: unknown[] = Array.from({ length: count }, (_, n) => food(n + 1));
  foods[2] = { fdcId: 3 };
  const text = JSON.stringify({ FoundationFoods: foods });
  expect(text.length).toBeGreaterThan(0.99 * TEN_MB);
  const { ingredients, problems } = importFile([{ name: "foundation.json", text }]);
  expect(ingredients).toHaveLength(count - 1);
  expect(problems.map(({ what }) => what)).toEqual([expect.stringMatching(/^food 3 of the list has/)]);
}, 60_000);

test("I7 I8 a list of one's own of 10 MB: bad rows by line, the rest kept", () => {
  const text = large(
    "name;allergens;origin",
    (n) => `Root no ${n} ${"of the far field ".repeat(50)};none;plant`,
    ";none;plant",
  );
  const { ingredients, problems } = importFile([{ name: "own.csv", text }]);
  expect(ingredients.length).toBeGreaterThan(10_000);
  expect(told(problems)).toMatch(/^own\.csv, line 3 /m);
}, 60_000);
