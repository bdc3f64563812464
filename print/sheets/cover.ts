import type { Column, Content, TableCell } from "pdfmake/interfaces.js";
import type { Listed, SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import {
  beside,
  COLUMN,
  hair,
  headCells,
  label,
  part,
  QUIET,
  quiet,
  ruled,
  SERIF,
  sheetTitle,
  TYPE,
  WIDTH,
} from "../parts.ts";

/** Things to settle told on paper; the rest are in the app. */
const MOST = 12;

/** The service in one sentence, what is served when, the figures, and the cautions; then the crew. */
export function coverPages(paper: Paper, listed: readonly Listed[]): SheetPages[] {
  const { result, kitchen, clock, say, write } = paper;
  const { summary } = result;
  const content: Content = [
    { text: summary.serviceName, font: SERIF, fontSize: TYPE.title, margin: [0, 4, 0, 0] },
    {
      text: `${write.date(clock.dateOf("D"))}, ${write.hour(clock.textOf(clock.service))}`,
      fontSize: TYPE.board,
    },
    { text: kitchen.name, fontSize: TYPE.board, color: QUIET, margin: [0, 0, 0, 10] },
    { text: paper.set(summary.sentence), fontSize: TYPE.board, bold: true, margin: [0, 0, 0, 4] },
    ...(result.plan.status === "none" ? [{ text: say("pack.unplanned") }] : []),
    {
      ...beside(courses(paper), [
        ...figures(paper),
        { text: "", margin: [0, 6, 0, 0] },
        label(say("pack.contents")),
        contents(paper, listed),
      ]),
      margin: [0, 10, 0, 0],
    },
    cautions(paper),
  ];
  return [{ name: say("pack.cover"), content }];
}

/** Who works when; and what is still to be settled. */
export function crewPages(paper: Paper): SheetPages[] {
  return [{ name: paper.say("pack.crew"), content: [...crew(paper), ...settle(paper)] }];
}

function contents({ say }: Paper, listed: readonly Listed[]): Content {
  return {
    fontSize: TYPE.note,
    stack: listed.map((id) => ({
      columns: [
        { width: "*", text: say(id), linkToDestination: id },
        { width: 28, pageReference: id, alignment: "right", bold: true } as Column,
      ],
      margin: [0, 1.5, 0, 0],
    })),
  };
}

function courses({ menu, result, clock, dish, variant, write, say }: Paper): Content {
  return menu.courses.map((course): Content => {
    const rows = result.plates.filter((row) => row.course === course.id && row.count > 0);
    const dishes = [...new Set(rows.map((row) => row.dish))];
    return {
      unbreakable: true,
      margin: [0, 0, 0, 7],
      columns: [
        {
          width: 52,
          text: write.hour(clock.textOf(Math.round(clock.service + course.afterMin))),
          bold: true,
          fontSize: TYPE.board,
        },
        {
          width: COLUMN - 52,
          stack: [
            { text: course.name, bold: true, fontSize: TYPE.body, margin: [0, 2, 0, 0] },
            ...dishes.map((id): Content => {
              const own = rows.filter((row) => row.dish === id);
              const others = own.filter((row) => variant(row.variant) !== "");
              const all = own.reduce((sum, row) => sum + row.count, 0);
              return {
                margin: [0, 2, 0, 0],
                stack: [
                  {
                    text: [
                      { text: `${write.number(all)} × `, bold: true },
                      { text: dish(id), font: SERIF },
                    ],
                  },
                  ...(others.length > 0
                    ? [
                        quiet(
                          others
                            .map((row) => `${write.number(row.count)} ${variant(row.variant)}`)
                            .join("; "),
                        ),
                      ]
                    : []),
                ],
              };
            }),
            ...[...new Set(rows.flatMap((row) => row.notFed))].map(
              (who): Content => ({
                text: `✗ ${say("guests.notFed", { who, course: course.name })}`,
                bold: true,
                fontSize: TYPE.note,
              }),
            ),
          ],
        },
      ],
    };
  });
}

function figures({ result: { summary }, say, write }: Paper): Content[] {
  const figure = (value: string, word: string): Content => ({
    columns: [
      { width: 64, text: value, bold: true, fontSize: TYPE.board, alignment: "right" },
      { width: "*", text: word, margin: [0, 3, 0, 0] },
    ],
    columnGap: 7,
  });
  return [
    figure(write.number(summary.covers), say("pack.figure.covers")),
    figure(write.number(summary.platesTotal), say("pack.figure.plates")),
    figure(write.number(summary.preparations), say("pack.figure.preparations")),
    figure(write.hours(summary.handsMinutes), say("pack.figure.hands")),
  ];
}

function cautions({ say }: Paper): Content {
  return {
    unbreakable: true,
    margin: [0, 6, 0, 0],
    stack: [
      hair(WIDTH, 1.5),
      { text: say("pack.cautions"), bold: true, margin: [0, 6, 0, 2] },
      {
        ul: [
          { text: `${say("pack.caution.advises")} ${say("pack.caution.decide")}`, bold: true },
          say("pack.caution.allergens"),
          say("pack.caution.plan"),
        ],
        fontSize: TYPE.note,
      },
    ],
  };
}

function crew(paper: Paper): Content[] {
  const { kitchen, say, write, clock, shortDate } = paper;
  const dayOf = (text: string) => text.split(" ")[0]!;
  const shifts = kitchen.crew.flatMap((cook) => cook.shifts);
  const days = [...new Set(shifts.map((shift) => dayOf(shift.from)))].sort(
    (a, b) => clock.spanOf(a).from - clock.spanOf(b).from,
  );
  return [
    sheetTitle(say("pack.crew")),
    ruled(
      [130, ...days.map(() => "*" as const)],
      headCells([" ", ...days.map((day) => `${shortDate(day)} (${day})`)]),
      kitchen.crew.map((cook): TableCell[] => [
        { text: cook.name, bold: true },
        ...days.map((day): TableCell => {
          const own = cook.shifts.filter((shift) => dayOf(shift.from) === day);
          if (own.length === 0) return { text: say("pack.crew.off"), color: QUIET };
          return {
            stack: own.flatMap((shift): Content[] => [
              { text: `${write.hour(shift.from)} to ${write.hour(shift.to)}`, bold: true },
              ...shift.breaks.map((rest) =>
                quiet(say("pack.crew.break", { from: write.hour(rest.from), to: write.hour(rest.to) })),
              ),
            ]),
          };
        }),
      ]),
    ),
  ];
}

function settle({ result, say, set }: Paper): Content[] {
  const { warnings } = result;
  if (warnings.length === 0) return [];
  return [
    part(say("pack.settle"), 22),
    ruled(
      [12, "*", "*"],
      undefined,
      warnings
        .slice(0, MOST)
        .map((warning) => [
          { text: "▲" },
          { text: set(warning.what), bold: true },
          { text: set(warning.mend) },
        ]),
    ),
    ...(warnings.length > MOST ? [quiet(say("pack.settle.more", { count: warnings.length - MOST }))] : []),
  ];
}
