import type { Content, TableCell } from "pdfmake/interfaces.js";
import type { SeatCourse, SeatLine } from "../../core/safety/seating.ts";
import { wordFor } from "../../words/catalogue.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import {
  close,
  headCells,
  LONG,
  label,
  part,
  QUIET,
  quiet,
  ruled,
  SERIF,
  sheetTitle,
  TYPE,
} from "../parts.ts";

/** Who sits where and gets what at each course, table by table; what is changed is bold, what is missing is crossed. */
export function seatingPages(paper: Paper): SheetPages[] {
  const { result, say, service } = paper;
  const { seats } = result.seating;
  if (seats.length === 0) return [];
  const needing = service.guests.reduce((sum, group) => sum + group.count, 0);
  const rest = Math.max(0, result.summary.covers - needing);
  const placed = Map.groupBy(seats, (seat) => seat.seat !== undefined);
  return [
    {
      name: say("pack.seating"),
      landscape: true,
      content: [
        sheetTitle(say("pack.seating"), say("pack.guests.rest", { rest })),
        ...[true, false].flatMap((seated): Content[] => {
          const own = placed.get(seated);
          if (!own) return [];
          return [
            ...(seated ? [] : [part(say("seating.noSeat"), 12)]),
            { stack: [close(tableOf(paper, own, seated), 1.5)], fontSize: TYPE.note },
          ];
        }),
        ...others(paper),
        { ...quiet(say("seating.checked")), margin: [0, 2, 0, 0] },
      ],
    },
  ];
}

function tableOf(paper: Paper, seats: readonly SeatLine[], seated: boolean): Content {
  const { menu, say, write } = paper;
  return ruled(
    [
      seated ? 48 : 104,
      76,
      ...widthsOf(paper, seats, LONG - (seated ? 48 : 104) - 76 - 10 * (menu.courses.length + 1)),
    ],
    headCells([say("guests.seat"), say("guests.needs"), ...menu.courses.map((course) => course.name)]),
    seats.map((seat): TableCell[] => [
      {
        stack: [
          ...(seated
            ? [label(seat.table ? say("seating.table", { table: seat.table }) : say("seating.noTable"))]
            : []),
          {
            text: `${seat.seat ?? seat.group.replaceAll("-", " ")}${seat.count > 1 ? `, ${write.number(seat.count)} ×` : ""}`,
            bold: true,
            fontSize: seated ? TYPE.board : TYPE.body,
          },
        ],
      },
      {
        stack: [
          {
            text:
              seat.needs.length > 0
                ? seat.needs.map((need) => wordFor(say, "need", need)).join(", ")
                : say("guests.none"),
            bold: true,
            fontSize: TYPE.body,
          },
        ],
      },
      ...seat.courses.map(
        (course, i): TableCell =>
          // What goes with every cover goes out with the first plates, and the column is wide.
          i === 0 && seat.beside
            ? { stack: [{ text: `✗ ${besideSaid(paper, seat.beside)}` }, plate(paper, course) as Content] }
            : plate(paper, course),
      ),
    ]),
    LONG,
  );
}

/** What goes with every cover and not to this seat, in one sentence. */
function besideSaid({ say, item: nameOf }: Paper, beside: NonNullable<SeatLine["beside"]>): string {
  const items = beside.map(({ item, against }) =>
    say("seating.beside.one", {
      item: nameOf(item.preparation ?? item.ingredient ?? ""),
      why: against.map(({ need, why }) => `${wordFor(say, "need", need)}: ${why}`).join(", "),
    }),
  );
  return say("seating.beside", { items: items.join("; ") });
}

/** The courses' share of a width, by the square root of the letters their longest cell has. */
function widthsOf({ menu }: Paper, seats: readonly SeatLine[], inside: number): number[] {
  const parts = menu.courses.map((_, i) =>
    Math.sqrt(Math.max(24, ...seats.map((seat) => (seat.courses[i]?.changes ?? []).join("; ").length))),
  );
  const all = parts.reduce((sum, part) => sum + part, 0);
  return parts.map((part) => Math.floor((inside * part) / all));
}

function plate(paper: Paper, { dish, variant, changes, traces, flags, missing }: SeatCourse): TableCell {
  const { say, item, moment, set } = paper;
  if (missing)
    return {
      stack: [
        { text: "✗", bold: true, fontSize: TYPE.body },
        { text: set(say("seating.why", { why: missing.why })) },
        { text: set(say("seating.mend", { mend: missing.mend })), bold: true },
      ],
    };
  if (dish === undefined) return { text: say("seating.shares"), color: QUIET };
  const words = paper.variant(variant ?? "");
  return {
    stack: [
      {
        text: [
          { text: paper.dish(dish).split(",")[0]!, font: SERIF },
          ...(words === "" ? [] : [{ text: `, ${words}`, bold: true }]),
        ],
      },
      ...(changes.length > 0 ? [{ text: `▲ ${changes.join("; ")}`, bold: true }] : []),
      ...traces.map(({ way, mend }) => ({
        text: `▲ ${say("seating.traces", {
          place: way.placeName,
          at: moment(way.at),
          how: way.how,
          from: item(way.from[0]!),
        })} ${say("seating.tracesMend", { mend })}`,
      })),
      ...(flags ?? []).map(({ flag, against }) => ({
        text: `${
          against.length > 0
            ? say("seating.flag", {
                flag: wordFor(say, "flag", flag),
                list: against.map(({ why }) => why).join(", "),
              })
            : say("seating.flag.nothing", { flag: wordFor(say, "flag", flag) })
        }. ${say("seating.flags", { flag: wordFor(say, "flag", flag) })}`,
        color: QUIET,
      })),
    ],
  };
}

/** What everyone without a need or a choice gets. */
function others({ result, menu, say, write, dish }: Paper): Content[] {
  const { rest } = result.seating;
  if (rest.length === 0) return [];
  return [
    {
      margin: [0, 6, 0, 0],
      text: `${say("seating.rest")}: ${menu.courses
        .map((course) => {
          const own = rest.filter((one) => one.course === course.id);
          const list = own.map((one) => `${write.number(one.count)} × ${dish(one.dish).split(",")[0]}`);
          return list.length === 0 ? "" : `${course.name}: ${list.join(", ")}`;
        })
        .filter(Boolean)
        .join(".  ")}`,
      fontSize: TYPE.note,
      bold: true,
    },
  ];
}
