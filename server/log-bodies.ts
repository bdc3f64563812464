import { type Problem, problemsOf } from "../core/book/problem.ts";
import { LEARNING_BODIES } from "../core/learning/schema.ts";
import { LOT_BODIES } from "../core/safety/lots-schema.ts";

/** What a kind of entry must say, by its name. */
const SCHEMAS = new Map(
  [...LEARNING_BODIES, ...LOT_BODIES].map((one) => [one.shape.kind.value as string, one]),
);

/** An entry that was not kept, and why. */
export interface RefusedEntry {
  /** Its place in the call. */
  readonly index: number;
  readonly id: string;
  readonly problems: readonly Problem[];
}

/**
 * Tells the entries that can be kept from those that can't. One bad entry must not hold back a tablet's others for ever: the
 * good ones are kept, the bad ones named.
 */
export function judgeEntries<E extends { readonly id: string; readonly body: Record<string, unknown> }>(
  entries: readonly E[],
): { readonly good: readonly E[]; readonly refused: readonly RefusedEntry[] } {
  const good: E[] = [];
  const refused: RefusedEntry[] = [];
  entries.forEach((entry, index) => {
    const schema = SCHEMAS.get(String(entry.body.kind));
    const read = schema?.safeParse(entry.body);
    if (!read || read.success) good.push(entry);
    else {
      const problems = problemsOf(read.error.issues, entry.body).map((problem) => ({
        ...problem,
        path: `/entries/${index}/body${problem.path}`,
      }));
      refused.push({ index, id: entry.id, problems });
    }
  });
  return { good, refused };
}
