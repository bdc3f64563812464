import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseRational } from "../numerics/rational.ts";
import { AmountSchema, amountOf, type ReadOptions, readAmount, UNIT_SYMBOLS, unitWord } from "./index.ts";

const SEED = { seed: 20261125 };

/** "2..3 tbsp | rest" of a text: the whole reading but its notes. */
function brief(text: string, options: ReadOptions = {}): string {
  const { low, high, exact, unit, rest, approx, toTaste, beside } = readAmount(text, options);
  if (toTaste) return `to taste | ${rest}`;
  const amount = low === null ? "none" : low === high ? exact?.low : `${exact?.low}..${exact?.high}`;
  const extra = beside
    ? ` (${beside.approx ? "~" : ""}${beside.low} ${beside.unit}${beside.each ? " each" : ""})`
    : "";
  return `${approx ? "~" : ""}${amount}${unit ? ` ${unit}` : ""}${extra} | ${rest}`;
}

function readsAs(table: Record<string, string>, options: ReadOptions = {}) {
  for (const [text, expected] of Object.entries(table)) expect(brief(text, options), text).toBe(expected);
}

/** Reads as the table says, with a doubt that says what to settle. */
function doubts(table: Record<string, [reading: string, doubt: RegExp]>) {
  for (const [text, [reading, doubt]] of Object.entries(table)) {
    expect(brief(text), text).toBe(reading);
    expect(readAmount(text).doubt, text).toMatch(doubt);
  }
}

describe("Q7 reading an amount", () => {
  test("fractions, in figures and in single signs", () => {
    readsAs({
      "1 ¾ cups": "1 3/4 cup | ",
      "1¾ cups bread flour": "1 3/4 cup | bread flour",
      "1 3/4 cup bread flour": "1 3/4 cup | bread flour",
      "1-3/4 cups": "1 3/4 cup | ",
      "2 and 1/2 tsp": "2 1/2 tsp | ",
      "⅓ cup": "1/3 cup | ",
      "1⁄8 tsp": "1/8 tsp | ",
      ".5 L": "1/2 L | ",
      "2-inch": "2 in | ",
      "5/16 in": "5/16 in | ",
    });
  });
  test("ranges", () => {
    readsAs({
      "2-3 Tbsp": "2..3 tbsp | ",
      "2 – 3 Tbsp. oil": "2..3 tbsp | oil",
      "2 to 3 lb": "2..3 lb | ",
      "2-3 1/2 cups": "2..3 1/2 cup | ",
      "1/2-3/4 cup": "1/2..3/4 cup | ",
      "1-1/2 to 2 lb": "1 1/2..2 lb | ",
      "500 g - 1 kg beef": "500..1000 g | beef",
      "2 or 3 shallots": "2..3 piece | shallots",
      "56-58 °C": "56..58 °C | ",
      "2 à 3 c. à soupe": "2..3 metric tbsp | ",
      "2 bis 3 EL Öl": "2..3 metric tbsp | Öl",
      "6 TO 8 EGGS": "6..8 piece | EGGS",
    });
  });
  test("sums of measures", () => {
    readsAs({
      "1 lb 4 oz": "1 1/4 lb | ",
      "1 lb. 4 oz. short rib, trimmed": "1 1/4 lb | short rib, trimmed",
      "1 kg 500 g": "1 1/2 kg | ",
      "1 cup + 2 Tbsp sugar": "1 1/8 cup | sugar",
      "1 cup plus 2 tablespoons": "1 1/8 cup | ",
      "2 h 30 min": "2 1/2 h | ",
      "1h30": "1 1/2 h | ",
      "4 oz 1 lb bags": "4 oz | 1 lb bags", // only a smaller measure adds on without a word
      "1 cup or 2 sticks butter": "1 cup | or 2 sticks butter",
      "1 tsp salt and 2 eggs": "1 tsp | salt and 2 eggs",
    });
  });
  test("a second measure in brackets or after a stroke", () => {
    readsAs({
      "½ bunch (about 40 g)": "1/2 bunch (~40 g) | ",
      "½ bunch dill (about 40 g), chopped": "1/2 bunch (~40 g) | dill, chopped",
      "250g/9oz butter": "250 g (9 oz) | butter",
      "1 cup (240 ml) milk": "1 cup (240 mL) | milk",
      "2 cans (400 g each) beans": "2 can (400 g each) | beans",
      "2 (14 oz) cans tomatoes": "2 can (14 oz each) | tomatoes",
      "2 14-oz cans tomatoes": "2 can (14 oz each) | tomatoes",
      "2 x 400 g tins tomatoes": "2 can (400 g each) | tomatoes",
      "2 x 400 g flour": "800 g | flour",
      "1 onion (peeled)": "1 piece | onion (peeled)",
    });
  });
  test("pinch, to taste, about, heaped", () => {
    readsAs({
      pinch: "~1 pinch | ",
      "a pinch of salt": "~1 pinch | salt",
      "2 pinches saffron": "~2 pinch | saffron",
      "to taste": "to taste | ",
      "salt, to taste": "to taste | salt",
      "Salt and pepper (to taste)": "to taste | Salt and pepper",
      "sale q.b.": "to taste | sale",
      "about 200 g": "~200 g | ",
      "ca. 200 g Butter": "~200 g | Butter",
      "1 heaping tbsp sugar": "~1 tbsp | sugar",
      "1 level tsp salt": "1 tsp | salt",
    });
    expect(readAmount("1 heaping tbsp sugar").note).toBe("heaping");
    expect(readAmount("1 tsp salt, or to taste")).toMatchObject({ low: 1, unit: "tsp", note: "or to taste" });
  });
  test("what stands beside an amount is given as written, the smallest measure of a sum by name", () => {
    const said: Record<string, string[]> = {
      "about 200 g flour": ["about"],
      "2 (14-ounce) cans beans": ["14-ounce"],
      "250g/9oz butter": ["9oz"],
      "1 cup (240 ml) milk": ["240 ml"],
      "2 x 400 g flour": ["2 x 400 g"],
      "1 level tsp salt": ["level"],
      "small bunch of parsley": ["small"],
      "Milk, about 2 l": ["about"],
    };
    for (const [text, words] of Object.entries(said)) expect(readAmount(text).said, text).toEqual(words);
    expect(readAmount("1 lb 4 oz beef").smallest).toBe("oz");
    expect(readAmount("1 lb beef").smallest).toBeUndefined();
    expect(readAmount("2 bay leaves").kindAfter).toBe("leaves");
    expect(readAmount("2 leaves bay").kindAfter).toBeUndefined();
  });
  test("glasses, jars, bags and bulbs", () => {
    readsAs({
      "1 jar capers": "1 jar | capers",
      "2 x 350g jars goose fat": "2 jar (350 g each) | goose fat",
      "mezzo bicchiere di vino": "1/2 glass | vino",
      "1 bag (250 g) spinach": "1 packet (250 g) | spinach",
      "1 bulb garlic": "1 head | garlic",
      "4 thick slices bread": "~4 slice | bread",
      "50 ml (3 cucharadas) de aceite": "50 mL (3 metric tbsp) | aceite",
      "Farina 00 250 g": "250 g | Farina 00",
      "la ralladura de 1 naranja": "1 piece | naranja, la ralladura",
    });
  });
  test("counts", () => {
    readsAs({
      "3 large eggs": "3 piece | large eggs",
      "a dozen eggs": "1 dozen | eggs",
      "half a dozen eggs": "1/2 dozen | eggs",
      "3 cloves garlic": "3 clove | garlic",
      "3 garlic cloves, sliced": "3 clove | garlic, sliced",
      "2 bay leaves": "2 leaf | bay",
      "2 short ribs": "2 piece | short ribs",
      "1/2 of an onion": "1/2 piece | onion",
      "juice of 2 lemons": "2 piece | lemons, juice",
    });
  });
  test("scoops, ladles and cans by number", () => {
    readsAs({
      "2 #16 scoops batter": "2 scoop 16 | batter",
      "1 No. 16 scoop": "1 scoop 16 | ",
      "#16 scoop mash": "1 scoop 16 | mash",
      "2 scoops No. 16": "2 scoop 16 | ",
      "4 oz ladle of soup": "1 ladle 4 | soup",
      "2 4-oz ladles": "2 ladle 4 | ",
      "1 #10 can tomatoes": "1 can | tomatoes",
      "5# flour": "5 lb | flour",
    });
  });
  test("one letter: T is a tablespoon, t a teaspoon", () => {
    readsAs({
      "1 T sugar": "1 tbsp | sugar",
      "1 t sugar": "1 tsp | sugar",
      "1 c sugar": "1 cup | sugar",
      "2 l": "2 L | ",
    });
  });
  test("temperatures, also below zero; a dash before anything else is a list's", () => {
    readsAs({
      "-18 °C": "-18 °C | ",
      "350°F": "350 °F | ",
      "- 2 cups flour": "2 cup | flour",
      "-2 cups": "2 cup | ",
    });
  });
  test("the amount may stand last", () => {
    readsAs({
      "Butter, 250g": "250 g | Butter",
      "Eggs: 3": "3 piece | Eggs",
      "Milk 1,5 l (whole)": "1 1/2 L | Milk (whole)",
      "70% chocolate 200 g": "200 g | 70% chocolate",
    });
  });
  test("whose cup: the country of the recipe", () => {
    readsAs({ "1 cup": "1 cup | ", "1 pint": "1 pt | " }, { country: "us" });
    readsAs({ "1 cup": "1 metric cup | ", "1 tbsp": "1 metric tbsp | " }, { country: "metric" });
    readsAs(
      { "1 pint": "1 imp pt | ", "1 fl oz": "1 imp fl oz | ", "1 US pint": "1 pt | " },
      { country: "imperial" },
    );
    readsAs({ "1 imperial pint": "1 imp pt | ", "1 metric cup": "1 metric cup | " });
  });
  test("the amount of a document: a number where it is exact, else a text", () => {
    expect(amountOf(readAmount("1,5 kg"))).toEqual({ value: 1.5, unit: "kg" });
    expect(amountOf(readAmount("1/3 cup"))).toEqual({ value: "1/3", unit: "cup" });
    expect(amountOf(readAmount("2-3 cups"))).toBeNull();
    expect(amountOf(readAmount("to taste"))).toBeNull();
    expect(amountOf(readAmount("-18 °C"))).toBeNull();
  });
});

describe("Q8 commas, points and other doubts", () => {
  test("plain from the digits themselves", () => {
    readsAs({
      "1,5 kg": "1 1/2 kg | ",
      "0,500 kg": "1/2 kg | ",
      "1 500 g": "1500 g | ",
      "1\u202f500 g": "1500 g | ",
      "1'250 g Mehl": "1250 g | Mehl",
      "1.234,5 g": "1234 1/2 g | ",
      "1,234.5 g": "1234 1/2 g | ",
      "1.234.567 g": "1234567 g | ",
      "1.250 kg": "1 1/4 kg | ",
    });
    for (const plain of ["1,5 kg", "0,500 kg", "1 500 g", "1.250 kg"]) {
      expect(readAmount(plain).doubt, plain).toBeUndefined();
    }
  });
  test("one mark before three digits is judged by the measure, and the doubt is told", () => {
    doubts({
      "1,500 g": ["1500 g | ", /read as 1500 g, not as 1.5 g/],
      "1.500 g": ["1 1/2 g | ", /read as 1.5 g, not as 1500 g/],
      "1,500 kg": ["1 1/2 kg | ", /read as 1.5 kg, not as 1500 kg/],
    });
  });
  test("a known language settles it", () => {
    readsAs({ "1.500 g": "1500 g | ", "1,500 g": "1 1/2 g | " }, { decimal: "," });
    readsAs({ "1.500 g": "1 1/2 g | ", "1,500 g": "1500 g | " }, { decimal: "." });
    expect(readAmount("1.500 g", { decimal: "," }).doubt).toBeUndefined();
  });
  test("what could be meant otherwise is read and told", () => {
    doubts({
      "5-3 cups": ["3..5 cup | ", /backwards/],
      "250 flour": ["250 piece | flour", /no measure after 250/],
      "2 400 g tins": ["2 can (400 g each) | ", /is it 2400/],
      "Flour type 55 500 g": ["55500 g | Flour type", /is it 500 g/],
      "2 cans (400 g) beans": ["2 can (400 g) | beans", /for each, or for all/],
      "1 pint (568 ml) milk": ["1 pt (568 mL) | milk", /differ by 20 %/],
      "180C": ["180 °C | ", /not as cups/],
      "1 tasse de lait": ["1 metric cup | lait", /250 mL/],
      "bunch of dill": ["1 bunch | dill", /no number/],
    });
  });
  test("what is not said stays unsaid, with the reason", () => {
    doubts({
      "": ["none | ", /nothing to read/],
      "Olive oil": ["none | Olive oil", /no amount is given/],
      "a few sprigs thyme": ["none | sprigs thyme", /"a few" is no number/],
      "2% salt": ["none | 2% salt", /percentage/],
      "1/0 cup": ["none | 1/0 cup", /denominator 0/],
    });
    expect(readAmount("x".repeat(401)).doubt).toMatch(/longer than 400/);
  });
});

describe("Q9 reading never throws and stays quick", () => {
  test("digits without end are refused whole, never read in part", () => {
    for (const text of [
      "1234567890123 g flour",
      "flour 12345678901 g",
      "1/12345678901 g",
      "12345678901/3 cup",
    ]) {
      const { low, doubt } = readAmount(text);
      expect(low, text).toBeNull();
      expect(doubt).toMatch(/^\d+ digits in a row are no amount/);
    }
    expect(readAmount("1.1234567890123 kg").low).toBe(1.1234567890123);
  });
  const piece = fc.constantFrom(
    ...[
      "1",
      "2",
      "½",
      "3/4",
      "1,5",
      "1.500",
      "0",
      "9".repeat(30),
      "-",
      "–",
      " to ",
      "x",
      "(",
      ")",
      "/",
      "%",
      "#",
      ",",
    ],
    ...[
      "about ",
      "cup",
      " lb ",
      "oz",
      "T",
      "C",
      "°",
      "pinch",
      "to taste",
      "of ",
      "d'",
      "a ",
      "half ",
      "un quart",
      " ",
    ],
    ...["scoop", "16", "ladle", "can", "flour", "é", "’", "\u0000", "💥", "1 ", "0/0", "e9", ".", "+", "and"],
  );
  const soup = fc.array(piece, { maxLength: 14 }).map((list) => list.join(""));
  test("any text gives a consistent reading", () => {
    fc.assert(
      fc.property(fc.oneof(soup, fc.string({ unit: "binary", maxLength: 60 })), (text) => {
        const read = readAmount(text);
        expect(read.low === null).toBe(read.unit === null);
        expect(read.low === null).toBe(read.exact === null);
        if (read.low === null || read.high === null) {
          expect(read.toTaste === true || read.doubt !== undefined, text).toBe(true);
          return;
        }
        expect(read.low).toBeLessThanOrEqual(read.high);
        expect(parseRational(read.exact!.low)).toBeDefined();
        const amount = amountOf(read);
        if (amount) expect(AmountSchema.safeParse(amount).success, text).toBe(true);
      }),
      { ...SEED, numRuns: 3000 },
    );
  });
  // Processor time: what a busy machine adds is not the reader's.
  const cpuMs = () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
  const fastest = (runs: number, work: () => void) => {
    const times = Array.from({ length: runs }, () => {
      const start = cpuMs();
      work();
      return cpuMs() - start;
    });
    return Math.min(...times);
  };
  test("a thousand lines in under 50 ms", () => {
    const kinds = [
      ...[
        "1 ¾ cups bread flour, sifted",
        "2-3 Tbsp olive oil",
        "1 lb 4 oz short rib, trimmed",
        "salt, to taste",
      ],
      ...["½ bunch dill (about 40 g), chopped", "2 (14 oz) cans tomatoes, drained", "1,5 kg farine de blé"],
      ...[
        "2 cuillères à soupe d'huile d'olive",
        "Butter, unsalted and cold 250 g",
        "a good glug of cider vinegar",
      ],
    ];
    const lines = Array.from({ length: 1000 }, (_, i) => `${kinds[i % kinds.length]} ${i}`);
    expect(fastest(5, () => lines.map((line) => readAmount(line)))).toBeLessThan(50);
  });
  test("hostile lines of the longest length take under 20 ms each", () => {
    for (const unit of [
      "1 ",
      "9",
      "1/",
      "(",
      "1 000",
      "1-",
      "1,",
      " ",
      "a ",
      "half ",
      "no ",
      "1 x ",
      "c.à",
      "½",
      "#1 ",
    ]) {
      const line = unit.repeat(400).slice(0, 400);
      expect(
        fastest(3, () => readAmount(line)),
        unit,
      ).toBeLessThan(20);
    }
  });
});

describe("Q12 words of five languages", () => {
  test("every symbol of the list is a word for itself", () => {
    for (const symbol of UNIT_SYMBOLS) {
      const read = readAmount(`2 ${symbol}`);
      expect([read.low, read.unit, read.rest], symbol).toEqual([2, symbol, ""]);
    }
  });
  test("the same amount in English, French, Spanish, Italian and German", () => {
    for (const text of [
      "2 tablespoons",
      "2 cuillères à soupe",
      "2 cucharadas",
      "2 cucchiai",
      "2 Esslöffel",
    ]) {
      const { low, unit } = readAmount(`${text} oil`, { country: "metric" });
      expect([low, unit], text).toEqual([2, "metric tbsp"]);
    }
    for (const text of [
      "3 cloves of garlic",
      "3 gousses d'ail",
      "3 dientes de ajo",
      "3 spicchi di aglio",
      "3 Zehen Knoblauch",
    ]) {
      const { low, unit, rest } = readAmount(text);
      expect([low, unit], text).toEqual([3, "clove"]);
      expect(rest, text).toMatch(/^(garlic|ail|ajo|aglio|Knoblauch)$/);
    }
    for (const text of ["half a litre", "un demi-litre", "medio litro", "mezzo litro", "ein halber Liter"]) {
      const { low, unit } = readAmount(text);
      expect([low, unit], text).toEqual([0.5, "L"]);
    }
  });
  test("numbers in words, and words that are several units", () => {
    readsAs({
      "one and a half cups sugar": "1 1/2 cup | sugar",
      "three quarters of a cup of milk": "3/4 cup | milk",
      "1 quart stock": "1 qt | stock",
      "a quart of stock": "1 qt | stock",
      "un quart de litre": "1/4 L | ",
      "anderthalb Liter Milch": "1 1/2 L | Milch",
      "2 etti di parmigiano": "200 g | parmigiano",
      "1 Pfund Kartoffeln": "500 g | Kartoffeln",
      "une pincée de sel": "~1 pinch | sel",
    });
    expect(unitWord("Cuillère à soupe")?.unit).toBe("metric tbsp");
    expect(unitWord("glug")).toBeUndefined();
  });
});
