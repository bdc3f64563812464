import type { Content } from "pdfmake/interfaces.js";
import type { FrontOfHouseLine, Result } from "../../core/run/result.ts";
import { allergensSaid, leftOffSaid } from "../../words/allergens-said.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { beside, part, quiet, SERIF, sheetTitle, TYPE } from "../parts.ts";

/** For the hall: each plate described, what it contains, what may be left off. */
export function frontPages(paper: Paper): SheetPages[] {
  const { result, menu, say } = paper;
  const { everyCover } = result;
  if (result.frontOfHouse.length + everyCover.length === 0) return [];
  return [
    {
      name: say("pack.front"),
      content: [
        sheetTitle(say("pack.front"), say("pack.front.ask")),
        ...(everyCover.length === 0
          ? []
          : [
              part(say("front.everyCover"), 4),
              quiet(say("front.everyCover.note")),
              ...everyCover.map((line) => onTable(paper, line)),
            ]),
        ...menu.courses.map((course): Content => {
          const lines = result.frontOfHouse.filter((line) => line.course === course.id);
          return lines.length === 0
            ? []
            : [
                { stack: [part(course.name, 4), plate(paper, lines[0]!)], unbreakable: true },
                ...lines.slice(1).map((line) => plate(paper, line)),
              ];
        }),
      ],
    },
  ];
}

/** What stands on the table for everyone. */
function onTable({ say, allergens, set }: Paper, line: Result["everyCover"][number]): Content {
  return {
    unbreakable: true,
    margin: [0, 2, 0, 2],
    ...beside(
      [
        { text: line.name, font: SERIF, fontSize: TYPE.body },
        ...(line.advisory
          ? [{ text: `▲ ${set(line.advisory)}`, fontSize: TYPE.note, bold: true } as Content]
          : []),
      ],
      [{ text: allergensSaid(say, line, allergens, { short: true }), bold: true, fontSize: TYPE.note }],
    ),
  };
}

function plate({ say, allergens, variant, set }: Paper, line: FrontOfHouseLine): Content {
  const words = variant(line.variant);
  return {
    unbreakable: true,
    margin: [0, 0, 0, 3],
    ...beside(
      [
        {
          text: [
            { text: `${line.count} × `, bold: true },
            { text: line.name, font: SERIF },
            ...(words === "" ? [] : [{ text: `  ${words}`, bold: true }]),
          ],
          fontSize: TYPE.body,
        },
        ...(words === "" ? [{ text: set(line.describe), fontSize: TYPE.note } as Content] : []),
        ...line.leaveOff.map((off): Content => quiet(leftOffSaid(say, off, allergens, true))),
        ...(line.advisory
          ? [{ text: `▲ ${set(line.advisory)}`, fontSize: TYPE.note, bold: true } as Content]
          : []),
      ],
      [{ text: allergensSaid(say, line, allergens, { short: true }), bold: true, fontSize: TYPE.note }],
    ),
  };
}
