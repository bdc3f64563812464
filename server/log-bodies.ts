import { z } from "zod";
import { type Problem, problemsOf } from "../core/book/problem.ts";
import { LEARNING_BODIES } from "../core/learning/schema.ts";
import { LiveBodySchema } from "../core/production/live-schema.ts";
import { LOT_BODIES } from "../core/safety/lots-schema.ts";

const text = z.string().max(20_000);
/** What the log has always taken: a reading at a control point, and a note. */
const OLD_BODIES = [
  z.looseObject({ kind: z.literal("reading"), value: z.number(), unit: z.string().max(20).optional() }),
  z.looseObject({ kind: z.literal("note"), text }),
] as const;

/** What a kind of entry must say, by its name. */
const SCHEMAS: ReadonlyMap<string, z.ZodType> = new Map(
  [...LEARNING_BODIES, ...LOT_BODIES, ...OLD_BODIES, ...LiveBodySchema.options].map((one) => [
    one.shape.kind.value,
    one,
  ]),
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
    if (!schema) {
      const mend = `name one of: ${[...SCHEMAS.keys()].join(", ")}`;
      const what = `the log knows no entries of the kind "${String(entry.body.kind).slice(0, 60)}"`;
      refused.push({ index, id: entry.id, problems: [{ path: `/entries/${index}/body/kind`, what, mend }] });
      return;
    }
    const read = schema.safeParse(entry.body);
    if (read.success) good.push(entry);
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
