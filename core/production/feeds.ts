import type { Amounts, UseAmount } from "./amounts.ts";
import { goesOutWith } from "./beside.ts";
import type { Documents } from "./documents.ts";

/** Part of one batch that goes into one batch of another preparation, or onto the plates of a dish. */
export interface Feed {
  readonly producer: string;
  /** Batch of the producer, from 1. */
  readonly batch: number;
  /** Of that batch, g. */
  readonly grams: number;
  readonly into:
    | { readonly preparation: string; readonly line: string; readonly batch: number }
    | { readonly course: string; readonly dish: string };
}

/**
 * Which batch feeds what (README, P7). What takes from a preparation stands in a queue: preparations before
 * plates, those with the longest way to the plate first, then the earlier course, then the order of the book, of
 * plates that of the menu. Stock goes first, then batch after batch. What nobody asks for (overage) stays with the
 * last in the queue.
 */
export function feedsOf(amounts: Amounts, docs: Pick<Documents, "preparations">): Feed[] {
  const order = queueOrder(amounts, docs);
  const feeds: Feed[] = [];
  for (const [id, amount] of amounts.preparations) {
    const takers = order(amount.usedBy).flatMap((use) => takersOf(amounts, use));
    if (takers.length === 0) continue;
    let at = -amount.stockG;
    let batch = 0;
    let batchFrom = 0;
    const hair = 1e-6 * Math.max(1, amount.grams);
    for (const [k, taker] of takers.entries()) {
      const last = k === takers.length - 1;
      const from = Math.max(at, 0);
      const to = last ? Number.POSITIVE_INFINITY : at + taker.grams;
      at += taker.grams;
      // Batches wholly eaten up by those before are passed by; one that is shared is met again.
      while (batch < amount.batches.length - 1 && batchFrom + amount.batches[batch]!.grams <= from + hair)
        batchFrom += amount.batches[batch++]!.grams;
      let start = batchFrom;
      for (let b = batch; b < amount.batches.length && start < to - hair; b++) {
        const end = start + amount.batches[b]!.grams;
        const grams = Math.min(end, to) - Math.max(start, from);
        if (grams > hair)
          feeds.push({ producer: id, batch: amount.batches[b]!.index, grams, into: taker.into });
        start = end;
      }
    }
  }
  return merged(feeds);
}

/** The variants of one dish are plated together: what a batch gives to them is one part. */
function merged(feeds: readonly Feed[]): Feed[] {
  const parts = new Map<string, Feed>();
  for (const feed of feeds) {
    const key = JSON.stringify([feed.producer, feed.batch, feed.into]);
    const known = parts.get(key);
    parts.set(key, known ? { ...known, grams: known.grams + feed.grams } : feed);
  }
  return [...parts.values()];
}

interface Taker {
  readonly into: Feed["into"];
  readonly grams: number;
}

function takersOf(amounts: Amounts, use: UseAmount): Taker[] {
  if (use.preparation !== undefined && use.line !== undefined) {
    const { preparation, line } = use;
    const batches = amounts.preparations.get(preparation)?.batches ?? [];
    return batches.map((batch) => ({
      into: { preparation, line, batch: batch.index },
      grams: use.grams * batch.share,
    }));
  }
  if (use.beside !== undefined) {
    const into = goesOutWith(amounts.menu, (course, dish) =>
      amounts.plates.some((row) => row.course === course && row.dish === dish && row.count + row.spare > 0),
    );
    return into ? [{ into, grams: use.grams }] : [];
  }
  if (use.dish === undefined) return [];
  return [{ into: { course: use.course ?? "", dish: use.dish }, grams: use.grams }];
}

/** Sorts what takes from one preparation into its queue. */
function queueOrder(
  amounts: Amounts,
  docs: Pick<Documents, "preparations">,
): (uses: readonly UseAmount[]) => UseAmount[] {
  const courses = new Map(amounts.menu.courses.map((course) => [course.id, course.afterMin]));
  const way = new Map<string, number>();
  const soonest = new Map<string, number>();
  // Parts come before what is made of them, so backwards each taker is known before what it takes.
  for (const [id, amount] of [...amounts.preparations].reverse()) {
    let longest = 0;
    let first = Number.POSITIVE_INFINITY;
    for (const use of amount.usedBy) {
      if (use.preparation === undefined) first = Math.min(first, courses.get(use.course ?? "") ?? 0);
      else {
        longest = Math.max(longest, (way.get(use.preparation) ?? 0) + 1);
        first = Math.min(first, soonest.get(use.preparation) ?? Number.POSITIVE_INFINITY);
      }
    }
    way.set(id, longest);
    soonest.set(id, first);
  }
  const inBook = new Map([...docs.preparations.keys()].map((id, i) => [id, i]));
  const inMenu = new Map(
    amounts.menu.courses
      .flatMap(({ id, options }) => options.map(({ dish }) => JSON.stringify([id, dish])))
      .map((key, i) => [key, i]),
  );
  const rank = ({ preparation, course, dish }: UseAmount): [number, number, number] => {
    if (preparation !== undefined)
      return [way.get(preparation) ?? 0, soonest.get(preparation) ?? 0, inBook.get(preparation) ?? 0];
    // What goes with every cover goes out last of what is there at minute 0.
    const place = inMenu.get(JSON.stringify([course, dish])) ?? inMenu.size;
    return [-1, courses.get(course ?? "") ?? 0, place];
  };
  return (uses) =>
    uses
      .map((use, i) => ({ use, i, rank: rank(use) }))
      .sort((a, b) => b.rank[0] - a.rank[0] || a.rank[1] - b.rank[1] || a.rank[2] - b.rank[2] || a.i - b.i)
      .map(({ use }) => use);
}
