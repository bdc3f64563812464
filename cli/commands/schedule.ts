import { Worker } from "node:worker_threads";
import type { runSchedule } from "../../core/schedule/command.ts";
import { EXAMPLE } from "../../core/schedule/example.ts";
import { EXIT, fileOf, type Io, Misuse, readArgs, readText, refuse, wholeNumber, writeJson } from "../io.ts";
import type { Asked } from "./schedule-thread.ts";

const help = `tournant schedule FILE [--seconds S | --schedules N] [--seed K] [--json]
tournant schedule --example

Plans the tasks of a file ("-" is standard input): PSPLIB's single-mode form (.sm), ProGen/max's (.sch), or our own
problem as JSON; which one is seen from the content. Searches for S seconds, or until N schedules have been generated
(5000 when neither is said); the same seed and count give the same plan. Ctrl-C ends the search with the best plan so
far, a second Ctrl-C at once.

Our own form, in whole minutes from 0 to the horizon (docs/problem-file.md tells all of it; --example prints one):

  horizon    the end of time
  tasks      id; modes, each a duration with its people (count, skill) and resources (of, amount, state); release,
             deadline, due, late, early, pin
  lags       from and to a task's start or end; least, most
  resources  id; capacity, one figure a dimension; calendar; state with its minutes of change
  persons    id; skills; shifts with breaks
  objective  weights: makespan, late, early, hold, changes, walk

  tournant schedule --example > problem.json
  tournant schedule problem.json --json

JSON: {status: optimal | feasible | infeasible | unknown (broken, for our own files), makespan, lowerBound, starts,
schedules, seconds, why (demands no capacity can serve), result (our own files)}. starts are in the order of the file.
Each decode counts as a schedule, justification passes included.
Exit: 0 computed, also when it is infeasible or was ended by Ctrl-C; 1 refused input; 2 misuse.
`;

type Answer = ReturnType<typeof runSchedule>;

/** Searches on a thread of its own, so that Ctrl-C is heard. */
function search(asked: Omit<Asked, "stopped">, io: Io): Promise<Answer> {
  const stopped = new SharedArrayBuffer(4);
  const worker = new Worker(new URL("./schedule-thread.ts", import.meta.url), {
    workerData: { ...asked, stopped } satisfies Asked,
  });
  const end = () => {
    Atomics.store(new Int32Array(stopped), 0, 1);
    io.note("Ending with the best plan so far.\n");
  };
  process.once("SIGINT", end);
  return new Promise<Answer>((resolve, reject) => {
    worker.on("message", (told: { note?: string; answer?: Answer }) => {
      if (told.note) io.note(told.note);
      if (told.answer) resolve(told.answer);
    });
    worker.on("error", reject);
  }).finally(() => process.off("SIGINT", end));
}

async function run(args: string[], io: Io): Promise<number> {
  const { words, options } = readArgs(
    args,
    { seconds: "text", schedules: "text", seed: "text", json: "flag", example: "flag" },
    { least: 0, most: 1 },
  );
  if (options.example) {
    writeJson(EXAMPLE, io);
    return EXIT.computed;
  }
  if (words.length === 0) throw new Misuse("the file is missing");
  if (options.seconds !== undefined && options.schedules !== undefined)
    throw new Misuse("give --seconds or --schedules, not both");
  const seconds = options.seconds === undefined ? undefined : Number(options.seconds);
  if (seconds !== undefined && !(seconds > 0 && seconds <= 86_400))
    throw new Misuse(`--seconds is "${options.seconds}": give a number above 0, at most 86400`);
  const schedules = wholeNumber("schedules", options.schedules, 1, 1_000_000_000);
  const seed = wholeNumber("seed", options.seed, 0, 2 ** 32 - 1);
  const text = readText(fileOf(words[0]!));
  if (!text.ok) return refuse(text.problems, options.json, io);
  const given = {
    ...(seed === undefined ? {} : { seed }),
    ...(schedules === undefined ? {} : { schedules }),
    ...(seconds === undefined ? {} : { seconds }),
  };
  const answer = await search({ text: text.value, options: given }, io);
  if (!answer.ok) return refuse(answer.problems, options.json, io);
  const { value } = answer;
  if (options.json) writeJson(value, io);
  else {
    io.out(
      `${value.status}: makespan ${value.makespan ?? "none"}, at least ${value.lowerBound}; ${value.schedules} schedules in ${value.seconds.toFixed(2)} s\n`,
    );
    for (const why of value.why ?? []) io.out(`  ${why}\n`);
  }
  return EXIT.computed;
}

export default { help, run };
