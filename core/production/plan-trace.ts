import type { Rule } from "../ledger/ledger.ts";
import { stated } from "../ledger/stated.ts";
import type { Tracer } from "../ledger/tracer.ts";
import type { Problem } from "../schedule/problem.ts";
import { numbersBelow, numbersOf } from "./apply.ts";
import { DurationTrace } from "./duration-trace.ts";
import { KG_PER_POSITION } from "./holds.ts";
import type { MadePlan } from "./make-plan.ts";
import {
  beyondShare,
  fingerprint,
  fingerprintOf,
  minutesBetween,
  ofLoad,
  positionsTaken,
  totalMinutes,
  wholeDown,
  wholeRoom,
  withinRange,
} from "./plan-rules.ts";
import type { Plan } from "./plan-types.ts";
import type { Task } from "./tasks.ts";
import { WHOLE_ROOM } from "./units.ts";
import { PEAK_SHARE } from "./weights.ts";

/**
 * Says how every number of `/plan` came (README, P22): figures of the book by the rules of plan-rules.ts, what the
 * search decided by the rules of `scheduledRules`.
 */
export function tracePlan(
  tracer: Tracer,
  made: MadePlan,
  plan: Plan,
  asked: number,
  pointer = "/plan",
): void {
  const { site, set, problem } = made;
  const durations = new DurationTrace(site, tracer);
  const given = (at: string, value: number, unit: string) =>
    tracer.note(at, { value, unit, rule: "given", inputs: [] });
  const index = (i: number) => stated(site.amounts.ledger, `const:/number/${i}`, "", i);
  given(`${pointer}/seed`, plan.seed, "");
  given("calc:/plan/asked", asked, "schedules");
  const limits = limitsOf(problem);
  given("calc:/plan/limits", limits, "");
  const minutes = set.tasks.flatMap((task) => task.ways.map((way) => durations.minutes(task, way)));
  const PROBLEM = "calc:/plan/problem";
  tracer.note(PROBLEM, {
    value: problemPrint(made),
    unit: "",
    rule: fingerprint.name,
    inputs: ["calc:/plan/limits", ...minutes],
  });
  const search = [PROBLEM, `${pointer}/seed`, "calc:/plan/asked"];
  const decided = (at: string, value: number, unit: string, rule: ScheduledRule, i: number) =>
    tracer.note(at, { value, unit, rule, inputs: [...search, index(i)] });
  decided(`${pointer}/schedules`, plan.schedules, "schedules", "scheduledCount", 0);

  const at = new Map(plan.tasks.map((task, i) => [task.id, i]));
  plan.tasks.forEach((task, i) => {
    const here = `${pointer}/tasks/${i}`;
    const source = set.tasks[i]!;
    given(`${here}/batch`, task.batch, "");
    decided(`${here}/startMin`, task.startMin, "min", "scheduledStart", i);
    const way = source.ways.find(
      (w) => task.endMin - task.startMin === w.minutes && w.hands === task.hands.length,
    );
    if (way)
      tracer.note(`${here}/endMin`, {
        value: task.endMin,
        unit: "min",
        rule: totalMinutes.name,
        inputs: [`${here}/startMin`, durations.minutes(source, way)],
      });
    // Work that a break interrupts ends when the people have worked its minutes.
    else decided(`${here}/endMin`, task.endMin, "min", "scheduledEnd", i);
    const latest = `calc:/plan/latest/${task.id}`;
    decided(latest, task.startMin + task.slackMin, "min", "scheduledLatest", i);
    tracer.note(`${here}/slackMin`, {
      value: task.slackMin,
      unit: "min",
      rule: minutesBetween.name,
      inputs: [latest, `${here}/startMin`],
    });
    roomNodes(made, durations, tracer, source, task, here);
    if (!task.hold) return;
    const link = set.links.find(
      (l) =>
        l.from.task === task.id &&
        l.state !== undefined &&
        l.most === task.hold!.maxMin &&
        used(plan, at, l) === task.hold!.usedMin,
    );
    const moment = (m: { task: string; at: "start" | "end" }) =>
      `${pointer}/tasks/${at.get(m.task)}/${m.at}Min`;
    tracer.note(`${here}/hold/usedMin`, {
      value: task.hold.usedMin,
      unit: "min",
      rule: minutesBetween.name,
      inputs: link ? [moment(link.to), moment(link.from)] : [],
    });
    tracer.note(`${here}/hold/maxMin`, {
      value: task.hold.maxMin,
      unit: "min",
      rule: wholeDown.name,
      inputs: [holdCell(made, source, task.hold.maxMin)],
    });
  });
  const service = site.docs.pointer("services", site.amounts.service.id);
  plan.objective.forEach((term, i) => {
    const own = site.amounts.service.weights?.[term.key] !== undefined;
    const at = own ? `book:${service}/weights/${term.key}` : `const:/weights/${term.key}`;
    tracer.note(`${pointer}/objective/${i}/weight`, {
      ...{ value: term.weight, unit: "", rule: "given" },
      inputs: [stated(site.amounts.ledger, at, "", term.weight)],
    });
    if (term.key === "peaks")
      tracer.note(`${pointer}/objective/${i}/value`, {
        ...{ value: term.value, unit: term.unit, rule: "sum" },
        inputs: plan.peaks.map((_, k) => `${pointer}/peaks/${k}/overMin`),
      });
    else decided(`${pointer}/objective/${i}/value`, term.value, term.unit, "scheduledTerm", i);
    if (term.bound !== undefined)
      decided(`${pointer}/objective/${i}/bound`, term.bound, term.unit, "scheduledBound", i);
  });
  plan.peaks.forEach((peak, i) => {
    const here = `${pointer}/peaks/${i}`;
    decided(`${here}/workedMin`, peak.workedMin, "min", "scheduledWorked", i);
    decided(`${here}/thereMin`, peak.thereMin, "min", "scheduledThere", i);
    const share = stated(site.amounts.ledger, "const:/peaks/share", "", PEAK_SHARE);
    const inputs = [`${here}/workedMin`, `${here}/thereMin`, share];
    tracer.note(`${here}/overMin`, { value: peak.overMin, unit: "min", rule: beyondShare.name, inputs });
  });
  plan.broken.forEach((b, i) => {
    decided(`${pointer}/broken/${i}/by`, b.by, b.unit, "scheduledBreach", i);
    if (b.times !== undefined)
      decided(`${pointer}/broken/${i}/times`, b.times, "breach", "scheduledTimes", i);
  });
  plan.load.forEach((load, i) => {
    decided(`${pointer}/load/${i}/busyMin`, load.busyMin, "min", "scheduledBusy", i);
    decided(`${pointer}/load/${i}/openMin`, load.openMin, "min", "scheduledOpen", i);
  });
  let told = 0;
  plan.remedies.forEach((remedy, i) => {
    for (const [at, value] of numbersBelow(remedy.apply, `${pointer}/remedies/${i}/apply`))
      decided(at, value, "", "scheduledApply", told++);
    if (remedy.spareMin !== undefined)
      decided(`${pointer}/remedies/${i}/spareMin`, remedy.spareMin, "min", "scheduledSpare", i);
    if (remedy.covers !== undefined)
      decided(`${pointer}/remedies/${i}/covers`, remedy.covers, "cover", "scheduledCovers", i);
  });
}

type ScheduledRule = keyof ReturnType<typeof scheduledRules>;

/**
 * The rules of what the search decided, for replaying a trace: `again` plans the same service with the same
 * options. Each rule refuses a fingerprint or seed that is not that plan's.
 */
export function scheduledRules(again: () => { readonly made: MadePlan; readonly plan: Plan }) {
  let known: { readonly made: MadePlan; readonly plan: Plan } | undefined;
  const rule =
    (read: (plan: Plan, index: number, made: MadePlan) => number) =>
    (problem: number, seed: number, _asked: number, index: number): number => {
      known ??= again();
      if (problemPrint(known.made) !== problem || known.plan.seed !== seed)
        throw new Error("this trace is of another plan: the problem or the seed differs");
      return read(known.plan, index, known.made);
    };
  return {
    scheduledCount: rule((plan) => plan.schedules),
    scheduledStart: rule((plan, i) => plan.tasks[i]!.startMin),
    scheduledEnd: rule((plan, i) => plan.tasks[i]!.endMin),
    scheduledLatest: rule((plan, i) => plan.tasks[i]!.startMin + plan.tasks[i]!.slackMin),
    scheduledTerm: rule((plan, i) => plan.objective[i]!.value),
    scheduledBound: rule((plan, i) => plan.objective[i]!.bound!),
    scheduledTimes: rule((plan, i) => plan.broken[i]!.times!),
    scheduledBreach: rule((plan, i) => plan.broken[i]!.by),
    scheduledWorked: rule((plan, i) => plan.peaks[i]!.workedMin),
    scheduledThere: rule((plan, i) => plan.peaks[i]!.thereMin),
    scheduledBusy: rule((plan, i) => plan.load[i]!.busyMin),
    scheduledOpen: rule((plan, i) => plan.load[i]!.openMin),
    scheduledSpare: rule((plan, i) => plan.remedies[i]!.spareMin!),
    scheduledApply: rule((plan, i) => numbersOf(plan.remedies.map((remedy) => remedy.apply))[i]!),
    scheduledCovers: rule((plan, i) => plan.remedies[i]!.covers!),
  } satisfies Record<string, Rule>;
}

/** The number that stands for a problem: its limits, then the minutes of every way of every task. */
function problemPrint({ set, problem }: MadePlan): number {
  return fingerprintOf([
    limitsOf(problem),
    ...set.tasks.flatMap((task) => task.ways.map((way) => way.minutes)),
  ]);
}

/** Everything in a problem but the durations: waits, room, shifts, dates. */
function limitsOf(problem: Problem): number {
  const numbers: number[] = [problem.horizon];
  for (const lag of problem.lags ?? []) numbers.push(lag.least ?? -1, lag.most ?? -1, lag.best ?? -1);
  for (const r of problem.resources ?? []) numbers.push(...r.capacity, r.state?.tolerance ?? -1);
  for (const p of problem.persons ?? []) for (const s of p.shifts) numbers.push(s.from, s.to);
  for (const task of problem.tasks) {
    numbers.push(task.release ?? -1, task.due ?? -1, task.pin?.start ?? -1);
    for (const need of task.modes[0]?.resources ?? []) numbers.push(...need.amount, need.state?.set ?? -1);
  }
  return fingerprintOf(numbers);
}

function used(plan: Plan, at: ReadonlyMap<string, number>, link: MadePlan["set"]["links"][number]): number {
  const [from, to] = [plan.tasks[at.get(link.from.task)!]!, plan.tasks[at.get(link.to.task)!]!];
  return to[`${link.to.at}Min`] - from[`${link.from.at}Min`];
}

/** Where the book says how long what a task made may wait. */
function holdCell({ site }: MadePlan, task: Task, maxMin: number) {
  const prep = site.docs.preparations.get(task.preparation)!;
  const at = site.docs.pointer("preparations", prep.id);
  const s = prep.steps.findIndex((step) => step.id === task.step);
  const hold = prep.steps[s]?.hold;
  if (hold && wholeDown(hold.maxMin) === maxMin)
    return stated(site.amounts.ledger, `book:${at}/steps/${s}/hold/maxMin`, "min", hold.maxMin);
  const life = prep.life.findIndex((each) => wholeDown(each.maxMinutes) === maxMin);
  return stated(
    site.amounts.ledger,
    `book:${at}/life/${life}/maxMinutes`,
    "min",
    prep.life[life]!.maxMinutes,
  );
}

function roomNodes(
  { site }: MadePlan,
  durations: DurationTrace,
  tracer: Tracer,
  source: Task,
  task: Plan["tasks"][number],
  here: string,
): void {
  const prep = site.docs.preparations.get(source.preparation);
  const s = prep?.steps.findIndex((each) => each.id === source.step) ?? -1;
  const step = prep?.steps[s];
  task.equipment.forEach((e, k) => {
    const at = `${here}/equipment/${k}`;
    const unit = site.units.all.find((u) => u.id === e.id);
    const index =
      step?.uses.findIndex(
        (use) =>
          use.space.unit === e.unit &&
          (use.kind === undefined
            ? use.equipment === unit?.equipment.id
            : use.kind === unit?.equipment.kind) &&
          (e.setC === undefined || use.setC !== undefined),
      ) ?? -1;
    if (!step || index < 0) {
      // Thawing takes room by mass alone.
      const gPerPosition = stated(site.amounts.ledger, "const:/position", "g", KG_PER_POSITION * 1000);
      const inputs = [durations.thawed(source), gPerPosition];
      tracer.note(`${at}/space`, { value: e.space, unit: e.unit, rule: positionsTaken.name, inputs });
      return;
    }
    const room = durations.room(source, step, index, `calc:/plan/room/${source.id}/${k}`);
    const whole = WHOLE_ROOM.has(e.unit);
    tracer.note(`${at}/space`, {
      value: e.space,
      unit: e.unit,
      rule: whole ? wholeRoom.name : ofLoad.name,
      inputs: whole ? [room] : [room, stated(site.amounts.ledger, "const:/number/1", "", 1)],
    });
    if (e.setC === undefined) return;
    const pointer = `book:${site.docs.pointer("preparations", prep!.id)}/steps/${s}/uses/${index}/setC`;
    const set = stated(site.amounts.ledger, pointer, "°C", step.uses[index]!.setC!);
    const range = unit?.equipment.rangeC;
    if (!unit || !range) {
      tracer.note(`${at}/setC`, { value: e.setC, unit: "°C", rule: "given", inputs: [set] });
      return;
    }
    const kitchen = `book:${site.docs.pointer("kitchens", site.kitchen.id)}/equipment/${unit.index}/rangeC`;
    tracer.note(`${at}/setC`, {
      value: e.setC,
      unit: "°C",
      rule: withinRange.name,
      inputs: [set, ...range.map((end, n) => stated(site.amounts.ledger, `${kitchen}/${n}`, "°C", end))],
    });
  });
}
