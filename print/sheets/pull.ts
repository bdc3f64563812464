import type { Content, TableCell } from "pdfmake/interfaces.js";
import type { PullItem } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { close, DENSE, QUIET, ruled, sheetTitle, TYPE, tick, WIDTH } from "../parts.ts";

/** Two things stand beside each other: box, count, name each. */
const BOX = 16;
const COUNT = 36;
const NAME = (WIDTH - 5 * 10 - 2 * (BOX + COUNT)) / 2;

/** Pans, moulds, trays, film to have ready, day after day, by station. */
export function pullPages(paper: Paper): SheetPages[] {
  const { result, say, date, names } = paper;
  const days = [...Map.groupBy(result.pull, (item) => item.day)];
  if (days.length === 0) return [];
  return [
    {
      name: say("pack.pull"),
      content: days.flatMap(([day, items], i): Content[] => [
        {
          ...(sheetTitle(`${say("pack.pull.day", { day })}: ${date(day)}`) as { stack: Content[] }),
          margin: [0, i === 0 ? 0 : 6, 0, 0],
        },
        ...[...Map.groupBy(items, (item) => item.station)].map(
          ([station, own], k): Content =>
            close(
              ruled(
                [BOX, COUNT, NAME, BOX, COUNT, NAME],
                headOf(
                  station === undefined ? "" : (names.stations.get(station) ?? station),
                  k === 0 ? 0 : 3,
                ),
                pairs(own.map((one) => cells(paper, one))),
              ),
              0.5,
            ),
        ),
      ]),
    },
  ];
}

/** The station as the head of its table: repeated on the next page, and never alone at the foot of one. */
function headOf(station: string, above: number): TableCell[] {
  const head = {
    text: station,
    bold: true,
    fontSize: TYPE.body + 1,
    ...DENSE,
    colSpan: 6,
    margin: [0, above, 0, 0],
  };
  return [head as TableCell, {}, {}, {}, {}, {}];
}

/** Two by two, read from left to right. */
function pairs(all: readonly TableCell[][]): TableCell[][] {
  const rows: TableCell[][] = [];
  for (let i = 0; i < all.length; i += 2)
    rows.push([...all[i]!, ...(all[i + 1] ?? [{ text: "" }, { text: "" }, { text: "" }])]);
  return rows;
}

function cells({ write, item }: Paper, pulled: PullItem): TableCell[] {
  return [
    tick(14),
    {
      text: `${write.number(pulled.count)} ×`,
      bold: true,
      fontSize: TYPE.board,
      alignment: "right",
      ...DENSE,
    },
    {
      ...DENSE,
      text: [
        { text: pulled.smallware, fontSize: TYPE.body, bold: true },
        { text: `  ${pulled.for.map(item).join("; ")}`, fontSize: TYPE.running, color: QUIET },
      ],
      margin: [0, 1, 0, 0],
    },
  ];
}
