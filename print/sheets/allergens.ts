import type { Content, ContentTable, TableCell } from "pdfmake/interfaces.js";
import { ALLERGENS } from "../../core/pantry/schema.ts";
import type { AllergenCell } from "../../core/run/result.ts";
import { allergensSaid } from "../../words/allergens-said.ts";
import { wordFor } from "../../words/catalogue.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { headCells, LONG, QUIET, quiet, RULED, ruled, SERIF, sheetTitle, TYPE } from "../parts.ts";
import { upright } from "../upright.ts";

const STATES = { contains: "●", may: "M", unknown: "?", free: "·" } as const;
const MEETS = { contains: "✗", may: "?", unknown: "?", free: "✓" } as const;

/** A column of the matrix: its word, its cells, and what their states are marked with. */
type Column = readonly [
  string,
  (cell: AllergenCell) => boolean,
  Readonly<Record<AllergenCell["state"], string>>,
];

interface Row {
  readonly dish: string;
  readonly variant: string;
  readonly cells: readonly AllergenCell[];
}

/** Every plate against allergens and diets, then the ways by which each allergen arrives. */
export function allergenPages(paper: Paper): SheetPages[] {
  const { result, say } = paper;
  const dishes = [...new Set(result.allergens.map((cell) => cell.dish))];
  const rows = [...Map.groupBy(result.allergens, (cell) => `${cell.dish} ${cell.variant}`).values()].map(
    (cells): Row => ({ dish: cells[0]!.dish, variant: cells[0]!.variant, cells }),
  );
  if (rows.length === 0) return [];
  // A dish and what is made of it for guests with needs stand together.
  rows.sort((a, b) => dishes.indexOf(a.dish) - dishes.indexOf(b.dish));
  const needs = [...new Set(result.allergens.flatMap((cell) => (cell.need ? [cell.need] : [])))];
  return [
    {
      name: say("pack.matrix"),
      landscape: true,
      content: [
        sheetTitle(say("pack.matrix"), `${say("pack.matrix.legend")}\n${say("pack.matrix.needs")}`),
        matrix(
          paper,
          rows,
          [
            ...ALLERGENS.map(
              (id): Column => [wordFor(say, "allergen", id), (cell) => cell.allergen === id, STATES],
            ),
            ...needs.map((id): Column => [wordFor(say, "need", id), (cell) => cell.need === id, MEETS]),
          ],
          ALLERGENS.length,
        ),
      ],
    },
    { name: say("pack.paths"), content: [sheetTitle(say("pack.paths")), ...paths(paper, rows)] },
  ];
}

function matrix(
  { dish, variant }: Paper,
  rows: readonly Row[],
  columns: readonly Column[],
  split: number,
): Content {
  const names = 218;
  const each = (LONG - names) / columns.length - 4;
  return {
    table: {
      widths: [names - 4, ...columns.map(() => each)],
      headerRows: 1,
      dontBreakRows: true,
      body: [
        [{ text: "" }, ...columns.map(([word]): TableCell => upright(word, each))],
        ...rows.map((row): TableCell[] => [
          {
            text: [
              { text: dish(row.dish).split(",")[0]!, font: SERIF },
              ...(variant(row.variant) === "" ? [] : [{ text: `  ${variant(row.variant)}`, bold: true }]),
            ],
            fontSize: TYPE.running,
          },
          ...columns.map(([, of, marks]): TableCell => {
            const cell = row.cells.find(of);
            return {
              text: cell ? marks[cell.state] : "",
              alignment: "center",
              bold: true,
              fontSize: TYPE.running,
            };
          }),
        ]),
      ],
    },
    layout: {
      ...RULED,
      vLineWidth: (i) => (i === split + 1 ? 1.5 : i > 1 && i < columns.length + 1 ? 0.25 : 0),
      paddingLeft: () => 2,
      paddingRight: () => 2,
      paddingTop: () => 0,
      paddingBottom: () => 0,
    },
  };
}

/** By dish and allergen: each way of arrival once, with the plates that have it. */
function paths(paper: Paper, rows: readonly Row[]): Content[] {
  const { say, dish, item, variant } = paper;
  return [...Map.groupBy(rows, (row) => row.dish)].map(([id, own], place): Content => {
    // The words of the columns stand once, above the first dish.
    const headed = place === 0;
    const starts = [headed ? 1 : 0];
    const body = ALLERGENS.flatMap((allergen): TableCell[][] => {
      const ways = new Map<string, { words: string; plates: string[]; sure: boolean }>();
      for (const row of own) {
        const cell = row.cells.find((one) => one.allergen === allergen);
        for (const path of cell?.paths ?? []) {
          const words = path.slice(1).map(item).join(" › ");
          const way = ways.get(words) ?? { words, plates: [], sure: cell?.state === "contains" };
          way.plates.push(variant(row.variant) || say("guests.standard"));
          ways.set(words, way);
        }
      }
      starts.push(starts.at(-1)! + ways.size);
      return [...ways.values()].map((way, i): TableCell[] => [
        { text: i === 0 ? wordFor(say, "allergen", allergen) : "", bold: true },
        { text: way.words + (way.sure ? "" : ` (${say("pack.paths.may")})`) },
        {
          text: way.plates.length === own.length ? say("pack.paths.all") : way.plates.join("; "),
          color: QUIET,
        },
      ]);
    });
    const traces = ALLERGENS.filter((allergen) =>
      own.some(({ cells }) =>
        cells.some((cell) => cell.allergen === allergen && cell.shared && cell.state === "may"),
      ),
    );
    const { allergens } = paper;
    return [
      {
        text: [
          { text: dish(id), font: SERIF, fontSize: TYPE.body + 1 },
          ...(body.length > 0 && traces.length > 0
            ? [
                {
                  text: `  ${say("contained.traces.dish", { list: allergens(traces) })}`,
                  ...{ fontSize: TYPE.running, color: QUIET },
                },
              ]
            : []),
        ],
        ...{ margin: [0, 4, 0, 0], headlineLevel: 2 },
      },
      body.length === 0
        ? quiet(allergensSaid(say, { contains: [], mayContain: [], traces }, allergens))
        : {
            stack: [
              {
                ...(ruled(
                  [58, "*", 128],
                  headed
                    ? headCells([say("stores.allergens"), say("pack.paths"), say("guests.variant")])
                    : undefined,
                  body,
                ) as ContentTable),
                layout: {
                  ...RULED,
                  hLineWidth: (i) => (i === starts[0] ? 1 : starts.includes(i) ? 0.5 : 0),
                  paddingTop: (i) => (starts.includes(i) ? 2 : 0),
                  paddingBottom: (i) => (starts.includes(i + 1) ? 1 : 0),
                },
              },
            ],
            fontSize: TYPE.running,
          },
    ];
  });
}
