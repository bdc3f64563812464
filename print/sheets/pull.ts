import type { Content, TableCell } from "pdfmake/interfaces.js";
import type { PullItem } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { part, QUIET, ruled, sheetTitle, TYPE, tick } from "../parts.ts";

/** Pans, moulds, trays, film to have ready, a page a day, by station. */
export function pullPages(paper: Paper): SheetPages[] {
  const { result, say, date, names } = paper;
  return [...Map.groupBy(result.pull, (item) => item.day)].map(([day, items]) => ({
    name: say("pack.pull.day", { day }),
    content: [
      sheetTitle(say("pack.pull.day", { day }), date(day)),
      ...[...Map.groupBy(items, (item) => item.station)].map(
        ([station, own]): Content => [
          part(station === undefined ? "" : (names.stations.get(station) ?? station), 12),
          ruled(
            [20, 44, 200, "*"],
            undefined,
            own.map((item) => row(paper, item)),
          ),
        ],
      ),
    ],
  }));
}

function row({ write, item }: Paper, pulled: PullItem): TableCell[] {
  return [
    tick(15),
    { text: `${write.number(pulled.count)} ×`, bold: true, fontSize: TYPE.board, alignment: "right" },
    { text: pulled.smallware, fontSize: TYPE.body, bold: true, margin: [0, 2, 0, 0] },
    {
      text: pulled.for.map(item).join("; "),
      fontSize: TYPE.note,
      color: QUIET,
      margin: [0, 3, 0, 0],
    },
  ];
}
