import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { UNIT_SYMBOLS } from "../quantity/index.ts";
import { decodeText } from "./decode.ts";
import { dataBlocks, plainText } from "./html.ts";
import { readSource } from "./read.ts";
import { readLine } from "./read-line.ts";
import { readStep } from "./read-step.ts";
import { readText } from "./read-text.ts";
import { readYield } from "./read-yield.ts";
import { cpuMs } from "./testing/cpu.ts";

const SEED = { seed: 20261125 };
const brief = (text: string) => {
  const { low, high, unit, ingredient, note } = readLine(text);
  const amount = low === null ? "-" : low === high ? `${low}` : `${low}..${high}`;
  return `${amount} ${unit} | ${ingredient} | ${note}`;
};

const pieces = fc.array(
  fc.constantFrom(
    ...[
      "2",
      "1/2",
      "½",
      "1,5",
      "-",
      "–",
      "(",
      ")",
      ",",
      "about",
      "cups",
      "g",
      "kg",
      "EL",
      "flour",
      "butter",
      "or",
      "plus",
      "x",
    ],
    ...[
      "divided",
      "for",
      "to taste",
      "q.b.",
      "a",
      "de",
      "d'",
      "Salt",
      "400",
      "tins",
      "\t",
      "...",
      "%",
      ":",
      "each",
      "cloves",
      "é",
      "🍋",
    ],
  ),
  { maxLength: 14 },
);

describe("IN2 any text is read without throwing", () => {
  test("a line is kept verbatim, with a unit of the list and low not above high", () => {
    const units = new Set<string>([...UNIT_SYMBOLS, ""]);
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: "binary", maxLength: 80 }),
          pieces.map((p) => p.join(" ")),
        ),
        (text) => {
          const read = readLine(text);
          expect(read.text).toBe(text.trim());
          expect(units.has(read.unit)).toBe(true);
          expect(read.low === null).toBe(read.high === null);
          if (read.low !== null) expect(read.low).toBeLessThanOrEqual(read.high!);
        },
      ),
      { ...SEED, numRuns: 3000 },
    );
  });
  test("of a recipe every row is kept once, verbatim and in order", () => {
    const row = fc.oneof(
      pieces.map((p) => p.join(" ")),
      fc.constantFrom("", "For the sauce:", "Method", "Ingredients", "Serves 4", "Bake 20 min."),
    );
    fc.assert(
      fc.property(fc.array(row, { maxLength: 25 }), (rows) => {
        const source = rows.join("\n");
        const read = readText(source);
        const at = rows.map((text) => text.trim());
        let last = 0;
        for (const line of read.lines) {
          expect(line.text.split("\n")[0]).toBe(at[line.at - 1]);
          expect(line.at).toBeGreaterThan(last);
          last = line.at;
        }
        const steps = read.steps.map((step) => step.at);
        expect(steps).toEqual([...steps].sort((a, b) => a - b));
        for (const { text } of read.steps) for (const row of text.split("\n")) expect(source).toContain(row);
      }),
      { ...SEED, numRuns: 600 },
    );
  });
  test("any source, in any format", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "binary", maxLength: 200 }),
        fc.constantFrom("text", "page", "data", "table"),
        (text, format) => {
          readSource(text, { format: format as "text" });
          readSource(`<html><script type="application/ld+json">${text}</script>`);
          readSource(`amount;ingredient\n${text}`);
        },
      ),
      { ...SEED, numRuns: 500 },
    );
  });
  test("any JSON as a recipe", () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), fc.jsonValue(), (a, b, c) => {
        const node = {
          "@type": "Recipe",
          name: c,
          recipeIngredient: a,
          recipeInstructions: b,
          recipeYield: c,
        };
        expect(readSource(JSON.stringify(node), { format: "data" }).recipes).toHaveLength(1);
      }),
      { ...SEED, numRuns: 400 },
    );
  });
  test("no word of an everyday line is lost", () => {
    const words = (text: string) => text.toLowerCase().match(/\p{L}{4,}/gu) ?? [];
    const lines = [
      "2 cups all-purpose flour (about 250 grams), sifted, plus more for dusting",
      "1 (14-ounce) can whole tomatoes, drained",
      "Sel, poivre du moulin",
      "3 EL gehackte Petersilie zum Bestreuen",
      "Radicchio tardivo, 2 cespi",
      "1 tsp each ground cumin and coriander",
    ];
    const measures = new Set(["cups", "ounce"]);
    for (const text of lines) {
      const { ingredient, note } = readLine(text);
      const kept = new Set(words(`${ingredient} ${note}`));
      for (const word of words(text))
        if (!measures.has(word)) expect(kept, `${word} in ${text}`).toContain(word);
    }
  });
});

describe("IN3 lines", () => {
  test("a sum is given in its smaller measure, a dozen as twelve", () => {
    expect(brief("1 lb 4 oz beef")).toBe("20 oz | beef | ");
    expect(brief("1 cup plus 2 tablespoons cream")).toBe("18 tbsp | cream | ");
    expect(brief("2 dozen clams, scrubbed")).toBe("24  | clams | scrubbed");
  });
  test("what cannot be measured is null, with its words in the note", () => {
    expect(brief("a glug of olive oil")).toBe("-  | olive oil | a glug");
    expect(brief("a few sprigs of thyme")).toBe("- sprig | thyme | a few");
    expect(brief("Salt to taste")).toBe("-  | Salt | to taste");
    expect(readLine("Salt to taste").doubt).toBe("");
    expect(readLine("Parsley").doubt).toMatch(/no amount/);
  });
  test("divided, plus more, or, participles", () => {
    expect(brief("3 tbsp oil, divided")).toBe("3 tbsp | oil | divided");
    expect(brief("2 cups sugar (divided)")).toBe("2 cup | sugar | divided");
    expect(brief("1 cup flour plus more for dusting")).toBe("1 cup | flour | plus more for dusting");
    expect(brief("1 cup chicken or vegetable stock")).toBe("1 cup | chicken or vegetable stock | ");
    expect(brief("200g sultanas or raisins")).toBe("200 g | sultanas | or raisins");
    expect(brief("500g onions chopped")).toBe("500 g | onions | chopped");
    expect(brief("500g chopped onions")).toBe("500 g | chopped onions | ");
    expect(brief("boneless, skinless chicken thighs (6)")).toBe("6  | boneless, skinless chicken thighs | ");
  });
  test("two amounts in one line are doubted", () => {
    expect(readLine("2 eggs + 1 yolk").doubt).toMatch(/another amount/);
    expect(readLine("1 tsp each cumin and coriander").doubt).toMatch(/each of them/);
    expect(readLine("100 g butter + a knob for the tin").doubt).toBe("");
  });
});

describe("IN4 steps", () => {
  const of = (text: string) => [readStep(text).minutes, readStep(text).temperatureC];
  test("times add up, ranges by their long end, repeated and relative times left out", () => {
    expect(of("Roast at 200°C for 45 min, turning every 15 min.")).toEqual([45, 200]);
    expect(of("Simmer 1 hr 20, stirring.")).toEqual([80, null]);
    expect(of("Sear 2 minutes per side, rest 5 minutes.")).toEqual([9, null]);
    expect(of("Nach 10 Minuten wenden, die letzten 5 Minuten offen.")).toEqual([null, null]);
    expect(of("Backen 1 Std. 15 Min.")).toEqual([75, null]);
    expect(of("Cuire une heure et demie à four moyen.")).toEqual([90, null]);
    expect(of("Enfriar media hora.")).toEqual([30, null]);
    expect(of("Riposare mezz'ora, poi 10 minuti.")).toEqual([40, null]);
  });
  test("°F, fan and gas beside °C; negative; several", () => {
    expect(readStep("Heat to 350°F.").temperatureC).toBeCloseTo(176.67, 2);
    expect(of("Heat the oven to 180C/160C fan/gas 4.")).toEqual([null, 180]);
    expect(of("Freeze at -18 °C.")).toEqual([null, -18]);
    // A bare figure no oven reaches in °C is °F; below that nobody can know.
    expect(readStep("Roast at 425° until brown.")).toMatchObject({
      temperatureC: 218.33,
      doubt: expect.stringMatching(/°F/),
    });
    expect(readStep("Bake at 275 degrees.")).toMatchObject({
      temperatureC: null,
      doubt: expect.stringMatching(/°C or in °F/),
    });
    expect(of("In forno a 180° per 40 minuti.")).toEqual([40, 180]);
    expect(readStep("Start at 240 °C, then 200 °C.")).toMatchObject({
      temperatureC: 240,
      doubt: expect.stringMatching(/several/),
    });
  });
  test("gas marks, ovens in words and nights are doubts", () => {
    // Gas 4 is 350 °F, 25 °F a mark: common practice, no source.
    expect(readStep("Bake at gas mark 4.")).toMatchObject({
      temperatureC: 177,
      doubt: expect.stringMatching(/gas mark 4/),
    });
    expect(readStep("Bake in a moderate oven.")).toMatchObject({
      temperatureC: null,
      doubt: expect.stringMatching(/moderate oven/),
    });
    expect(readStep("Leave overnight.")).toMatchObject({
      minutes: null,
      doubt: expect.stringMatching(/overnight/),
    });
    expect(readStep("Über Nacht ziehen lassen.").doubt).toMatch(/how long/);
  });
});

test("IN5 a yield that follows the steps is a yield, a step that serves is none", () => {
  const text =
    "Sauce\n\n500 mL stock\n2 dL cream\n\nMethod\n1. Reduce the stock.\n2. Serve 4 to the pass.\nYield: 1.2 L\n";
  const [recipe] = readSource(text).recipes;
  expect(recipe!.yields).toMatchObject([{ low: 1.2, unit: "L" }]);
  expect(recipe!.steps.map((step) => step.text)).toEqual(["Reduce the stock.", "Serve 4 to the pass."]);
});

test("IN5 yields", () => {
  const of = (text: string) => {
    const made = readYield(text);
    return made && `${made.low}..${made.high} ${made.unit}|${made.what}`;
  };
  expect(of("Serves 4")).toBe("4..4 |portions");
  expect(of("Serves 4-6 people")).toBe("4..6 |portions");
  expect(of("Makes two 23 cm tarts")).toBe("2..2 |23 cm tarts");
  expect(of("Pour 6 personnes")).toBe("6..6 |portions");
  expect(of("Ergibt 12 Stück")).toBe("12..12 |pieces");
  expect(of("Yield: 1.5 L")).toBe("1.5..1.5 L|");
  expect(of("Makes 2 dozen biscuits")).toBe("24..24 |biscuits");
  expect(of("For 2 hours")).toBeUndefined();
  expect(of("For the sauce")).toBeUndefined();
});

describe("IN6 pages and data", () => {
  const page = `<html><title><script type="application/ld+json">{"@type":"Recipe"}</script></title>
<!-- <script type="application/ld+json">{"@type":"Recipe","name":"hidden"}</script> -->
<script>const x = '<script type="application/ld+json">';</script>
<SCRIPT type='application/ld+json' id="a">{"@graph":[{"@type":["Thing","Recipe"],"name":"Quince &amp; pear","recipeYield":["3","3 jars"],
"recipeIngredient":["1 kg quinces","For the syrup:","&frac12; tsp salt"],
"recipeInstructions":[{"@type":"HowToSection","name":"For the syrup","itemListElement":[{"@type":"HowToStep","text":"Boil <b>20 minutes</b>."}]},"Pot."]}]}</SCRIPT>`;
  test("only scripts of data are read, not what stands in comments, titles or other scripts", () => {
    expect(dataBlocks(page).map((block) => block.at)).toEqual([4]);
    const [recipe] = readSource(page).recipes;
    expect(recipe).toMatchObject({
      title: "Quince & pear",
      parts: [{ name: "syrup" }],
      yields: [{ low: 3, what: "jars" }],
    });
    expect(recipe!.lines.map((line) => [line.text, line.low, line.part])).toEqual([
      ["1 kg quinces", 1, null],
      ["&frac12; tsp salt", 0.5, 0],
    ]);
    expect(recipe!.steps).toMatchObject([{ minutes: 20, part: 0 }, { text: "Pot." }]);
  });
  test("a block that is no JSON is named by its line, the next is read", () => {
    const two = `<html>\n<script type="application/ld+json">{oops</script>\n<script type="application/ld+json">{"@type":"Recipe","recipeIngredient":["1 egg"]}</script>`;
    const { recipes, problems } = readSource(two);
    expect(recipes).toHaveLength(1);
    expect(problems).toMatchObject([{ at: 2, what: expect.stringMatching(/not JSON/) }]);
  });
  test("tags and entities become plain text", () => {
    expect(plainText("A &lt;b&gt; &#233; &#x1F34B; &nosuch; < 5 °C<br>next<p>")).toBe(
      "A <b> é 🍋 &nosuch; < 5 °C\nnext\n",
    );
  });
});

test("IN7 tables: columns by heading, verbatim rows, what is off named by line", () => {
  const csv =
    'Rezept;Menge;Einheit;Zutat;Bemerkung\nSuppe;1,5;kg;Lauch;in Ringen\n;-2;g;Salz;\n;;;;\nBrot;500;g;"Mehl; Type 550";\n';
  const { format, recipes, problems } = readSource(csv);
  expect(format).toBe("table");
  expect(recipes.map((one) => one.title)).toEqual(["Suppe", "Brot"]);
  expect(recipes[0]!.lines).toMatchObject([
    {
      text: "Suppe;1,5;kg;Lauch;in Ringen",
      low: 1.5,
      unit: "kg",
      ingredient: "Lauch",
      note: "in Ringen",
      at: 2,
    },
    { low: null, ingredient: "Salz", at: 3 },
  ]);
  expect(problems).toMatchObject([{ at: 3, what: expect.stringMatching(/negative/) }]);
  expect(recipes[1]!.lines[0]).toMatchObject({ low: 500, ingredient: "Mehl", note: "Type 550", at: 5 });
});

describe("IN8 encodings", () => {
  const utf8 = (text: string) => new TextEncoder().encode(text);
  test("UTF-8, UTF-16 with its mark, Windows-1252, twice encoded", () => {
    expect(decodeText(utf8("\uFEFFcrème")).text).toBe("crème");
    expect(decodeText(new Uint8Array([0xff, 0xfe, 0xe9, 0x00])).text).toBe("é");
    const latin = decodeText(new Uint8Array([0x61, 0x0a, 0xe9]));
    expect(latin).toMatchObject({ text: "a\né", problems: [{ at: 2 }] });
    expect(decodeText(utf8("1\n200 g crÃ¨me, Â½ tsp sel")).text).toBe("1\n200 g crème, ½ tsp sel");
    expect(decodeText(utf8("À la crème")).problems).toEqual([]);
  });
  test("a lost letter is named by its line", () => {
    expect(readSource("Tart\n2 g cr\uFFFDme\n").problems).toMatchObject([{ at: 2 }]);
  });
  test("any bytes", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => void decodeText(bytes)),
      { ...SEED, numRuns: 1000 },
    );
  });
});

describe("IN9 hostile sources end soon", () => {
  const long = (piece: string, n = 3_000_000) => piece.repeat(Math.ceil(n / piece.length)).slice(0, n);
  const sources: Record<string, string> = {
    "one line": long("a"),
    digits: long("1 000 "),
    "open brackets": long("("),
    "lines of ingredients": long("2 cups flour, sifted\n"),
    "adverbs without end": long(`${long("very well lightly ", 380)}\n`, 400_000),
    "unclosed scripts": `<html>${long('<script type="application/ld+json">')}`,
    comments: `<html>${long("<!--")}`,
    "nested lists": long("["),
    "nested sections": `{"@type":"Recipe","recipeIngredient":["1 egg"],"recipeInstructions":${'{"itemListElement":'.repeat(50_000)}"x"${"}".repeat(50_001)}`,
    "tags in a text": `{"@type":"Recipe","recipeIngredient":["${long("<b", 2_000_000)}"]}`,
    quotes: `amount;ingredient\n${long('"')}`,
    "rows without end": `amount;ingredient\n${long("1;a\n", 1_000_000)}`,
  };
  for (const [name, source] of Object.entries(sources)) {
    test(name, () => {
      const start = cpuMs();
      const { problems, recipes } = readSource(source);
      // Seconds, not minutes, on a busy machine: quadratic reading of 3 MB would take hours.
      expect(cpuMs() - start).toBeLessThan(8_000);
      expect(
        problems.length + recipes.reduce((n, one) => n + one.lines.length + one.steps.length, 0),
      ).toBeGreaterThan(0);
    });
  }
});
