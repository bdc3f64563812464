import type { Content, ContentSection, DynamicContent } from "pdfmake/interfaces.js";
import type { Paper } from "./paper.ts";
import { hair, PAGE, QUIET, SERIF, TYPE } from "./parts.ts";

/** A kind of sheet as the contents name it. */
export type Listed =
  | "pack.refusal"
  | "pack.seating"
  | "pack.crew"
  | "pack.run"
  | "pack.orders"
  | "pack.pull"
  | "pack.prep"
  | "pack.batches"
  | "pack.labels"
  | "pack.matrix"
  | "pack.nutrition"
  | "pack.front"
  | "pack.cards"
  | "pack.line"
  | "pack.log"
  | "pack.cost";

/** A run of pages with one running head. */
export interface SheetPages {
  /** What the running head calls it. */
  readonly name: string;
  readonly content: Content;
  readonly landscape?: boolean;
  /** The first of its kind: the contents point here. */
  readonly listed?: Listed;
}

/** Pages that carry service, date, their own name, and page x of y (README, N2). */
export function pages(paper: Paper, { name, content, landscape, listed }: SheetPages): ContentSection {
  const { result, kitchen, write, say, clock } = paper;
  const width = (landscape ? PAGE.height : PAGE.width) - PAGE.left - PAGE.right;
  const when = `${write.date(clock.dateOf("D"))}, ${write.hour(clock.textOf(clock.service))}`;
  const header: DynamicContent = () => ({
    margin: [PAGE.left, 20, PAGE.right, 0],
    stack: [
      {
        columns: [
          {
            width: width * 0.58,
            text: result.summary.serviceName,
            font: SERIF,
            fontSize: TYPE.note,
          },
          { width: width * 0.42 - 12, text: name, bold: true, fontSize: TYPE.body, alignment: "right" },
        ],
        columnGap: 12,
        margin: [0, 0, 0, 5],
      },
      hair(width, 1),
    ],
  });
  const footer: DynamicContent = (page, pages) => ({
    margin: [PAGE.left, 12, PAGE.right, 0],
    columns: [
      {
        width: width - 110,
        text: say("pack.foot", { when, covers: result.summary.covers, kitchen: kitchen.name }),
        fontSize: TYPE.running,
        color: QUIET,
      },
      {
        width: 110,
        text: say("pack.page", { page, pages }),
        fontSize: TYPE.running,
        bold: true,
        alignment: "right",
      },
    ],
  });
  return {
    section: listed ? [{ text: " ", fontSize: 0.1, lineHeight: 0.1, id: listed }, content] : content,
    pageSize: "A4",
    pageOrientation: landscape ? "landscape" : "portrait",
    pageMargins: [PAGE.left, PAGE.top, PAGE.right, PAGE.bottom],
    header,
    footer,
  };
}
