import type { Content, TableCell } from "pdfmake/interfaces.js";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { beside, close, headCells, part, ruled, SERIF, sheetTitle, TYPE } from "../parts.ts";

/** Head words of a preparation's cost. */
const OF_ONE = [" ", "cost.perKg", "cost.total"] as const;

/** Rows two by two, the first half on the left. */
function twoByTwo(rows: readonly TableCell[][]): TableCell[][] {
  const half = Math.ceil(rows.length / 2);
  return rows.slice(0, half).map((row, i) => [...row, ...(rows[half + i] ?? row.map(() => ({ text: "" })))]);
}

/** What it costs, on pages of their own so that the chef can take them out. */
export function costPages(paper: Paper): SheetPages[] {
  const { result, service, say, write, dish, variant, item } = paper;
  const { cost, orders } = result;
  const money = (amount: string | number) => write.money(amount, cost.currency);
  const right = (text: string, bold = false): TableCell => ({ text, alignment: "right", bold });
  const shared = cost.perPlate.some((row) => row.share !== undefined);
  const figure = (word: string, value: string): Content => ({
    columns: [
      { width: "*", text: word },
      { width: "auto", text: value, bold: true },
    ],
    margin: [0, 0, 0, 3],
  });
  return [
    {
      name: say("pack.cost"),
      content: [
        sheetTitle(say("pack.cost"), say("pack.cost.note", { date: write.date(service.priceAsOf) })),
        beside(
          {
            columns: [
              { width: "auto", text: money(cost.menu), bold: true, fontSize: TYPE.title },
              {
                width: "*",
                stack: [
                  { text: say("pack.cost.menu") },
                  ...(cost.menuShare === undefined
                    ? []
                    : [{ text: say("figure.ofPrice", { share: write.share(cost.menuShare) }) }]),
                ],
                margin: [0, 8, 0, 0],
              },
            ],
            columnGap: 10,
          },
          [
            figure(say("pack.cost.used"), money(cost.used)),
            figure(say("pack.cost.left"), money(cost.leftover)),
          ],
        ),
        part(say("cost.plates"), 8),
        close(
          ruled(
            ["*", 60, ...(shared ? [70] : [])],
            headCells([
              " ",
              [say("cost.plate"), "right"],
              ...(shared ? [[say("cost.share"), "right"] as const] : []),
            ]),
            cost.perPlate.map((row): TableCell[] => [
              {
                text: [
                  { text: dish(row.dish), font: SERIF, fontSize: TYPE.note },
                  ...(variant(row.variant) === ""
                    ? []
                    : [{ text: `  ${variant(row.variant)}`, fontSize: TYPE.note, bold: true }]),
                ],
              },
              right(money(row.plate), true),
              ...(shared ? [right(row.share === undefined ? "" : write.share(row.share))] : []),
            ]),
          ),
          1,
        ),
        part(say("pack.cost.orders"), 8),
        ruled(
          ["*", 80, 80, 80],
          headCells([
            " ",
            [say("pack.cost.goods"), "right"],
            [say("orders.charge"), "right"],
            [say("orders.together"), "right"],
          ]),
          [
            ...orders.map((order): TableCell[] => [
              { text: order.name },
              right(money(order.goods)),
              right(money(order.charge)),
              right(money(order.total), true),
            ]),
            [
              { text: say("orders.together"), bold: true },
              { text: "" },
              { text: "" },
              right(money(result.summary.orderTotal), true),
            ],
          ],
        ),
        part(say("cost.preparations"), 8),
        {
          fontSize: TYPE.note,
          stack: [
            close(
              ruled(
                ["*", 44, 44, "*", 44, 44],
                headCells(
                  [...OF_ONE, ...OF_ONE].map((key) => (key === " " ? key : ([say(key), "right"] as const))),
                ),
                twoByTwo(
                  [...cost.preparations]
                    .sort((a, b) => b.total - a.total)
                    .map((row): TableCell[] => [
                      { text: item(row.preparation), fontSize: TYPE.running + 0.5 },
                      right(money(row.perKg)),
                      right(money(row.total), true),
                    ]),
                ),
              ),
              1,
            ),
          ],
        },
      ],
    },
  ];
}
