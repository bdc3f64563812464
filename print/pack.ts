import pdfmake from "pdfmake";
import type { TDocumentDefinitions } from "pdfmake/interfaces.js";
import type { Book } from "../core/book/schema.ts";
import type { Result } from "../core/run/result.ts";
import type { Preferences } from "../words/format.ts";
import { FONTS, isFontFile } from "./fonts.ts";
import { pages, type SheetPages } from "./frame.ts";
import { type Paper, paperOf } from "./paper.ts";
import { QUIET, TYPE } from "./parts.ts";
import { allergenPages } from "./sheets/allergens.ts";
import { batchPages } from "./sheets/batches.ts";
import { cardPages } from "./sheets/cards.ts";
import { costPages } from "./sheets/cost.ts";
import { coverPages } from "./sheets/cover.ts";
import { frontPages } from "./sheets/front.ts";
import { labelPages } from "./sheets/labels.ts";
import { linePages } from "./sheets/line.ts";
import { logPages } from "./sheets/log.ts";
import { orderPages } from "./sheets/orders.ts";
import { prepPages } from "./sheets/prep.ts";
import { pullPages } from "./sheets/pull.ts";
import { refusalPages } from "./sheets/refusal.ts";
import { timelinePages } from "./sheets/timeline.ts";

export interface PackOptions {
  /** Language, measures, clock and degrees; metric, 24 hours and °C unless told. */
  readonly preferences?: Preferences;
  /** Stamp in the file; with the same stamp the same result gives the same bytes. */
  readonly printedAt?: Date;
}

/** The sheets in the order a brigade needs them; what it costs stands last, by itself (README, N1). */
const SHEETS: readonly ((paper: Paper) => SheetPages[])[] = [
  refusalPages,
  coverPages,
  timelinePages,
  orderPages,
  pullPages,
  prepPages,
  batchPages,
  labelPages,
  allergenPages,
  frontPages,
  cardPages,
  linePages,
  logPages,
  costPages,
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
    content: SHEETS.flatMap((sheets) => sheets(paper)).map((sheet) => pages(paper, sheet)),
    defaultStyle: { font: "SourceSans3", fontSize: TYPE.body, color: "black", lineHeight: 1.15 },
    styles: {
      contents: { fontSize: TYPE.note },
      contentsNumber: { fontSize: TYPE.note, color: QUIET },
    },
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
