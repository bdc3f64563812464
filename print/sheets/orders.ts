import type { TableCell } from "pdfmake/interfaces.js";
import type { SupplierOrder } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import {
  beside,
  close,
  headCells,
  QUIET,
  ruled,
  sheetTitle,
  TYPE,
  tick,
  WIDTH,
  writeLine,
} from "../parts.ts";

/** One order a supplier: packs to order, and room to check what arrives. */
export function orderPages(paper: Paper): SheetPages[] {
  return paper.result.orders
    .filter((order) => order.lines.length > 0)
    .map((order) => orderPage(paper, order));
}

function orderPage({ say, write, moment, kitchen }: Paper, order: SupplierOrder): SheetPages {
  const money = (amount: string) => write.money(amount, kitchen.currency);
  const name = say("pack.order", { supplier: order.name });
  const rows = order.lines.map((line): TableCell[] => [
    tick(13),
    { text: `${write.number(line.packs)} ×`, bold: true, fontSize: TYPE.body, alignment: "right" },
    { text: line.pack, bold: true },
    {
      text: [
        { text: line.name },
        {
          text: `  ${say("orders.need")} ${write.quantity(line.need).replaceAll(" ", "\u00a0")}`,
          color: QUIET,
        },
      ],
    },
    { text: money(line.price), alignment: "right" },
    { text: money(line.total), alignment: "right" },
    { text: "" },
    { text: "" },
  ]);
  const total = (word: string, amount: string, bold = false): TableCell[] => [
    { text: word, colSpan: 5, alignment: "right", bold },
    ...Array.from({ length: 4 }, () => ({ text: "" })),
    { text: money(amount), alignment: "right", bold },
    { text: "", colSpan: 2 },
    { text: "" },
  ];
  return {
    name,
    content: [
      beside(sheetTitle(order.name, say("orders.deliver", { clock: moment(order.deliver) })), {
        text: say("orders.by", { clock: moment(order.orderBy) }),
        bold: true,
        fontSize: TYPE.board,
      }),
      {
        columns: [
          writeLine(say("pack.order.ordered"), (WIDTH - 20) / 2, 10),
          writeLine(say("pack.order.received"), (WIDTH - 20) / 2, 10),
        ],
        columnGap: 20,
        margin: [0, 0, 0, 4],
      },
      {
        fontSize: TYPE.note,
        stack: [
          close(
            ruled(
              [15, 26, 54, "*", 40, 44, 28, 62],
              headCells([
                "",
                [say("orders.packs"), "right"],
                say("orders.pack"),
                say("orders.what"),
                [say("orders.price"), "right"],
                [say("orders.sum"), "right"],
                say("pack.order.c"),
                say("pack.order.lot"),
              ]),
              [
                ...rows,
                ...(Number(order.charge) > 0 ? [total(say("orders.charge"), order.charge)] : []),
                total(say("orders.together"), order.total, true),
              ],
            ),
            2,
          ),
        ],
      },
      ...(Number(order.belowMinimum) > 0
        ? [
            {
              text: `▲ ${say("orders.below", { missing: money(order.belowMinimum) })}`,
              bold: true,
              margin: [0, 10, 0, 0] as [number, number, number, number],
            },
          ]
        : []),
    ],
  };
}
