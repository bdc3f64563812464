import { readProblem } from "./file.ts";
import type { Problem, Result } from "./problem.ts";
import { type Project, tooMuch } from "./rcpsp/project.ts";
import { readProject } from "./rcpsp/read.ts";
import { solveProject } from "./rcpsp/solve.ts";
import type { Refusal } from "./refusal.ts";
import { solve } from "./solve.ts";

export interface ScheduleOptions {
  /** Default 1. */
  readonly seed?: number;
  /** Schedules to generate; default 5000, without limit when `seconds` is given. */
  readonly schedules?: number;
  /** Needs a clock. */
  readonly seconds?: number;
  /** Milliseconds from any fixed moment. */
  readonly clock?: () => number;
  /** Asked again and again; once it says so the best so far is given. */
  readonly stop?: () => boolean;
  readonly onProgress?: (best: number, lowerBound: number, schedules: number) => void;
}

/** What `tournant schedule` prints. */
export interface ScheduleReport {
  readonly status: Result["status"];
  /** Largest end; null without a plan. */
  readonly makespan: number | null;
  readonly lowerBound: number;
  /** One start per activity or task, in the order of the file; null without a plan. */
  readonly starts: readonly number[] | null;
  /** Schedules generated: each decode, justification passes included, each dead end of the proof, each rebuilt part. */
  readonly schedules: number;
  /** 0 without a clock. */
  readonly seconds: number;
  /** What alone makes a project impossible, in words. */
  readonly why?: readonly string[];
  /** For our own problem files: the whole result. */
  readonly result?: Result;
}

/**
 * The `schedule` command: the text of a PSPLIB .sm file, a ProGen/max .sch file or a problem of this room as
 * JSON, known by its content. Gives the report or what makes the text unreadable. Never throws for what a
 * person wrote.
 */
export function runSchedule(
  written: string,
  options: ScheduleOptions = {},
):
  | { readonly ok: true; readonly value: ScheduleReport }
  | { readonly ok: false; readonly problems: readonly Refusal[] } {
  // A mark of the byte order is of no meaning here.
  const text = written.replace(/^\ufeff/, "");
  const clock = options.clock ?? (() => 0);
  const begun = clock();
  const timed = options.seconds !== undefined;
  const schedules = options.schedules ?? (timed ? Number.MAX_SAFE_INTEGER : 5000);
  const asked = options.stop;
  const late = () => timed && clock() - begun >= 1000 * options.seconds!;
  const stop = timed || asked ? { stop: () => late() || asked?.() === true } : {};
  const seed = options.seed ?? 1;
  const seconds = () => Math.round(clock() - begun) / 1000;
  const project = readProject(text);
  if (project && "path" in project) return { ok: false, problems: [project] };
  if (project) {
    const told = options.onProgress ? { onProgress: options.onProgress } : {};
    return {
      ok: true,
      value: {
        ...solveProject(project, { seed, schedules, ...stop, ...told }),
        seconds: seconds(),
        ...whyNever(project),
      },
    };
  }
  const problem = problemIn(text);
  if (!("tasks" in problem)) return { ok: false, problems: problem };
  const { onProgress } = options;
  const result = solve(problem, {
    seed,
    schedules,
    ...stop,
    ...(onProgress ? { onProgress: (p) => onProgress(p.value, p.bound, p.schedules) } : {}),
  });
  if (result.refusals.length > 0) return { ok: false, problems: result.refusals };
  const ends = result.schedule?.placements.map((p) => p.end) ?? [];
  return {
    ok: true,
    value: {
      status: result.status,
      makespan: result.schedule ? Math.max(0, ...ends) : null,
      lowerBound: result.bound,
      starts: result.schedule?.placements.map((p) => p.start) ?? null,
      schedules: result.schedules,
      seconds: seconds(),
      result,
    },
  };
}

/** Demands no capacity can serve: such a project is well put, and infeasible. */
function whyNever(project: Project): Pick<ScheduleReport, "why"> {
  const { resources, demand, capacity, base } = project;
  const why = tooMuch(project).map(
    ([i, r]) =>
      `activity ${i + base} needs ${demand[i * resources + r]} of resource ${r + 1}, which has ${capacity[r]}`,
  );
  return why.length > 0 ? { why } : {};
}

function problemIn(text: string): Problem | readonly Refusal[] {
  if (text.trim() === "")
    return [{ path: "", what: "the file is empty", mend: "give a project (.sm, .sch) or a problem as JSON" }];
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    const what = `neither a project file (.sm, .sch) nor JSON: ${(error as Error).message}`;
    return [{ path: "", what, mend: "give one of these, or mend the text where the message points" }];
  }
  return readProblem(json);
}
