import { expect, test } from "vitest";
import { type BookInput, changed, g, library, step } from "../../tests/small-book.ts";
import { bookWarnings } from "./book-warnings.ts";

type Input = NonNullable<BookInput["preparations"]>[number];

/** 500 g of mushrooms on 500 g of flour, of which `factor` is taken away. */
const doubts = (takenUp: number, factor = 0.4) => {
  const made: Input = {
    ...{ id: "made", name: "Made", yield: { amount: g(1000 * (1 - factor)) } },
    lines: ["mushroom", "flour"].map((id) => ({
      ...{ id, item: { ingredient: id }, amount: g(500), step: "one" },
    })),
    steps: [step("one", { discard: { factor, as: "trim", lines: [{ line: "flour", takenUp }] } })],
  };
  const book = changed((all) => all.preparations!.push(made));
  return bookWarnings(library(book)).filter(({ path }) => path.includes("discard"));
};

test("F8 lines taken away by name that weigh more than is taken away are a doubt, told with both figures", () => {
  expect(doubts(0)).toMatchObject([
    { what: "the lines named weigh at least 500 g here, taken away are 400 g" },
  ]);
  expect(doubts(0.2)).toEqual([]);
  expect(doubts(0, 0.5)).toEqual([]);
});
