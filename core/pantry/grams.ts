import type { Cell, CellSource, Ledger } from "../ledger/ledger.ts";
import { times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import { convert, numericValue } from "../quantity/convert.ts";
import type { Amount, Unit } from "../quantity/schema.ts";
import { pieceName, type UnitFacts, unitFacts } from "../quantity/units.ts";
import type { Problem } from "./refusal.ts";
import { gramsOfPieces, gramsOfVolume } from "./rules.ts";
import type { Ingredient } from "./schema.ts";

/** A thousand tonnes, cubic metres or a thousand million pieces of anything: beyond it sums could grow out of bounds. */
const MOST_IN_ONE_AMOUNT = 1e9;

/** What an amount is of: its name, and the cells by which volume and count become mass. */
export interface Matter {
  readonly name: string;
  /** How to mend a missing density or weight of a piece, for messages: "give … a density". */
  readonly mendDensity: string;
  mendPiece(piece: string): string;
  /** kg/L, when known. */
  density(): Cell | undefined;
  /** Grams of one of the pieces that `unit` counts, when known. */
  pieceG(unit: Unit): Cell | undefined;
}

/** The matter of an ingredient; `pointer` is its place in the book. */
export function matterOf(ledger: Ledger, ingredient: Ingredient, pointer: string): Matter {
  return {
    name: ingredient.name,
    mendDensity: `give the ingredient "${ingredient.id}" a density`,
    mendPiece: (piece) => `give the ingredient "${ingredient.id}" the grams of one "${piece}"`,
    density() {
      // A line names no state: "plain" is meant, or whatever stands first.
      const at = Math.max(
        0,
        ingredient.densities.findIndex((density) => density.state === "plain"),
      );
      const density = ingredient.densities[at];
      if (!density) return undefined;
      return stated(ledger, `book:${pointer}/densities/${at}/kgPerL`, "kg/L", density.kgPerL, density.source);
    },
    pieceG(unit) {
      const at = pieceAt(ingredient, unit);
      const piece = ingredient.pieces[at];
      if (!piece) return undefined;
      return stated(ledger, `book:${pointer}/pieces/${at}/g`, "g", piece.g, piece.source);
    },
  };
}

/** A bare "piece" is the piece of that name, or the only one there is; a named piece is itself. */
function pieceAt(ingredient: Ingredient, unit: Unit): number {
  const named = ingredient.pieces.findIndex((piece) => piece.name === (pieceName(unit) ?? "piece"));
  if (named >= 0 || pieceName(unit) !== undefined) return named;
  return ingredient.pieces.length === 1 ? 0 : -1;
}

/**
 * The cell of an amount in grams. What it lacks to become a mass is added to `problems`, and the cell of nothing
 * given, so that all problems of a book are found at once.
 * @param path name of the sum, "calc:/…"; a number already in grams is its own cell.
 * @param at JSON Pointer of the amount in the book.
 */
export function gramsCell(
  ledger: Ledger,
  path: string,
  amount: Amount,
  at: string,
  matter: Matter,
  problems: Problem[],
): Cell {
  const unit = unitFacts(amount.unit);
  const read = numericValue(amount.value);
  if (read * unit.factor > MOST_IN_ONE_AMOUNT) {
    const what = `${amount.value} ${amount.unit} of ${matter.name} is more than any kitchen holds`;
    problems.push({ path: at, what, mend: "check the number and its unit" });
    return nothing(ledger);
  }
  const value = stated(ledger, `book:${at}/value`, amount.unit, read);
  if (unit.dimension === "mass") {
    if (unit.factor === 1) return value;
    return ledger.find(path) ?? ledger.derive(path, "g", times, [value, unitCell(ledger, unit, "g")]);
  }
  if (unit.dimension === "volume") {
    const density = matter.density();
    if (density !== undefined) {
      const inputs = [value, unitCell(ledger, unit, "mL"), density];
      return ledger.find(path) ?? ledger.derive(path, "g", gramsOfVolume, inputs);
    }
  }
  if (unit.dimension === "count") {
    const piece = matter.pieceG(amount.unit);
    if (piece !== undefined) {
      const inputs = [value, unitCell(ledger, unit, "piece"), piece];
      return ledger.find(path) ?? ledger.derive(path, "g", gramsOfPieces, inputs);
    }
  }
  const refused = convert(amount, "g", { of: matter.name });
  problems.push({
    path: at,
    what: refused.ok ? `${amount.unit} of ${matter.name} cannot be weighed` : refused.message,
    mend: mendOf(unit, matter),
  });
  return nothing(ledger);
}

function mendOf(unit: UnitFacts, matter: Matter): string {
  if (unit.dimension === "volume") return `write it by mass, or ${matter.mendDensity}`;
  if (unit.dimension === "count")
    return `write it by mass, or ${matter.mendPiece(pieceName(unit.symbol) ?? "piece")}`;
  return "write it by mass, volume or count";
}

/** Size of a unit in the base unit of its dimension, with where the figure stands. */
function unitCell(ledger: Ledger, unit: UnitFacts, base: string): Cell {
  const name = unit.symbol.replaceAll(" ", "-");
  return stated(ledger, `const:/units/${name}`, `${base} per ${unit.symbol}`, unit.factor, sourceOf(unit));
}

function sourceOf(unit: UnitFacts): CellSource {
  const common = unit.source.includes("common practice");
  return { doc: unit.source, kind: common ? "memory" : "published" };
}
