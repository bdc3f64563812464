import type { Content, TableCell } from "pdfmake/interfaces.js";
import { airOf } from "../../core/heat/media.ts";
import type { ControlPoint } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { BOXED, beside, COLUMN, hair, headCells, label, quiet, sheetTitle, TYPE, WIDTH } from "../parts.ts";

/** Rows to fill: a critical point is read often, a check once or twice. */
const ROWS = { critical: 4, practice: 2 } as const;
/** Height of a row a thick pen can fill, points. */
const ROOM = 24;

/** Blanks of the plan's own control points, critical ones first; before them the thermometers are checked. */
export function logPages(paper: Paper): SheetPages[] {
  const { result, say } = paper;
  return (["critical", "practice"] as const).flatMap((level): SheetPages[] => {
    const points = result.control.filter((point) => point.level === level);
    if (points.length === 0 && level === "practice") return [];
    return [
      {
        name: `${say("pack.log")}, ${say(`control.${level}`)}`,
        content: [
          sheetTitle(`${say("pack.log")}, ${say(`control.${level}`)}`),
          ...(level === "critical" ? [thermometers(paper)] : []),
          ...points.map((point) => blank(paper, point)),
        ],
      },
    ];
  });
}

function empty(columns: number, rows: number): TableCell[][] {
  return Array.from({ length: rows }, () => Array.from({ length: columns }, () => ({ text: "" })));
}

function boxes(widths: readonly (number | "*")[], words: readonly string[], rows: number): Content {
  return {
    table: {
      widths: [...widths],
      heights: (row: number) => (row === 0 ? 10 : ROOM),
      body: [headCells(words), ...empty(widths.length, rows)],
    },
    layout: BOXED,
  };
}

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
        4,
      ),
    ],
  };
}

function blank(paper: Paper, point: ControlPoint): Content {
  const { say, item, library, moment, set } = paper;
  const step = library.preparations.get(point.preparation)?.steps.find((one) => one.id === point.step);
  const told = (word: string, text: string): Content => ({
    columns: [
      { width: 62, ...label(word), margin: [0, 1.5, 0, 0] },
      { width: COLUMN - 68, text: set(text), fontSize: TYPE.note },
    ],
    columnGap: 6,
  });
  return {
    unbreakable: true,
    margin: [0, 0, 0, 16],
    stack: [
      hair(WIDTH, 1),
      {
        margin: [0, 4, 0, 4],
        ...beside(
          [
            {
              text: [
                { text: item(point.preparation), bold: true },
                ...(step ? [{ text: `, ${step.name}` }] : []),
              ],
              fontSize: TYPE.body + 1.5,
            },
            told(say("pack.log.hazard"), point.hazard),
            told(say("control.monitor"), point.monitor),
            told(say("control.corrective"), point.corrective),
            told(say("control.record"), point.record),
          ],
          [
            ...(point.when ? [{ text: moment(point.when), fontSize: TYPE.note }] : []),
            { text: set(point.limit).replaceAll("; ", ";\n"), bold: true, fontSize: TYPE.body },
            ...(point.source ? [{ ...quiet(set(point.source)), fontSize: TYPE.running }] : []),
          ],
        ),
      },
      ...(point.note
        ? [
            {
              text: `▲ ${set(point.note)}`,
              bold: true,
              fontSize: TYPE.note,
              margin: [0, 0, 0, 4],
            } as Content,
          ]
        : []),
      boxes(
        [96, 84, "*", 62, 84],
        [
          say("pack.log.time"),
          say("pack.log.reading"),
          say("pack.log.did"),
          say("pack.log.who"),
          say("pack.log.checked"),
        ],
        ROWS[point.level],
      ),
    ],
  };
}
