import type { Content, TableCell } from "pdfmake/interfaces.js";
import { airOf } from "../../core/heat/media.ts";
import type { ControlPoint } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { BOXED, beside, DENSE, GAP, hair, headCells, quiet, sheetTitle, TYPE, WIDTH } from "../parts.ts";

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
      critical.map((point, i) => blank(paper, point, i === 0)),
    ),
    ...sheet("practice", [
      thermometers(paper),
      ...[...practice.values()].map((points, i) => checks(paper, points, i === 0)),
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
      heights: (row: number) => (words && row === 0 ? 10 : ROOM - 6),
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
    margin: [0, 0, 0, 8],
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

/** A critical point with its limit, how it is watched, and rows to fill. @param headed false where the words stand above */
function blank(paper: Paper, point: ControlPoint, headed: boolean): Content {
  const { say, set } = paper;
  return {
    unbreakable: true,
    ...DENSE,
    margin: [0, 0, 0, 7],
    stack: [
      hair(WIDTH, 1),
      {
        margin: [0, 3, 0, 3],
        ...beside(
          [{ text: whereOf(paper, point), fontSize: TYPE.body }, watched(paper, point, false)],
          limitOf(paper, point),
        ),
      },
      ...(point.note ? [noted(set(point.note))] : []),
      boxes(
        [96, 84, "*", 62, 84],
        headed
          ? [
              say("pack.log.time"),
              say("pack.log.reading"),
              say("pack.log.did"),
              say("pack.log.who"),
              say("pack.log.checked"),
            ]
          : undefined,
        Array.from({ length: ROWS }, () => empty(5)),
      ),
    ],
  };
}

/** Good practice checks watched in the same way, a row each under what is watched. @param headed as in `blank` */
function checks(paper: Paper, points: readonly ControlPoint[], headed: boolean): Content {
  const { say, set, item } = paper;
  const [first] = points as [ControlPoint];
  // What is said of several stands once, with their names.
  const notes = [...Map.groupBy(points, ({ note }) => note)].flatMap(([note, own]) => {
    if (note === undefined) return [];
    const names = [...new Set(own.map(({ preparation }) => item(preparation)))].join("; ");
    return noted(own.length === points.length ? set(note) : `${names}: ${set(note)}`, TYPE.running);
  });
  return {
    unbreakable: points.length <= 6,
    ...DENSE,
    margin: [0, 0, 0, 4],
    stack: [
      {
        columns: [
          { width: WIDTH - LIMIT - GAP, stack: [watched(paper, first, true)] },
          { width: LIMIT, stack: limitOf(paper, first) },
        ],
        columnGap: GAP,
        margin: [0, 0, 0, 2],
      },
      ...notes,
      boxes(
        [WATCHED, 50, 50, "*", 42],
        headed
          ? [
              say("pack.log.what"),
              say("pack.log.time"),
              say("pack.log.reading"),
              say("pack.log.did"),
              say("pack.log.who"),
            ]
          : undefined,
        points.map((point): TableCell[] => [
          { text: whereOf(paper, point), fontSize: TYPE.running + 0.5 },
          ...empty(4),
        ]),
      ),
    ],
  };
}

/** Width of a good practice check's limit, points: shorter than a critical point's. */
const LIMIT = 146;
/** Width of what is watched beside its boxes, points. */
const WATCHED = 256;

function noted(text: string, size: number = TYPE.note): Content {
  return { text: `▲ ${text}`, bold: true, fontSize: size, margin: [0, 0, 0, 2] };
}

/** Hazard, how it is watched, what to do when it is missed, where it is written down. */
function watched(paper: Paper, point: ControlPoint, bold: boolean) {
  return {
    text: [
      { text: `${paper.set(point.hazard)}. `, bold },
      told(paper, "control.monitor", point.monitor),
      told(paper, "control.corrective", point.corrective),
      told(paper, "control.record", point.record),
    ],
    fontSize: TYPE.note,
  };
}

function limitOf({ set }: Paper, { limit, source }: ControlPoint): Content[] {
  return [
    { text: set(limit).replaceAll("; ", ";\n"), bold: true, fontSize: TYPE.note },
    ...(source ? [{ ...quiet(set(source)), fontSize: TYPE.running }] : []),
  ];
}

/** "Salted char, Chill, Fri 14:52": what is watched, and when the plan has it. */
function whereOf({ item, library, setNear }: Paper, point: ControlPoint) {
  const step = library.preparations.get(point.preparation)?.steps.find((one) => one.id === point.step);
  return [
    { text: item(point.preparation), bold: true },
    ...(step ? [{ text: `, ${step.name}` }] : []),
    ...(point.when ? [{ text: `, ${setNear(point.when, "").replaceAll("\u00a0", " ")}` }] : []),
  ];
}

function told(
  { say, set }: Paper,
  word: "control.monitor" | "control.corrective" | "control.record",
  text: string,
) {
  return { text: [{ text: `${say(word)}: `, bold: true }, { text: `${set(text)} ` }] };
}
