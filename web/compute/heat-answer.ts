import { judgeCooking, judgeCooling } from "../../core/heat/cooling.ts";
import { fillTarget } from "../../core/heat/fill-target.ts";
import { answer, type CurvePoint, trial } from "../../core/heat/heat.ts";
import { type Found, latestStart, mediumFor, thicknessFor } from "../../core/heat/inverse.ts";
import { cookRules, coolingRules } from "../../core/heat/limits-data.ts";
import { prepare, type Question } from "../../core/heat/prepare.ts";
import { type Problem, Refused } from "../../core/heat/problem.ts";
import { problemsOf } from "../../core/heat/reading.ts";
import { type Run, runStages, type Shift } from "../../core/heat/run-stages.ts";
import { type HeatInput, HeatInputSchema } from "../../core/heat/schema.ts";
import { fineness } from "../../core/heat/spread.ts";
import type { HeatMore, HeatTold, HeatTrial, Inverse, LimitLine, Line } from "./heat-protocol.ts";

type Refusal = { readonly problems: readonly Problem[] };

/** A trial, told twice: its own figures at once, then the ends of its tolerances and its limits. */
export function* answerTrial({ input: typed, food }: HeatTrial): Generator<HeatTold | Refusal> {
  const input = read(typed);
  if ("problems" in input) return yield input;
  const question = questionOf(input);
  const spread = input.spread ?? {};
  const result = answer(() => trial(question, spread));
  if ("problems" in result) return yield result;
  const told = { input, result };
  yield told;
  const more = answer(() => moreOf(input, question, food));
  yield "problems" in more ? told : { ...told, more };
}

/** An inverse question of a trial. `start` counts minutes of the day and takes the slow end. */
export function answerInverse({ input: typed }: HeatTrial, inverse: Inverse): Found | Refusal {
  const input = read(typed);
  if ("problems" in input) return input;
  const question = questionOf(input);
  if (inverse.find === "thickness") return thicknessFor(question, inverse.minutes);
  if (inverse.find === "medium") return mediumFor(question, inverse.stage, inverse.minutes);
  const result = answer(() => trial(question, input.spread ?? {}));
  if ("problems" in result) return result;
  const high = result.band?.totalMinutes.high;
  if (high === null || high === undefined)
    return {
      problems: [
        {
          path: "/readyAt",
          what: "the slow piece is never ready",
          mend: "take a medium further from the target, or smaller tolerances",
        },
      ],
    };
  return { value: latestStart(inverse.readyAtMinute, { high }), minutes: high };
}

function read(typed: unknown): HeatInput | Refusal {
  const parsed = HeatInputSchema.safeParse(typed);
  return parsed.success ? parsed.data : { problems: problemsOf(parsed.error.issues, typed) };
}

function questionOf(input: HeatInput): Question {
  const { shape, material, layers, startC, stages, altitudeM, organism } = input;
  return { piece: shape, material, layers, startC, stages, place: { altitudeM }, organism };
}

function moreOf(input: HeatInput, question: Question, food: HeatTrial["food"]): HeatMore {
  const ready = prepare(question);
  const spread = input.spread ?? {};
  const end = (side: 1 | -1): Line | undefined => {
    const shift: Shift = { thickness: side, start: side, medium: side, coefficient: side };
    try {
      return coreOf(runStages(ready, fineness(ready), spread, shift));
    } catch (thrown) {
      if (thrown instanceof Refused) return undefined;
      throw thrown;
    }
  };
  const filled = fillTarget({
    piece: question.piece,
    material: question.material,
    target: { startC: input.startC, stages: input.stages, spread },
    place: question.place,
    paths: { piece: "/shape", target: "" },
  });
  if ("problems" in filled) throw new Refused(filled.problems);
  return {
    slow: end(1),
    quick: end(-1),
    leftAlone: restOf(question),
    limits: [
      ...filled.limits.map((limit): LimitLine => ({ kind: "asked", limit })),
      ...codeLimits(filled.slowCurve, food),
    ],
    planMinutes: filled.stages.reduce((sum, { minutes }) => sum + Math.ceil(minutes.high - 1e-6), 0),
  };
}

/** Longest that a core is followed after the last stage, minutes: by then any piece of a kitchen has turned. */
const REST_MINUTES = 240;

/** Where the core goes in still air after the last stage, when it rises further. */
function restOf(question: Question): HeatMore["leftAlone"] {
  const rest = { medium: "still-air", minutes: REST_MINUTES };
  const rested = { ...question, stages: [...question.stages, rest] };
  const ready = prepare(rested);
  const run = runStages(ready, fineness(ready));
  const last = run.stages.at(-1)!;
  const before = run.stages.slice(0, -1).reduce((sum, stage) => sum + stage.seconds, 0);
  const end = last.samples[0]!;
  // What is colder outside than inside, or chilled, is not carried over: it only warms up again.
  if (end.meanC <= end.coreC || last.peakCoreC < end.coreC + 0.1) return undefined;
  const peak = last.samples.find((sample) => sample.coreC === last.peakCoreC)!;
  return { peakC: last.peakCoreC, minute: (before + peak.seconds) / 60 };
}

/** Limits of the code, judged on the slow piece: the pair for the food, the two stages where it cools. */
function codeLimits(slow: readonly CurvePoint[], food: HeatTrial["food"]): LimitLine[] {
  const curve = slow.map(({ minute, coreC }) => ({ minute, celsius: coreC }));
  const hottest = Math.max(...curve.map((point) => point.celsius));
  const out: LimitLine[] = [];
  if (food) {
    const rule = cookRules[food];
    out.push({ kind: "cook", food, judged: judgeCooking(curve, rule), source: rule.source });
  }
  const rule = coolingRules[0]!;
  const last = curve.at(-1)!.celsius;
  if (hottest >= rule.stages[0]!.fromC && last < rule.stages[0]!.fromC)
    out.push({ kind: "cool", judged: judgeCooling(curve, rule), source: rule.source });
  return out;
}

function coreOf(run: Run): Line {
  const line: [number, number][] = [];
  let before = 0;
  for (const stage of run.stages) {
    const every = Math.max(1, Math.floor(stage.samples.length / 120));
    for (const [i, sample] of stage.samples.entries())
      if (i % every === 0 || i === stage.samples.length - 1)
        line.push([(before + sample.seconds) / 60, sample.coreC]);
    before += stage.seconds;
  }
  return line;
}
