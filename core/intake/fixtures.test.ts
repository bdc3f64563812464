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
  "fourteenth.txt",
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
  expect(lines.of).toBe(390);
  const aside = /is no step \(other\)$/;
  const fine = /note of (?:6 tranches fines|un filo)/;
  expect(wrong.filter((one) => ![aside, fine].some((known) => known.test(one)))).toEqual([]);
  expect(wrong).toHaveLength(6);
});

test("IN1 the thirteenth set is read but for yields that no word names", () => {
  const { wrong, lines } = score(fixtures("thirteenth.txt"), readText);
  expect(lines.of).toBeGreaterThan(160);
  const unnamed = /1 Torte, 26 cm|environ 25 galettes/;
  expect(wrong.filter((one) => !unnamed.test(one))).toEqual([]);
  expect(wrong).toHaveLength(4);
});

test("IN1 the fifteenth set, for which nothing was mended, is read as well as it was the first time", () => {
  const { wrong, lines, steps, headings } = score(fixtures("fifteenth.txt"), readText);
  expect(lines).toEqual({ right: 249, of: 261 });
  expect(steps).toEqual({ right: 49, of: 51 });
  expect(headings).toEqual({ right: 58, of: 59 });
  expect(wrong.filter((one) => / -> is no ingredient| -> is one line more/.test(one))).toEqual([]);
});

test("IN1 the score can fail: a reader that says nothing scores nothing", () => {
  const empty = readText("");
  const { lines, steps } = score(fixtures("third.txt"), () => empty);
  expect(lines).toEqual({ right: 0, of: lines.of });
  expect(steps.right).toBe(0);
});
