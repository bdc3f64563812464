import type { LogLine } from "../safety/log-lines.ts";
import { type Standing, standing } from "../safety/log-lines.ts";
import { changeFactor, type Documents, type Figure, goesOn } from "./figures.ts";
import { keptShare, outOverIn } from "./rules.ts";
import type { Cook, Pieces, Time, Trim } from "./schema.ts";

/** One measurement of one figure. */
export interface Observation {
  readonly figure: Figure;
  /** In the figure's own unit: EP / AP, out / in, g of a piece, time taken / time planned. */
  readonly value: number;
  readonly by: string;
  readonly at: string;
  readonly service: string;
  /** The entry as first written. */
  readonly entry: string;
  /** The line that counts now. */
  readonly line: LogLine<Trim | Cook | Pieces | Time>;
}

/** What was measured, in the order it was; of what the book no longer has, nothing. */
export function observations(docs: Documents, lines: readonly LogLine[]): Observation[] {
  return standing<Trim | Cook | Pieces | Time>(lines, ["trim", "cook", "pieces", "time"]).flatMap((one) =>
    observed(docs, one),
  );
}

function observed(docs: Documents, { first, now }: Standing<Trim | Cook | Pieces | Time>): Observation[] {
  const { body } = now;
  const of = (figure: Figure, value: number): Observation[] => [
    { figure, value, by: now.by, at: first.at, service: first.service, entry: first.id, line: now },
  ];
  switch (body.kind) {
    case "trim":
      return of({ kind: "cut", of: body.ingredient, part: body.cut }, keptShare(body.epG, body.apG));
    case "pieces":
      return of({ kind: "piece", of: body.ingredient, part: body.piece }, body.g / body.pieces);
    case "time":
      return of({ kind: "work", of: body.preparation, part: body.step }, body.actualMin / body.plannedMin);
    case "cook": {
      const step = docs.preparations
        .find((one) => one.id === body.preparation)
        ?.steps.find((one) => one.id === body.step);
      if (!step || !changeFactor(step)) return [];
      return of(
        { kind: "step", of: body.preparation, part: body.step },
        outOverIn(body.outG, body.inG, goesOn(step)),
      );
    }
  }
}
