import type { Cell, Ledger } from "../ledger/ledger.ts";
import { over, smallest, times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { gramsCell } from "../pantry/grams.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { PreparationCells } from "./cells.ts";
import {
  batchCount,
  evenBatch,
  fullBatches,
  largerBatch,
  largerBatches,
  piecesWithin,
  restBatch,
  smallerBatch,
  wholePieces,
} from "./rules.ts";

/** One size of batch, g and pieces, and its multiple of the written yield. */
export interface BatchSize {
  readonly g: Cell;
  readonly pieces: Cell | undefined;
  readonly scale: Cell;
}

/**
 * The batches of a preparation. Whatever the amount there are at most two sizes, so the cells stay the same
 * when the covers change: the first `firstCount` batches have the first size, the others the second.
 */
export interface BatchCells {
  /** To be made, g and whole pieces. */
  readonly madeG: Cell;
  readonly pieces: Cell | undefined;
  readonly count: Cell;
  readonly firstCount: Cell;
  readonly first: BatchSize;
  readonly rest: BatchSize;
}

/** One batch, from 1 on. */
export interface Batch {
  readonly index: number;
  readonly size: "first" | "rest";
  readonly grams: number;
  readonly pieces: number | undefined;
}

/**
 * Divides what is asked into batches by the preparation's policy: whole pieces where it is made in pieces,
 * whole batches where it says so.
 * @param asked g to be made. @param path "calc:/…" of the sums.
 */
export function batchCells(
  ledger: Ledger,
  cells: PreparationCells,
  asked: Cell,
  path: string,
  problems: Problem[],
): BatchCells {
  const most = mostInBatch(ledger, cells, path, problems);
  return cells.pieceG === undefined
    ? byMass(ledger, cells, asked, most, path)
    : byPiece(ledger, cells, cells.pieceG, asked, most, path);
}

/** The batches one by one. */
export function batchList(ledger: Ledger, cells: BatchCells): Batch[] {
  const count = ledger.value(cells.count);
  const firstCount = ledger.value(cells.firstCount);
  return Array.from({ length: count }, (_, i): Batch => {
    const size = i < firstCount ? "first" : "rest";
    const { g, pieces } = cells[size];
    const made = pieces === undefined ? undefined : ledger.value(pieces);
    return { index: i + 1, size, grams: ledger.value(g), pieces: made };
  });
}

/** Most of one batch: g, or pieces where the preparation is made in pieces; undefined for no limit. */
function mostInBatch(
  ledger: Ledger,
  cells: PreparationCells,
  path: string,
  problems: Problem[],
): Cell | undefined {
  const { preparation, at, matter, pieceG } = cells;
  const { batch } = preparation;
  const massAt = `${at}/batch/maxAmount`;
  const found = problems.length;
  const problem = (path: string, what: string, mend: string) => problems.push({ path, what, mend });
  const mass =
    batch.maxAmount && gramsCell(ledger, `${path}/most`, batch.maxAmount, massAt, matter, problems);
  if (mass !== undefined && problems.length === found && !(ledger.value(mass) > 0))
    problem(massAt, "a batch of nothing", "give the most that one batch can be");
  const count =
    batch.maxPieces === undefined
      ? undefined
      : stated(ledger, `book:${at}/batch/maxPieces`, "piece", batch.maxPieces);
  if (count !== undefined && pieceG === undefined)
    problem(
      `${at}/batch/maxPieces`,
      "a batch is limited in pieces, but the yield names none",
      "give yield.pieces, or limit the batch by maxAmount",
    );
  // A limit that is refused limits nothing: the sums go on, so that all problems are found.
  if (problems.length > found) return undefined;
  // "Whole batches only" without a limit means whole multiples of what is written.
  const written = batch.policy === "whole-only";
  if (pieceG === undefined) return mass ?? (written ? cells.yieldG : undefined);
  const inMass = mass && ledger.derive(`${path}/most/pieces`, "piece", piecesWithin, [mass, pieceG]);
  if (inMass !== undefined && ledger.value(inMass) < 1) {
    const [most, piece] = [mass!, pieceG].map((cell) => Math.round(ledger.value(cell)));
    problem(
      massAt,
      `a batch of at most ${most} g holds not one piece of ${piece} g`,
      "raise maxAmount, or check the yield and its pieces",
    );
    return undefined;
  }
  if (inMass !== undefined && count !== undefined)
    return ledger.derive(`${path}/most/both`, "piece", smallest, [inMass, count]);
  return inMass ?? count ?? (written ? cells.pieces : undefined);
}

function byMass(
  ledger: Ledger,
  cells: PreparationCells,
  asked: Cell,
  most: Cell | undefined,
  path: string,
): BatchCells {
  const none = nothing(ledger);
  const noSize: BatchSize = { g: none, pieces: undefined, scale: none };
  const size = (name: string, g: Cell): BatchSize => ({
    g,
    pieces: undefined,
    scale: ledger.derive(`${path}/${name}/scale`, "ratio", over, [g, cells.yieldG]),
  });
  // Without a limit one batch takes it all: the limit is the amount itself.
  const count = ledger.derive(`${path}/count`, "batch", batchCount, [asked, most ?? asked]);
  switch (most === undefined ? "even" : cells.preparation.batch.policy) {
    case "even": {
      const first = size("first", ledger.derive(`${path}/first/g`, "g", evenBatch, [asked, count]));
      return { madeG: asked, pieces: undefined, count, firstCount: count, first, rest: noSize };
    }
    case "full-then-rest": {
      const firstCount = ledger.derive(`${path}/first/count`, "batch", fullBatches, [count]);
      const rest = ledger.derive(`${path}/rest/g`, "g", restBatch, [asked, count, most!]);
      return {
        madeG: asked,
        pieces: undefined,
        count,
        firstCount,
        first: size("first", most!),
        rest: size("rest", rest),
      };
    }
    case "whole-only": {
      const madeG = ledger.derive(`${path}/made`, "g", times, [count, most!]);
      return {
        madeG,
        pieces: undefined,
        count,
        firstCount: count,
        first: size("first", most!),
        rest: noSize,
      };
    }
  }
}

function byPiece(
  ledger: Ledger,
  cells: PreparationCells,
  pieceG: Cell,
  asked: Cell,
  most: Cell | undefined,
  path: string,
): BatchCells {
  const none = nothing(ledger);
  const noSize: BatchSize = { g: none, pieces: none, scale: none };
  const size = (name: string, pieces: Cell): BatchSize => {
    const g = ledger.derive(`${path}/${name}/g`, "g", times, [pieces, pieceG]);
    return { g, pieces, scale: ledger.derive(`${path}/${name}/scale`, "ratio", over, [g, cells.yieldG]) };
  };
  const whole = ledger.derive(`${path}/whole`, "piece", wholePieces, [asked, pieceG]);
  const count = ledger.derive(`${path}/count`, "batch", batchCount, [whole, most ?? whole]);
  const made = (pieces: Cell) => ledger.derive(`${path}/made`, "g", times, [pieces, pieceG]);
  switch (most === undefined ? "even" : cells.preparation.batch.policy) {
    case "even": {
      const firstCount = ledger.derive(`${path}/first/count`, "batch", largerBatches, [whole, count]);
      const first = ledger.derive(`${path}/first/pieces`, "piece", largerBatch, [whole, count]);
      const rest = ledger.derive(`${path}/rest/pieces`, "piece", smallerBatch, [whole, count]);
      return {
        madeG: made(whole),
        pieces: whole,
        count,
        firstCount,
        first: size("first", first),
        rest: size("rest", rest),
      };
    }
    case "full-then-rest": {
      const firstCount = ledger.derive(`${path}/first/count`, "batch", fullBatches, [count]);
      const rest = ledger.derive(`${path}/rest/pieces`, "piece", restBatch, [whole, count, most!]);
      return {
        madeG: made(whole),
        pieces: whole,
        count,
        firstCount,
        first: size("first", most!),
        rest: size("rest", rest),
      };
    }
    case "whole-only": {
      const pieces = ledger.derive(`${path}/full`, "piece", times, [count, most!]);
      return {
        madeG: made(pieces),
        pieces,
        count,
        firstCount: count,
        first: size("first", most!),
        rest: noSize,
      };
    }
  }
}
