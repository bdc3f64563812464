import pdfmake from "pdfmake";
import type { TDocumentDefinitions } from "pdfmake/interfaces.js";
import type { Book } from "../core/book/schema.ts";
import type { Result } from "../core/run/result.ts";
import type { Preferences } from "../words/format.ts";
import { FONTS, isFontFile } from "./fonts.ts";
import { type Listed, pages, type SheetPages } from "./frame.ts";
import { type Paper, paperOf } from "./paper.ts";
import { TYPE } from "./parts.ts";
import { allergenPages } from "./sheets/allergens.ts";
import { batchPages } from "./sheets/batches.ts";
import { cardPages } from "./sheets/cards.ts";
import { costPages } from "./sheets/cost.ts";
import { coverPages, crewPages } from "./sheets/cover.ts";
import { frontPages } from "./sheets/front.ts";
import { labelPages } from "./sheets/labels.ts";
import { linePages } from "./sheets/line.ts";
import { logPages } from "./sheets/log.ts";
import { nutritionPages } from "./sheets/nutrition.ts";
import { orderPages } from "./sheets/orders.ts";
import { prepPages } from "./sheets/prep.ts";
import { pullPages } from "./sheets/pull.ts";
import { refusalPages } from "./sheets/refusal.ts";
import { seatingPages } from "./sheets/seating.ts";
import { timelinePages } from "./sheets/timeline.ts";

export interface PackOptions {
  /** Language, measures, clock and degrees; metric, 24 hours and °C unless told. */
  readonly preferences?: Preferences;
  /** Stamp in the file; with the same stamp the same result gives the same bytes. */
  readonly printedAt?: Date;
}

/** The sheets in the order a brigade needs them; what it costs stands last, by itself (README, N1). */
const SHEETS: readonly (readonly [Listed, (paper: Paper) => SheetPages[]])[] = [
  ["pack.refusal", refusalPages],
  ["pack.seating", seatingPages],
  ["pack.crew", crewPages],
  ["pack.run", timelinePages],
  ["pack.orders", orderPages],
  ["pack.pull", pullPages],
  ["pack.prep", prepPages],
  ["pack.batches", batchPages],
  ["pack.labels", labelPages],
  ["pack.matrix", allergenPages],
  ["pack.nutrition", nutritionPages],
  ["pack.front", frontPages],
  ["pack.cards", cardPages],
  ["pack.line", linePages],
  ["pack.log", logPages],
  ["pack.cost", costPages],
];

// Nothing but the fonts is ever read, whatever a book says.
pdfmake.setUrlAccessPolicy(() => false);
pdfmake.setLocalAccessPolicy(isFontFile);

/**
 * Everything a brigade needs for one service, as one PDF of A4 pages in black.
 * @param book the book the result was computed from
 * @throws RangeError when the book does not hold the result's service, kitchen or menu
 */
export async function writePack(book: Book, result: Result, options: PackOptions = {}): Promise<Uint8Array> {
  const paper = paperOf(book, result, options.preferences);
  const definition: TDocumentDefinitions = {
    pageSize: "A4",
    content: sheetsOf(paper).map((sheet) => pages(paper, sheet)),
    // Of the font's own 1.42 of its size: lines 1.31 apart.
    defaultStyle: { font: "SourceSans3", fontSize: TYPE.body, color: "black", lineHeight: 0.92 },
    info: {
      title: result.summary.serviceName,
      subject: result.summary.sentence,
      creator: "Tournant",
      producer: "Tournant",
      creationDate: options.printedAt ?? new Date(),
    },
    language: paper.write.preferences.locale,
    displayTitle: true,
  };
  pdfmake.setFonts(structuredClone(FONTS));
  const buffer = await pdfmake.createPdf(definition).getBuffer();
  return new Uint8Array(buffer);
}

/** All sheets; the cover lists them, and stands first unless something does not fit. */
function sheetsOf(paper: Paper): SheetPages[] {
  const made = SHEETS.map(([listed, make]) => ({ listed, sheets: make(paper) })).filter(
    ({ sheets }) => sheets.length > 0,
  );
  const named = made.map(({ listed, sheets }) =>
    sheets.map((sheet, i) => (i === 0 ? { ...sheet, listed } : sheet)),
  );
  const cover = coverPages(
    paper,
    made.map(({ listed }) => listed),
  );
  const first = made[0]?.listed === "pack.refusal" ? 1 : 0;
  return [...named.slice(0, first), cover, ...named.slice(first)].flat();
}
