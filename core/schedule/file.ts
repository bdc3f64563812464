import { z } from "zod";
import type { Problem } from "./problem.ts";
import type { Refusal } from "./refusal.ts";

// The shape of a problem written as JSON; what the figures mean together is validate.ts's to judge.

const interval = { from: z.number(), to: z.number() };
const moment = z.strictObject({ task: z.string(), at: z.enum(["start", "end"]) });
const resourceNeed = z.strictObject({
  of: z.array(z.string()),
  amount: z.array(z.number()),
  state: z.strictObject({ set: z.number(), tolerance: z.number().optional() }).optional(),
  exclusive: z.boolean().optional(),
  class: z.string().optional(),
  batch: z.string().optional(),
  same: z.string().optional(),
});
const mode = z.strictObject({
  duration: z.number(),
  interrupt: z.enum(["no", "breaks", "shifts"]).optional(),
  people: z
    .array(
      z.strictObject({
        count: z.number(),
        skill: z.string().optional(),
        among: z.array(z.string()).optional(),
        same: z.string().optional(),
      }),
    )
    .optional(),
  resources: z.array(resourceNeed).optional(),
  cost: z.number().optional(),
});
const task = z.strictObject({
  id: z.string(),
  modes: z.array(mode),
  release: z.number().optional(),
  deadline: z.number().optional(),
  due: z.number().optional(),
  late: z.number().optional(),
  early: z.number().optional(),
  criticality: z.number().optional(),
  status: z.enum(["open", "started", "done"]).optional(),
  pin: z
    .strictObject({
      start: z.number().optional(),
      end: z.number().optional(),
      mode: z.number().optional(),
      persons: z.array(z.string()).optional(),
      resources: z.array(z.string()).optional(),
    })
    .optional(),
  place: z.string().optional(),
  label: z.string().optional(),
});
const ProblemSchema = z.strictObject({
  horizon: z.number(),
  now: z.number().optional(),
  tasks: z.array(task),
  lags: z
    .array(
      z.strictObject({
        from: moment,
        to: moment,
        least: z.number().optional(),
        most: z.number().optional(),
        best: z.number().optional(),
        cost: z.number().optional(),
        rule: z.string().optional(),
      }),
    )
    .optional(),
  resources: z
    .array(
      z.strictObject({
        id: z.string(),
        capacity: z.array(z.number()),
        dimensions: z.array(z.string()).optional(),
        calendar: z.array(z.strictObject({ ...interval, capacity: z.array(z.number()) })).optional(),
        state: z
          .strictObject({
            lowest: z.number(),
            highest: z.number(),
            tolerance: z.number(),
            minutesPerUnit: z.number(),
            leastMinutes: z.number(),
          })
          .optional(),
        setups: z.array(z.strictObject({ from: z.string(), to: z.string(), minutes: z.number() })).optional(),
        label: z.string().optional(),
      }),
    )
    .optional(),
  persons: z
    .array(
      z.strictObject({
        id: z.string(),
        skills: z.array(z.string()),
        shifts: z.array(
          z.strictObject({ ...interval, breaks: z.array(z.strictObject(interval)).optional() }),
        ),
        label: z.string().optional(),
      }),
    )
    .optional(),
  spans: z.array(z.strictObject({ id: z.string(), from: moment, to: moment, need: resourceNeed })).optional(),
  walks: z.array(z.strictObject({ from: z.string(), to: z.string(), minutes: z.number() })).optional(),
  objective: z
    .strictObject({
      makespan: z.number().optional(),
      late: z.number().optional(),
      early: z.number().optional(),
      hold: z.number().optional(),
      changes: z.number().optional(),
      peak: z
        .strictObject({
          weight: z.number(),
          share: z.number(),
          every: z.number(),
          from: z.number().optional(),
        })
        .optional(),
      pauses: z.number().optional(),
      walk: z.number().optional(),
      modes: z.number().optional(),
    })
    .optional(),
});

/** Reads a problem from parsed JSON, or says where its shape is wrong and what belongs there. */
export function readProblem(json: unknown): Problem | readonly Refusal[] {
  const read = ProblemSchema.safeParse(json);
  return read.success ? (read.data as Problem) : read.error.issues.map((issue) => refusalOf(issue, json));
}

function refusalOf(issue: z.core.$ZodIssue, json: unknown): Refusal {
  const path = issue.path.length === 0 ? "" : `/${issue.path.join("/")}`;
  const found = issue.path.reduce<unknown>(
    (at, key) => (at as Record<PropertyKey, unknown> | null | undefined)?.[key],
    json,
  );
  const field = String(issue.path.at(-1) ?? "the problem");
  if (issue.code === "unrecognized_keys")
    return {
      path,
      what: `${issue.keys.map((k) => `"${k}"`).join(", ")} is not known here`,
      mend: "correct the spelling or take it out",
    };
  if (issue.code === "invalid_value") {
    const choices = issue.values.map((v) => JSON.stringify(String(v))).join(", ");
    return { path, what: `${field} is ${shown(found)}`, mend: `give one of ${choices}` };
  }
  const wanted = (issue.code === "invalid_type" && KINDS[issue.expected]) || "what the format asks for";
  return found === undefined
    ? { path, what: `${field} is missing`, mend: `give ${wanted}` }
    : { path, what: `${field} is ${shown(found)}`, mend: `give ${wanted}` };
}

/** What is asked for, in words. */
const KINDS: Readonly<Record<string, string>> = {
  number: "a number",
  string: "a text in quotation marks",
  array: "a list in square brackets",
  object: "an object in curly brackets",
};

/** What stands there, short enough for one line. */
function shown(value: unknown): string {
  if (Array.isArray(value)) return "a list";
  if (value !== null && typeof value === "object") return "an object";
  const text = JSON.stringify(value) ?? "nothing";
  return text.length > 40 ? `${text.slice(0, 37)}…` : text;
}
