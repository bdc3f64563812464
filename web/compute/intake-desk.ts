import { Finder } from "../../core/book/find.ts";
import {
  answerRecipe,
  decodeText,
  type ListFile,
  missingOffers,
  PantryIndex,
  type PriceRow,
  type ReadSource,
  readListFile,
  readSource,
  type Shelf,
  SURE,
  shelfBehind,
  type TiedList,
  takeList,
  tieList,
  usualCuts,
} from "../../core/intake/index.ts";
import { importFile } from "../../core/pantry/import-file.ts";
import { type Ingredient, IngredientSchema } from "../../core/pantry/schema.ts";
import type { Asked, Found, Intake, IntakeBook, ListQuestion, OpenedFile } from "./intake-protocol.ts";

/** Answers the questions of intake; the worker hands them over. What was read last is kept, so that answers are quick. */
export class IntakeDesk {
  #book: IntakeBook = { ingredients: [], preparations: [], ovens: [] };
  #index = new PantryIndex([]);
  #pantry: ReadonlyMap<string, Ingredient> = new Map();
  #source: { key: string; read: ReadSource; problems: ReadSource["problems"] } | undefined;
  #list: { key: string; list: ListFile } | undefined;
  #starter: readonly Ingredient[] | undefined;
  #finder: Finder<Ingredient> | undefined;
  #shelf: Shelf | undefined;

  take(book: IntakeBook): void {
    this.#book = book;
    this.#index = new PantryIndex(book.ingredients);
    this.#shelf = undefined;
    this.#pantry = new Map(book.ingredients.map((one) => [one.id, one]));
  }

  async answer<Q extends Asked>(what: Q, asked: Intake[Q]["asked"]): Promise<Intake[Q]["told"]> {
    const answers: { [K in Asked]: (asked: Intake[K]["asked"]) => Promise<Intake[K]["told"]> } = {
      recipe: (q) => this.#recipe(q),
      list: (q) => this.#tied(q),
      take: (q) => this.#taken(q),
      import: (q) => this.#imported(q.files),
      starter: (q) => this.#begun(q.typed),
    };
    return (await answers[what](asked as never)) as Intake[Q]["told"];
  }

  async #recipe({ source, nth, answers }: Intake["recipe"]["asked"]): Promise<Intake["recipe"]["told"]> {
    const key = typeof source === "string" ? source : `${source.name} ${source.bytes.length}`;
    if (this.#source?.key !== key) {
      const { text, problems } =
        typeof source === "string" ? { text: source, problems: [] } : decodeText(source.bytes);
      const read = readSource(text);
      this.#source = { key, read, problems: [...problems, ...read.problems] };
    }
    const { read, problems } = this.#source;
    const none = { title: "", yields: [], parts: [], lines: [], steps: [], other: [], problems: [] };
    const taken = new Set(this.#book.preparations.map((one) => one.id));
    const recipe = read.recipes[nth] ?? none;
    const starter = await this.#starterOnce();
    this.#shelf ??= shelfBehind(this.#pantry, starter);
    return {
      answered: answerRecipe(
        recipe,
        answers,
        this.#index,
        this.#pantry,
        taken,
        this.#shelf,
        this.#book.ovens,
      ),
      titles: read.recipes.map((one) => one.title),
      problems,
    };
  }

  async #read({ file, sheet, confirmed }: ListQuestion): Promise<ListFile> {
    const key = JSON.stringify([file.name, file.bytes.length, sheet, confirmed]);
    if (this.#list?.key !== key) {
      const list = await readListFile(file.bytes, { ...(sheet === undefined ? {} : { sheet }), confirmed });
      this.#list = { key, list };
    }
    return this.#list.list;
  }

  async #tied(asked: ListQuestion): Promise<ListFile & TiedList> {
    const list = await this.#read(asked);
    const { offers, from, currency, ties } = asked;
    const said = (i: number) => {
      const ingredient = ties[i];
      return typeof ingredient === "string" ? { ingredient, confidence: 1, by: "name" as const } : ingredient;
    };
    const tied = tieList(
      list.rows,
      {
        ...{ index: this.#index, pantry: this.#pantry, offers, from, cutOf: usualCuts(this.#book) },
        ...(currency === undefined ? {} : { currency }),
      },
      said,
    );
    return { ...list, ...tied };
  }

  async #taken(asked: Intake["take"]["asked"]): Promise<Intake["take"]["told"]> {
    const { lines } = await this.#tied(asked);
    const chosen = new Set(asked.chosen);
    const tied = lines.flatMap(({ row, tie }, i) => (chosen.has(i) && tie ? [tiedRow(row, tie)] : []));
    const known = lines.flatMap(({ row, tie }) => (tie && tie.confidence >= SURE ? [tiedRow(row, tie)] : []));
    return {
      offers: takeList(asked.offers, tied, asked.from),
      missing: missingOffers(asked.offers, [...known, ...tied], asked.from),
    };
  }

  async #imported(files: readonly OpenedFile[]): Promise<Found> {
    return importFile(files.map(({ name, bytes }) => ({ name, text: decodeText(bytes).text })));
  }

  async #starterOnce(): Promise<readonly Ingredient[]> {
    if (!this.#starter) {
      const { starterPantry } = await import("../../data/pantry/index.ts");
      this.#starter = starterPantry.map((one) => IngredientSchema.parse(one));
    }
    return this.#starter;
  }

  async #begun(typed: string): Promise<Found> {
    this.#finder ??= new Finder(await this.#starterOnce());
    const found = this.#finder.find(typed).filter((one) => !this.#pantry.has(one.id));
    return { ingredients: found, doubts: [], problems: [] };
  }
}

const tiedRow = (row: PriceRow, tie: { ingredient: string; cut?: string }) => ({
  ...{ row, ingredient: tie.ingredient },
  ...(tie.cut ? { cut: tie.cut } : {}),
});
