import { batchList } from "../formula/batches.ts";
import type { Cell, Ledger } from "../ledger/ledger.ts";
import { sum } from "../ledger/rules.ts";
import { type Reading, type Tracer, untraced } from "../ledger/tracer.ts";
import { numericValue } from "../quantity/convert.ts";
import type { Amount } from "../quantity/schema.ts";
import { pieceName, unitFacts } from "../quantity/units.ts";
import { writeAmount } from "../quantity/write.ts";
import type { Amounts } from "./amounts.ts";
import type { Documents } from "./documents.ts";
import type { NeedCells } from "./needs.ts";
import type { SheetCells, SheetLine } from "./sheet-cells.ts";

/** When a step of a batch is done, once there is a plan. */
export type StepTimes = (
  preparation: string,
  step: string,
  batch: number,
) => { readonly start?: string; readonly minutes?: number } | undefined;

/** Preparations to be made at these covers. */
function made(amounts: Amounts): NeedCells[] {
  return amounts.cells.preparations.filter((need) => amounts.ledger.value(need.batches.madeG) > 0);
}

function reader(amounts: Amounts, tracer: Tracer | undefined, pointer: string): Reading {
  return tracer ? tracer.under(pointer) : untraced(amounts.ledger);
}

/** A number that only says which: counted from 1 in the result, it came from nothing else. */
function ordinal(read: Reading, key: string, value: number): number {
  read.note(key, () => ({ value, unit: "", rule: "given", inputs: [] }));
  return value;
}

const grams = (read: Reading, key: string, cell: Cell) => ({
  value: read.of(cell, `${key}/value`),
  unit: "g",
});

/** `needs` of the result. The amounts are those of the newest `update`. */
export function needsResult(amounts: Amounts, tracer?: Tracer) {
  const { ledger } = amounts;
  return made(amounts).map((need, i) => {
    const read = reader(amounts, tracer, `/needs/${i}`);
    const { preparation } = need.cells;
    const { batches } = need;
    return {
      preparation: preparation.id,
      name: preparation.name,
      amount: grams(read, "amount", batches.madeG),
      factor: read.of(need.factor, "factor"),
      ...(batches.pieces === undefined ? {} : { pieces: read.of(batches.pieces, "pieces") }),
      overage: grams(read, "overage", need.overage),
      batches: batchList(ledger, batches).map((batch, j) => {
        const each = read.under(`batches/${j}`);
        const { g, pieces } = batches[batch.size];
        return {
          index: ordinal(each, "index", batch.index),
          amount: grams(each, "amount", g),
          ...(pieces === undefined ? {} : { pieces: each.of(pieces, "pieces") }),
        };
      }),
      usedBy: askedBy(need, ledger).map(({ by, cells }, j) => ({
        ...by,
        amount: { value: together(read, `usedBy/${j}/amount/value`, cells, ledger), unit: "g" },
      })),
    };
  });
}

/** Uses above nothing, those of one dish, of one preparation or with every cover together. */
function askedBy(need: NeedCells, ledger: Ledger) {
  type By = { dish: string } | { preparation: string } | { everyCover: true };
  const uses = new Map<string, { by: By; cells: Cell[] }>();
  for (const { dish, preparation, beside, g } of need.uses) {
    if (!(ledger.value(g) > 0)) continue;
    const by: By =
      beside !== undefined
        ? { everyCover: true }
        : dish === undefined
          ? { preparation: preparation! }
          : { dish };
    const key = `${dish ?? ""} ${preparation ?? ""}`;
    uses.set(key, { by, cells: [...(uses.get(key)?.cells ?? []), g] });
  }
  return [...uses.values()];
}

/** Sum of cells that has no cell of its own. */
function together(read: Reading, key: string, cells: readonly Cell[], ledger: Ledger): number {
  if (cells.length === 1) return read.of(cells[0]!, key);
  const value = sum(...cells.map((cell) => ledger.value(cell)));
  read.note(key, () => ({ value, unit: "g", rule: sum.name, inputs: cells }));
  return value;
}

/** `balance` of the result: mass in, out and lost by name, for the whole service. */
export function balanceResult(amounts: Amounts, tracer?: Tracer) {
  return made(amounts).map((need, i) => {
    const read = reader(amounts, tracer, `/balance/${i}`);
    const balance = amounts.cells.balances.get(need.cells.preparation.id)!;
    return {
      preparation: need.cells.preparation.id,
      inG: read.of(balance.inG, "inG"),
      outG: read.of(balance.outG, "outG"),
      lost: balance.lost.map(({ how, g }, j) => ({ how, g: read.of(g, `lost/${j}/g`) })),
      waterG: read.of(balance.water, "waterG"),
      declaredG: read.of(need.batches.madeG, "declaredG"),
    };
  });
}

/** `plates` of the result: rows that somebody gets, and rows of a course in which somebody is not fed. */
export function platesResult(amounts: Amounts, tracer?: Tracer) {
  const rows = amounts.cells.plates.filter(
    (row) => amounts.ledger.value(row.plates) > 0 || row.notFed.length > 0,
  );
  return rows.map((row, i) => {
    const read = reader(amounts, tracer, `/plates/${i}`);
    return {
      course: row.course,
      dish: row.row.dish.id,
      variant: row.row.form.name,
      needs: row.needs,
      count: read.of(row.count, "count"),
      spare: read.of(row.spare, "spare"),
      seats: row.seats,
      notFed: row.notFed,
      plateG: read.of(row.plateG, "plateG"),
      platingSeconds: read.of(row.seconds, "platingSeconds"),
    };
  });
}

/** `batchSheets` of the result: what one batch takes, weighed as the kitchen's scales can. */
export function batchSheetsResult(amounts: Amounts, docs: Documents, tracer?: Tracer, times?: StepTimes) {
  let at = 0;
  return made(amounts).flatMap((need) => {
    const { preparation } = need.cells;
    const batches = batchList(amounts.ledger, need.batches);
    return batches.map((batch) => {
      const read = reader(amounts, tracer, `/batchSheets/${at++}`);
      const { g, pieces, scale } = need.batches[batch.size];
      const sheet: SheetCells = amounts.cells.sheets.get(preparation.id)![batch.size];
      return {
        preparation: preparation.id,
        name: preparation.name,
        batch: ordinal(read, "batch", batch.index),
        of: read.of(need.batches.count, "of"),
        yield: grams(read, "yield", g),
        ...(pieces === undefined ? {} : { pieces: read.of(pieces, "pieces") }),
        lines: sheet.lines.map((line, j) =>
          sheetLine(line, read.under(`lines/${j}`), amounts.ledger, amounts.ledger.value(scale), docs),
        ),
        steps: sheet.steps.map((cells, j) => {
          const under = read.under(`steps/${j}`);
          const when = times?.(preparation.id, cells.step, batch.index);
          const minutes = when?.minutes;
          return {
            step: cells.step,
            text: preparation.steps.find((step) => step.id === cells.step)!.text,
            inG: under.of(cells.inG, "inG"),
            outG: under.of(cells.outG, "outG"),
            ...(when?.start === undefined ? {} : { start: when.start }),
            ...(minutes === undefined ? {} : { minutes }),
          };
        }),
      };
    });
  });
}

function sheetLine(cells: SheetLine, read: Reading, ledger: Ledger, scale: number, docs: Documents) {
  const { line } = cells.of;
  const { item } = line;
  const id = "preparation" in item ? item.preparation : item.ingredient;
  const name = "preparation" in item ? docs.preparations.get(id)!.name : docs.ingredients.get(id)!.name;
  const weighG = read.of(cells.weigh, "weighG");
  return {
    line: line.id,
    step: line.step,
    item: id,
    name: cutName(docs, item, name),
    exactG: read.of(cells.exact, "exactG"),
    weighG,
    errorG: read.of(cells.error, "errorG"),
    text: lineText(line.amount, line.as === "AP" ? ledger.value(cells.ap ?? cells.exact) : weighG, scale),
    ...(cells.ap === undefined ? {} : { apG: read.of(cells.ap, "apG") }),
    ...(line.toTaste ? { toTaste: true } : {}),
  };
}

function cutName(docs: Documents, item: SheetLine["of"]["line"]["item"], name: string): string {
  if ("preparation" in item || item.cut === undefined) return name;
  const cut = docs.ingredients.get(item.ingredient)!.cuts.find((each) => each.id === item.cut);
  return cut ? `${name}, ${cut.name.toLowerCase()}` : name;
}

/** As a cook reads it: mass as weighed, spoons and pieces as written, times the size of the batch. */
function lineText(amount: Amount | null, weighG: number, scale: number): string {
  if (amount === null) return "to taste";
  const { dimension } = unitFacts(amount.unit);
  if (dimension === "mass") return writeAmount({ value: weighG, unit: "g" }, { system: "metric" }).text;
  const value = Number((numericValue(amount.value) * scale).toPrecision(6));
  const scaled = { value, unit: amount.unit };
  if (dimension === "volume")
    return writeAmount(scaled, { system: isMetric(amount.unit) ? "metric" : "us" }).text;
  const { text } = writeAmount(scaled, { system: "given", figures: 3 });
  if (pieceName(amount.unit) !== undefined || amount.unit === "dozen") return text;
  return `${text} ${value > 1 ? "pieces" : "piece"}`;
}

const isMetric = (unit: string) => /L$|^metric/.test(unit);
