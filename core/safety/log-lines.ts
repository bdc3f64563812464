/** A line of the log as every room reads it; what its kind says stands in `body`. */
export interface LogLine<B = unknown> {
  readonly id: string;
  readonly service: string;
  /** ISO instant. */
  readonly at: string;
  readonly by: string;
  readonly corrects?: string | undefined;
  readonly body: B;
}

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
  for (const line of wanted.map(inUtc).sort(byMoment)) {
    const root = line.corrects === undefined ? undefined : (chain.get(line.corrects) ?? line.corrects);
    const before = root === undefined ? undefined : known.get(root);
    if (before && before.first.body.kind === line.body.kind) {
      known.set(before.first.id, { first: before.first, now: line });
      chain.set(line.id, before.first.id);
    } else known.set(line.id, { first: line, now: line });
  }
  return [...known.values()];
}

/** Moments are compared as texts: all in one zone. */
function inUtc<B>(line: LogLine<B>): LogLine<B> {
  return line.at.endsWith("Z") ? line : { ...line, at: new Date(line.at).toISOString() };
}

function byMoment(a: LogLine, b: LogLine): number {
  return a.at < b.at ? -1 : a.at > b.at ? 1 : 0;
}
