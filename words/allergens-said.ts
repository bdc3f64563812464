import type { Say } from "./catalogue.ts";

/** Allergens of a plate, a batch or the like, by how they come to it. */
export interface Said {
  readonly contains: readonly string[];
  readonly mayContain: readonly string[];
  /** What the plan may bring to it. */
  readonly traces?: readonly string[] | undefined;
}

/**
 * One sentence that says what food contains and, in the same breath, what may be in it. "None of the fifteen" is said of
 * ingredients only: nobody can promise that a kitchen brings nothing else to it.
 * @param list writes allergens as a list
 * @param options `loud` the same for those it contains; `short` leaves out how traces come, where there is no room
 */
export function allergensSaid(
  say: Say,
  { contains, mayContain, traces = [] }: Said,
  list: (ids: readonly string[]) => string,
  { loud = list, short = false }: { readonly loud?: typeof list; readonly short?: boolean } = {},
): string {
  return say("contained.said", {
    contains: orNone(contains, loud),
    may: orNone(mayContain, list),
    traces: orNone(traces, list),
    way: short ? "short" : "told",
  });
}

/** What a plate is without something that can be left off. */
export function leftOffSaid(
  say: Say,
  off: { readonly what: string; readonly frees: readonly string[]; readonly traces?: readonly string[] },
  list: (ids: readonly string[]) => string,
  short = false,
): string {
  const { what, frees, traces = [] } = off;
  return frees.length === 0
    ? say("contained.leaveOff.none", { what })
    : say("contained.leaveOff", {
        ...{ what, frees: list(frees), traces: orNone(traces, list) },
        way: short ? "short" : "told",
      });
}

/** What is cleaned before a task, and of what nothing may be left. */
export function cleanSaid(
  say: Say,
  clean: readonly { readonly name?: string | undefined; readonly noTraceOf: readonly string[] }[],
  list: (ids: readonly string[]) => string,
): string {
  return clean
    .map(({ name, noTraceOf }) => say("clean.first", { name: name ?? "none", left: orNone(noTraceOf, list) }))
    .join(" ");
}

const orNone = (ids: readonly string[], list: (ids: readonly string[]) => string) =>
  ids.length === 0 ? "none" : list(ids);
