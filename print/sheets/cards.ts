import type { Content, ContentSvg, TableCell } from "pdfmake/interfaces.js";
import type { Dish, Placement } from "../../core/plating/schema.ts";
import { placementsOf } from "../../core/production/placements-of.ts";
import { STANDARD } from "../../core/production/variants.ts";
import type { PlateCount } from "../../core/run/result.ts";
import { PAPER_INK, placementVolume, plateDrawing, svgText } from "../../drawing/index.ts";
import { inFont } from "../fonts.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { beside, close, DENSE, GAP, hair, QUIET, quiet, ruled, SERIF, TYPE, WIDTH } from "../parts.ts";

/** Points in a millimetre. */
const PT_PER_MM = 72 / 25.4;
/** A dish's own card is drawn as large as its half of the page allows; the smaller cards of its variants at 1 : 6. */
const RATIOS = [2.5, 3, 3.5, 4, 4.5, 5, 6];
const SMALL = 6;
/** Widths kept for the picture, points. */
const LARGE = 225;
const PICTURE = 150;
/** Of a placement's weight, with its seconds and its temperature below. */
const SAID = 92;

/** A card a dish with the plate to scale, numbered in order of placing; after it the plates for guests with needs. */
export function cardPages(paper: Paper): SheetPages[] {
  const { result, library, say } = paper;
  const byDish = Map.groupBy(
    result.plates.filter((row) => row.count + row.spare > 0),
    (row) => row.dish,
  );
  const content = [...byDish].flatMap(([id, rows]): Content[] => {
    const dish = library.dishes.get(id);
    if (!dish) return [];
    const own = rows.find((row) => row.variant === STANDARD);
    const others = rows.filter((row) => row !== own);
    return [
      ...(own
        ? [{ stack: [card(paper, dish, own)], unbreakable: true, ...DENSE, margin: [0, 0, 0, 8] } as Content]
        : []),
      ...others.map((row): Content => variantCard(paper, dish, row)),
    ];
  });
  return content.length === 0 ? [] : [{ name: say("pack.cards"), content }];
}

/** The plate from above; its size on paper follows from the scale alone. */
function plateOf(paper: Paper, dish: Dish, placements: readonly Placement[]) {
  const { library, say, write, item } = paper;
  const drawing = plateDrawing(
    {
      plate: dish.plate,
      placements,
      volumeOf: (placement) => placementVolume(placement, library),
      title: say("plate.title", {
        name: dish.name,
        list: write.list(placements.map((p) => `${p.n} ${item(p.preparation ?? p.ingredient ?? "")}`)),
      }),
      guest: say("plate.guest"),
      scale: write.length(50),
    },
    PAPER_INK,
  );
  const [, , widthMm = 1, heightMm = 1] = String(drawing.attributes.viewBox).split(" ").map(Number);
  return {
    widthMm,
    heightMm,
    at: (ratio: number): ContentSvg => ({
      svg: inFont(svgText(drawing)),
      width: (widthMm / ratio) * PT_PER_MM,
      font: "SourceSans3",
    }),
  };
}

/** The largest scale at which the picture leaves room for the placements beside it. */
function scaleFor(plate: { widthMm: number }): number {
  return RATIOS.find((ratio) => (plate.widthMm / ratio) * PT_PER_MM <= LARGE) ?? RATIOS.at(-1)!;
}

/** "× 62 and 2 spare; seats 5-1, 9-8": how many, and for whom where that is known. */
function counts({ say, write }: Paper, row: PlateCount): string {
  const count = say("pass.count", { count: row.count, spare: row.spare });
  const seats =
    row.variant !== STANDARD && row.seats.length > 0
      ? `, ${say("pack.card.seats", { list: write.list(row.seats) })}`
      : "";
  return count + seats;
}

function card(paper: Paper, dish: Dish, row: PlateCount): Content {
  const { say, write } = paper;
  const placements = placementsOf(dish, row.variant);
  const plate = plateOf(paper, dish, placements);
  const ratio = scaleFor(plate);
  return [
    beside(
      [
        {
          text: dish.name,
          font: SERIF,
          fontSize: TYPE.head,
          outline: true,
        } as Content,
        { text: counts(paper, row), bold: true, fontSize: TYPE.body, margin: [0, 3, 0, 0] },
      ],
      [
        { text: write.mass(row.plateG), bold: true, fontSize: TYPE.board },
        quiet([dish.plate.name ?? "", write.length(dish.plate.widthMm)].filter(Boolean).join(", ")),
        ...(dish.plate.plateC === undefined
          ? []
          : [quiet(say("pass.plateC", { c: write.temperature(dish.plate.plateC) }))]),
        quiet(say("pack.card.scale", { ratio })),
      ],
    ),
    {
      columns: [
        { width: LARGE, stack: [plate.at(ratio)] },
        {
          width: WIDTH - LARGE - GAP,
          stack: [
            close(
              ruled(
                [20, "*", SAID],
                undefined,
                placements.map((placement) => placed(paper, placement, TYPE.body)),
                WIDTH - LARGE - GAP,
              ),
            ),
          ],
        },
      ],
      columnGap: GAP,
      margin: [0, 4, 0, 0],
    },
  ];
}

function placed(paper: Paper, placement: Placement, size: number, changed = false): TableCell[] {
  const { say, write, item, set } = paper;
  const { serveC } = placement;
  return [
    { text: String(placement.n), bold: true, fontSize: size + 5, alignment: "center" },
    {
      stack: [
        {
          text: [
            { text: item(placement.preparation ?? placement.ingredient ?? ""), bold: true },
            ...(changed ? [{ text: "  ▲" }] : []),
          ],
          fontSize: size,
        },
        { text: set(placement.gesture), fontSize: size },
      ],
    },
    {
      stack: [
        {
          text: [
            ...(placement.count > 1
              ? [{ ...quiet(say("bench.pieces", { count: placement.count })) }, { text: "  " }]
              : []),
            {
              text: write.quantity({ value: Number(placement.amount.value), unit: placement.amount.unit }),
              bold: true,
              fontSize: size + 1,
            },
          ],
        },
        quiet(
          [
            `${write.number(placement.seconds)} s`,
            ...(serveC?.atLeast === undefined ? [] : [`≥ ${write.temperature(serveC.atLeast)}`]),
            ...(serveC?.atMost === undefined ? [] : [`≤ ${write.temperature(serveC.atMost)}`]),
          ].join(", "),
        ),
      ],
      alignment: "right",
    },
  ];
}

/** A guest's plate: what differs in full, what is as on everyone's plate by its number. */
function variantCard(paper: Paper, dish: Dish, row: PlateCount): Content {
  const { say, write, item, variant } = paper;
  const placements = placementsOf(dish, row.variant);
  const usual = placementsOf(dish, STANDARD);
  const changed = (placement: Placement) => !usual.includes(placement);
  // Where only what is placed differs, the dish's own picture holds: a second one would say nothing.
  const drawn = placements.length !== usual.length || placements.some((one, i) => !samePlace(one, usual[i]!));
  const inside = drawn ? WIDTH - PICTURE - GAP : WIDTH;
  const left = usual.filter((one) => !placements.some((other) => other.n === one.n));
  return {
    unbreakable: true,
    ...DENSE,
    margin: [0, 4, 0, 3],
    stack: [
      hair(WIDTH, 1.5),
      {
        margin: [0, 4, 0, 0],
        columns: [
          {
            width: "*",
            text: [
              { text: variant(row.variant), bold: true, fontSize: TYPE.board + 3 },
              { text: `   ${counts(paper, row)}`, bold: true },
            ],
          },
          {
            width: 190,
            text: dish.name,
            font: SERIF,
            fontSize: TYPE.note,
            alignment: "right" as const,
            margin: [0, 3, 0, 0],
          },
        ],
      },
      {
        margin: [0, 2, 0, 0],
        columns: [
          ...(drawn
            ? [
                {
                  width: PICTURE,
                  stack: [
                    plateOf(paper, dish, placements).at(SMALL),
                    quiet(`${write.mass(row.plateG)}, ${say("pack.card.scale", { ratio: SMALL })}`),
                  ],
                },
              ]
            : []),
          {
            width: inside,
            stack: [
              close(
                ruled(
                  [18, "*", SAID],
                  undefined,
                  placements.filter(changed).map((placement) => placed(paper, placement, TYPE.note, true)),
                  inside,
                ),
              ),
              asUsual(
                paper,
                placements.filter((placement) => !changed(placement)),
                placements.some(changed),
              ),
              ...(left.length > 0
                ? [
                    {
                      text: say("pack.card.left", {
                        list: write.list(
                          left.map((one) => `${one.n} ${item(one.preparation ?? one.ingredient ?? "")}`),
                        ),
                      }),
                      bold: true,
                      fontSize: TYPE.note,
                    } as Content,
                  ]
                : []),
            ],
          },
        ],
        columnGap: GAP,
      },
    ],
  };
}

/** Whether two things lie on the plate alike: seen from above, at the same place. */
function samePlace(a: Placement, b: Placement): boolean {
  return (
    a.n === b.n &&
    a.form === b.form &&
    a.count === b.count &&
    a.xMm === b.xMm &&
    a.yMm === b.yMm &&
    a.turnDeg === b.turnDeg &&
    String(a.sizeMm) === String(b.sizeMm)
  );
}

function asUsual(
  { say, write, item }: Paper,
  placements: readonly Placement[],
  someChanged: boolean,
): Content {
  const mark = someChanged ? `▲ ${say("pack.card.changed")}.  ` : "";
  if (placements.length === 0) return { text: mark, fontSize: TYPE.note, margin: [0, 4, 0, 0] };
  const list = placements.map(({ n, preparation, ingredient, amount }) => {
    const quantity = write.quantity({ value: Number(amount.value), unit: amount.unit });
    return `${n} ${item(preparation ?? ingredient ?? "")} ${quantity}`;
  });
  return {
    text: [{ text: mark, color: QUIET }, say("pack.card.usual", { list: write.list(list) })],
    fontSize: TYPE.note,
    margin: [0, 4, 0, 0],
  };
}
