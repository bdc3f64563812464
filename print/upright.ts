import type { TableCell } from "pdfmake/interfaces.js";
import { type Drawn, PAPER_INK, svgText } from "../drawing/index.ts";
import { TYPE } from "./parts.ts";

/** A word read upwards, so that many narrow columns and their words fit a page. @param width of the column, points */
export function upright(word: string, width: number, height = 68): TableCell {
  const text = {
    tag: "text",
    attributes: {
      transform: `translate(${width / 2 + 4} ${height}) rotate(-90)`,
      "font-family": PAPER_INK.font,
      "font-size": TYPE.note,
      "font-weight": 600,
    },
    children: [word],
  };
  const drawn: Drawn = {
    tag: "svg",
    attributes: { xmlns: "http://www.w3.org/2000/svg", width, height },
    children: [text],
  };
  return { svg: svgText(drawn), width, height, font: "SourceSans3" };
}
