import { expect, test } from "vitest";
import { readText } from "./read-text.ts";
import { fixtures, score } from "./testing/fixtures.ts";

const SETS = [
  "tuning-en.txt",
  "tuning-eu.txt",
  "held-out-en.txt",
  "held-out-eu.txt",
  "second-en.txt",
  "second-eu.txt",
  "third.txt",
  "fourth.txt",
  "fifth.txt",
  "sixth.txt",
  "seventh.txt",
  "eighth.txt",
  "ninth.txt",
  "tenth.txt",
  "eleventh.txt",
  ...["practice-a.txt", "practice-b.txt", "practice-c.txt", "practice-d.txt", "practice-e.txt"],
];

test("IN1 every line of the kept texts is read as its answer says", () => {
  const all = SETS.flatMap(fixtures);
  const { wrong, lines, notes, steps, headings } = score(all, readText);
  // What is not read right is named here, so that nothing can slip in either direction unseen.
  expect(wrong).toEqual([]);
  expect(lines.of).toBeGreaterThan(2000);
  for (const tally of [lines, notes, steps, headings]) expect(tally.right / tally.of).toBeGreaterThan(0.98);
});

test("IN1 the set of another hand is read but for what is named here", () => {
  const { wrong, lines } = score(fixtures("twelfth.txt"), readText);
  expect(lines.of).toBeGreaterThan(390);
  const bare = /(?:Craquelin|Crème pâtissière|Mash|Rhubarb compote) {1,2}->/;
  const aside = /is no step \(other\)$/;
  const fine = /note of (?:6 tranches fines|un filo)/;
  expect(wrong.filter((one) => ![bare, aside, fine].some((known) => known.test(one)))).toEqual([]);
  expect(wrong).toHaveLength(14);
});

test("IN1 the score can fail: a reader that says nothing scores nothing", () => {
  const empty = readText("");
  const { lines, steps } = score(fixtures("third.txt"), () => empty);
  expect(lines).toEqual({ right: 0, of: lines.of });
  expect(steps.right).toBe(0);
});
