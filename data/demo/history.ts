import { indexBook, parseBook } from "../../core/book/index.ts";
import type { LearningBody } from "../../core/learning/schema.ts";
import { preparedBeside } from "../../core/production/beside.ts";
import type { LogLine } from "../../core/safety/log-lines.ts";
import type { LotBody, LotRef } from "../../core/safety/lots-schema.ts";
import { shapeOf } from "../../core/safety/lots-shape.ts";
import { demoBook } from "./book.ts";

type Body = LearningBody | LotBody | { readonly kind: "note"; readonly text: string };

/** Past suppers, all invented: date, guaranteed, and at the main rib, fowl, pithivier. */
const SUPPERS = [
  ["2026-10-03", 70, 40, 22, 6],
  ["2026-10-10", 64, 36, 23, 4],
  ["2026-10-24", 72, 37, 27, 7],
  ["2026-11-07", 68, 38, 24, 5],
  ["2026-11-14", 72, 35, 28, 7],
] as const;

/** Trims by supper, yield in hundredths: who, ingredient, cut, kilograms as purchased. */
const TRIMS = [
  ["Wen Castell", "celeriac", "peeled", 8.4, [71, 70, 72, 69, 71]],
  ["Sami Okar", "celeriac", "peeled", 4.2, [76, 75, 74, 77, 46]],
  ["Wen Castell", "salsify", "peeled", 6.1, [59, 61, 58, 60, 60]],
  ["Sami Okar", "pear", "peeled-cored", 2.6, [70, 71, 69, 72, 70]],
  ["Jonas Eide", "short-rib", "trimmed", 21.5, [88, 87, 89, 88, 87]],
  ["Jonas Eide", "char-fillet", "skinned-trimmed", 1.4, [81, 83, 80, 82, 82]],
] as const;

/** Cooking by supper, out / in in thousandths: who, preparation, step, kilograms in. */
const COOKS = [
  ["Jonas Eide", "short-rib-braised", "braise", 34, [952, 946, 955, 949, 951]],
  ["Jonas Eide", "guinea-fowl-bath", "bath", 4.8, [912, 918, 909, 915, 914]],
  ["Petra Lind", "quince-poached", "poach", 5.2, [742, 751, 738, 747, 745]],
] as const;

/** Times by supper, minutes taken: who, preparation, step, minutes planned. */
const TIMES = [
  ["Wen Castell", "roast-salsify", "peel", 38, [51, 47, 49, 52, 48]],
  ["Sami Okar", "celeriac-base", "cut", 42, [40, 41, 43, 39, 41]],
] as const;

/** Dry goods taken in this autumn: ingredient, supplier, lot, kilograms, use by. */
const LOTS = [
  ["pearl-barley", "tarrenmoor-provisions", "PB-1102", 5, "2027-10-31"],
  ["buckwheat-groats", "tarrenmoor-provisions", "BG-0733", 3, "2027-08-31"],
  ["hazelnuts", "tarrenmoor-provisions", "HN-2206", 2.5, "2027-04-30"],
  ["hazelnuts", "tarrenmoor-provisions", "HN-2311", 2.5, "2027-05-31"],
  ["pumpkin-seeds", "tarrenmoor-provisions", "PK-0450", 2, "2027-06-30"],
] as const;

/** Which lot was opened for what, by supper; grams. */
const OPENED = [
  [0, "pearl-barley", "PB-1102", "barley-cooked", 1150],
  [0, "hazelnuts", "HN-2206", "hazelnut-brown-butter", 640],
  [2, "pearl-barley", "PB-1102", "barley-cooked", 1200],
  [2, "hazelnuts", "HN-2206", "hazelnut-brown-butter", 660],
  [4, "hazelnuts", "HN-2206", "hazelnut-brown-butter", 650],
] as const;

/**
 * An invented history of five past suppers, so that what the log can tell is seen from the first start. It belongs to
 * services of its own and changes no result.
 */
export function demoHistory(): LogLine<Body>[] {
  const read = parseBook(demoBook);
  if (!read.ok) throw new Error("the demo's own book is refused");
  const docs = indexBook(read.value);
  const lines: LogLine<Body>[] = [];
  const add = (supper: number, hour: string, by: string, body: Body) => {
    const date = SUPPERS[supper]![0];
    lines.push({
      id: `de300000-0000-4000-8000-${String(lines.length + 1).padStart(12, "0")}`,
      ...{ service: `first-light-${date}`, at: `${date}T${hour}:00.000Z`, by, body },
    });
  };
  const ref = ([ingredient, supplier, lot]: readonly [string, string, string, ...unknown[]]): LotRef => ({
    ...{ ingredient, supplier, lot },
  });
  const shape = shapeOfSupper(docs);
  for (const lot of LOTS)
    add(0, "07:10", "Tove Rask", {
      ...{ kind: "delivery", of: { ...ref(lot), supplier: lot[1] }, accepted: true },
      ...{ amount: { value: lot[3], unit: "kg" }, useBy: lot[4] },
    });
  SUPPERS.forEach(([date, guaranteed, rib, fowl, pithivier], s) => {
    add(s, "06:00", "Mira Holt", { kind: "note", text: `Supper of ${date}, invented for the demo` });
    add(s, "06:05", "Mira Holt", shape(date, [rib, fowl, pithivier]));
    for (const [by, ingredient, cut, kg, yields] of TRIMS)
      add(s, "08:30", by, {
        ...{ kind: "trim", ingredient, cut, apG: kg * 1000 },
        epG: Math.round(kg * 10 * yields[s]!),
      });
    for (const [by, preparation, step, kg, yields] of COOKS)
      add(s, "13:40", by, {
        ...{ kind: "cook", preparation, step, inG: kg * 1000 },
        outG: Math.round(kg * yields[s]!),
      });
    for (const [by, preparation, step, plannedMin, taken] of TIMES)
      add(s, "15:00", by, { kind: "time", preparation, step, plannedMin, actualMin: taken[s]! });
    for (const [supper, ingredient, lot, preparation, grams] of OPENED)
      if (supper === s) {
        const of = LOTS.find((one) => one[0] === ingredient && one[2] === lot)!;
        add(s, "10:15", "Wen Castell", {
          ...{ kind: "used", lot: ref(of), into: { preparation, batch: 1 } },
          amount: { value: grams, unit: "g" },
        });
      }
    add(s, "22:30", "Mira Holt", {
      ...{ kind: "covers", menu: "first-light", course: "main", guaranteed },
      dishes: [
        { dish: "short-rib", count: rib },
        { dish: "guinea-fowl", count: fowl },
        { dish: "pithivier", count: pithivier },
      ],
    });
  });
  return lines;
}

/** What such a supper makes of what, by the book: each preparation in one batch, everyone at the standard plate. */
function shapeOfSupper(docs: ReturnType<typeof indexBook>) {
  const menu = docs.menus.get("first-light")!;
  const made = new Set<string>();
  const make = (id: string) => {
    if (made.has(id)) return;
    for (const { item } of docs.preparations.get(id)!.lines)
      if ("preparation" in item) make(item.preparation);
    made.add(id);
  };
  for (const id of preparedBeside(menu)) make(id);
  for (const { options } of menu.courses)
    for (const { dish } of options)
      for (const { preparation } of docs.dishes.get(dish)!.placements) if (preparation) make(preparation);
  return (date: string, mains: readonly [number, number, number]) => {
    const all = mains[0] + mains[1] + mains[2];
    const plates = menu.courses.flatMap(({ id, options }) =>
      options.map(({ dish }, i) => ({
        ...{ course: id, dish, variant: "standard", needs: [], spare: 0, seats: [] },
        count: options.length > 1 ? mains[i]! : all,
      })),
    );
    const needs = [...made].map((preparation) => ({ preparation, batches: [{}] }));
    const span = { from: `${date}T06:00:00.000Z`, to: `${date}T22:45:00.000Z` };
    const everyone = { menu, covers: all, guests: [] };
    return shapeOf("First Light supper (invented past)", { needs, plates }, docs, span, everyone);
  };
}
