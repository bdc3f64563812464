import type { Cell, Ledger } from "../ledger/ledger.ts";
import { minus, over, shortOf, sum, sumOfProducts, times } from "../ledger/rules.ts";
import { nothing, stated } from "../ledger/stated.ts";
import type { Tracer } from "../ledger/tracer.ts";
import type { Amounts } from "../production/amounts.ts";
import { fingerprint, fingerprintOf } from "../production/plan-rules.ts";
import { type Buying, number, tierCells } from "./buying.ts";
import type { BuyingDocuments } from "./documents.ts";
import { broughtBy, cutNeed, cutsOf, cutWhole, type OrderLine } from "./order-lines.ts";
import type { OrderRun } from "./order-run.ts";
import type { ItemQuestion } from "./question.ts";
import {
  asSold,
  catchShare,
  cookSpread,
  costOfShort,
  leastPacks,
  leftoverValue,
  lostOnLeft,
  meanStray,
  meanTrim,
  metBy,
  needForChance,
  packPrice,
  standsFor,
  takenOf,
  trimForChance,
  wholeNeed,
  worthOfLeft,
  worthPerGram,
} from "./rules.ts";
import type { TimedNeed } from "./timed-needs.ts";
import { needsOf } from "./why-so-much.ts";

/** The value of what is bought beyond the need, and the sum of all orders: paths of the trace. */
export const LEFTOVER = "calc:/orders/leftover";
export const ORDER_TOTAL = "calc:/orders/total";
/** The mark of the question: needs, packs, prices and terms. */
const QUESTION = "calc:/orders/question";

interface Told {
  readonly buying: Buying;
  readonly run: OrderRun;
  readonly docs: BuyingDocuments;
  readonly amounts: Amounts;
  /** As it stands in the result. */
  readonly result: readonly {
    readonly goods: string;
    readonly total: string;
    readonly belowMinimum: string;
    readonly lines: readonly {
      readonly total: string;
      readonly why: { readonly left: number; readonly short: number };
      readonly alternatives: readonly { readonly packs: number; readonly dearer: number }[];
    }[];
  }[];
  readonly ordering: {
    readonly chance: number;
    readonly gap: number;
    readonly keepsDays: number;
    readonly surer: readonly { readonly chance: number; readonly total: string }[];
    readonly left: readonly { readonly ingredient: string }[];
  };
  readonly leftover: number;
}

type Input = Cell | string;

/** Says of every number of the orders how it came; what the search chose replays by choosing again (`orderedRules`). */
export function noteOrders(tracer: Tracer, told: Told): void {
  const { buying, run, docs, amounts, ordering } = told;
  const { ledger, currency } = buying;
  const note = (path: string, value: number, unit: string, rule: string, inputs: readonly Input[]) =>
    tracer.note(path, { value, unit, rule, inputs });
  const serviceAt = `book:${docs.pointer("services", amounts.service.id)}`;
  const chance = stated(ledger, `${serviceAt}/chance`, "ratio", ordering.chance);
  const needs = run.question.items.map((item) => noteNeeds(tracer, buying, item, chance));
  const asked = questionInputs(buying, run);
  note(QUESTION, printOf(buying, run), "", fingerprint.name, [
    ...asked,
    ...needs.flatMap((each) => each.net),
  ]);

  const placeOf = new Map<OrderLine, string>();
  run.orders.forEach(({ lines }, i) => {
    lines.forEach((line, j) => {
      placeOf.set(line, `/orders/${i}/lines/${j}`);
    });
  });
  run.lines.forEach((line, k) => {
    noteLine(tracer, told, line, k, placeOf, needs[line.item]!);
  });

  const cell = (text: string) => Number(text);
  run.orders.forEach((order, i) => {
    const at = `/orders/${i}`;
    const shown = told.result[i]!;
    const terms = buying.termsOf(order.slot.supplier);
    const totals = order.lines.map((line) => `${placeOf.get(line)!}/total`);
    note(`${at}/goods`, cell(shown.goods), currency, sum.name, totals);
    tracer.assign(`${at}/charge`, terms.charge);
    note(`${at}/total`, cell(shown.total), currency, sum.name, [`${at}/goods`, `${at}/charge`]);
    note(`${at}/belowMinimum`, cell(shown.belowMinimum), currency, shortOf.name, [
      terms.minimum,
      `${at}/goods`,
    ]);
  });
  const totals = run.orders.map((_, i) => `/orders/${i}/total`);
  note(
    ORDER_TOTAL,
    told.result.reduce((all, order) => all + Number(order.total), 0),
    currency,
    sum.name,
    totals,
  );
  const leftInputs = [...placeOf].flatMap(([line, at]) => [
    ...[`${at}/bought/value`, `${at}/need/value`, `${at}/price`],
    line.at.offer.packG,
  ]);
  note(LEFTOVER, told.leftover, currency, leftoverValue.name, leftInputs);
  noteOrdering(tracer, told, placeOf, needs, chance);
}

/** Paths of what an item still needs: by need g EP, then by cut its EP and whole grams. */
interface NeedPaths {
  readonly chance: Cell;
  readonly net: readonly string[];
  /** By need, of all needs, as purchased whole: by the means, with the chance wanted, and still to be bought. */
  readonly all: readonly {
    readonly mean: string;
    readonly sure: string;
    readonly whole: string;
    readonly cook: Input;
  }[];
  /** By need: the mean share left after trimming, and the spread of cooking. */
  readonly trims: readonly string[];
  readonly cooks: readonly Input[];
  readonly ofCut: ReadonlyMap<
    string | undefined,
    { readonly ep: string; readonly whole: string; readonly trim: string }
  >;
}

function noteNeeds(tracer: Tracer, buying: Buying, of: ItemQuestion, chance: Cell): NeedPaths {
  const { ledger } = buying;
  const base = `calc:/orders/items/${of.item.ingredient.id}`;
  const note = (path: string, value: number, unit: string, rule: string, inputs: readonly Input[]) => {
    tracer.note(path, { value, unit, rule, inputs });
    return path;
  };
  const all: { mean: string; sure: string; whole: string; cook: Input }[] = [];
  const given = new Map<unknown, string[]>();
  const cookOf = new Map<TimedNeed, Input>();
  const paths = new Map<TimedNeed, { readonly net: string; readonly whole: string; readonly trim: string }>();
  of.all.forEach((need, k) => {
    const at = `${base}/needs/${k}`;
    const ep = note(`${at}/ep`, need.epG, "g", sum.name, need.ep);
    const apG = need.ap.reduce((all, cell) => all + ledger.value(cell), 0);
    const ap = note(`${at}/ap`, apG, "g", sum.name, need.ap);
    const trim = note(`${at}/trim`, need.trim, "ratio", meanTrim.name, [ep, ap]);
    const { coversSpread } = buying;
    const cook = noteCook(tracer, ledger, `${at}/cook`, need.cook, [ep, ap], need.pots);
    const sure = note(`${at}/sure`, need.sureG, "g", needForChance.name, [ep, chance, coversSpread, cook]);
    const share = note(`${at}/sure-trim`, need.sureTrim, "ratio", trimForChance.name, [
      ...[trim, chance],
      ...[need.of.spread, coversSpread, cook],
    ]);
    cookOf.set(need, cook);
    let left = sure;
    let leftG = need.sureG;
    need.takings.forEach((taking, t) => {
      const whole = taking.lot.cut === undefined;
      const here = `${at}/stock/${t}`;
      const lacks = whole ? note(`${here}/lacks`, taking.needG, "g", over.name, [left, share]) : left;
      const before = given.get(taking.lot) ?? [];
      const gave = note(`${here}/given`, taking.givenG, "g", sum.name, before);
      const took = note(here, taking.g, "g", takenOf.name, [taking.lot.g, gave, lacks, nothing(ledger)]);
      given.set(taking.lot, [...before, took]);
      const serves = whole ? taking.g * need.sureTrim : taking.g;
      const served = whole ? note(`${here}/serves`, serves, "g", times.name, [took, share]) : took;
      leftG = shortOf(leftG, serves);
      left = note(`${here}/left`, leftG, "g", shortOf.name, [left, served]);
    });
    const whole = note(`${at}/whole`, need.wholeG, "g", over.name, [left, share]);
    const sureWhole = note(`${at}/sure-whole`, need.sureG / need.sureTrim, "g", over.name, [sure, share]);
    all.push({ mean: ap, sure: sureWhole, whole, cook });
    paths.set(need, { trim, net: left, whole });
  });
  const ofCut = new Map(
    cutsOf(of).map((cut) => {
      const mine = of.needs.flatMap((need) => (need.of.cut === cut ? paths.get(need)! : []));
      const at = `${base}/${cut === undefined ? "whole" : `cuts/${cut}`}`;
      const [epG, wholeG] = [cutNeed(of, cut), cutWhole(of, cut)];
      const ep = note(
        `${at}/net`,
        epG,
        "g",
        sum.name,
        mine.map((each) => each.net),
      );
      const whole = note(
        `${at}/net-whole`,
        wholeG,
        "g",
        sum.name,
        mine.map((each) => each.whole),
      );
      return [cut, { ep, whole, trim: note(`${at}/trim`, epG / wholeG, "ratio", over.name, [ep, whole]) }];
    }),
  );
  const mine = of.needs.map((need) => paths.get(need)!);
  const cooks = of.needs.map((need) => cookOf.get(need)!);
  return { chance, all, net: mine.map(({ net }) => net), trims: mine.map(({ trim }) => trim), cooks, ofCut };
}

/** The spread of cooking of a need, by what goes through each pot; nothing where none strays. */
function noteCook(
  tracer: Tracer,
  ledger: Ledger,
  at: string,
  value: number,
  grams: readonly Input[],
  pots: TimedNeed["pots"],
): Input {
  if (pots.length === 0) return nothing(ledger);
  const inputs = pots.flatMap((pot): Input[] => {
    const [ep, ap] = [`${at}/${pot.preparation}/ep`, `${at}/${pot.preparation}/ap`];
    tracer.note(ep, { value: pot.epG, unit: "g", rule: sumOfProducts.name, inputs: pot.ep });
    tracer.note(ap, { value: pot.apG, unit: "g", rule: sumOfProducts.name, inputs: pot.ap });
    return [ep, ap, pot.spread];
  });
  tracer.note(at, { value, unit: "ratio", rule: cookSpread.name, inputs: [...grams, ...inputs] });
  return at;
}

function noteLine(
  tracer: Tracer,
  { buying, run, result }: Told,
  line: OrderLine,
  k: number,
  placeOf: ReadonlyMap<OrderLine, string>,
  needs: NeedPaths,
): void {
  const { ledger, currency } = buying;
  const at = placeOf.get(line)!;
  const [, i, j] = /^\/orders\/(\d+)\/lines\/(\d+)$/.exec(at)!;
  const shown = result[Number(i)]!.lines[Number(j)]!;
  const { offer, instead, brings } = line.at;
  const note = (path: string, value: number, unit: string, rule: string, inputs: readonly Input[]) => {
    tracer.note(path, { value, unit, rule, inputs });
    return path;
  };
  note(`${at}/packs`, line.packs, "pack", "orderedPacks", [QUESTION, number(ledger, k)]);
  note(`${at}/bought/value`, line.boughtG, "g", times.name, [`${at}/packs`, offer.packG]);
  note(`${at}/price`, Number(line.price), currency, packPrice.name, [
    `${at}/packs`,
    ...tierCells(ledger, offer),
  ]);
  note(`${at}/total`, Number(shown.total), currency, times.name, [`${at}/packs`, `${at}/price`]);
  shown.alternatives.forEach((other, a) => {
    const of = [QUESTION, number(ledger, k), number(ledger, a)];
    note(`${at}/alternatives/${a}/packs`, other.packs, "pack", "orderedOther", of);
    note(`${at}/alternatives/${a}/dearer`, other.dearer, currency, "orderedDearer", of);
  });

  const base = `calc:/orders/items/${line.of.item.ingredient.id}`;
  const { meanG, sureG, netG, cooking } = needsOf(line.of);
  const allOf = (key: "mean" | "sure" | "whole", value: number) =>
    note(
      `${base}/all/${key}`,
      value,
      "g",
      sum.name,
      needs.all.map((each) => each[key]),
    );
  const [means, sures, nets] = [allOf("mean", meanG), allOf("sure", sureG), allOf("whole", netG)];
  note(`${at}/why/mean/value`, meanG, "g", sum.name, [means]);
  note(`${at}/why/surer/value`, sureG - meanG, "g", minus.name, [sures, means]);
  note(`${at}/why/store/value`, sureG - netG, "g", minus.name, [sures, nets]);
  if (cooking > 0)
    note(
      `${at}/why/cooking`,
      cooking,
      "ratio",
      meanStray.name,
      needs.all.flatMap((each) => [each.mean, each.cook]),
    );
  const keeps = line.of.worthPerG > 0 ? buying.worth : nothing(ledger);
  note(`${at}/why/left`, shown.why.left, currency, lostOnLeft.name, [`${at}/price`, keeps]);
  note(`${at}/why/short`, shown.why.short, currency, costOfShort.name, [`${at}/why/left`, needs.chance]);
  const bought = (lines: readonly OrderLine[], path: string): Input =>
    lines.length === 0
      ? nothing(ledger)
      : note(
          path,
          lines.reduce((all, each) => all + each.boughtG, 0),
          "g",
          sum.name,
          lines.map((each) => `${placeOf.get(each)!}/bought/value`),
        );
  const mine = run.lines.filter((each) => each.of === line.of && !each.at.instead);
  const ofCut = (cut: string | undefined) => mine.filter((each) => each.at.offer.offer.cut === cut);
  const { cut } = offer.offer;
  const whole = () => {
    const inputs = cutsOf(line.of).flatMap((each) => [
      needs.ofCut.get(each)!.ep,
      each === undefined ? nothing(ledger) : bought(ofCut(each), `${base}/cuts/${each}/bought`),
      needs.ofCut.get(each)!.trim,
    ]);
    return note(`${base}/to-buy-whole`, wholeG(line.of, ofCut), "g", wholeNeed.name, inputs);
  };
  if (!instead) {
    const need = cut === undefined ? whole() : needs.ofCut.get(cut)!.ep;
    const brought = bought(line.before, `calc:${at}/brought-before`);
    note(`${at}/need/value`, line.needG, "g", metBy.name, [`${at}/bought/value`, need, brought]);
    return;
  }
  const one = bringsPath(tracer, buying, line, needs);
  const rest = note(`${base}/rest`, line.streamG, "g", shortOf.name, [
    whole(),
    bought(ofCut(undefined), `${base}/whole-bought`),
  ]);
  const covers = note(`calc:${at}/covers`, line.packs * brings, "g", times.name, [`${at}/packs`, one]);
  const before = line.before.map((each) => `calc:${placeOf.get(each)!}/covers`);
  const beforeG = line.before.reduce((all, each) => all + broughtBy(each), 0);
  const brought =
    before.length === 0 ? nothing(ledger) : note(`calc:${at}/covered-before`, beforeG, "g", sum.name, before);
  const metG = metBy(line.packs * brings, line.streamG, beforeG);
  const met = note(`calc:${at}/meets`, metG, "g", metBy.name, [covers, rest, brought]);
  note(`${at}/need/value`, line.needG, "g", asSold.name, [met, offer.packG, one]);
}

/** What one pack covers of what was asked for, as purchased. */
function bringsPath(
  tracer: Tracer,
  buying: Buying,
  { of, at }: Pick<OrderLine, "of" | "at">,
  needs: NeedPaths,
): Input {
  const { offer, instead } = at;
  const { cut, id } = offer.offer;
  const varies = buying.ledger.value(offer.spread) > 0;
  const end = `calc:/orders/items/${of.item.ingredient.id}/brings/${id}${instead?.only?.mark ?? ""}`;
  // Of goods that vary in weight first what a pack covers at its nominal weight.
  const path = varies ? `${end}/nominal` : end;
  const unit = "g";
  const whole = at.brings / at.counted;
  const counted = (nominal: Input): Input => {
    if (!varies) return nominal;
    const note = (key: string, value: number, u: string, rule: string, inputs: readonly Input[]) => {
      tracer.note(`${end}/${key}`, { value, unit: u, rule, inputs });
      return `${end}/${key}`;
    };
    const { ledger } = buying;
    const wholes = of.needs.reduce((all, each) => all + each.wholeG, 0);
    const all = note(
      "needed",
      wholes,
      "g",
      sum.name,
      [...needs.ofCut.values()].map((each) => each.whole),
    );
    const evens =
      at.evens === leastPacks(wholes, whole)
        ? note("packs", at.evens, "pack", leastPacks.name, [all, nominal])
        : number(ledger, at.evens);
    const cuts = needs.trims.flatMap((trim, k) => [trim, of.needs[k]!.of.spread, needs.cooks[k]!]);
    const inputs = [needs.chance, buying.coversSpread, offer.spread, evens, ...cuts];
    const share = note("counted-on", at.counted, "ratio", catchShare.name, inputs);
    tracer.note(end, { value: at.brings, unit, rule: times.name, inputs: [nominal, share] });
    return end;
  };
  if (instead) {
    tracer.note(path, {
      value: whole,
      unit,
      rule: standsFor.name,
      inputs: [offer.packG, instead.trim, instead.factor, widestTrim(of, needs)],
    });
    return counted(path);
  }
  if (cut === undefined) return counted(offer.packG);
  tracer.note(path, {
    value: whole,
    unit,
    rule: over.name,
    inputs: [offer.packG, needs.ofCut.get(cut)!.trim],
  });
  return counted(path);
}

/** Path of the largest share left of all cuts. */
function widestTrim(of: ItemQuestion, needs: NeedPaths): string {
  const share = (cut: string | undefined) => cutNeed(of, cut) / cutWhole(of, cut);
  const [cut] = cutsOf(of).sort((a, b) => share(b) - share(a));
  return needs.ofCut.get(cut)!.trim;
}

function wholeG(of: ItemQuestion, ofCut: (cut: string | undefined) => readonly OrderLine[]): number {
  return wholeNeed(
    ...cutsOf(of).flatMap((cut) => [
      cutNeed(of, cut),
      cut === undefined ? 0 : ofCut(cut).reduce((all, each) => all + each.boughtG, 0),
      cutNeed(of, cut) / cutWhole(of, cut),
    ]),
  );
}

function noteOrdering(
  tracer: Tracer,
  { buying, run, docs, amounts, ordering }: Told,
  placeOf: ReadonlyMap<OrderLine, string>,
  needs: readonly NeedPaths[],
  chance: Cell,
): void {
  const { ledger, currency } = buying;
  const note = (path: string, value: number, unit: string, rule: string, inputs: readonly Input[]) =>
    tracer.note(path, { value, unit, rule, inputs });
  const serviceAt = `book:${docs.pointer("services", amounts.service.id)}`;
  tracer.assign("/ordering/chance", chance);
  tracer.assign("/ordering/worthShare", buying.worth);
  const kept = amounts.service.leftover ? `${serviceAt}/leftover/keepsDays` : "const:/leftover/keeps-days";
  tracer.assign("/ordering/keepsDays", stated(ledger, kept, "day", ordering.keepsDays));
  note("/ordering/value", run.value, currency, "orderedValue", [QUESTION]);
  note("/ordering/bound", run.bound, currency, "orderedBound", [QUESTION]);
  note("/ordering/gap", ordering.gap, currency, minus.name, ["/ordering/value", "/ordering/bound"]);
  ordering.surer.forEach((each, i) => {
    const at = `/ordering/surer/${i}`;
    const asked = `const:/chance/${each.chance}`;
    note(asked, each.chance, "ratio", "given", []);
    note(`${at}/chance`, each.chance, "ratio", "given", [asked]);
    note(`${at}/total`, Number(each.total), currency, "orderedAtChance", [QUESTION, asked]);
  });
  const shown = new Map(ordering.left.map((each, i) => [each.ingredient, `/ordering/left/${i}`]));
  for (const { of, lines, g, worth } of run.left) {
    const at = shown.get(of.item.ingredient.id);
    if (at === undefined) continue;
    const item = run.question.items.indexOf(of);
    const base = `calc:/orders/items/${of.item.ingredient.id}`;
    const brings = lines.flatMap((line): Input[] => [
      `${placeOf.get(line)!}/packs`,
      bringsPath(tracer, buying, line, needs[item]!),
    ]);
    const brought = lines.reduce((all, line) => all + line.packs * line.at.brings, 0);
    note(`${base}/brought`, brought, "g", sumOfProducts.name, brings);
    const wholes = [...needs[item]!.ofCut.values()].map((each) => each.whole);
    note(`${base}/needed`, of.need.worthMostG, "g", sum.name, wholes);
    note(`${at}/amount/value`, g, "g", shortOf.name, [`${base}/brought`, `${base}/needed`]);
    const prices = of.offers
      .filter((each) => !each.instead)
      .flatMap((each) =>
        tierCells(ledger, each.offer)
          .filter((_, k) => k % 2 === 1)
          .flatMap((price): Input[] => [price, bringsPath(tracer, buying, { of, at: each }, needs[item]!)]),
      );
    if (of.worthPerG === 0) {
      note(`${at}/worth`, worth, currency, worthOfLeft.name, [
        nothing(ledger),
        `${at}/amount/value`,
        `${base}/needed`,
      ]);
      continue;
    }
    note(`${base}/worth`, of.worthPerG, `${currency}/g`, worthPerGram.name, [buying.worth, ...prices]);
    note(`${at}/worth`, worth, currency, worthOfLeft.name, [
      `${base}/worth`,
      `${at}/amount/value`,
      `${base}/needed`,
    ]);
  }
}

/** Cells of the question beside the needs: terms of each delivery, then packs and prices of each offer. */
function questionInputs({ ledger, termsOf }: Buying, { question }: OrderRun): Cell[] {
  return [
    ...question.slots.flatMap(({ supplier }) => [termsOf(supplier).minimum, termsOf(supplier).charge]),
    ...question.items.flatMap((item) =>
      item.offers.flatMap(({ offer, slot }) => [
        number(ledger, slot),
        offer.packG,
        offer.spread,
        ...tierCells(ledger, offer),
      ]),
    ),
  ];
}

/** The number that stands for a question. */
function printOf(buying: Buying, run: OrderRun): number {
  return fingerprintOf([
    ...questionInputs(buying, run).map((cell) => buying.ledger.value(cell)),
    ...run.question.items.flatMap((item) => item.needs.map((need) => need.netG)),
  ]);
}

/** What choosing again needs. */
export interface OrderedAgain {
  readonly buying: Buying;
  readonly run: OrderRun;
  others(line: OrderLine): readonly { readonly packs: number; readonly dearer: number }[];
  /** Sum of all orders at another chance of having enough. */
  totalAt(chance: number): number;
}

/**
 * The rules of what the search chose, for replaying a trace: `again` puts the same question and answers it anew. Each
 * rule refuses the mark of another question.
 */
export function orderedRules(again: () => OrderedAgain) {
  let known: OrderedAgain | undefined;
  const asked = (print: number): OrderedAgain => {
    known ??= again();
    if (printOf(known.buying, known.run) !== print) throw new Error("this trace is of another order");
    return known;
  };
  return {
    orderedPacks: (print: number, line: number) => asked(print).run.lines[line]!.packs,
    orderedValue: (print: number) => asked(print).run.value,
    orderedBound: (print: number) => asked(print).run.bound,
    orderedOther(print: number, line: number, other: number) {
      const here = asked(print);
      return here.others(here.run.lines[line]!)[other]!.packs;
    },
    orderedDearer(print: number, line: number, other: number) {
      const here = asked(print);
      return here.others(here.run.lines[line]!)[other]!.dearer;
    },
    orderedAtChance: (print: number, chance: number) => asked(print).totalAt(chance),
  };
}
