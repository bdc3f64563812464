import { beforeAll, describe, expect, it } from "vitest";
import { parseBook } from "../core/book/index.ts";
import { randomBook } from "../core/inspection/testing/random-book.ts";
import { placementsOf } from "../core/production/placements-of.ts";
import type { Result } from "../core/run/result.ts";
import { run } from "../core/run/run.ts";
import { demoBook } from "../data/demo/book.ts";
import { format, METRIC, type Preferences } from "../words/format.ts";
import { writePack } from "./pack.ts";
import { paperOf } from "./paper.ts";
import { compact, POPPLER, pagesOf, poppler } from "./poppler.fixture.ts";
import { batchesAlike } from "./sheets/batches.ts";

const parsed = parseBook(demoBook);
if (!("value" in parsed)) throw new Error("the demo does not parse");
const book = parsed.value;
const printedAt = new Date("2027-01-28T08:00:00Z");
const US: Preferences = { locale: "en-US", units: "us", clock: "12", degrees: "F" };
const SLOW = 240_000;
const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

if (!POPPLER) console.log("SKIPPED print/pack.test.ts: poppler-utils is not installed, no PDF is read back");

describe("pack", () => {
  it("N9 the same result and stamp give the same bytes", { timeout: SLOW }, async () => {
    const result = run(book, "bench-trial", { trace: false });
    const [one, two] = [
      await writePack(book, result, { printedAt }),
      await writePack(book, result, { printedAt }),
    ];
    expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true);
    expect(Buffer.from(one.subarray(0, 5)).toString()).toBe("%PDF-");
  });

  it("N8 a result of another book is refused by name", async () => {
    const result = run(book, "bench-trial", { trace: false });
    await expect(writePack({ ...book, services: [] }, result)).rejects.toThrow(/no service "bench-trial"/);
  });
});

describe.skipIf(!POPPLER)("pack of the demo, read back", () => {
  let result: Result;
  let pdf: Uint8Array;
  let pages: string[];
  beforeAll(async () => {
    result = run(book, "demo", { trace: false });
    pdf = await writePack(book, result, { printedAt });
    pages = pagesOf(pdf);
  }, SLOW);
  /** Pages whose running head names a sheet; head and foot are written last. */
  const under = (name: string) => pages.filter((page) => page.slice(-160).includes(compact(name)));

  it("N1 begins with what does not fit, if anything, and ends with the cost", () => {
    expect(result.plan.status === "broken").toBe(pages[0]!.includes("Whatdoesnotfit"));
    expect(pages.at(-1)).toContain("Cost,forthechef");
    const cover = under("Cover sheet").join("");
    expect(cover).toContain(compact("the local code and the licensed person in charge decide"));
    expect(cover).toContain("calibratedthermometer");
    const money = pages.filter((page) => page.includes("€"));
    expect(money.every((page) => /Order,|Cost,forthechef/.test(page))).toBe(true);
  });

  it("N2 names service, date and page x of y on every page", () => {
    pages.forEach((page, i) => {
      expect(page).toContain("FirstLightsupper");
      expect(page).toContain("Saturday,30January2027,19:30");
      expect(page).toContain(`Page${i + 1}of${pages.length}`);
    });
  });

  it("N3 has every entry of every prep list, in order, under its station's heading", () => {
    const tasks = new Map(result.plan.tasks.map((task) => [task.id, task]));
    expect(result.prepLists.length).toBeGreaterThan(5);
    for (const list of result.prepLists) {
      const text = pages.filter((page) => /Preplist/.test(page.slice(-160))).join("");
      const heading = compact(`${list.name} ${format(METRIC).date(list.date)}`);
      let from = text.indexOf(heading);
      expect(from, heading).toBeGreaterThanOrEqual(0);
      for (const entry of list.entries) {
        const wanted = compact(`${entry.start.slice(-5)}to`);
        const at = text.indexOf(wanted, from);
        expect(at, `${list.name} ${list.day} ${entry.task}`).toBeGreaterThanOrEqual(0);
        expect(text.indexOf(compact(tasks.get(entry.task)!.name), at), entry.task).toBeGreaterThan(at);
        from = at + 1;
      }
    }
  });

  it("N3 names the page of the batch sheet where an entry's method stands, once in the pack", () => {
    const prep = pages.filter((page) => /Preplist/.test(page.slice(-160))).join("");
    const written = result.batchSheets.flatMap((sheet) =>
      sheet.steps.map((step) => ({ sheet, step, task: `${sheet.preparation}/${step.step}/${sheet.batch}` })),
    );
    let cited = 0;
    for (const list of result.prepLists)
      for (const entry of list.entries) {
        const one = written.find(({ task, step }) => task === entry.task && step.text.length > 40);
        if (!one) continue;
        expect(prep, entry.task).not.toContain(compact(paperOf(book, result).set(one.step.text)));
        const page = new RegExp(
          `${entry.start.slice(-5)}to[^]{5,11}?page(\\d+)${escaped(compact(entry.text.slice(0, 12)))}`,
        ).exec(prep)?.[1];
        expect(page, entry.task).toBeDefined();
        expect(pages[Number(page) - 1], entry.task).toContain(compact(one.sheet.name));
        cited++;
      }
    expect(cited).toBeGreaterThan(60);
  });

  it("N4 has every batch on a sheet, with each weighed amount as the scale shows it", () => {
    const write = format(METRIC);
    const text = under("Batch sheets").join("");
    for (const alike of batchesAlike(result.batchSheets)) {
      const [sheet] = alike as [(typeof alike)[number]];
      const n =
        alike.length === 1 ? `Batch ${sheet.batch}` : `Batches ${sheet.batch} to ${alike.at(-1)!.batch}`;
      const at = text.indexOf(compact(`${sheet.name}${n} of ${sheet.of}`));
      expect(at, `${sheet.name} ${sheet.batch}`).toBeGreaterThanOrEqual(0);
      for (const line of sheet.lines)
        if (!line.toTaste && / k?g$/.test(line.text))
          expect(
            text.indexOf(compact(`${write.weighed(line.weighG)}${line.name}`), at),
            line.name,
          ).toBeGreaterThan(at);
    }
    expect(batchesAlike(result.batchSheets).flat()).toEqual(result.batchSheets);
  });

  it("N4 lets small sheets share a page, and breaks none that fits one", () => {
    const sheets = under("Batch sheets");
    const count = (page: string, word: RegExp) => (page.match(word) ?? []).length;
    let broken = 0;
    for (const page of sheets)
      if (count(page, /Batch(es)?\d+(to\d+)?of\d+/g) !== count(page, /(C|Eachc)omesto/g)) broken += 1;
    expect(broken).toBe(0);
    expect(sheets.length).toBeLessThan(0.4 * result.batchSheets.length);
  });

  it("N11 has at most 82 pages, part by part", () => {
    const parts = {
      Seating: under("Seating sheet").length,
      run: under("The run,").length,
      Pull: under("Pull lists").length,
      Prep: pages.filter((page) => /Preplist/.test(page.slice(-160))).length,
      Batch: under("Batch sheets").length,
      labels: under("Container labels").length,
      cards: under("Plate cards").length,
      log: under("Monitoring log").length,
    };
    console.log(`the demo's pack: ${pages.length} pages`, parts);
    expect(pages.length).toBeLessThanOrEqual(82);
    expect(parts.Prep).toBeLessThanOrEqual(17);
    expect(parts.Batch).toBeLessThanOrEqual(18);
    // No page is nearly empty: each has more than its running head and foot.
    for (const [i, page] of pages.entries()) expect(page.length, `page ${i + 1}`).toBeGreaterThan(200);
  });

  it("N5 ends the labels with no page of one row, however many there are", { timeout: SLOW }, async () => {
    const small = run(book, "bench-trial", { trace: false });
    const all = result.labels.map((label) => ({ ...label, count: 1 }));
    let pagesMost = 0;
    for (let n = 15; n <= 21; n += 2) {
      const labels = all.slice(0, n);
      const made = pagesOf(await writePack(book, { ...small, labels }, { printedAt }));
      const sheets = made.filter((page) => page.slice(-160).includes(compact("Container labels")));
      const on = (page: string) => page.match(/Useby/g)?.length ?? 0;
      expect(sheets.reduce((sum, page) => sum + on(page), 0)).toBe(n);
      // Two a row, the last row not full: three rows at least.
      expect(on(sheets.at(-1)!), `${n} labels`).toBeGreaterThanOrEqual(5);
      pagesMost = Math.max(pagesMost, sheets.length);
    }
    expect(pagesMost).toBe(2);
  });

  it("N6 has the critical points on the two sides of one sheet, and few pages of log", () => {
    expect(under("Monitoring log, Critical control points").length).toBeLessThanOrEqual(2);
    expect(under("Monitoring log, Good practice checks").length).toBeLessThanOrEqual(9);
  });

  it("N7 a minus is a minus, and hours keep their minutes", () => {
    expect(pages.filter((page) => /[^\dD]-\d+°C/.test(page))).toEqual([]);
    const { set } = paperOf(book, result);
    expect(set("Chill at -12 °C for 1 h 30.")).toBe("Chill at −12\u00a0°C for 1\u00a0h\u00a030.");
  });

  it("N5 has every label, made on and use by with real dates", () => {
    const { shortDate, clock } = paperOf(book, result);
    const text = under("Container labels").join("");
    let from = 0;
    for (const label of result.labels) {
      const at = text.indexOf(compact(label.name), from);
      expect(at, label.name).toBeGreaterThanOrEqual(0);
      const face = text.slice(at, at + 420);
      expect(face).toContain(
        compact(`Made${shortDate(label.madeOn.split(" ")[0]!)} ${label.madeOn.slice(-5)}`),
      );
      const last = label.useBy.endsWith("00:00")
        ? `${shortDate(clock.dayOf(clock.minuteOf(label.useBy) - 1))} end of day`
        : `${shortDate(label.useBy.split(" ")[0]!)} ${label.useBy.slice(-5)}`;
      expect(face, label.name).toContain(compact(`Use by${last}`));
      from = at + 1;
    }
  });

  it("N6 lists every order line, pull, control point and path of an allergen", () => {
    const { item } = paperOf(book, result);
    const text = pages.join("");
    for (const order of result.orders)
      for (const line of order.lines)
        expect(under(`Order, ${order.name}`).join("")).toContain(
          compact(`${line.packs} ×${line.pack}${line.name}`),
        );
    for (const pulled of result.pull)
      expect(under("Pull lists").join("")).toContain(compact(`${pulled.count} ×${pulled.smallware}`));
    for (const point of result.control) expect(text).toContain(compact(point.corrective));
    const arrives = under("How each arrives").join("");
    for (const cell of result.allergens)
      if (cell.allergen)
        for (const path of cell.paths)
          expect(arrives).toContain(compact(path.slice(1).map(item).join(" › ")));
  });

  it("S26 tells the hall of what goes with every cover", () => {
    const text = under("Front of house").join("");
    expect(result.everyCover.length).toBeGreaterThan(1);
    for (const { name } of result.everyCover)
      expect(text.indexOf(compact(name), text.indexOf("Witheverycover"))).toBeGreaterThan(0);
  });

  it("N12 has the nutrition of every plate, as the law of the place writes it", () => {
    const text = under("Nutrition by plate").join("");
    for (const label of result.nutrition)
      if (label.dish !== undefined)
        for (const line of label.eu.perPortion ?? [])
          if (line.shown !== undefined)
            expect(text).toContain(compact(line.shown.replace("less than ", "< ")));
  });

  it("N5 names the guest's seat on what is made for that guest alone", () => {
    const own = result.labels.filter((label) => label.for !== undefined);
    expect(own.length).toBeGreaterThan(5);
    const text = under("Container labels").join("");
    for (const label of own) {
      expect(label.for).toMatch(/seats? \d/);
      expect(text).toContain(compact(`For: ${label.for}`));
      const uses = result.needs.find((need) => need.preparation === label.preparation)!.usedBy;
      expect(uses.length, label.name).toBeGreaterThan(0);
    }
  });

  it("N6 draws the run of every day of work, and a card of every plate with its gestures", () => {
    const { shortDate, library, variant } = paperOf(book, result);
    for (const list of result.prepLists)
      expect(under(`The run, ${shortDate(list.day)}`).length).toBeGreaterThan(0);
    const cards = under("Plate cards").join("");
    for (const row of result.plates) {
      const dish = library.dishes.get(row.dish)!;
      const placements = placementsOf(dish, row.variant);
      expect(cards).toContain(compact(`${variant(row.variant) || dish.name}${row.count} plate`));
      for (const placement of placements) expect(cards).toContain(compact(placement.gesture));
    }
  });

  it("N7 embeds every font, and writes accents as they are", () => {
    const fonts = poppler("pdffonts", pdf, ["{}"]).toString().trim().split("\n").slice(2);
    expect(fonts.length).toBeGreaterThanOrEqual(3);
    for (const font of fonts) {
      expect(font).toMatch(/Source(Sans3|Serif4)-/);
      expect(font).toMatch(/\syes yes yes\s/);
    }
    expect(pages.join("")).toContain(compact("Celeriac velouté, hazelnut brown butter, pear"));
    // A glyph that is missing is read back as U+0000 or U+FFFD.
    expect(pages.filter((page) => page.includes("\0") || page.includes("\ufffd"))).toEqual([]);
  });

  it("N7 writes fractions as fractions", { timeout: SLOW }, async () => {
    const small = run(book, "bench-trial", { trace: false });
    const text = pagesOf(await writePack(book, small, { printedAt, preferences: US })).join("");
    const write = format(US);
    const written = small.batchSheets
      .flatMap((sheet) => sheet.lines)
      .filter((line) => !line.toTaste && / k?g$/.test(line.text))
      .map((line) => `${write.weighed(line.weighG)}${line.name}`)
      .filter((line) => /[½⅓⅔¼¾⅛⅜⅝⅞]/.test(line));
    expect(written.length).toBeGreaterThan(5);
    for (const line of written) expect(text).toContain(compact(line));
  });

  it("N8 keeps every word inside its page's margins", () => {
    const boxes = poppler("pdftotext", pdf, ["-bbox", "{}", "-"]).toString("utf8");
    let words = 0;
    for (const page of boxes.split("<page ").slice(1)) {
      const [width, height] = [/width="([\d.]+)"/, /height="([\d.]+)"/].map((size) =>
        Number(size.exec(page)![1]),
      );
      expect([width, height].map(Math.round as (n: number | undefined) => number).sort()).toEqual([595, 842]);
      for (const word of page.matchAll(
        /xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</g,
      )) {
        const [xMin, yMin, xMax, yMax] = word.slice(1, 5).map(Number) as [number, number, number, number];
        words++;
        if (xMin < 40 || xMax > width! - 26 || yMin < 12 || yMax > height! - 12)
          expect.fail(`"${word[5]}" at ${word.slice(1, 5).join(" ")} of ${width} × ${height}`);
      }
    }
    expect(words).toBeGreaterThan(5000);
  });

  it("N8 is black on white: no page has a colour", { timeout: SLOW }, () => {
    const picture = poppler("pdftoppm", pdf, ["-r", "16", "{}"]);
    let inked = 0;
    // Portable pixmaps, one after the other: a head of three lines, then red, green, blue.
    for (let at = 0; at < picture.length; ) {
      const head = /^P6\n(\d+) (\d+)\n255\n/.exec(picture.subarray(at, at + 40).toString("latin1"))!;
      const end = at + head[0].length + 3 * Number(head[1]) * Number(head[2]);
      for (let i = at + head[0].length; i < end; i += 3) {
        if (picture[i] !== picture[i + 1] || picture[i] !== picture[i + 2])
          expect.fail(`a colour at byte ${i}`);
        if (picture[i]! < 128) inked++;
      }
      at = end;
    }
    expect(inked).toBeGreaterThan(1000);
  });

  it("N8 a book's texts stay text and inside the page, however odd", { timeout: SLOW }, async () => {
    const odd = structuredClone(book);
    const long = "Donaudampfschifffahrtsgesellschaftskapitän".repeat(4);
    for (const preparation of odd.preparations) preparation.name = `<svg/onload="x"> ${preparation.name}`;
    for (const dish of odd.dishes) dish.name = `${long} & ${dish.name}`;
    const made = await writePack(odd, run(odd, "bench-trial", { trace: false }), { printedAt });
    const text = pagesOf(made).join("");
    expect(text).toContain('<svg/onload="x">');
    const boxes = poppler("pdftotext", made, ["-bbox", "{}", "-"]).toString("utf8");
    for (const page of boxes.split("<page ").slice(1)) {
      const width = Number(/width="([\d.]+)"/.exec(page)![1]);
      for (const right of page.matchAll(/xMax="([\d.]+)"/g))
        expect(Number(right[1])).toBeLessThanOrEqual(width);
    }
  });

  it("N1 without a plan leaves out timeline and prep lists, and says so", { timeout: SLOW }, async () => {
    const bare = run(book, "bench-trial", { plan: false, trace: false });
    const text = pagesOf(await writePack(book, bare, { printedAt })).join("");
    expect(text).toContain(compact("There is no plan"));
    expect(text).not.toContain("Preplists");
  });
});

describe.skipIf(!POPPLER)("packs of random books", () => {
  it.each([4, 9, 23])(
    "N11 book %i: batch sheets take half a page each at most",
    { timeout: SLOW },
    async (seed) => {
      const made = parseBook(randomBook(seed, 6 + seed));
      if (!("value" in made)) throw new Error("the random book does not parse");
      const result = run(made.value, "service-1", { schedules: 4, remedies: false, trace: false });
      const text = pagesOf(await writePack(made.value, result, { printedAt }));
      const sheets = text.filter((page) => page.slice(-160).includes("Batchsheets")).length;
      expect(result.batchSheets.length).toBeGreaterThan(4);
      expect(sheets).toBeLessThanOrEqual(Math.ceil(result.batchSheets.length / 2));
      expect(text.length).toBeLessThanOrEqual(14 + result.batchSheets.length + result.plates.length);
    },
  );
});

describe("a pack for seven hundred", () => {
  it("N9 is made in under 20 s of a processor's time", { timeout: SLOW }, async () => {
    const result = run(book, "demo-banquet", { trace: false, remedies: false, schedules: 1 });
    const before = process.threadCpuUsage();
    const pdf = await writePack(book, result, { printedAt });
    const used = process.threadCpuUsage(before);
    const seconds = (used.user + used.system) / 1e6;
    console.log(
      `700 covers: ${result.batchSheets.length} batch sheets, ${Math.round(pdf.length / 1024)} KB, ${seconds.toFixed(1)} s`,
    );
    expect(seconds).toBeLessThan(20);
  });
});
