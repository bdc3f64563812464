import { type HeatResult, heat } from "./heat.ts";
import type { Problem } from "./problem.ts";
import { problemsOf } from "./reading.ts";
import { HeatInputSchema } from "./schema.ts";

/** What `tournant heat` prints: minutes, °C, log10; notes as plain sentences. */
export type HeatReport = Omit<HeatResult, "notes" | "profiles" | "cost"> & { notes: string[] };

/**
 * The `heat` command: reads an input of any kind, computes, and gives the report or the problems with their
 * place (JSON Pointer) and mend. Never throws for what a person wrote.
 */
export function runHeat(
  json: unknown,
): { ok: true; value: HeatReport } | { ok: false; problems: readonly Problem[] } {
  const read = HeatInputSchema.safeParse(json);
  if (!read.success) return { ok: false, problems: problemsOf(read.error.issues, json) };
  const result = heat(read.data);
  if ("problems" in result) return { ok: false, problems: result.problems };
  const { notes, profiles: _profiles, cost: _cost, ...rest } = result;
  return { ok: true, value: rounded({ ...rest, notes: notes.map((note) => note.text) }) };
}

/** Every number to six decimals: finer than anything computed here, and short enough to read. */
function rounded<T>(value: T): T {
  if (typeof value === "number") return (Math.round(value * 1e6) / 1e6) as T;
  if (Array.isArray(value)) return value.map(rounded) as T;
  if (value && typeof value === "object")
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rounded(inner)])) as T;
  return value;
}
