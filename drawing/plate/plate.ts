import type { Placement } from "../../core/plating/schema.ts";
import type { Ink } from "../ink.ts";
import { type Drawn, draw, path } from "../tree.ts";
import { formShape } from "./forms.ts";
import { numbersAround } from "./numbers.ts";
import { layPieces } from "./pieces.ts";
import { footprint, type Plate, plateFromAbove } from "./size.ts";

export interface PlateCard {
  readonly plate: Plate;
  readonly placements: readonly Placement[];
  /** Volume of a whole placement in mL, where mass and density give it. */
  readonly volumeOf: (placement: Placement) => number | undefined;
  /** Said to those who can't see it. */
  readonly title: string;
  /** The guest's side and the scale, in words. */
  readonly guest: string;
  readonly scale: string;
  /** Number to bring out. */
  readonly chosen?: number | undefined;
}

/** Room round the plate for the numbers, mm. */
const AROUND = 26;
const NUMBER_RADIUS = 9.5;

/** The plate from above, to scale, in mm: the picture of a plate card (D4, D5). */
export function plateDrawing(card: PlateCard, ink: Ink): Drawn {
  const { plate, placements } = card;
  const { acrossMm, awayMm } = plateFromAbove(plate);
  const halfX = acrossMm / 2;
  const halfY = awayMm / 2;
  const sizes = new Map(placements.map((p) => [p.n, footprint(p, card.volumeOf(p))]));
  const ordered = [...placements].sort((a, b) => a.n - b.n);
  const apart = (2 * NUMBER_RADIUS + 4) / ((Math.min(halfX, halfY) + AROUND * 0.55) * (Math.PI / 180));
  const numbers = numbersAround(ordered, apart);
  const width = acrossMm + 2 * AROUND;
  const height = awayMm + 2 * AROUND + 22;
  return draw(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `${-width / 2} ${-halfY - AROUND} ${width} ${height}`,
      role: "img",
      "aria-label": card.title,
      "font-family": ink.font,
    },
    ...dishware(plate, ink),
    ...ordered.map((placement) =>
      pieces(placement, sizes.get(placement.n)!, ink, placement.n === card.chosen),
    ),
    ...numbers.map((number) =>
      numberMark(number, halfX, halfY, plate.outline === "square", ink, card.chosen),
    ),
    guestMark(halfY, card.guest, ink),
    scaleBar(halfX, halfY, card.scale, ink),
  );
}

function dishware(plate: Plate, ink: Ink): Drawn[] {
  const line = { fill: "none", stroke: ink.ink };
  const well = plate.wellMm / 2;
  const { acrossMm, awayMm } = plateFromAbove(plate);
  if (plate.outline === "square") {
    const corner = Math.min(acrossMm, awayMm) * 0.06;
    return [
      draw("rect", {
        ...line,
        x: -acrossMm / 2,
        y: -awayMm / 2,
        width: acrossMm,
        height: awayMm,
        rx: corner,
        "stroke-width": 1.1,
      }),
      draw("rect", {
        ...line,
        x: -well,
        y: -well,
        width: 2 * well,
        height: 2 * well,
        rx: corner * 0.7,
        "stroke-width": 0.5,
        stroke: ink.rule,
      }),
    ];
  }
  const ratio = awayMm / acrossMm;
  const rim = draw("ellipse", { ...line, rx: acrossMm / 2, ry: awayMm / 2, "stroke-width": 1.1 });
  const inner = draw("ellipse", {
    ...line,
    rx: well,
    ry: well * ratio,
    "stroke-width": 0.5,
    stroke: ink.rule,
  });
  if (plate.outline !== "bowl") return [rim, inner];
  return [
    rim,
    draw("ellipse", { ...line, rx: acrossMm / 2 - 3, ry: awayMm / 2 - 3, "stroke-width": 0.5 }),
    inner,
  ];
}

function pieces(placement: Placement, size: ReturnType<typeof footprint>, ink: Ink, chosen: boolean): Drawn {
  const line = { stroke: chosen ? ink.decide : ink.ink, width: chosen ? 2 : 0.9 };
  return draw(
    "g",
    { "data-n": placement.n },
    ...layPieces(placement, size).map(({ xMm, yMm, turnDeg }) =>
      draw(
        "g",
        { transform: `translate(${num(xMm)} ${num(-yMm)}) rotate(${num(-turnDeg)})` },
        formShape(placement.form, size, ink, line),
      ),
    ),
  );
}

function numberMark(
  { n, atMm, angleDeg }: ReturnType<typeof numbersAround>[number],
  halfX: number,
  halfY: number,
  square: boolean,
  ink: Ink,
  chosen: number | undefined,
): Drawn {
  const angle = (angleDeg * Math.PI) / 180;
  const out = AROUND * 0.55;
  const [x, y] = square
    ? squareEdge(halfX + out, halfY + out, angle)
    : [(halfX + out) * Math.cos(angle), -(halfY + out) * Math.sin(angle)];
  const toX = atMm[0] - x;
  const toY = -atMm[1] - y;
  const far = Math.hypot(toX, toY);
  const from = NUMBER_RADIUS / far;
  const bright = n === chosen;
  return draw(
    "g",
    { "data-n": n },
    draw("path", {
      d: path("M", x + toX * from, y + toY * from, "L", atMm[0], -atMm[1]),
      stroke: bright ? ink.decide : ink.ink,
      "stroke-width": bright ? 1.2 : 0.6,
      fill: "none",
    }),
    draw("circle", { cx: atMm[0], cy: -atMm[1], r: 1.5, fill: bright ? ink.decide : ink.ink }),
    draw("circle", {
      cx: x,
      cy: y,
      r: NUMBER_RADIUS,
      fill: bright ? ink.decide : ink.ground,
      stroke: bright ? ink.decide : ink.ink,
      "stroke-width": 0.9,
    }),
    draw(
      "text",
      {
        x,
        y: y + 4.2,
        "font-size": 12,
        "font-weight": 600,
        "text-anchor": "middle",
        fill: bright ? ink.ground : ink.ink,
      },
      String(n),
    ),
  );
}

/** Where a ray from the centre leaves a rectangle. */
function squareEdge(halfX: number, halfY: number, angle: number): [number, number] {
  const stretch = Math.min(halfX / Math.abs(Math.cos(angle)), halfY / Math.abs(Math.sin(angle)));
  return [stretch * Math.cos(angle), -stretch * Math.sin(angle)];
}

function guestMark(halfY: number, word: string, ink: Ink): Drawn {
  const y = halfY + AROUND + 9;
  return draw(
    "g",
    {},
    draw("path", { d: path("M", -5, y + 1, "L", 0, y - 6, "L", 5, y + 1, "Z"), fill: ink.ink }),
    draw("text", { x: 0, y: y + 11, "font-size": 9, "text-anchor": "middle", fill: ink.quiet }, word),
  );
}

function scaleBar(halfX: number, halfY: number, word: string, ink: Ink): Drawn {
  const x = halfX + AROUND - 54;
  const y = halfY + AROUND + 9;
  return draw(
    "g",
    {},
    draw("path", {
      d: path("M", x, y - 3, "L", x, y, "L", x + 50, y, "L", x + 50, y - 3),
      fill: "none",
      stroke: ink.quiet,
      "stroke-width": 0.7,
    }),
    draw("text", { x: x + 25, y: y + 11, "font-size": 9, "text-anchor": "middle", fill: ink.quiet }, word),
  );
}

function num(value: number): string {
  return String(Math.round(value * 100) / 100);
}
