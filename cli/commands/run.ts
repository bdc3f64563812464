import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { run as computeRun, RunRefusal } from "../../core/run/run.ts";
import { EXIT, type Io, readArgs, readBook, refuse, wholeNumber, writeJson } from "../io.ts";
import { writeSummary } from "../summary.ts";

const help = `tournant run SERVICE [--book FILE|demo|pantry] [--covers N] [--kitchen K] [--seed S] [--schedules N] [--out DIR] [--json] [--strict]

  tournant run demo
  tournant run demo --covers 120 --json > result.json
  tournant run demo --out pack/

Computes everything for one service of a book (the demo's when none is named): needs, balance, orders, cost,
allergens, plan, plates, pull, labels, control points, front of house, warnings, and the trace of each number.
--out DIR writes result.json and the printed pack.

JSON: the result; every number has a node in its trace under its JSON Pointer (RFC 6901).
Exit 0: computed, also when the plan is "broken" or "none" (its status says so; with --strict that is 3).
`;

async function run(args: string[], io: Io): Promise<number> {
  const { words, options } = readArgs(
    args,
    {
      book: "text",
      covers: "text",
      kitchen: "text",
      seed: "text",
      schedules: "text",
      out: "text",
      json: "flag",
      strict: "flag",
    },
    { least: 1, most: 1 },
  );
  const covers = wholeNumber("covers", options.covers, 1, 100_000);
  const seed = wholeNumber("seed", options.seed, 0, 2 ** 32 - 1);
  const schedules = wholeNumber("schedules", options.schedules, 1, 1_000_000);
  const book = readBook(options.book ?? "demo");
  if (!book.ok) return refuse(book.problems, options.json, io);
  const { openSolver } = await import("../../solver/highs.ts");
  const solver = await openSolver();
  let result: ReturnType<typeof computeRun>;
  try {
    result = computeRun(book.value, words[0]!, {
      solver,
      ...(covers === undefined ? {} : { covers }),
      ...(options.kitchen === undefined ? {} : { kitchen: options.kitchen }),
      ...(seed === undefined ? {} : { seed }),
      ...(schedules === undefined ? {} : { schedules }),
    });
  } catch (error) {
    if (error instanceof RunRefusal) return refuse(error.problems, options.json, io);
    throw error;
  }
  if (options.out !== undefined) {
    mkdirSync(options.out, { recursive: true });
    writeFileSync(join(options.out, "result.json"), JSON.stringify(result));
    const { writePack } = await import("../../print/pack.ts");
    writeFileSync(join(options.out, "pack.pdf"), await writePack(book.value, result));
    io.note(`Written to ${options.out}: result.json, pack.pdf\n`);
  }
  if (options.json) writeJson(result, io);
  else writeSummary(result, io);
  return options.strict && result.plan.status !== "feasible" ? EXIT.strict : EXIT.computed;
}

export default { help, run };
