import type { Content, TableCell } from "pdfmake/interfaces.js";
import { airOf } from "../../core/heat/media.ts";
import type { ControlPoint } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { BOXED, beside, hair, headCells, quiet, sheetTitle, TYPE, WIDTH } from "../parts.ts";

/** Rows to fill of a critical point, which is read more than once. */
const ROWS = 2;
/** Height of a row a thick pen can fill, points. */
const ROOM = 20;

/**
 * Blanks of the plan's own control points: the critical ones on a sheet of their own; then the thermometers, and the
 * good practice checks, those that are watched in the same way together with a row each.
 */
export function logPages(paper: Paper): SheetPages[] {
  const { result, say } = paper;
  const at = (level: ControlPoint["level"]) => result.control.filter((point) => point.level === level);
  const critical = at("critical");
  const practice = Map.groupBy(at("practice"), (point) =>
    [point.hazard, point.limit, point.monitor, point.corrective, point.record, point.source].join("|"),
  );
  const sheet = (level: ControlPoint["level"], content: Content[]): SheetPages[] =>
    content.length === 0
      ? []
      : [
          {
            name: `${say("pack.log")}, ${say(`control.${level}`)}`,
            content: [sheetTitle(`${say("pack.log")}, ${say(`control.${level}`)}`), ...content],
          },
        ];
  return [
    ...sheet(
      "critical",
      critical.map((point, i) => blank(paper, [point], ROWS, i === 0)),
    ),
    ...sheet("practice", [
      thermometers(paper),
      ...[...practice.values()].map((points) => blank(paper, points, 1)),
    ]),
  ];
}

function boxes(
  widths: readonly (number | "*")[],
  words: readonly string[] | undefined,
  rows: TableCell[][],
): Content {
  return {
    table: {
      widths: [...widths],
      heights: (row: number) => (words && row === 0 ? 10 : ROOM),
      headerRows: words ? 1 : 0,
      dontBreakRows: true,
      body: [...(words ? [headCells(words)] : []), ...rows],
    },
    layout: BOXED,
  };
}

const empty = (columns: number): TableCell[] => Array.from({ length: columns }, () => ({ text: "" }));

function thermometers({ kitchen, say, write }: Paper): Content {
  const { boilingC } = airOf({ altitudeM: kitchen.altitudeM });
  return {
    unbreakable: true,
    margin: [0, 0, 0, 16],
    stack: [
      { text: say("pack.log.probe"), bold: true },
      {
        ...quiet(
          say("pack.log.probe.what", {
            altitude: write.number(kitchen.altitudeM, 0),
            boiling: write.temperature(boilingC),
          }),
        ),
        margin: [0, 0, 0, 4],
      },
      boxes(
        [96, "*", "*", "*", 70],
        [
          say("pack.log.time"),
          say("pack.log.probeNo"),
          say("pack.log.ice"),
          say("pack.log.boiling"),
          say("pack.log.who"),
        ],
        Array.from({ length: 3 }, () => empty(5)),
      ),
    ],
  };
}

/**
 * One way of watching with a row for each step it watches, so many times.
 * @param headed false where the words of the columns stand above, on the same sheet
 */
function blank(paper: Paper, points: readonly ControlPoint[], rows: number, headed = true): Content {
  const { say, set } = paper;
  const [first] = points as [ControlPoint];
  const alone = points.length === 1;
  const notes = alone ? points.flatMap(({ note }) => note ?? []) : [];
  return {
    unbreakable: points.length <= 12,
    margin: [0, 0, 0, 7],
    stack: [
      hair(WIDTH, 1),
      {
        margin: [0, 3, 0, 3],
        ...beside(
          [
            ...(alone ? [{ text: whereOf(paper, first), fontSize: TYPE.body } as Content] : []),
            {
              text: [
                { text: `${set(first.hazard)}. `, bold: !alone },
                told(paper, "control.monitor", first.monitor),
                told(paper, "control.corrective", first.corrective),
                told(paper, "control.record", first.record),
              ],
              fontSize: TYPE.note,
            },
          ],
          [
            { text: set(first.limit).replaceAll("; ", ";\n"), bold: true, fontSize: TYPE.note + 1 },
            ...(first.source ? [{ ...quiet(set(first.source)), fontSize: TYPE.running }] : []),
          ],
        ),
      },
      ...notes.map(
        (note): Content => ({
          text: `▲ ${set(note)}`,
          bold: true,
          fontSize: TYPE.note,
          margin: [0, 0, 0, 3],
        }),
      ),
      boxes(
        alone ? [96, 84, "*", 62, 84] : [196, 66, 60, "*", 50],
        headed
          ? [
              alone ? say("pack.log.time") : say("pack.log.what"),
              ...(alone ? [] : [say("pack.log.time")]),
              say("pack.log.reading"),
              say("pack.log.did"),
              say("pack.log.who"),
              ...(alone ? [say("pack.log.checked")] : []),
            ]
          : undefined,
        alone
          ? Array.from({ length: rows }, () => empty(5))
          : points.map((point) => [
              {
                stack: [
                  { text: whereOf(paper, point) },
                  // What is said of one alone stands with it.
                  ...(point.note ? [{ text: `▲ ${set(point.note)}`, bold: true }] : []),
                ],
                fontSize: TYPE.running + 0.5,
              },
              ...empty(4),
            ]),
      ),
    ],
  };
}

/** "Salted char, Chill, Fri 29 Jan 14:52": what is watched, and when the plan has it. */
function whereOf({ item, library, moment }: Paper, point: ControlPoint) {
  const step = library.preparations.get(point.preparation)?.steps.find((one) => one.id === point.step);
  return [
    { text: item(point.preparation), bold: true },
    ...(step ? [{ text: `, ${step.name}` }] : []),
    ...(point.when ? [{ text: `, ${moment(point.when)}` }] : []),
  ];
}

function told(
  { say, set }: Paper,
  word: "control.monitor" | "control.corrective" | "control.record",
  text: string,
) {
  return { text: [{ text: `${say(word)}: `, bold: true }, { text: `${set(text)} ` }] };
}
