import { runSchedule } from "../../core/schedule/command.ts";
import { EXIT, type Io, Misuse, readArgs, readText, refuse, wholeNumber, writeJson } from "../io.ts";

const help = `tournant schedule FILE [--seconds S | --schedules N] [--seed K] [--json]

Plans the tasks of a file: PSPLIB's single-mode form (.sm), ProGen/max's (.sch), known by their content, or our own
problem as JSON. Searches for S seconds, or until N schedules have been generated (5000 when neither is said); the
same seed and count give the same plan.

JSON: {status: optimal | feasible | infeasible | unknown (broken, for our own files), makespan, lowerBound, starts,
schedules, seconds}. Each decode counts as a schedule, justification passes included.
`;

function run(args: string[], io: Io): number {
  const { words, options } = readArgs(
    args,
    { seconds: "text", schedules: "text", seed: "text", json: "flag" },
    { least: 1, most: 1 },
  );
  if (options.seconds !== undefined && options.schedules !== undefined)
    throw new Misuse("give --seconds or --schedules, not both");
  const seconds = options.seconds === undefined ? undefined : Number(options.seconds);
  if (seconds !== undefined && !(seconds > 0 && seconds <= 86_400))
    throw new Misuse(`--seconds is "${options.seconds}": give a number above 0, at most 86400`);
  const schedules = wholeNumber("schedules", options.schedules, 1, 1_000_000_000);
  const seed = wholeNumber("seed", options.seed, 0, 2 ** 32 - 1);
  const text = readText(words[0]!);
  if (!text.ok) return refuse(text.problems, options.json, io);
  const answer = runSchedule(text.value, {
    ...(seed === undefined ? {} : { seed }),
    ...(schedules === undefined ? {} : { schedules }),
    ...(seconds === undefined ? {} : { seconds }),
    clock: () => performance.now(),
    onProgress: (best, lowerBound, count) => io.note(`${count} schedules: ${best}, at least ${lowerBound}\n`),
  });
  if (!answer.ok) return refuse(answer.problems, options.json, io);
  const { value } = answer;
  if (options.json) writeJson(value, io);
  else
    io.out(
      `${value.status}: makespan ${value.makespan ?? "none"}, at least ${value.lowerBound}; ${value.schedules} schedules in ${value.seconds.toFixed(2)} s\n`,
    );
  return EXIT.computed;
}

export default { help, run };
