import { normalChance } from "../numerics/normal.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { OrderLine, PlateCount, SupplierOrder } from "../run/result.ts";
import { type Cooking, cookingOf } from "./cooking.ts";
import { enoughFor } from "./enough.ts";
import { lacking } from "./flow.ts";
import { gramsOfIngredient } from "./grams.ts";
import { named } from "./named.ts";
import type { Made } from "./needs.ts";
import { judgeOrdering, judgeOrderSums, judgePrice } from "./order-sums.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import type { Finding, Judged } from "./types.ts";
import { type Use, usesOf } from "./uses.ts";

/** Something of an ingredient that is there for a time, in its own grams. */
interface Lot {
  readonly grams: number;
  /** Cut already; "" whole. */
  readonly cut: string;
  readonly fromMin: number;
  /** Whether it is still good at a minute, or, before there is a plan, at the service. */
  good(atMin: number | undefined): boolean;
  /** Grams of the ingredient ready for the pot that a gram comes to, where it stands in for it. */
  readonly standsFor?: number;
  /** The lines it may serve; all uses unless said. */
  readonly only?: ReadonlySet<string>;
  /** Of packs that vary in weight: the variance of its grams. */
  readonly variance?: number;
}

/**
 * Judges orders: whole packs of what is offered, prices and sums, cut-offs and delivery days, and that every use is
 * covered with the chance wanted, from what is in the store or delivered before it and still good.
 */
export function judgeOrders(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts | undefined,
  plates: readonly PlateCount[],
  { orders = [], ordering, warnings }: Judged,
): Finding[] {
  if (orders.length === 0) return [];
  const found: Finding[] = ordering ? judgeOrdering(orders, ordering) : [];
  const lots = new Map<string, Lot[]>();
  const have = (id: string, lot: Lot) => lots.set(id, [...(lots.get(id) ?? []), lot]);
  const ordered = new Set<string>();
  for (const order of orders) {
    const supplier = scope.suppliers.find((each) => each.id === order.supplier);
    if (supplier) found.push(...judgeOrderSums(scope, supplier, order));
    else found.push(one("supplier", `${named(order.supplier, "supplier")} is no supplier of this kitchen`));
    if (supplier?.currency !== undefined && supplier.currency !== scope.kitchen.currency)
      found.push(
        one(
          "currency",
          `${named(supplier.id, "supplier")} sells in ${supplier.currency}, which this kitchen does not pay in`,
        ),
      );
    for (const line of order.lines) {
      const offer = supplier?.offers.find((each) => each.id === line.offer);
      if (!offer || offer.ingredient !== line.ingredient) {
        found.push(
          one(
            "offer",
            `${named(order.supplier, "supplier")} offers no such pack of ${named(line.ingredient, "ingredient")}`,
          ),
        );
        continue;
      }
      if (!Number.isInteger(line.packs) || line.packs < 1)
        found.push(one("pack", `${line.packs} packs of ${named(line.offer, "offer")} are no whole packs`));
      else found.push(...judgePrice(offer, line));
      const goods = scope.ingredients.get(line.ingredient)!;
      const packG = offer.innerPerPack * gramsOfIngredient(offer.inner, goods);
      const id = line.insteadOf?.ingredient ?? line.ingredient;
      ordered.add(id);
      const stands = line.insteadOf && standIn(scope, line, offer.cut, offer.allergens);
      if (typeof stands === "string") found.push(one("substitute", stands));
      have(id, {
        grams: line.packs * packG,
        cut: offer.cut ?? "",
        ...(offer.catchWeight && offer.weightSpread
          ? { variance: line.packs * (packG * offer.weightSpread) ** 2 }
          : {}),
        fromMin: scope.minuteOf(order.deliver),
        good: (atMin) => atMin === undefined || daysFrom(scope, order, atMin) <= goods.storage.days,
        ...(stands === undefined ? {} : { standsFor: typeof stands === "string" ? 0 : stands }),
        ...(line.insteadOf?.lines
          ? { only: new Set(line.insteadOf.lines.map((at) => `${at.preparation}/${at.line}`)) }
          : {}),
      });
    }
  }
  for (const { item, amount, useBy } of scope.service.stock)
    if ("ingredient" in item)
      have(item.ingredient, {
        grams: gramsOfIngredient(amount, scope.ingredients.get(item.ingredient)!),
        cut: item.cut ?? "",
        fromMin: Number.NEGATIVE_INFINITY,
        good: (atMin) => useBy >= (atMin === undefined ? scope.date : dateAt(scope, atMin)),
      });
  const uses = usesOf(scope, made, parts, plates);
  const cooking = cookingOf(scope, made, uses);
  for (const id of new Set(uses.map((use) => use.ingredient))) {
    // What is not ordered may be told as what nobody can bring.
    if (!ordered.has(id) && (warnings === undefined || told(scope, warnings, id))) continue;
    found.push(
      ...judgeCover(
        scope,
        id,
        uses.filter((use) => use.ingredient === id),
        lots.get(id) ?? [],
        warnings,
        cooking,
      ),
    );
  }
  return found;
}

const one = (unit: string, what: string): Finding => ({ rule: "order", tasks: [], by: 1, unit, what });

function told(scope: Scope, warnings: NonNullable<Judged["warnings"]>, id: string): boolean {
  const at = `/ingredients/${[...scope.ingredients.keys()].indexOf(id)}`;
  return warnings.some(
    ({ path, what }) =>
      (path === at || path.startsWith(`${at}/`)) && what.includes("neither ordered nor paid for"),
  );
}

/** Whether a lot may go into a use at all: its cut, or, where it stands in, the lines in which it may. */
const fits = (lot: Lot, use: Use) =>
  lot.standsFor === undefined
    ? lot.cut === "" || lot.cut === use.cut
    : lot.only === undefined || (use.line !== undefined && lot.only.has(use.line));

/** Uses against lots in grams as purchased whole; cut goods count for the whole goods they save. */
function judgeCover(
  scope: Scope,
  id: string,
  uses: readonly Use[],
  lots: readonly Lot[],
  warnings: Judged["warnings"],
  cooking: ReadonlyMap<Use, Cooking>,
): Finding[] {
  const wanted = uses.map((use) => ({ use, ...enoughFor(scope, use, cooking.get(use)!) }));
  const to = wanted.map((item) => ({ item, amount: (item.use.epG / item.use.trim) * item.whole }));
  const whole = to.reduce((sum, each) => sum + each.amount, 0);
  /** Of one gram of a lot, where the trim differs from use to use the most it can come to: what is told is sure. */
  const worth = (lot: Lot) => {
    const mine = wanted.filter(({ use }) => fits(lot, use));
    if (lot.cut === "" && lot.standsFor === undefined) return 1;
    return (lot.standsFor ?? 1) * Math.max(0, ...mine.map((each) => each.whole / each.cut / each.use.trim));
  };
  const from = lots.map((item) => ({ item, amount: item.grams * worth(item) }));
  const lack = (inTime: boolean, fresh: boolean, some = to) =>
    lacking({
      ...{ from, to: some },
      joined: (lot, { use }) =>
        fits(lot, use) && (!inTime || lot.fromMin <= use.firstMin) && (!fresh || lot.good(use.lastMin)),
    });
  const light = judgeWeights(scope, id, uses, lots, cooking);
  if (light.length > 0 && !(warnings && told(scope, warnings, id))) return light;
  const over = (lacks: readonly number[]) => lacks.reduce((sum, each) => sum + each, 0) > 3e-6 * whole + 1e-3;
  const lacks = lack(true, true);
  if (!over(lacks) || (warnings && told(scope, warnings, id))) return [];
  const short = lack(false, false).reduce((sum, each) => sum + each, 0);
  if (short > 3e-6 * whole + 1e-3)
    return [
      {
        rule: "order",
        tasks: [],
        by: short,
        unit: "g",
        what: `${short} g of ${named(id, "ingredient")} too little are ordered`,
      },
    ];
  // Served in the order in which they come, the first that goes short is the one to blame; of what goes off, the last.
  const late = over(lack(true, false));
  const inOrder = [...to].sort((x, y) => (late ? 1 : -1) * (x.item.use.firstMin - y.item.use.firstMin));
  const first = inOrder.findIndex((_, k) => over(lack(true, !late, inOrder.slice(0, k + 1))));
  const { use } = inOrder[Math.max(0, first)]!.item;
  const tasks = use.task === undefined ? [] : [use.task];
  if (late) {
    const by = Math.min(...lots.map((lot) => lot.fromMin - use.firstMin).filter((each) => each > 0));
    const what = `${named(id, "ingredient")} comes ${by} min after ${use.task === undefined ? "its use" : named(use.task)} begins`;
    return [{ ...{ rule: "delivery", tasks, by, unit: "min", what } }];
  }
  const by = lacks.reduce((sum, each) => sum + each, 0);
  return [
    {
      ...{ rule: "delivery", tasks, by, unit: "g" },
      what: `${by} g of ${named(id, "ingredient")} are no longer good when they are used`,
    },
  ];
}

/**
 * Whether packs that vary in weight are enough with the chance wanted, where everything is bought whole: what is there, by its
 * mean, less what is needed, over the spread of all that varies (covers, the yield of each cut, each pack), as all of it may be
 * used for all: so that what is told is sure.
 */
function judgeWeights(
  scope: Scope,
  id: string,
  uses: readonly Use[],
  lots: readonly Lot[],
  cooking: ReadonlyMap<Use, Cooking>,
): Finding[] {
  const packs = lots.reduce((sum, lot) => sum + (lot.variance ?? 0), 0);
  if (packs === 0 || lots.some((lot) => lot.cut !== "" || lot.standsFor !== undefined)) return [];
  const { chance, coversSpread = 0 } = scope.service;
  const needG = uses.reduce((sum, use) => sum + use.epG / use.trim, 0);
  const thereG = lots.reduce((sum, lot) => sum + lot.grams, 0);
  const cuts = Map.groupBy(uses, (use) => use.cut);
  const yields = [...cuts.values()].reduce((sum, own) => {
    const { trim } = own[0]!;
    const spread = Math.hypot(spreadOf(scope, own[0]!) / trim, chance > 0.5 ? cooking.get(own[0]!)!.all : 0);
    const share = own.reduce((all, use) => all + use.epG / use.trim, 0) / needG;
    return sum + (share * thereG * spread) ** 2;
  }, 0);
  const spread = Math.sqrt(yields + packs + (needG * coversSpread) ** 2);
  const found = normalChance((thereG - needG) / spread);
  if (found >= chance - 1e-3) return [];
  const what = `${id} is enough with a chance of ${found.toFixed(3)}, not ${chance}: its packs vary in weight`;
  return [{ rule: "order", tasks: [], by: chance - found, unit: "chance", what }];
}

const spreadOf = (scope: Scope, use: Use) =>
  scope.ingredients.get(use.ingredient)!.cuts.find((cut) => cut.id === use.cut)?.spread ?? 0;

/** What a gram of a substitute comes to, or what speaks against it. */
function standIn(
  scope: Scope,
  line: OrderLine,
  cut: string | undefined,
  declared: { readonly contains: readonly string[]; readonly mayContain: readonly string[] } | undefined,
): number | string {
  const food = scope.ingredients.get(line.insteadOf!.ingredient);
  const goods = scope.ingredients.get(line.ingredient)!;
  const matching = (list: Ingredient["substitutes"]) =>
    list?.filter((each) => each.ingredient === goods.id && (cut === undefined || each.cut === cut)) ?? [];
  const { lines } = line.insteadOf!;
  const bySource = lines
    ? lines.map((at) => matching(substitutesOf(scope, at, line.insteadOf!.ingredient)))
    : [matching(food?.substitutes)];
  // Of several ratios the one that asks for the most goods is reckoned with.
  const allowed = bySource.flat().sort((a, b) => b.factor - a.factor)[0];
  if (!food || !allowed || bySource.some((list) => list.length === 0))
    return `nobody lets ${named(goods.id, "ingredient")} stand in for ${named(line.insteadOf!.ingredient, "ingredient")}`;
  const has = (list: readonly string[], what: string) =>
    list.includes(what) || (what === "gluten" && list.includes("wheat"));
  const risky = (of: Ingredient["allergens"]) => [...of.contains, ...of.mayContain];
  const known = food.allergens.status === "known";
  const more = [
    ...(known && goods.allergens.status === "unknown" ? ["unknown allergens"] : []),
    ...[...goods.allergens.contains, ...(declared?.contains ?? [])].filter(
      (a) => known && !has(food.allergens.contains, a),
    ),
    ...[...goods.allergens.mayContain, ...(declared?.mayContain ?? [])].filter(
      (a) => known && !has(risky(food.allergens), a),
    ),
    ...goods.origin.filter((word) => !food.origin.includes(word)),
  ];
  if (more.length > 0)
    return `${named(goods.id, "ingredient")} in place of ${named(food.id, "ingredient")} brings ${more.join(", ")}`;
  const trim = cut === undefined ? (goods.cuts.find((each) => each.id === allowed.cut)?.trimYield ?? 1) : 1;
  return trim / allowed.factor;
}

/** What a line lets stand in, as long as it is of the food in question. */
function substitutesOf(
  scope: Scope,
  { preparation, line }: { readonly preparation: string; readonly line: string },
  food: string,
): Ingredient["substitutes"] {
  const found = scope.preparations.get(preparation)?.lines.find((each) => each.id === line);
  return found && "ingredient" in found.item && found.item.ingredient === food
    ? found.substitutes
    : undefined;
}

function dateAt(scope: Scope, minute: number): string {
  const day = new Date(`${scope.date}T00:00:00Z`);
  day.setUTCDate(day.getUTCDate() + dayAt(scope, minute));
  return day.toISOString().slice(0, 10);
}

function daysFrom(scope: Scope, order: SupplierOrder, minute: number): number {
  return dayAt(scope, minute) - dayAt(scope, scope.minuteOf(order.deliver));
}

function dayAt(scope: Scope, minute: number): number {
  return Number(/^D([-+]\d+)?/.exec(scope.textOf(minute))?.[1] ?? 0);
}
