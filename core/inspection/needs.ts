import type { Preparation } from "../formula/schema.ts";
import { toBase } from "../quantity/convert.ts";
import type { PlateCount, PreparationNeed } from "../run/result.ts";
import { namedForm } from "./forms.ts";
import { gramsOfPreparation, lineG, placementG, yieldG } from "./grams.ts";
import { named } from "./named.ts";
import type { Scope } from "./scope.ts";
import { CRUMB, type Finding, same } from "./types.ts";

/** What one preparation of the service comes to. */
export interface Made {
  readonly preparation: Preparation;
  /** What plates and other preparations take, without overage, g. */
  readonly usedG: number;
  readonly overageG: number;
  readonly stockG: number;
  /** To be made, g. */
  readonly grams: number;
  readonly batches: readonly { readonly grams: number; readonly pieces?: number | undefined }[];
}

/**
 * What must be made, by preparation: plates × placements and covers × what goes with each, overage once at the preparation nearest the plate, less
 * stock that is good until the service, in whole pieces and batches; parts by the lines of what is made of them.
 */
export function madeOf(scope: Scope, plates: readonly PlateCount[]): Map<string, Made> {
  const onPlates = new Map<string, number>();
  for (const row of plates)
    for (const placement of namedForm(scope.dishes.get(row.dish)!, row.variant)!)
      if (placement.preparation !== undefined)
        add(onPlates, placement.preparation, (row.count + row.spare) * placementG(scope, placement));
  for (const { preparation, grams } of preparedWithEveryCover(scope)) add(onPlates, preparation, grams);
  const inOthers = new Map<string, number>();
  const all = new Map<string, Made>();
  for (const preparation of parentsFirst(scope)) {
    const { id } = preparation;
    const plated = onPlates.get(id) ?? 0;
    const usedG = plated + (inOthers.get(id) ?? 0);
    if (usedG <= 0) continue;
    const overageG = plated * (preparation.overage ?? 0);
    const stockG = Math.min(usedG + overageG, inStock(scope, preparation));
    const batches = batchesOf(preparation, usedG + overageG - stockG);
    const grams = batches.reduce((sum, batch) => sum + batch.grams, 0);
    all.set(id, { preparation, usedG, overageG, stockG, grams, batches });
    for (const line of preparation.lines)
      if ("preparation" in line.item)
        add(inOthers, line.item.preparation, (lineG(scope, line) * grams) / yieldG(preparation));
  }
  return all;
}

/** Preparations that stand on no plate and go with every cover, g for all covers. */
export function preparedWithEveryCover(
  scope: Scope,
): { readonly preparation: string; readonly grams: number }[] {
  const { surround } = scope.menu;
  if (!surround || !("items" in surround)) return [];
  return surround.items.flatMap(({ item, amount }) => {
    if (!("preparation" in item)) return [];
    const grams = gramsOfPreparation(amount, scope.preparations.get(item.preparation)!);
    return [{ preparation: item.preparation, grams: scope.covers * grams }];
  });
}

/** Batches of what is asked, by the preparation's policy; whole pieces where it is made in pieces. */
export function batchesOf(preparation: Preparation, askedG: number): Made["batches"] {
  if (askedG <= CRUMB) return [];
  const pieceG = preparation.yield.pieces === undefined ? 1 : yieldG(preparation) / preparation.yield.pieces;
  const inPieces = preparation.yield.pieces !== undefined;
  const asked = inPieces ? ceil(askedG / pieceG) : askedG;
  const most = mostInBatch(preparation, pieceG, inPieces);
  const batch = (amount: number) => ({
    grams: amount * pieceG,
    pieces: inPieces ? amount : undefined,
  });
  const { policy } = preparation.batch;
  if (most === undefined) return [batch(asked)];
  const n = ceil(asked / most);
  if (policy === "whole-only") return Array.from({ length: n }, () => batch(most));
  if (policy === "full-then-rest")
    return Array.from({ length: n }, (_, i) => batch(i < n - 1 ? most : asked - (n - 1) * most));
  if (!inPieces) return Array.from({ length: n }, () => batch(asked / n));
  const small = Math.floor(asked / n);
  return Array.from({ length: n }, (_, i) => batch(i < asked - n * small ? small + 1 : small));
}

/** Most of one batch, g, or pieces where it is made in pieces. */
function mostInBatch(preparation: Preparation, pieceG: number, inPieces: boolean): number | undefined {
  const { maxAmount, maxPieces } = preparation.batch;
  const limits: number[] = [];
  if (maxAmount) {
    const grams = gramsOfPreparation(maxAmount, preparation);
    limits.push(inPieces ? Math.floor((grams / pieceG) * (1 + CRUMB)) : grams);
  }
  if (maxPieces !== undefined && inPieces) limits.push(maxPieces);
  if (limits.length > 0) return Math.max(inPieces ? 1 : 0, Math.min(...limits));
  if (preparation.batch.policy !== "whole-only") return undefined;
  return inPieces ? preparation.yield.pieces : yieldG(preparation);
}

function inStock(scope: Scope, preparation: Preparation): number {
  let grams = 0;
  for (const stock of scope.service.stock)
    if ("preparation" in stock.item && stock.item.preparation === preparation.id && stock.useBy >= scope.date)
      grams += gramsOfPreparation(stock.amount, preparation);
  return grams;
}

/** All preparations, each after everything that is made of it. */
function parentsFirst(scope: Scope): Preparation[] {
  const order: Preparation[] = [];
  const seen = new Set<string>();
  const visit = (preparation: Preparation) => {
    if (seen.has(preparation.id)) return;
    seen.add(preparation.id);
    for (const line of preparation.lines)
      if ("preparation" in line.item) visit(scope.preparations.get(line.item.preparation)!);
    order.push(preparation);
  };
  for (const preparation of scope.preparations.values()) visit(preparation);
  return order.reverse();
}

/** Compares what the result says must be made with what must be made. */
export function judgeNeeds(made: ReadonlyMap<string, Made>, needs: readonly PreparationNeed[]): Finding[] {
  const found: Finding[] = [];
  const say = (rule: string, by: number, unit: string, what: string) =>
    found.push({ rule, tasks: [], by, unit, what });
  for (const [id, each] of made) {
    const told = needs.find((need) => need.preparation === id);
    if (!told) {
      if (each.grams > 0)
        say("need", each.grams, "g", `${named(id, "preparation")} must be made and is not told`);
      continue;
    }
    const grams = weighed(told.amount);
    if (!same(grams, each.grams))
      say(
        "need",
        Math.abs(grams - each.grams),
        "g",
        `${named(id, "preparation")}: ${grams} g told, ${each.grams} g needed`,
      );
    const overage = weighed(told.overage);
    if (!same(overage, each.overageG))
      say(
        "overage",
        Math.abs(overage - each.overageG),
        "g",
        `${named(id, "preparation")}: overage is ${each.overageG} g`,
      );
    const factor = each.grams / yieldG(each.preparation);
    if (!same(told.factor, factor))
      say(
        "factor",
        Math.abs(told.factor - factor),
        "",
        `${named(id, "preparation")} is ${factor} times its written yield`,
      );
    judgeBatches(id, each, told, say);
  }
  for (const told of needs)
    if (!made.has(told.preparation))
      say(
        "need",
        weighed(told.amount),
        "g",
        `${named(told.preparation, "preparation")} is told and nothing asks for it`,
      );
  return found;
}

function judgeBatches(
  id: string,
  each: Made,
  told: PreparationNeed,
  say: (rule: string, by: number, unit: string, what: string) => void,
): void {
  if (told.batches.length !== each.batches.length) {
    const by = Math.abs(told.batches.length - each.batches.length);
    say(
      "batches",
      by,
      "batch",
      `${named(id, "preparation")} takes ${each.batches.length} batches, not ${told.batches.length}`,
    );
    return;
  }
  each.batches.forEach((batch, i) => {
    const other = told.batches[i]!;
    const off = Math.abs(weighed(other.amount) - batch.grams);
    if (!same(weighed(other.amount), batch.grams) || other.index !== i + 1)
      say("batches", off, "g", `batch ${i + 1} of ${named(id, "preparation")} is ${batch.grams} g`);
    else if (batch.pieces !== undefined && other.pieces !== batch.pieces)
      say(
        "batches",
        Math.abs((other.pieces ?? 0) - batch.pieces),
        "piece",
        `batch ${i + 1} of ${named(id, "preparation")} has ${batch.pieces} pieces`,
      );
  });
}

function weighed(amount: { readonly value: number; readonly unit: string }): number {
  if (amount.unit === "g") return amount.value;
  return toBase(amount as Parameters<typeof toBase>[0]).value;
}

const ceil = (x: number) => Math.ceil(x * (1 - CRUMB));
const add = (sums: Map<string, number>, id: string, grams: number) =>
  sums.set(id, (sums.get(id) ?? 0) + grams);
