import type { Cell, Ledger } from "../ledger/ledger.ts";
import { shortOf, sumOfProducts } from "../ledger/rules.ts";
import { type Clock, dayName } from "../production/clock.ts";
import type { UseSpan } from "../production/first-needs.ts";
import type { Buying, CutCells, ItemCells, StockLot, UseOfCut } from "./buying.ts";
import { dayNumber } from "./delivery.ts";
import { cookSpread, meanTrim, needForChance, takenOf, trimForChance } from "./rules.ts";

/** When things are needed, and how sure it must be that there is enough. */
export interface When {
  readonly clock: Clock;
  /** Text of the moment before which nothing happens: what has no moment of its own is needed then. */
  readonly horizon: string;
  /** ISO date of the service. */
  readonly date: string;
  /** When a use takes its ingredients, by its key; undefined before there is a plan. */
  readonly spanOf: ((use: string) => UseSpan | undefined) | undefined;
  readonly chance: number;
}

/** Some of a lot in the store that a need takes, in the lot's own grams. */
export interface Taking {
  readonly lot: StockLot;
  /** Of the lot before, g. */
  readonly givenG: number;
  /** What the need lacked before, and has had, in the lot's grams. */
  readonly needG: number;
  readonly g: number;
}

/** A preparation whose yield strays, on the way of a need to the plate. */
export interface Pot {
  readonly preparation: string;
  readonly spread: Cell;
  /** (g of a use, share of them that goes through it) in pairs, ready for the pot and as purchased. */
  readonly ep: readonly Cell[];
  readonly ap: readonly Cell[];
  /** g of the need that go through it. */
  readonly epG: number;
  readonly apG: number;
}

/** What is needed of one ingredient in one cut at one time. */
export interface TimedNeed {
  readonly of: CutCells;
  readonly ep: readonly Cell[];
  readonly ap: readonly Cell[];
  /** Minute by which it must be there. */
  readonly firstMin: number;
  /** Day of the last use from the service, and its date; undefined before there is a plan. */
  readonly last: { readonly day: number; readonly date: string } | undefined;
  readonly epG: number;
  readonly trim: number;
  /** Standard deviation of what the pots make of it, by its mean, and the pots on the way. */
  readonly cook: number;
  readonly pots: readonly Pot[];
  /** With the chance wanted: g EP, and the share left to count on. */
  readonly sureG: number;
  readonly sureTrim: number;
  /** The marks of what may stand in for these uses alone. */
  readonly allows: ReadonlySet<string>;
  readonly takings: readonly Taking[];
  /** Still to be bought: g EP, and as purchased whole. */
  readonly netG: number;
  readonly wholeG: number;
}

/**
 * The needs of an ingredient, those in one cut at one time together, in the order in which they come; what is in the
 * store is used first, what ends first before the rest, and nothing after its date.
 * @param sameTime groups moments by which the same deliveries have come.
 */
export function timedNeeds(
  buying: Buying,
  item: ItemCells,
  when: When,
  sameTime: (minute: number) => number,
): TimedNeed[] {
  const { ledger } = buying;
  const value = (cells: readonly Cell[]) => cells.reduce((sum, cell) => sum + ledger.value(cell), 0);
  const given = new Map<StockLot, number>();
  return groupsOf(item, when, sameTime).map(({ of, firstMin, day, allows, ways, ep, ap }): TimedNeed => {
    const epG = value(ep);
    const apG = value(ap);
    const trim = meanTrim(epG, apG);
    const pots = ways.map((way) => ({ ...way, epG: grams(ledger, way.ep), apG: grams(ledger, way.ap) }));
    const cook = cookSpread(
      ...[epG, apG],
      ...pots.flatMap((pot) => [pot.epG, pot.apG, ledger.value(pot.spread)]),
    );
    const [trimSpread, coversSpread] = [ledger.value(of.spread), ledger.value(buying.coversSpread)];
    const sureG = needForChance(epG, when.chance, coversSpread, cook);
    const sureTrim = trimForChance(trim, when.chance, trimSpread, coversSpread, cook);
    const last = day === undefined ? undefined : { day, date: when.clock.dateOf(dayName(day)) };
    const takings: Taking[] = [];
    let netG = sureG;
    // What is cut already first: it serves nothing else.
    for (const lot of [
      ...item.lots.filter((l) => l.cut !== undefined),
      ...item.lots.filter((l) => l.cut === undefined),
    ]) {
      if ((lot.cut !== undefined && lot.cut !== of.cut) || lot.useBy < (last?.date ?? when.date)) continue;
      const share = lot.cut === undefined ? sureTrim : 1;
      const givenG = given.get(lot) ?? 0;
      const g = takenOf(ledger.value(lot.g), givenG, netG / share, 0);
      if (g <= 0) continue;
      takings.push({ lot, givenG, needG: netG / share, g });
      given.set(lot, givenG + g);
      netG = shortOf(netG, g * share);
    }
    return {
      ...{ of, ep, ap, firstMin, allows, last, epG, trim, cook, pots, sureG, sureTrim, takings, netG },
      wholeG: netG / sureTrim,
    };
  });
}

/** Groups of a service without a plan: everything is needed at one moment, however much of it. */
const withoutPlan = new WeakMap<ItemCells, { readonly at: number; readonly groups: readonly Group[] }>();

/** Uses of one cut at one time together, in the order in which they come. */
function groupsOf(item: ItemCells, when: When, sameTime: (minute: number) => number): readonly Group[] {
  const at = when.clock.minuteOf(when.horizon);
  if (when.spanOf) return groupsAnew(item, when, at, sameTime);
  const known = withoutPlan.get(item);
  if (known?.at === at) return known.groups;
  const groups = groupsAnew(item, when, at, sameTime);
  withoutPlan.set(item, { at, groups });
  return groups;
}

function groupsAnew(
  item: ItemCells,
  when: When,
  horizonMin: number,
  sameTime: (minute: number) => number,
): Group[] {
  const groups = new Map<string, Opened>();
  const alone = item.substitutes.flatMap(({ only }) => only ?? []);
  item.cuts.forEach((of, place) => {
    for (const use of of.uses) {
      const span = when.spanOf?.(use.key);
      const firstMin = span?.first ?? horizonMin;
      const last = when.spanOf && when.clock.textOf(span?.last ?? horizonMin);
      const day = last === undefined ? undefined : dayNumber(last);
      const allows = new Set(alone.flatMap((only) => (only.uses.has(use.key) ? [only.mark] : [])));
      const key = `${place} ${sameTime(firstMin)} ${day} ${[...allows].join(" ")}`;
      const group = groups.get(key) ?? { of, firstMin, day, allows, uses: [], ep: [], ap: [] };
      group.firstMin = Math.min(group.firstMin, firstMin);
      group.uses.push(use);
      group.ep.push(use.ep);
      group.ap.push(use.ap());
      groups.set(key, group);
    }
  });
  return [...groups.values()]
    .sort((a, b) => a.firstMin - b.firstMin || (a.day ?? 0) - (b.day ?? 0))
    .map(({ uses, ...group }) => ({ ...group, ways: waysOf(uses) }));
}

/** The preparations whose yields stray on the way of these uses, each once. */
function waysOf(uses: readonly UseOfCut[]): Way[] {
  const pots = new Map<string, { readonly spread: Cell; readonly ep: Cell[]; readonly ap: Cell[] }>();
  for (const { ep, ap, through } of uses)
    for (const { preparation, share, spread } of through) {
      const pot = pots.get(preparation) ?? { spread, ep: [], ap: [] };
      pot.ep.push(ep, share);
      pot.ap.push(ap(), share);
      pots.set(preparation, pot);
    }
  return [...pots].map(([preparation, pot]) => ({ preparation, ...pot }));
}

const grams = (ledger: Ledger, pairs: readonly Cell[]) =>
  sumOfProducts(...pairs.map((cell) => ledger.value(cell)));

/** (trim, its spread, spread of cooking) of these needs: what `catchShare` asks for. */
export function cutsVary(ledger: Ledger, needs: readonly TimedNeed[]): number[] {
  return needs.flatMap((need) => [need.trim, ledger.value(need.of.spread), need.cook]);
}

/** A pot as far as it is the same at any number of covers. */
type Way = Omit<Pot, "epG" | "apG">;

interface Group {
  readonly of: CutCells;
  readonly firstMin: number;
  readonly day: number | undefined;
  readonly allows: ReadonlySet<string>;
  readonly ways: readonly Way[];
  readonly ep: readonly Cell[];
  readonly ap: readonly Cell[];
}

/** A group to which uses are still added. */
interface Opened {
  readonly of: CutCells;
  firstMin: number;
  readonly day: number | undefined;
  readonly allows: ReadonlySet<string>;
  readonly uses: UseOfCut[];
  readonly ep: Cell[];
  readonly ap: Cell[];
}
