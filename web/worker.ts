import solverCode from "highs/runtime?url";
import { indexBook, type Library } from "../core/book/index-book.ts";
import { parseBook } from "../core/book/parse.ts";
import type { Book } from "../core/book/schema.ts";
import { TRIED } from "../core/costing/changes.ts";
import type { Trial } from "../core/costing/what-if.ts";
import type { TraceNode } from "../core/ledger/ledger.ts";
import { Refusal } from "../core/pantry/refusal.ts";
import { ANOTHER, anotherAmount } from "../core/production/another-amount.ts";
import type { Remedy } from "../core/production/plan-types.ts";
import type { MixedInteger } from "../core/purchasing/mixed-integer.ts";
import type { Result } from "../core/run/result.ts";
import { type OpenRun, openRun, RunRefusal, USUAL_SCHEDULES } from "../core/run/run.ts";
import { openSolver } from "../solver/highs.ts";
import { NotFound, PlansOfServer } from "./compute/found-plans.ts";
import type { FromWorker, Question, Stage, ToWorker } from "./compute/protocol.ts";

/** Computes away from the page: reads the book once a version, answers questions, keeps how figures came. */
let book: Book | undefined;
let refused: Extract<FromWorker, { type: "refused" }>["problems"] = [];
let opened: { readonly key: string; readonly run: OpenRun } | undefined;
/** Makes the trace of the last answer; only when someone asks. */
let trace: () => Readonly<Record<string, TraceNode>> = () => ({});

/** How the figures of what was tried last came, by what stands before their pointers. */
const triedTraces = new Map<string, Readonly<Record<string, TraceNode>>>();
let library: Library | undefined;
const plans = new PlansOfServer();
/** Opened when the first plan is asked for; where it cannot be had, the orders are made without it. */
let solver: Promise<MixedInteger | undefined> | undefined;

function solverOnce(): Promise<MixedInteger | undefined> {
  solver ??= openSolver(solverCode).catch(() => undefined);
  return solver;
}

const say = (message: FromWorker): void =>
  (globalThis as unknown as { postMessage(m: FromWorker): void }).postMessage(message);

function open({ service, kitchen, covers }: Question): OpenRun {
  const key = `${service}|${kitchen ?? ""}`;
  if (opened?.key === key) return opened.run;
  const run = openRun(book!, service, {
    ...(kitchen === undefined ? {} : { kitchen }),
    ...(covers === undefined ? {} : { covers }),
  });
  opened = { key, run };
  return run;
}

/** Amounts alone, without waiting for a plan. */
function amounts(id: number, question: Question): void {
  const began = performance.now();
  const at = { ...(question.covers === undefined ? {} : { covers: question.covers }), plan: false };
  const told = open(question).at({ ...at, trace: false });
  let known: Readonly<Record<string, TraceNode>> | undefined;
  trace = () => {
    known ??= open(question).at(at).trace;
    return known;
  };
  tell(id, told, true, began);
}

/** What was planned before at once; else a first plan soon, then the good one, then, where it does not fit, remedies that were tried. */
async function plan(id: number, question: Question): Promise<void> {
  const began = performance.now();
  const opening = solverOnce();
  const covers = question.covers === undefined ? {} : { covers: question.covers };
  const run = open(question);
  const at = { ...covers, solver: await opening, found: plans };
  const search = () => {
    tell(id, run.at({ ...covers, schedules: 1, remedies: false, trace: false }), false, began, "improving");
    const onProgress = ({ schedules }: { readonly schedules: number }) =>
      say({ type: "progress", id, done: schedules, of: USUAL_SCHEDULES });
    return run.at({ ...at, remedies: false, onProgress });
  };
  const good = whereFound(() => run.at({ ...at, remedies: false, found: plans.only })) ?? search();
  trace = () => good.trace;
  const fits = good.plan.status === "feasible";
  if (!fits) tell(id, good, false, began, "remedies");
  const onRemedies = (remedies: readonly Remedy[]) => say({ type: "remedies", id, remedies });
  const best = fits ? good : run.at({ ...at, onRemedies });
  trace = () => best.trace;
  tell(id, best, true, began);
}

/** Undefined where it hangs on a plan nobody has found yet. */
function whereFound(of: () => Result): Result | undefined {
  try {
    return of();
  } catch (error) {
    if (error instanceof NotFound) return undefined;
    throw error;
  }
}

function tell(id: number, result: Result, last: boolean, began: number, next?: Stage): void {
  const { trace: _, ...told } = result;
  say({ type: "told", id, told, last, next, ms: performance.now() - began });
}

function answer(id: number, part: "amounts" | "plan", question: Question): void {
  if (!book) {
    say({ type: "refused", id, problems: refused });
    return;
  }
  try {
    if (part === "amounts") amounts(id, question);
    else plan(id, question).catch((error: unknown) => refuse(id, error));
  } catch (error) {
    refuse(id, error);
  }
}

function refuse(id: number, error: unknown): void {
  opened = undefined;
  const problems =
    error instanceof RunRefusal
      ? error.problems
      : [
          {
            path: "",
            what: `this could not be computed: ${(error as Error).message}`,
            mend: "put the last change back",
          },
        ];
  say({ type: "refused", id, problems });
}

/** Plates and menu at other prices, yields or portions; the answer is as quick as a change of covers. */
function cost(id: number, question: Question, trial: Trial): void {
  try {
    const found = open(question).tryCost(question.covers, trial);
    if (found.refused === undefined) triedTraces.set(TRIED, found.trace);
    const tried = found.refused === undefined ? { cost: found.cost } : { refused: found.refused };
    say({ type: "tried", id, tried });
  } catch (error) {
    say({ type: "tried", id, tried: { refused: (error as Error).message } });
  }
}

/** One formula at another amount, alone. */
function another({
  id,
  preparation,
  asked,
  portionG,
  scaleStepG,
}: Extract<ToWorker, { type: "another" }>): void {
  try {
    library ??= indexBook(book!);
    const made = anotherAmount(library, library.pointer, preparation, asked, portionG, scaleStepG);
    triedTraces.set(ANOTHER, made.trace);
    say({ type: "another", id, another: { made: made.another } });
  } catch (error) {
    const problems = error instanceof Refusal ? error.problems : [{ what: (error as Error).message }];
    say({ type: "another", id, another: { refused: problems.map(({ what }) => what).join("; ") } });
  }
}

addEventListener("message", (event: MessageEvent<ToWorker>) => {
  const asked = event.data;
  switch (asked.type) {
    case "book": {
      const read = parseBook(asked.book);
      book = read.ok ? read.value : undefined;
      refused = read.ok ? [] : read.problems;
      opened = undefined;
      library = undefined;
      return;
    }
    case "another":
      another(asked);
      return;
    case "ask":
      answer(asked.id, asked.part, asked.question);
      return;
    case "cost":
      cost(asked.id, asked.question, asked.trial);
      return;
    case "explain":
      say({ type: "explained", id: asked.id, explained: opened?.run.explain(asked.task) });
      return;
    case "move":
      say({ type: "moved", id: asked.id, moved: opened?.run.tryMove(asked.pin) });
      return;
    case "trace": {
      const nodes = triedTraces.get(`/${asked.path.split("/", 2)[1]}`) ?? trace();
      const node = nodes[asked.path];
      say({
        type: "traced",
        id: asked.id,
        traced: node && { node, inputs: node.inputs.map((path) => ({ path, node: nodes[path] })) },
      });
    }
  }
});
