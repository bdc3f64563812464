import type { z } from "zod";
import type { Problem } from "./problem.ts";

type Issue = z.core.$ZodIssue;

/** What a schema found, as problems with place, finding and mend. `root` is the document that was read. */
export function problemsOf(
  issues: readonly Issue[],
  root: unknown,
  base: readonly PropertyKey[] = [],
): Problem[] {
  return issues.flatMap((issue) => problemOf(issue, root, [...base, ...issue.path]));
}

function problemOf(issue: Issue, root: unknown, keys: readonly PropertyKey[]): Problem[] {
  const path = keys.map((key) => `/${String(key)}`).join("");
  const value = valueAt(root, keys);
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key) => ({
        path: `${path}/${key}`,
        what: `the field "${key}" is not known here`,
        mend: "correct its spelling or take it out",
      }));
    case "invalid_type":
      return [
        value === undefined
          ? { path, what: "this is missing", mend: `give ${kind(issue.expected)}` }
          : { path, what: `this is ${said(value)}`, mend: `give ${kind(issue.expected)}` },
      ];
    case "invalid_value":
      return [
        { path, what: `${said(value)} is not possible here`, mend: `use one of ${issue.values.join(", ")}` },
      ];
    case "too_small":
    case "too_big": {
      const small = issue.code === "too_small";
      const bound = small ? issue.minimum : issue.maximum;
      if (issue.origin !== "number" && issue.origin !== "int") {
        const many = `${small ? "at least" : "at most"} ${bound}`;
        return [{ path, what: `this has too ${small ? "few" : "many"} entries`, mend: `give ${many}` }];
      }
      const word = small
        ? issue.inclusive
          ? "at least"
          : "more than"
        : issue.inclusive
          ? "at most"
          : "less than";
      return [
        { path, what: `${said(value)} is not possible here`, mend: `give ${word} ${bound}${unitOf(keys)}` },
      ];
    }
    case "invalid_union": {
      if (issue.errors.length === 0)
        return [
          { path, what: `${said(value)} is not possible here`, mend: kindHint(keys) ?? "correct it as said" },
        ];
      // Of several ways to write it, tell what is wrong with the one that came nearest.
      const nearest = [...issue.errors].sort((a, b) => distance(a) - distance(b))[0]!;
      return problemsOf(nearest, root, keys);
    }
    default: {
      const params = (issue as { params?: { mend?: string } }).params;
      return [{ path, what: issue.message, mend: params?.mend ?? "correct it as said" }];
    }
  }
}

/** A wrong value in a known field is nearer than a missing field, and that nearer than an unknown one. */
function distance(issues: readonly Issue[]): number {
  let sum = 0;
  for (const issue of issues) {
    if (issue.code === "unrecognized_keys") sum += 3 * issue.keys.length;
    else if (issue.code === "invalid_type" && issue.path.length === 0) sum += 10;
    else if (issue.code === "invalid_type") sum += 2;
    else if (issue.code === "invalid_union") sum += Math.min(2, ...issue.errors.map(distance));
    else sum += 1;
  }
  return sum;
}

function valueAt(root: unknown, keys: readonly PropertyKey[]): unknown {
  let here = root;
  for (const key of keys) {
    if (here === null || typeof here !== "object") return undefined;
    here = (here as Record<PropertyKey, unknown>)[key];
  }
  return here;
}

function kind(expected: string): string {
  const words: Record<string, string> = {
    number: "a number",
    string: "a text",
    boolean: "true or false",
    array: "a list",
    tuple: "a list of numbers",
    object: "an object",
    int: "a whole number",
  };
  return words[expected] ?? expected;
}

function said(value: unknown): string {
  if (typeof value === "number" && !Number.isFinite(value)) return "no number";
  if (value === null) return "null";
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object") return "an object";
  const text = JSON.stringify(value) ?? "nothing";
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

function kindHint(keys: readonly PropertyKey[]): string | undefined {
  return keys[keys.length - 1] === "kind"
    ? "use one of slab, cylinder, sphere, finite-cylinder or brick"
    : undefined;
}

function unitOf(keys: readonly PropertyKey[]): string {
  const name = String(keys.findLast((key) => typeof key === "string") ?? "");
  if (name.endsWith("Mm")) return " mm";
  if (name.endsWith("C") && name !== "zC") return " °C";
  if (name === "minutes") return " minutes";
  const units: Record<string, string> = {
    conductivity: " W/(m K)",
    density: " kg/m³",
    specificHeat: " J/(kg K): 3500, not 3.5",
    coefficient: " W/(m² K)",
    altitudeM: " m",
  };
  return units[name] ?? "";
}
