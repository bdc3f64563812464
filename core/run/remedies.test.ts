import { describe, expect, test } from "vitest";
import type { Book } from "../book/schema.ts";
import { inspect } from "../inspection/index.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import { editedDocument } from "../production/apply.ts";
import type { Remedy } from "../production/plan-types.ts";
import { run } from "./run.ts";

const SERVICE = "service-1";
/** As many as a remedy is tried with at least. */
const TRIED = 100;

/** The book with exactly the edits of a remedy made, each where its pointer says. */
function edited(book: Book, edits: NonNullable<Remedy["apply"]["edits"]>): Book {
  const made = <T extends { readonly id: string }>(kind: string, list: readonly T[]): T[] =>
    list.map((each) =>
      editedDocument(
        each,
        edits.filter(({ document, id }) => document === kind && id === each.id),
      ),
    );
  return {
    ...book,
    kitchens: made("kitchens", book.kitchens),
    services: made("services", book.services),
    preparations: made("preparations", book.preparations),
  };
}

/** A random book, every third with one pair of hands in its own kitchen: most such plans need a remedy. */
function squeezed(seed: number, size: number): Book {
  const book = randomBook(seed, size);
  const own = book.services[0]!.kitchen;
  const alone = (kitchen: Book["kitchens"][number]) =>
    kitchen.id === own ? { ...kitchen, crew: kitchen.crew.slice(0, 1) } : kitchen;
  return { ...book, kitchens: seed % 3 === 0 ? book.kitchens.map(alone) : book.kitchens };
}

const seen = { edits: 0, kitchens: 0, covers: 0 };

describe("P21, R4 a remedy that is told to fit", () => {
  test.each([
    [3, 5],
    [6, 4],
    [15, 5],
  ])(
    "random book %i of %i: the first plan with what it says is its proof, and it and the plan after all schedules pass the inspector",
    (seed, size) => {
      const book = squeezed(seed, size);
      const heard: (readonly Remedy[])[] = [];
      const { plan } = run(book, SERVICE, {
        ...{ seed: 1, schedules: 20, trace: false },
        onRemedies: (remedies) => heard.push(remedies),
      });
      // Each as it is found, in the order in which they are told at the end.
      expect(heard.map(({ length }) => length)).toEqual(plan.remedies.map((_, i) => i + 1));
      expect(heard.at(-1) ?? []).toEqual(plan.remedies);
      expect(plan.status).toBe("broken");
      for (const { apply, proof, status } of plan.remedies) {
        if (status !== "feasible") continue;
        const { covers, kitchen } = apply;
        const changed = edited(book, apply.edits ?? []);
        // Fewer covers are tried without attempts at what does not fit: what fits is found the same way.
        const options = { seed: 1, schedules: TRIED, remedies: false, trace: false } as const;
        const other = {
          ...(covers === undefined ? {} : { covers }),
          ...(kitchen === undefined ? {} : { kitchen }),
        };
        // The proof is the first plan that fits: where the search is stopped as soon as it has one.
        let has = false;
        const first = run(changed, SERVICE, {
          ...options,
          ...other,
          onProgress: () => {
            has = true;
          },
          stop: () => has,
        });
        expect(first.plan.tasks.map(({ id, start }) => ({ id, start }))).toEqual(proof);
        // Going on from there it stays one that fits.
        const again = run(changed, SERVICE, { ...options, ...other });
        for (const result of [first, again]) {
          expect(result.plan.status).toBe("feasible");
          // Minutes by heat are the plan's own here: what they come to is judged elsewhere.
          expect(inspect(changed, result, { service: SERVICE, ...other }).findings).toEqual([]);
        }
        seen[apply.edits ? "edits" : kitchen ? "kitchens" : "covers"]++;
      }
    },
  );

  test("edits, other kitchens and fewer covers were all among them", () => {
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(0);
    expect(seen.edits).toBeGreaterThanOrEqual(2);
  });
});
