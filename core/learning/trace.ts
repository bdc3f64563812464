import { given } from "../ledger/ledger.ts";
import { over } from "../ledger/rules.ts";
import { type LogLine, standing } from "../safety/log-lines.ts";
import { type Documents, type Figure, figureKey, type Stated, statedIn } from "./figures.ts";
import { startOf } from "./history.ts";
import { type Estimate, NEXT_SHARE } from "./learn.ts";
import { type Nodes, Noted } from "./noted.ts";
import type { Observation } from "./observations.ts";
import { PRIOR_LOTS, priorOf, SPREAD_LOTS } from "./prior.ts";
import * as rules from "./rules.ts";
import { LOGIT } from "./scale.ts";
import type { Accepted } from "./schema.ts";

/** Where the figures of an estimate stand in a trace: "/learned/cut~1kale~1leaves". */
export function learnedAt(figure: Figure): string {
  return `/learned/${figureKey(figure).replaceAll("~", "~0").replaceAll("/", "~1")}`;
}

/**
 * How every number of an estimate came (README, LE13): from entries of the log (`log:/id/field`), figures of the book (`book:`)
 * and stated constants, step by step. Computed from the same documents and lines as the estimate.
 */
export function learnedTrace(docs: Documents, lines: readonly LogLine[], estimate: Estimate): Nodes {
  const stated = statedIn(docs, estimate.figure);
  if (!stated) return {};
  const noted = new Noted(learnedAt(estimate.figure));
  const seen = estimate.measured.map(({ observation }) => observation);
  const start = startOf(stated, seen, lines);
  const accepted = standing<Accepted>(lines, ["accepted"]).filter(
    ({ now }) => now.body.figure === figureKey(estimate.figure),
  );
  const taken = start.accepted === 0 ? [] : accepted;
  const toOf = taken.map(({ first, now }) => noted.log(now, "to", now.body.to, first.id));
  const work = stated.figure.kind === "work";

  // The book's figure, and what measuring starts from.
  const book = bookPath(docs, estimate.figure);
  const was = noted.note("was", stated.value, unitOf(stated), book.rule, [
    noted.given(book.path, book.value),
  ]);
  if (estimate.work) noteWork(noted, docs, estimate);
  const before =
    taken.length === 0 || work
      ? was
      : noted.log(taken[0]!.now, "from", taken[0]!.now.body.from, taken[0]!.first.id);
  const none = noted.given("const:/learned/product-of-none", 1);
  const relative =
    work && toOf.length > 0 ? noted.calc("relative", start.present, rules.productOf, toOf) : none;
  const from = work ? noted.given("const:/learned/minutes-as-written", 1) : before;
  noted.note("prior/value", estimate.prior.value, unitOf(stated), over, [from, relative]);
  const { source } = start.stated;
  const lots = noted.given(`const:/learned/prior-lots/${source}`, PRIOR_LOTS[source]);
  noted.note("prior/lots", estimate.prior.lots, "lot", given, [lots]);

  // Each measurement, and what it is on its scale.
  const { scale } = start.stated;
  const logit = scale === LOGIT;
  const onScale = logit ? rules.onLogit : rules.onLog;
  const cooks = [
    ...new Set(estimate.measured.filter((one) => one.leftOut === undefined).map((m) => m.observation.by)),
  ];
  const pairs: string[] = [];
  const place: number[] = [];
  estimate.measured.forEach((one, i) => {
    const { observation, value, leftOut } = one;
    const raw = noteObservation(noted, docs, observation, i);
    const before_ = work
      ? taken.flatMap(({ first }, k) => (first.at < observation.at ? [toOf[k]!] : []))
      : [];
    const changed =
      before_.length === 0
        ? none
        : noted.calc(`measured/${i}/changed`, productAt(noted, before_), rules.productOf, before_);
    noted.note(`measured/${i}/value`, value, unitOf(stated), rules.seenFrom, [raw, changed, relative]);
    if (leftOut !== undefined) return;
    const y = scale.to(observation.value * noted.value(changed));
    place[i] = pairs.length / 2;
    pairs.push(noted.calc(`measured/${i}/on-scale`, y, onScale, [raw, changed]));
    pairs.push(noted.number(cooks.indexOf(observation.by)));
  });

  const prior = priorOf(start.stated);
  const belief = [
    noted.calc("prior-on-scale", prior.mean, onScale, [from, none]),
    lots,
    noted.given(`const:/learned/lot-spread/${estimate.figure.kind}`, prior.spread),
    noted.given("const:/learned/spread-lots", SPREAD_LOTS),
  ];
  const fit = [...belief, ...pairs];
  const fitted = (key: string, rule: (...inputs: number[]) => number, first: readonly string[] = []) =>
    noted.derived(key, rule, [...first, ...fit]);
  const mean = fitted("mean", rules.fittedMean);
  const figure = logit ? rules.figureOfLogit : rules.figureOfLog;
  const end = logit ? rules.endOfLogit : rules.endOfLog;
  const spread = logit ? rules.spreadOfLogit : rules.spreadOfLog;
  const unit = unitOf(stated);
  noted.note("value", estimate.value, unit, figure, [mean, relative]);
  noted.note("known", estimate.known, unit, spread, [fitted("mean-sd", rules.fittedMeanSd), mean, relative]);
  noted.note("spread", estimate.spread, unit, spread, [fitted("lot-sd", rules.fittedLotSd), mean, relative]);
  const reach = fitted("reach", rules.fittedReach, [noted.given("const:/learned/next-share", NEXT_SHARE)]);
  const down = noted.derived("reach-down", rules.turned, [reach]);
  noted.note("next/0", estimate.next[0], unit, end, [mean, down, relative]);
  noted.note("next/1", estimate.next[1], unit, end, [mean, reach, relative]);
  const still = noted.given("const:/nothing", 0);
  noted.note("n", estimate.n, "lot", rules.countOf, [still, ...pairs]);
  estimate.cooks.forEach((cook, c) => {
    const at = `cooks/${c}`;
    const who = noted.number(c);
    const own = fitted(`${at}/mean`, rules.fittedCook, [who]);
    noted.note(`${at}/n`, cook.n, "lot", rules.countOfCook, [who, ...pairs]);
    noted.note(`${at}/value`, cook.value, unit, end, [own, still, relative]);
    const sd = fitted(`${at}/sd`, rules.fittedCookSd, [who]);
    noted.note(`${at}/known`, cook.known, unit, spread, [sd, own, relative]);
  });
  estimate.measured.forEach(({ p }, i) => {
    if (p !== undefined)
      noted.note(`measured/${i}/p`, p, "ratio", rules.chanceAsFar, [noted.number(place[i]!), ...fit]);
  });
  return noted.nodes;
}

function productAt(noted: Noted, paths: readonly string[]): number {
  return rules.productOf(...paths.map((path) => noted.value(path)));
}

/** A measurement from the figures that were written down; the path of its own value. */
function noteObservation(noted: Noted, docs: Documents, of: Observation, i: number): string {
  const { line, entry, value, figure } = of;
  const { body } = line;
  const at = `measured/${i}/observation`;
  const written = (field: string, unit: string) => {
    const number = (body as unknown as Record<string, number>)[field]!;
    const path = noted.log(line, field, number, entry, unit);
    noted.note(`${at}/line/body/${field}`, number, unit, given, [path]);
    return path;
  };
  switch (body.kind) {
    case "trim":
      return noted.note(`${at}/value`, value, "ratio", rules.keptShare, [
        written("epG", "g"),
        written("apG", "g"),
      ]);
    case "pieces":
      return noted.note(`${at}/value`, value, "g", over, [written("g", "g"), written("pieces", "piece")]);
    case "time":
      return noted.note(`${at}/value`, value, "ratio", over, [
        written("actualMin", "min"),
        written("plannedMin", "min"),
      ]);
    case "cook": {
      const goesOn = goesOnPath(noted, docs, figure);
      return noted.note(`${at}/value`, value, "ratio", rules.outOverIn, [
        ...[written("outG", "g"), written("inG", "g"), goesOn],
      ]);
    }
  }
}

function stepAt(docs: Documents, { of, part }: Figure) {
  const p = docs.preparations.findIndex((one) => one.id === of);
  const s = docs.preparations[p]!.steps.findIndex((one) => one.id === part);
  return { path: `book:/preparations/${p}/steps/${s}`, step: docs.preparations[p]!.steps[s]! };
}

function goesOnPath(noted: Noted, docs: Documents, figure: Figure): string {
  const { path, step } = stepAt(docs, figure);
  const discarded = step.discard
    ? noted.given(`${path}/discard/factor`, step.discard.factor)
    : noted.given("const:/nothing", 0);
  return noted.derived("goes-on", rules.goesOnAfter, [discarded]);
}

/** Where the book's figure stands, and the rule that makes it of what is written. */
function bookPath(docs: Documents, figure: Figure) {
  const { kind, of, part } = figure;
  if (kind === "cut" || kind === "piece") {
    const i = docs.ingredients.findIndex((one) => one.id === of);
    const { cuts, pieces } = docs.ingredients[i]!;
    if (kind === "cut") {
      const c = cuts.findIndex((one) => one.id === part);
      return { path: `book:/ingredients/${i}/cuts/${c}/trimYield`, value: cuts[c]!.trimYield, rule: given };
    }
    const p = pieces.findIndex((one) => one.name === part);
    return { path: `book:/ingredients/${i}/pieces/${p}/g`, value: pieces[p]!.g, rule: given };
  }
  if (kind === "work") return { path: "const:/learned/minutes-as-written", value: 1, rule: given };
  const { path, step } = stepAt(docs, figure);
  const change = step.change as { readonly factor?: number; readonly addWaterFactor?: number };
  if (change.factor !== undefined)
    return { path: `${path}/change/factor`, value: change.factor, rule: given };
  return { path: `${path}/change/addWaterFactor`, value: change.addWaterFactor!, rule: rules.withWater };
}

function noteWork(noted: Noted, docs: Documents, { figure, work }: Estimate): void {
  const { path } = stepAt(docs, figure);
  for (const [part, minutes] of Object.entries(work!) as [string, number][])
    noted.note(`work/${part}`, minutes, "min", given, [noted.given(`${path}/work/${part}`, minutes, "min")]);
}

const unitOf = ({ figure }: Stated) => (figure.kind === "piece" ? "g" : "ratio");
