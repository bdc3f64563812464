import type { PreparationCells } from "../formula/cells.ts";
import type { Larder } from "../formula/larder.ts";
import type { Cell, Ledger } from "../ledger/ledger.ts";
import type { Composition } from "../pantry/schema.ts";
import type { Eaten } from "./contents.ts";
import type { Foods } from "./foods.ts";
import { CARRIED, CARRIED_KEYS, type Carried, figureOf, mostOf } from "./nutrients.ts";
import { keptBySteps } from "./nutrition-kept.ts";
import { type Known, Notes } from "./nutrition-notes.ts";
import { inHundred, onPlate, shareKnown } from "./nutrition-rules.ts";

/** A nutrient with the share of the mass of which it is known; below 1 the value is what is known of it. */
export interface Content {
  readonly amount: Known;
  readonly known: Known;
  /** The most it can be, with what is not known at its most. */
  readonly most: number;
}
export type Contained = Readonly<Record<Carried, Content>>;

/** What lies on a plate: grams of it, from the cell that has them. */
export interface Portion extends Eaten {
  readonly g: Cell;
}

/**
 * What food holds, carried from ingredients through every step of every preparation, at the written yield. A nutrient
 * nobody has recorded is not known, never nothing: it is carried with the share of the mass of which it is known.
 */
export class Nutrition {
  readonly notes = new Notes();
  readonly #larder: Larder;
  readonly #ledger: Ledger;
  readonly #foods: Foods;
  readonly #pointer: (kind: string, id: string) => string;
  readonly #made = new Map<string, Contained>();
  readonly #ingredients = new Map<string, Contained>();

  constructor(larder: Larder, ledger: Ledger, foods: Foods, pointer: (kind: string, id: string) => string) {
    this.#larder = larder;
    this.#ledger = ledger;
    this.#foods = foods;
    this.#pointer = pointer;
  }

  /** Works out a preparation; its parts must have been added before. */
  add(made: PreparationCells): void {
    const { preparation, at, yieldG } = made;
    if (this.#made.has(preparation.id)) return;
    const { notes } = this;
    if (preparation.composition) {
      const found = this.#written(
        preparation.composition,
        undefined,
        `${at}/composition`,
        `calc:/nutrition/${preparation.id}`,
      );
      this.#made.set(preparation.id, found);
      return;
    }
    const heats = new Set(
      this.#foods.stepsOf(preparation.id).flatMap(({ step, heats: hot }) => (hot ? [step.id] : [])),
    );
    const kept = keptBySteps(
      made,
      this.#ledger,
      notes,
      (step) => heats.has(step),
      ({ line }) => this.of(line.item).fat.amount,
      (id) => this.#larder.ingredients.get(id),
    );
    const whole: Known = this.#cell(yieldG);
    const lines = made.lines.map((cells) => ({
      g: this.#cell(cells.ep),
      of: this.of(cells.line.item),
      line: cells.line,
    }));
    const path = `calc:/nutrition/${preparation.id}`;
    const found = eachCarried((nutrient): Content => {
      const { unit } = CARRIED[nutrient];
      const parts = lines.map(({ g, of, line }) => ({ g, of: of[nutrient], kept: kept(line, nutrient) }));
      // What holds nothing of it adds nothing to the sum, nor to the trace.
      const some = parts.filter((part) => part.of.amount.value > 0);
      const inputs = [whole, ...some.flatMap((part) => [part.g, part.of.amount, part.kept])];
      const [yielded, ...numbers] = inputs.map(({ value }) => value);
      const amount = notes.derived(
        `${path}/${nutrient}`,
        inHundred(yielded!, ...numbers),
        unit,
        inHundred,
        inputs,
      );
      const triples = parts.flatMap((part) => [part.g.value, part.of.most, part.kept.value]);
      return {
        amount,
        known: this.#shareKnown(`${path}/${nutrient}/known`, nutrient, lines),
        most: inHundred(yielded!, ...triples),
      };
    });
    this.#made.set(preparation.id, found);
  }

  /** What an ingredient or a preparation holds in 100 g. */
  of(eaten: Eaten): Contained {
    if (eaten.preparation !== undefined) {
      const known = this.#made.get(eaten.preparation);
      if (!known)
        throw new Error(`nutrition: "${eaten.preparation}" was not added before what is made of it`);
      return known;
    }
    const id = eaten.ingredient!;
    const known = this.#ingredients.get(id);
    if (known) return known;
    const { composition, origin } = this.#larder.ingredients.get(id)!;
    const at = `${this.#pointer("ingredients", id)}/composition`;
    const found = this.#written(composition, origin, at, `calc:/nutrition/${id}`);
    this.#ingredients.set(id, found);
    return found;
  }

  /** What a plate holds. @param path of its sums. */
  plate(path: string, portions: readonly Portion[]): Contained {
    const parts = portions.map((portion) => ({ g: this.#cell(portion.g), of: this.of(portion) }));
    return eachCarried((nutrient): Content => {
      const some = parts.filter((part) => part.of[nutrient].amount.value > 0);
      const inputs = some.flatMap((part) => [part.g, part.of[nutrient].amount]);
      const value = onPlate(...inputs.map((input) => input.value));
      const amount = this.notes.derived(
        `${path}/${nutrient}`,
        value,
        CARRIED[nutrient].unit,
        onPlate,
        inputs,
      );
      return {
        amount,
        known: this.#shareKnown(`${path}/${nutrient}/known`, nutrient, parts),
        most: onPlate(...parts.flatMap((part) => [part.g.value, part.of[nutrient].most])),
      };
    });
  }

  #written(
    composition: Composition | undefined,
    origin: Parameters<typeof figureOf>[1],
    at: string,
    path: string,
  ): Contained {
    const { notes } = this;
    return eachCarried((nutrient): Content => {
      const figure = figureOf(composition, origin, nutrient);
      if (!figure)
        return { amount: notes.constant(0), known: notes.constant(0), most: mostOf(composition, nutrient) };
      const { unit } = CARRIED[nutrient];
      const read = figure.from.map((key) =>
        notes.given(`book:${at}/${key}`, unit, composition![key] as number, composition!.source),
      );
      const [only] = read;
      const amount = figure.rule
        ? notes.derived(`${path}/${nutrient}`, figure.value, unit, figure.rule, read)
        : (only ?? notes.constant(0));
      return { amount, known: notes.constant(1), most: figure.value };
    });
  }

  #shareKnown(
    path: string,
    nutrient: Carried,
    parts: readonly { readonly g: Known; readonly of: Contained }[],
  ): Known {
    if (parts.every((part) => part.of[nutrient].known.value === 1)) return this.notes.constant(1);
    const inputs = parts.flatMap((part) => [part.g, part.of[nutrient].known]);
    const value = shareKnown(...inputs.map((input) => input.value));
    return this.notes.derived(path, value, "ratio", shareKnown, inputs);
  }

  #cell(cell: Cell): Known {
    return { value: this.#ledger.value(cell), input: cell };
  }
}

function eachCarried(make: (nutrient: Carried) => Content): Contained {
  return Object.fromEntries(CARRIED_KEYS.map((nutrient) => [nutrient, make(nutrient)])) as Contained;
}
