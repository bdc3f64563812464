import { describe, expect, test } from "vitest";
import { plainText } from "./html.ts";
import { duration } from "./json-ld.ts";
import { readSource } from "./read.ts";

const page = (data: string) =>
  `<!doctype html><html><script type="application/ld+json">${data}</script></html>`;

describe("IN6 pages as they are found", () => {
  test("entities of letters with marks, capitals, fractions, spaces; an unknown one stays", () => {
    expect(
      plainText("Cr&egrave;me &amp; p&ecirc;che, &Eacute;t&eacute;, pi&ntilde;a, &AElig;, &szlig;"),
    ).toBe("Crème & pêche, Été, piña, Æ, ß");
    expect(
      plainText("1&frasl;2&nbsp;L, 2&frac12;, &frac18;, 180&nbsp;&deg;C, so&shy;lid, &#189;, &nosuch;"),
    ).toBe("1⁄2 L, 2½, ⅛, 180 °C, solid, ½, &nosuch;");
  });

  test("a graph, sections, yields as a list, durations in words", () => {
    const { recipes, problems } = readSource(
      page(`{"@graph":[{"@type":"WebPage"},{"@type":["Thing","Recipe"],"name":"P&ecirc;che","recipeYield":["4","4 portions"],
      "prepTime":"PT1H30M","recipeIngredient":["1&frasl;2 L lait","100&nbsp;g sucre"],"recipeInstructions":[
      {"@type":"HowToSection","name":"Cr&egrave;me","itemListElement":[{"@type":"HowToStep","text":"Cuire 10&nbsp;min &agrave; 85&deg;C."}]},
      {"@type":"HowToStep","text":"Reposer 1 h."}]}]}`),
    );
    expect(problems).toEqual([]);
    expect(recipes[0]).toMatchObject({
      title: "Pêche",
      yields: [{ low: 4, what: "portions" }],
      parts: [{ name: "Crème" }],
      lines: [
        { low: 0.5, unit: "L", ingredient: "lait" },
        { low: 100, unit: "g", ingredient: "sucre" },
      ],
      steps: [
        { minutes: 10, temperatureC: 85, part: 0 },
        { minutes: 60, part: null },
      ],
      other: [{ text: "prepTime: 1 h 30 min" }],
    });
  });

  test("a comma too many and raw line breaks are forgiven; what is no data is named by line, the rest kept", () => {
    const comma = readSource(page(`{"@type":"Recipe","name":"A","recipeIngredient":["1 cup rice",],}`));
    expect(comma.recipes[0]!.lines).toMatchObject([{ ingredient: "rice" }]);
    const two = `${page("{oops")}\n${page(`{"@type":"Recipe","name":"B","recipeIngredient":["2 eggs"]}`)}`;
    const { recipes, problems } = readSource(two);
    expect(recipes.map(({ title }) => title)).toEqual(["B"]);
    expect(problems).toMatchObject([{ at: 1, what: expect.stringContaining("not JSON") }]);
  });

  test("durations of ISO 8601; any other text stands", () => {
    expect(["PT1H30M", "PT45M", "P1DT2H", "PT90S", "PT0M", "an hour"].map(duration)).toEqual([
      "1 h 30 min",
      "45 min",
      "1 day 2 h",
      "90 s",
      "PT0M",
      "an hour",
    ]);
  });
});
