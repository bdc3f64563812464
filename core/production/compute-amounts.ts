import { type Batch, batchList } from "../formula/batches.ts";
import { FormulaCells } from "../formula/cells.ts";
import { orderOfMaking } from "../formula/graph.ts";
import { Ledger, OutOfBounds } from "../ledger/ledger.ts";
import { type Problem, Refusal } from "../pantry/refusal.ts";
import { writeAmount } from "../quantity/write.ts";
import type {
  Amounts,
  AmountsOptions,
  AmountsWarning,
  BatchAmount,
  PreparationAmount,
  StepAmount,
  UseAmount,
} from "./amounts.ts";
import { besideCells, preparedBeside } from "./beside.ts";
import type { AmountCells } from "./cells.ts";
import type { Documents } from "./documents.ts";
import { countOf, type Seating, seatGuests } from "./guests.ts";
import { type NeedCells, needCells, type UseCell } from "./needs.ts";
import { COVERS, plateCells } from "./plates.ts";
import type { Kitchen, Menu, Service } from "./schema.ts";
import { serviceBalance, sheetCells } from "./sheet-cells.ts";

/** More than any service; beyond it a slip of the finger is likelier than a feast. */
export const MOST_COVERS = 100_000;
/** More batches of one preparation than anyone makes for a service: the limit of its batch is wrong. */
export const MOST_BATCHES = 10_000;

/** A batch this many times the written yield has not been tried (common practice, no source). */
export const TRIED_TIMES = 4;

/**
 * All amounts of one service: plates by dish and form, preparations with batches and mass by step, ingredients.
 * @param options covers and kitchen instead of the service's own; `meets` says whether placements meet needs.
 * @throws Refusal with every problem found: a document missing, an amount that cannot be weighed, a circle,
 *   fewer covers than guests named.
 */
export function computeAmounts(docs: Documents, serviceId: string, options: AmountsOptions): Amounts {
  return bounded(() => new AmountsModel(docs, serviceId, options).at(options.covers));
}

/** Refuses numbers without bounds in words. */
function bounded<T>(compute: () => T): T {
  try {
    return compute();
  } catch (error) {
    if (!(error instanceof OutOfBounds)) throw error;
    const what = `the amounts grow out of all bounds (${error.path})`;
    throw new Refusal([{ path: "", what, mend: "look for an amount or a yield in a wrong unit" }]);
  }
}

class AmountsModel {
  readonly #service: Service;
  readonly #serviceAt: string;
  readonly #menu: Menu;
  readonly #menuAt: string;
  readonly #kitchen: Kitchen;
  readonly #ledger = new Ledger();
  readonly #seating: readonly Seating[];
  readonly #cells: AmountCells;
  /** Doubts that hold at any number of covers. */
  readonly #warnings: AmountsWarning[] = [];
  readonly #steps = new Map<string, ReadonlyMap<string, StepAmount>>();

  constructor(docs: Documents, serviceId: string, options: AmountsOptions) {
    const service = find(docs.services, "service", serviceId, "");
    const serviceAt = docs.pointer("services", service.id);
    const kitchenId = options.kitchen ?? service.kitchen;
    this.#service = service;
    this.#serviceAt = serviceAt;
    this.#menu = find(docs.menus, "menu", service.menu, `${serviceAt}/menu`);
    this.#kitchen = find(docs.kitchens, "kitchen", kitchenId, `${serviceAt}/kitchen`);
    const problems: Problem[] = [];
    const covers = options.covers ?? service.covers;
    this.#seating = seatGuests(docs, service, this.#menu, options.meets, problems, this.#warnings);
    if (problems.length > 0) throw new Refusal(problems);
    this.#menuAt = docs.pointer("menus", this.#menu.id);
    this.#refuseImpossible(covers);

    const roots = this.#seating.flatMap(({ rows }) =>
      rows.flatMap(({ form }) => form.placed.flatMap(({ placement }) => placement.preparation ?? [])),
    );
    roots.push(...preparedBeside(this.#menu));
    const order = orderOfMaking(docs, new Set(roots), docs.pointer);
    const formula = new FormulaCells(this.#ledger, docs, docs.pointer);
    const made = order.map((preparation) => formula.add(preparation));
    if (formula.problems.length > 0) throw new Refusal(formula.problems);
    const coversCell = this.#ledger.give(COVERS, "cover", covers);
    const plates = plateCells(formula, docs, service, this.#seating, coversCell);
    const { preparations, ingredients } = needCells(formula, made, plates, service, serviceAt, {
      covers: coversCell,
      items: besideCells(formula, this.#menu, this.#menuAt),
    });
    if (formula.problems.length > 0) throw new Refusal(formula.problems);
    const kitchenAt = docs.pointer("kitchens", this.#kitchen.id);
    const sheet = (need: NeedCells, size: "first" | "rest") =>
      sheetCells(this.#ledger, need, size, this.#kitchen, kitchenAt);
    this.#cells = {
      covers: coversCell,
      formula,
      plates,
      preparations,
      ingredients,
      balances: new Map(
        preparations.map((need) => [need.cells.preparation.id, serviceBalance(this.#ledger, need)]),
      ),
      sheets: new Map(
        preparations.map((need) => [
          need.cells.preparation.id,
          { first: sheet(need, "first"), rest: sheet(need, "rest") },
        ]),
      ),
    };
    for (const need of preparations) this.#readBalance(need);
  }

  /** The amounts at a number of covers, as values. */
  at(covers: number = this.#service.covers): Amounts {
    this.#refuseImpossible(covers);
    this.#ledger.change(this.#cells.covers, covers);
    this.#ledger.settle();
    this.#refuseTooManyBatches();
    const warnings = [...this.#warnings];
    const preparations = new Map<string, PreparationAmount>();
    for (const need of this.#cells.preparations) {
      const amount = this.#preparation(need);
      if (amount.grams <= 0 && amount.askedG <= 0) continue;
      preparations.set(amount.preparation, amount);
      const largest = Math.max(0, ...amount.batches.map((batch) => batch.grams));
      if (largest > TRIED_TIMES * amount.nominalG * (1 + 1e-9))
        warnings.push({
          path: need.cells.at,
          what: `${need.cells.preparation.name}: a batch of ${weight(largest)} is more than ${TRIED_TIMES} times the ${weight(amount.nominalG)} that is written`,
          mend: "try a batch of this size first, or limit the batch",
        });
    }
    return {
      service: this.#service,
      menu: this.#menu,
      kitchen: this.#kitchen,
      covers,
      plates: this.#cells.plates.map((row) => ({
        course: row.course,
        dish: row.row.dish.id,
        variant: row.row.form.name,
        needs: row.needs,
        count: this.#ledger.value(row.count),
        spare: this.#ledger.value(row.spare),
        seats: row.seats,
        placements: row.row.form.placed.map((each) => each.placement),
        notFed: row.notFed,
      })),
      preparations,
      ingredients: this.#cells.ingredients.map((each) => ({
        ingredient: each.ingredient,
        ...(each.cut === undefined ? {} : { cut: each.cut }),
        epG: this.#ledger.value(each.ep),
        apG: this.#ledger.value(each.ap),
        usedBy: this.#uses(each.uses),
      })),
      warnings,
      ledger: this.#ledger,
      cells: this.#cells,
      update: (next) => bounded(() => this.at(next)),
    };
  }

  #refuseTooManyBatches(): void {
    const found = this.#cells.preparations.flatMap(({ cells, batches }): Problem[] => {
      const count = this.#ledger.value(batches.count);
      if (count <= MOST_BATCHES) return [];
      const what = `${count} batches of "${cells.preparation.id}"`;
      return [
        {
          path: `${cells.at}/batch`,
          what,
          mend: "raise the most that one batch can be, or lower the covers",
        },
      ];
    });
    if (found.length > 0) throw new Refusal(found);
  }

  #preparation({ cells, uses, overage, asked, stock, batches, factor }: NeedCells): PreparationAmount {
    const ledger = this.#ledger;
    const grams = ledger.value(batches.madeG);
    const pieces = batches.pieces === undefined ? {} : { pieces: ledger.value(batches.pieces) };
    const pieceG = cells.pieceG === undefined ? {} : { pieceG: ledger.value(cells.pieceG) };
    const { id } = cells.preparation;
    return {
      preparation: id,
      nominalG: ledger.value(cells.yieldG),
      askedG: ledger.value(asked),
      overageG: ledger.value(overage),
      stockG: ledger.value(stock),
      grams,
      factor: ledger.value(factor),
      ...pieces,
      ...pieceG,
      batches: batchList(ledger, batches).map((batch) => batchAmount(batch, grams)),
      steps: this.#steps.get(id)!,
      usedBy: this.#uses(uses),
    };
  }

  #uses(uses: readonly UseCell[]): UseAmount[] {
    return uses.flatMap(({ g, ...by }) => {
      const grams = this.#ledger.value(g);
      return grams > 0 ? [{ ...by, grams }] : [];
    });
  }

  /** The mass through the steps hangs on the formula alone; a yield that it misses is a doubt. */
  #readBalance({ cells }: NeedCells): void {
    const value = (cell: Parameters<Ledger["value"]>[0]) => this.#ledger.value(cell);
    const { preparation, balance, at } = cells;
    this.#steps.set(
      preparation.id,
      new Map(
        balance.steps.map((step) => [
          step.step.id,
          {
            step: step.step.id,
            inG: value(step.inG),
            waterG: value(step.water),
            outG: value(step.outG),
            lossG: value(step.lossG),
            lost: step.lost.map(({ how, g }) => ({ how, g: value(g) })),
          },
        ]),
      ),
    );
    const [out, declared] = [value(balance.outG), value(cells.yieldG)];
    const off = (out - declared) / declared;
    if (Math.abs(off) > preparation.yield.tolerance + 1e-9)
      this.#warnings.push({
        path: `${at}/yield/amount`,
        what: `the steps make ${Math.round(out)} g, the yield says ${Math.round(declared)} g (${(off * 100).toFixed(1)} %)`,
        mend: "weigh it, then correct the yield or the losses of the steps",
      });
  }

  /** Named guests are persons: they cannot be fewer than they are; and the rest must go somewhere. */
  #refuseImpossible(covers: number): void {
    const { guests } = this.#service;
    const path = `${this.#serviceAt}/covers`;
    const named = guests.reduce((total, group) => total + group.count, 0);
    if (!Number.isSafeInteger(covers) || covers < 1)
      throw new Refusal([{ path, what: `${covers} covers`, mend: "give a whole number from 1 up" }]);
    if (covers > MOST_COVERS)
      throw new Refusal([{ path, what: `${covers} covers`, mend: `give at most ${MOST_COVERS}` }]);
    if (covers < named)
      throw new Refusal([
        {
          path,
          what: `${covers} covers are fewer than the ${named} guests named`,
          mend: `ask for ${named} covers or more, or take guests off the list`,
        },
      ]);
    this.#seating.forEach(({ course, apart }, c) => {
      const rest = covers - countOf(guests, apart);
      if (rest === 0 || course.options.some((option) => option.share > 0)) return;
      throw new Refusal([
        {
          path: `${this.#menuAt}/courses/${c}/options`,
          what: `${rest} guests did not choose at "${course.id}", and no option has a share of them`,
          mend: "give at least one option a share above 0",
        },
      ]);
    });
  }
}

function batchAmount({ index, grams, pieces }: Batch, whole: number): BatchAmount {
  return { index, grams, ...(pieces === undefined ? {} : { pieces }), share: grams / whole };
}

function find<T>(documents: ReadonlyMap<string, T>, kind: string, id: string, path: string): T {
  const found = documents.get(id);
  if (found) return found;
  const known = [...documents.keys()].slice(0, 8).join(", ");
  throw new Refusal([
    {
      path,
      what: `there is no ${kind} "${id}"`,
      mend: known ? `name one of: ${known}` : `add a ${kind} to the book`,
    },
  ]);
}

/** Grams as a cook reads them. */
const weight = (g: number) => writeAmount({ value: g, unit: "g" }, { system: "metric" }).text;
