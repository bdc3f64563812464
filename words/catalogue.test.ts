import { IntlMessageFormat } from "intl-messageformat";
import { describe, expect, it } from "vitest";
import { type Key, wordFor, words } from "./catalogue.ts";
import { en, PARTS } from "./en/index.ts";

describe("catalogue", () => {
  it("W2 every English message compiles", () => {
    const broken = Object.entries(en).filter(([, text]) => {
      try {
        new IntlMessageFormat(text, "en");
        return false;
      } catch {
        return true;
      }
    });
    expect(broken).toEqual([]);
  });

  it("W2 no key stands in two parts: the later would speak for both", () => {
    const keys = Object.values(PARTS).flatMap((part) => Object.keys(part));
    expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
    expect(keys.length).toBe(Object.keys(en).length);
  });

  it("W1 no message is empty, exclaims or apologises", () => {
    const bad = Object.entries(en).filter(
      ([, text]) => text.trim() === "" || /!|\bsorry\b|\boops\b/i.test(text),
    );
    expect(bad).toEqual([]);
  });

  it("W3 falls back from a regional language to its base, then to English", () => {
    const french = { fr: { "allergen.milk": "lait" } };
    const say = words("fr-CA", french).say;
    expect(say("allergen.milk")).toBe("lait");
    expect(say("allergen.egg")).toBe("egg");
  });

  it("W3 a word that is not in the list is shown as its id, spaced", () => {
    expect(wordFor(words("en").say, "allergen", "star-dust")).toBe("star dust");
    expect(wordFor(words("en").say, "need", "no-tree-nut")).toBe("no tree nuts");
  });

  it("knows the direction of a language", () => {
    expect(words("en").direction).toBe("ltr");
    expect(words("he", { he: {} }).direction).toBe("rtl");
  });

  it("W2 counts by the language's plural rules", () => {
    const say = words("en").say;
    expect(say("trace.more" satisfies Key, { count: 1 })).toBe("1 more figure");
    expect(say("trace.more", { count: 3 })).toBe("3 more figures");
  });
});
