import { expect, test } from "vitest";
import { Finder } from "./find.ts";

const list = [
  { id: "a", name: "Crème fraîche", aliases: ["sour cream, French"] },
  { id: "b", name: "Ice cream" },
  { id: "c", name: "Cream puff 10" },
  { id: "d", name: "Cream puff 9" },
  { id: "e", name: "Scream" },
];
const found = (typed: string) =>
  new Finder(list)
    .find(typed)
    .map((one) => one.id)
    .join("");

test("B9 names are found by any of their words, without accents, the nearest first", () => {
  expect(found("")).toBe("dcabe");
  expect(found("cream")).toBe("dcabe");
  expect(found("creme")).toBe("a");
  expect(found("french sour")).toBe("a");
  expect(found("puff 1")).toBe("c");
  expect(found("zz")).toBe("");
});
