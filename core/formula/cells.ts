import type { Cell, Ledger } from "../ledger/ledger.ts";
import { over } from "../ledger/rules.ts";
import { stated } from "../ledger/stated.ts";
import { trimCell } from "../pantry/cuts.ts";
import { gramsCell, type Matter, matterOf } from "../pantry/grams.ts";
import type { Problem } from "../pantry/refusal.ts";
import type { Ingredient, Item } from "../pantry/schema.ts";
import { unitFacts } from "../quantity/units.ts";
import { type Balance, balanceCells } from "./balance.ts";
import type { Pointer } from "./graph.ts";
import type { Larder } from "./larder.ts";
import { type LineCells, lineCells } from "./lines.ts";
import type { Preparation } from "./schema.ts";

/** Less than this is no yield, g. */
const LEAST_YIELD_G = 1e-3;

/** One preparation at its declared yield. */
export interface PreparationCells {
  readonly preparation: Preparation;
  readonly at: string;
  readonly yieldG: Cell;
  readonly pieces: Cell | undefined;
  readonly pieceG: Cell | undefined;
  readonly lines: readonly LineCells[];
  readonly balance: Balance;
  readonly matter: Matter;
}

/** Cells of preparations, each made once and only when asked for. */
export class FormulaCells {
  readonly ledger: Ledger;
  readonly problems: Problem[] = [];
  readonly #larder: Larder;
  readonly #pointer: Pointer;
  readonly #made = new Map<string, PreparationCells>();
  readonly #matters = new Map<string, Matter>();

  constructor(ledger: Ledger, larder: Larder, pointer: Pointer) {
    this.ledger = ledger;
    this.#larder = larder;
    this.#pointer = pointer;
  }

  /** The preparation's cells. Its parts must have been made before: ask in the order of making. */
  add(preparation: Preparation): PreparationCells {
    const known = this.#made.get(preparation.id);
    if (known) return known;
    const at = this.#pointer("preparations", preparation.id);
    const calc = `calc:/preparations/${preparation.id}`;
    const { ledger } = this;
    const declared = preparation.yield;
    const density = (): Cell | undefined =>
      preparation.density &&
      stated(
        ledger,
        `book:${at}/density/kgPerL`,
        "kg/L",
        preparation.density.kgPerL,
        preparation.density.source,
      );
    // A yield in pieces alone has no mass to check the balance against.
    const unweighed: Matter = {
      name: preparation.name,
      mendDensity: `give the preparation "${preparation.id}" a density`,
      mendPiece: () => `give the yield of "${preparation.id}" a mass and its pieces`,
      density,
      pieceG: () => undefined,
    };
    const yieldG = gramsCell(
      ledger,
      `${calc}/yield`,
      declared.amount,
      `${at}/yield/amount`,
      unweighed,
      this.problems,
    );
    // Everything is scaled by the yield: next to nothing would scale without bounds.
    if (!(ledger.value(yieldG) >= LEAST_YIELD_G) && unitFacts(declared.amount.unit).dimension !== "count") {
      const what = "the yield is nothing";
      this.problems.push({ path: `${at}/yield/amount`, what, mend: "give what one making yields" });
    }
    const pieces =
      declared.pieces === undefined
        ? undefined
        : stated(ledger, `book:${at}/yield/pieces`, "piece", declared.pieces);
    const pieceG =
      pieces === undefined ? undefined : ledger.derive(`${calc}/piece`, "g", over, [yieldG, pieces]);
    const matter: Matter = { ...unweighed, pieceG: () => pieceG };
    const lines = preparation.lines.map((line, i) => lineCells(this, line, `${at}/lines/${i}`, calc, yieldG));
    const made: PreparationCells = {
      preparation,
      at,
      yieldG,
      pieces,
      pieceG,
      lines,
      balance: balanceCells(ledger, preparation, at, calc, lines, matter, this.#pointer, this.problems),
      matter,
    };
    this.#made.set(preparation.id, made);
    return made;
  }

  /** Cells already made. */
  get(preparation: string): PreparationCells | undefined {
    return this.#made.get(preparation);
  }

  /** The ingredient with its place in the book. @throws when the larder has none of that id. */
  ingredient(id: string): { readonly ingredient: Ingredient; readonly pointer: string } {
    const ingredient = this.#larder.ingredients.get(id);
    if (!ingredient) throw new Error(`larder: there is no ingredient "${id}"`);
    return { ingredient, pointer: this.#pointer("ingredients", id) };
  }

  /** How volume and count of an item become mass. @throws when a part was not made before. */
  matterOf(item: Item): Matter {
    if ("ingredient" in item) return this.matter(item.ingredient);
    const part = this.#made.get(item.preparation);
    if (!part) throw new Error(`formula: the part "${item.preparation}" was not made before`);
    return part.matter;
  }

  /** How volume and count of an ingredient become mass. */
  matter(ingredientId: string): Matter {
    const known = this.#matters.get(ingredientId);
    if (known) return known;
    const { ingredient, pointer } = this.ingredient(ingredientId);
    const made = matterOf(this.ledger, ingredient, pointer);
    this.#matters.set(ingredientId, made);
    return made;
  }

  /** Share left after a cut; undefined when no cut is named. */
  trim(ingredientId: string, cut: string | undefined): Cell | undefined {
    const { ingredient, pointer } = this.ingredient(ingredientId);
    return trimCell(this.ledger, ingredient, pointer, cut);
  }
}
