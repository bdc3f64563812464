import type { z } from "zod";

/** What is wrong with a document: where it stands, what is wrong, and how to mend it. */
export interface Problem {
  /** JSON Pointer into the document, "" for the whole. */
  readonly path: string;
  readonly what: string;
  readonly mend: string;
}

/** Writes keys as a JSON Pointer (RFC 6901). */
export function pointerOf(keys: readonly PropertyKey[]): string {
  return keys.map((key) => `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

/** Reads a value by a JSON Pointer; undefined when nothing stands there. */
export function atPointer(root: unknown, pointer: string): unknown {
  let here = root;
  for (const key of pointer.split("/").slice(1)) {
    if (here === null || typeof here !== "object") return undefined;
    const name = key.replaceAll("~1", "/").replaceAll("~0", "~");
    if (!Object.hasOwn(here, name)) return undefined;
    here = (here as Record<string, unknown>)[name];
  }
  return here;
}

/** How many problems are told at once; a file that is wrong everywhere is told the first of them. */
export const MOST_PROBLEMS = 100;

type Issue = z.core.$ZodIssue;

/** Turns the schema's findings into problems a cook can act on. */
export function problemsOf(
  issues: readonly Issue[],
  root: unknown,
  base: readonly PropertyKey[] = [],
): Problem[] {
  return issues
    .slice(0, MOST_PROBLEMS)
    .flatMap((issue) => problemOf(issue, root, base))
    .slice(0, MOST_PROBLEMS);
}

function problemOf(issue: Issue, root: unknown, base: readonly PropertyKey[]): Problem[] {
  const keys = [...base, ...issue.path];
  const path = pointerOf(keys);
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.slice(0, MOST_PROBLEMS).map((key) => ({
        path: pointerOf([...keys, key]),
        what: `the field "${key}" is not known here`,
        mend: "correct its spelling or take it out",
      }));
    case "invalid_type": {
      const value = atPointer(root, path);
      return value === undefined
        ? [{ path, what: "this is missing", mend: `give ${nameOfType(issue.expected)}` }]
        : [{ path, what: `this is ${inWords(value)}`, mend: `give ${nameOfType(issue.expected)}` }];
    }
    case "invalid_value":
      return [
        {
          path,
          what: `${quote(atPointer(root, path))} is not possible here`,
          mend: `use one of: ${issue.values.join(", ")}`,
        },
      ];
    case "invalid_union": {
      // Of several ways to write it, tell what is wrong with the one that came nearest.
      const best = issue.errors
        .filter((errors) => errors.length > 0)
        .sort((a, b) => nearness(b) - nearness(a) || a.length - b.length)[0];
      if (!best || best.every((e) => e.path.length === 0 && e.code === "invalid_type"))
        return [{ path, what: `${quote(atPointer(root, path))} is not possible here`, mend: issue.message }];
      return problemsOf(best as Issue[], root, keys);
    }
    default: {
      const params = (issue as { params?: { mend?: string } }).params;
      return [{ path, what: issue.message, mend: params?.mend ?? mendOf(issue) }];
    }
  }
}

function nearness(errors: readonly Issue[]): number {
  return (
    errors.reduce((most, error) => Math.max(most, error.path.length), 0) -
    errors.filter((e) => e.code === "unrecognized_keys").length
  );
}

function mendOf(issue: Issue): string {
  if (issue.code === "too_small")
    return `make it ${issue.inclusive === false ? "more than" : "at least"} ${issue.minimum}`;
  if (issue.code === "too_big")
    return `make it ${issue.inclusive === false ? "less than" : "at most"} ${issue.maximum}`;
  return "correct it as said";
}

function nameOfType(expected: string): string {
  const names: Record<string, string> = {
    string: "a text",
    number: "a number",
    boolean: "true or false",
    array: "a list",
    object: "an object",
    int: "a whole number",
  };
  return names[expected] ?? expected;
}

function inWords(value: unknown): string {
  if (value === null) return "null";
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object") return "an object";
  return `${quote(value)} (a ${typeof value === "string" ? "text" : typeof value})`;
}

/** A value as it stands in a document, shortened. */
export function quote(value: unknown): string {
  const text = JSON.stringify(value) ?? "nothing";
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
