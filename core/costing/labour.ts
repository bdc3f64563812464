import type { Work } from "../formula/schema.ts";
import type { Cell } from "../ledger/ledger.ts";
import { minus, over, sum, sumOfProducts, times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import type { Amounts } from "../production/amounts.ts";
import type { NeedCells } from "../production/needs.ts";
import { commonWorkMinutes, dividedWorkMinutes } from "../production/plan-rules.ts";
import type { PlateCells } from "../production/plates.ts";
import type { BuyingDocuments } from "../purchasing/documents.ts";
import { meanRate, wageOf } from "./rules.ts";

/** What the hands of one plate cost. */
export interface PlateLabour {
  readonly row: PlateCells;
  readonly plate: Cell;
}

/**
 * Labour at standard: the work the steps write, with the fewest hands, the kitchen's share around the work, and what
 * an hour of the skill costs; plating by the seconds of its placements. Food and hands are never mixed.
 */
export interface LabourCells {
  readonly plates: readonly PlateLabour[];
  readonly preparations: readonly {
    readonly preparation: string;
    readonly minutes: Cell;
    readonly cost: Cell;
  }[];
  /** Everything made and plated. */
  readonly total: Cell;
  readonly minutes: Cell;
  /** Plates of the guests alone, by cover. */
  readonly perCover: Cell;
  /** Skills nobody gave an hour's cost: their work is not in the figures. */
  readonly unrated: readonly string[];
}

/** Labour of a service as cells that follow its amounts; undefined where no hour has a cost. */
export function labourCells(amounts: Amounts, docs: BuyingDocuments): LabourCells | undefined {
  const { ledger, kitchen, cells } = amounts;
  const rates = new Rates(amounts, docs);
  if (!rates.any) return undefined;
  const { currency } = kitchen;
  const perG = new Map<string, Cell>();
  const preparations = cells.preparations.map((need) => {
    const { id } = need.cells.preparation;
    const path = `calc:/labour/${id}`;
    const own = ownLabour(amounts, docs, need, rates, path);
    const parts = need.cells.lines.flatMap(({ line, ep }): Cell[] => {
      if (!("preparation" in line.item)) return [];
      const used = ledger.derive(`${path}/used/${line.id}`, "g", times, [ep, need.factor]);
      return [used, perG.get(line.item.preparation)!];
    });
    const inside = ledger.derive(`${path}/parts`, currency, sumOfProducts, parts);
    const whole = ledger.derive(`${path}/whole`, currency, sum, [own.cost, inside]);
    perG.set(id, ledger.derive(`${path}/per-g`, `${currency}/g`, over, [whole, need.batches.madeG]));
    return { preparation: id, ...own };
  });
  const plating = rates.ofPlating();
  const plates = cells.plates.map((row): PlateLabour & { readonly seconds: Cell; readonly own: Cell } => {
    const path = `calc:/labour/plates/${row.course}/${row.row.dish.id}/${row.row.form.name}`;
    const gestures = row.row.form.placed.flatMap(({ placement, at }) => [
      stated(ledger, `book:${at}/seconds`, "s", placement.seconds),
      stated(ledger, `book:${at}/hands`, "hands", placement.hands),
    ]);
    const seconds = ledger.derive(`${path}/seconds`, "s", sumOfProducts, gestures);
    const minutes = ledger.derive(`${path}/minutes`, "min", over, [seconds, sixty(amounts)]);
    const own = ledger.derive(`${path}/plating`, currency, wageOf, [minutes, one(amounts), plating]);
    const food = row.placed.flatMap(({ preparation, ep }) =>
      preparation === undefined ? [] : [ep, perG.get(preparation)!],
    );
    const inside = ledger.derive(`${path}/parts`, currency, sumOfProducts, food);
    return { row, seconds: minutes, own, plate: ledger.derive(path, currency, sum, [own, inside]) };
  });
  const made = preparations.flatMap(({ cost }) => [cost, one(amounts)]);
  const plated = plates.flatMap(({ row, own }) => [row.plates, own]);
  const eaten = ledger.derive(
    "calc:/labour/eaten",
    currency,
    sumOfProducts,
    plates.flatMap(({ row, plate }) => [row.count, plate]),
  );
  return {
    plates,
    preparations,
    total: ledger.derive("calc:/labour/total", currency, sumOfProducts, [...made, ...plated]),
    minutes: ledger.derive("calc:/labour/minutes", "min", sumOfProducts, [
      ...preparations.flatMap(({ minutes }) => [minutes, one(amounts)]),
      ...plates.flatMap(({ row, seconds }) => [row.plates, seconds]),
    ]),
    perCover: ledger.derive("calc:/labour/per-cover", currency, over, [eaten, cells.covers]),
    unrated: rates.unrated,
  };
}

/** Minutes of hands and their cost for all batches of one preparation, its parts apart. */
function ownLabour(
  amounts: Amounts,
  docs: BuyingDocuments,
  need: NeedCells,
  rates: Rates,
  path: string,
): { readonly minutes: Cell; readonly cost: Cell } {
  const { ledger, kitchen, cells } = amounts;
  const { preparation, at } = need.cells;
  const { batches } = need;
  const rest = ledger.derive(`${path}/rest`, "batch", minus, [batches.count, batches.firstCount]);
  const around = stated(
    ledger,
    `book:${docs.pointer("kitchens", kitchen.id)}/around`,
    "ratio",
    kitchen.around,
  );
  const sheets = cells.sheets.get(preparation.id)!;
  const minutes: Cell[] = [];
  const costs: Cell[] = [];
  preparation.steps.forEach(({ id, work }, s) => {
    const rate = work && rates.of(work.skill);
    if (!work || rate === undefined) return;
    const stepAt = `${at}/steps/${s}/work`;
    const elapsed = (["first", "rest"] as const).flatMap((size): Cell[] => {
      const inG = sheets[size].steps.find((step) => step.step === id)?.inG;
      if (inG === undefined) return [];
      const figures = workFigures(amounts, work, stepAt, inG, batches[size].pieces);
      const divides = work.hands.split === "divides";
      const one = ledger.derive(
        `${path}/${id}/${size}`,
        "min",
        divides ? dividedWorkMinutes : commonWorkMinutes,
        divides ? [...figures, handsOf(amounts, work, stepAt), around] : [...figures, around],
      );
      return [size === "first" ? batches.firstCount : rest, one];
    });
    const whole = ledger.derive(`${path}/${id}`, "min", sumOfProducts, elapsed);
    const hands = handsOf(amounts, work, stepAt);
    minutes.push(whole, hands);
    costs.push(ledger.derive(`${path}/${id}/cost`, kitchen.currency, wageOf, [whole, hands, rate]));
  });
  return {
    minutes: ledger.derive(`${path}/minutes`, "min", sumOfProducts, minutes),
    cost: ledger.derive(`${path}/cost`, kitchen.currency, sum, costs),
  };
}

function workFigures(
  { ledger }: Amounts,
  work: Work,
  at: string,
  inG: Cell,
  pieces: Cell | undefined,
): Cell[] {
  const read = (key: "fixedMin" | "perKgMin" | "perPieceMin" | "perBatchMin") =>
    work[key] === undefined ? nothing(ledger) : stated(ledger, `book:${at}/${key}`, "min", work[key]);
  return [
    read("fixedMin"),
    read("perKgMin"),
    inG,
    read("perPieceMin"),
    pieces ?? nothing(ledger),
    read("perBatchMin"),
  ];
}

function handsOf({ ledger }: Amounts, work: Work, at: string): Cell {
  return stated(ledger, `book:${at}/hands/least`, "hands", work.hands.least);
}

const one = ({ ledger }: Amounts) => stated(ledger, "const:/one", "ratio", 1);
const sixty = ({ ledger }: Amounts) => stated(ledger, "const:/seconds-per-minute", "s/min", 60);

/** What an hour costs: a skill's own; else the mean of those who have it; else the kitchen's. */
class Rates {
  readonly unrated: string[] = [];
  readonly any: boolean;
  readonly #amounts: Amounts;
  readonly #at: string;

  constructor(amounts: Amounts, docs: BuyingDocuments) {
    const { kitchen } = amounts;
    this.#amounts = amounts;
    this.#at = `book:${docs.pointer("kitchens", kitchen.id)}`;
    this.any = [kitchen, ...kitchen.skills, ...kitchen.crew].some((each) => each.rate !== undefined);
  }

  of(skill: string): Cell | undefined {
    const { kitchen } = this.#amounts;
    const s = kitchen.skills.findIndex((each) => each.id === skill);
    const own = kitchen.skills[s]?.rate;
    const found =
      own === undefined
        ? this.#mean(skill, (person) => person.skills.includes(skill))
        : this.#read(`skills/${s}/rate`, own);
    if (found === undefined && !this.unrated.includes(skill)) this.unrated.push(skill);
    return found;
  }

  /** Of those who plate: whoever has the skill "plating", else all. */
  ofPlating(): Cell {
    const { kitchen, ledger } = this.#amounts;
    const plates = kitchen.skills.some((each) => each.id === "plating");
    return (plates ? this.of("plating") : this.#mean("everyone", () => true)) ?? nothing(ledger);
  }

  #mean(name: string, has: (person: Amounts["kitchen"]["crew"][number]) => boolean): Cell | undefined {
    const { kitchen, ledger } = this.#amounts;
    const paid = kitchen.crew.flatMap((person, i) =>
      person.rate !== undefined && has(person) ? [this.#read(`crew/${i}/rate`, person.rate)] : [],
    );
    if (paid.length === 0) return kitchen.rate === undefined ? undefined : this.#read("rate", kitchen.rate);
    const path = `calc:/labour/rates/${name}`;
    return ledger.find(path) ?? ledger.derive(path, `${kitchen.currency}/h`, meanRate, paid);
  }

  #read(key: string, rate: string): Cell {
    const { kitchen, ledger } = this.#amounts;
    return stated(ledger, `${this.#at}/${key}`, `${kitchen.currency}/h`, Number(rate));
  }
}
