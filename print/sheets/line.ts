import type { Content, TableCell } from "pdfmake/interfaces.js";
import { placementsOf } from "../../core/production/placements-of.ts";
import { STANDARD } from "../../core/production/variants.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import {
  beside,
  COLUMN,
  close,
  headCells,
  label,
  part,
  quiet,
  ruled,
  SERIF,
  sheetTitle,
  TYPE,
  tick,
} from "../parts.ts";

/** Course by course: when to plate, who stands where, in which order it goes on, and whose plates differ. */
export function linePages(paper: Paper): SheetPages[] {
  const { result, menu, say } = paper;
  if (result.plates.length === 0) return [];
  return [
    {
      name: say("pack.line"),
      content: [
        sheetTitle(say("pack.line")),
        ...menu.courses.map((course, i) => courseLine(paper, course, i)),
      ],
    },
  ];
}

function courseLine(paper: Paper, course: Paper["menu"]["courses"][number], i: number): Content {
  const { result, library, say, write, clock, dish, person, cook } = paper;
  const rows = result.plates.filter((row) => row.course === course.id && row.count + row.spare > 0);
  const dishes = [...new Set(rows.map((row) => row.dish))];
  const heading: Content = {
    ...beside(part(course.name, 0), {
      text: `${say("pack.line.at")} ${write.hour(clock.textOf(Math.round(clock.service + course.afterMin)))}`,
      bold: true,
      fontSize: TYPE.board,
    }),
    margin: [0, i > 0 ? 4 : 0, 0, 0],
  };
  return [
    ...dishes.map((id, k): Content => {
      const own = rows.filter((row) => row.dish === id);
      const written = library.dishes.get(id)!;
      const task = result.plan.tasks.find(
        (one) => one.kind === "plate" && one.preparation === id && one.id.includes(`/${course.id}/`),
      );
      const onLine = (preparation: string | undefined) => {
        const amount = result.needs
          .find((need) => need.preparation === preparation)
          ?.usedBy.find((use) => use.dish === id)?.amount;
        return amount ? write.quantity(amount) : "";
      };
      const usual = placementsOf(written, STANDARD);
      const others = result.needs.flatMap((need) => {
        const use = need.usedBy.find((each) => each.dish === id);
        return use && !usual.some((placement) => placement.preparation === need.preparation)
          ? [`${need.name} ${write.quantity(use.amount)}`]
          : [];
      });
      return {
        unbreakable: true,
        margin: [0, 0, 0, 4],
        stack: [
          ...(k === 0 ? [heading] : []),
          beside(
            { text: dish(id), font: SERIF, fontSize: TYPE.body + 1 },
            task
              ? {
                  text: `${say("pack.line.plate")} ${write.hour(task.start)} to ${write.hour(task.end)}`,
                  bold: true,
                  fontSize: TYPE.body,
                }
              : { text: "" },
          ),
          beside(
            close(
              ruled(
                [18, 40, "*", 140],
                headCells([
                  "",
                  [say("pack.line.count"), "right"],
                  say("guests.variant"),
                  say("pack.line.seats"),
                ]),
                own.map((row): TableCell[] => [
                  tick(11),
                  {
                    text:
                      say("pass.count", { count: row.count, spare: row.spare }).split(" ")[0]! +
                      (row.spare > 0 ? ` + ${row.spare}` : ""),
                    bold: true,
                    alignment: "right",
                    fontSize: TYPE.body,
                  },
                  {
                    text: paper.variant(row.variant) || say("guests.standard"),
                    bold: row.variant !== STANDARD,
                  },
                  { text: row.variant === STANDARD ? "" : row.seats.join(", "), fontSize: TYPE.note },
                ]),
                COLUMN,
              ),
              1,
            ),
            [
              ...(task && task.hands.length > 0
                ? [
                    label(say("pack.line.who")),
                    { text: task.hands.map((id) => cook(person(id))).join(", "), fontSize: TYPE.note },
                  ]
                : []),
              quiet(say("pass.onePlate", { window: write.span(written.windowMin) })),
            ],
          ),
          close(
            ruled(
              [18, "*", 60, 80, 90],
              headCells([
                say("pass.n"),
                say("pass.what"),
                [say("pass.seconds"), "right"],
                [say("pass.amount"), "right"],
                [say("pack.line.together"), "right"],
              ]),
              usual.map((placement): TableCell[] => [
                { text: String(placement.n), bold: true },
                {
                  text: paper.item(placement.preparation ?? placement.ingredient ?? ""),
                  bold: true,
                  fontSize: TYPE.note,
                },
                { text: write.number(placement.seconds), alignment: "right", fontSize: TYPE.note },
                {
                  text: write.quantity({
                    value: Number(placement.amount.value),
                    unit: placement.amount.unit,
                  }),
                  alignment: "right",
                  fontSize: TYPE.note,
                },
                { text: onLine(placement.preparation), alignment: "right", fontSize: TYPE.note, bold: true },
              ]),
            ),
            1,
          ),
          ...(others.length > 0
            ? [
                {
                  text: say("pack.line.others", { list: write.list(others) }),
                  margin: [0, 3, 0, 0],
                  fontSize: TYPE.note,
                } as Content,
              ]
            : []),
        ],
      };
    }),
  ];
}
