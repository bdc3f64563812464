import type { LearningBody, LogLine } from "./schema.ts";

/** A line as it counts now, with the line that was written first. */
export interface Standing<B> {
  readonly first: LogLine<B>;
  readonly now: LogLine<B>;
}

/**
 * The lines of some kinds as they count now, in order of the moment they tell of: a correction of the same kind takes the
 * place of what it corrects, however long the chain; the first stays beside it. One whose first is not here counts for itself.
 */
export function standing<B extends { readonly kind: string }>(
  lines: readonly LogLine[],
  kinds: readonly B["kind"][],
): Standing<B>[] {
  const wanted = lines.filter((line): line is LogLine<B> =>
    kinds.includes((line.body as { kind?: string } | null)?.kind as B["kind"]),
  );
  const known = new Map<string, Standing<B>>();
  const chain = new Map<string, string>();
  for (const line of wanted.toSorted(byMoment)) {
    const root = line.corrects === undefined ? undefined : (chain.get(line.corrects) ?? line.corrects);
    const before = root === undefined ? undefined : known.get(root);
    if (before && before.first.body.kind === line.body.kind) {
      known.set(before.first.id, { first: before.first, now: line });
      chain.set(line.id, before.first.id);
    } else known.set(line.id, { first: line, now: line });
  }
  return [...known.values()];
}

function byMoment(a: LogLine, b: LogLine): number {
  return a.at < b.at ? -1 : a.at > b.at ? 1 : 0;
}

/** Measurements that a person left out, and those a person looked at and let stand, by id of the first line. */
export function judgements(lines: readonly LogLine[]): {
  readonly out: ReadonlyMap<string, string>;
  readonly kept: ReadonlySet<string>;
} {
  const out = new Map<string, string>();
  const kept = new Set<string>();
  for (const { now } of standing<Extract<LearningBody, { kind: "judged" }>>(lines, ["judged"])) {
    const { entry, counts, reason } = now.body;
    if (counts) {
      out.delete(entry);
      kept.add(entry);
    } else {
      kept.delete(entry);
      out.set(entry, reason ?? "");
    }
  }
  return { out, kept };
}
