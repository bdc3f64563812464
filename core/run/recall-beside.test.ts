import { expect, test } from "vitest";
import { indexBook } from "../book/index.ts";
import type { Book } from "../book/schema.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import type { LogLine } from "../safety/log-lines.ts";
import { Recall } from "../safety/lots-recall.ts";
import type { LotBody } from "../safety/lots-schema.ts";
import { shapeOf } from "../safety/lots-shape.ts";
import { lotKey } from "../safety/lots-stock.ts";
import { weighBy } from "../safety/lots-weigh.ts";
import { run } from "./run.ts";

const SERVICE = "service-1";
const SPAN = { from: "2027-03-09T06:00:00.000Z", to: "2027-03-11T22:00:00.000Z" };

/** Every ingredient in an item, by the book's lines alone: the slow way, knowing nothing of needs or batches. */
function eaten(
  book: Book,
  item: { ingredient?: string | undefined; preparation?: string | undefined },
): string[] {
  if (item.preparation === undefined) return [item.ingredient!];
  const written = book.preparations.find(({ id }) => id === item.preparation)!;
  return written.lines.flatMap((line) => eaten(book, line.item as typeof item));
}

test("S25 in random books a lot of whatever is in what goes with every cover is found at every seat, and from each back", () => {
  const seen = { deep: 0, plain: 0, elsewhere: 0 };
  for (let seed = 900; seed < 960; seed++) {
    const book = randomBook(seed, 5);
    const [menu, service] = [book.menus[0]!, book.services[0]!];
    const { surround } = menu;
    if (!surround || !("items" in surround)) continue;
    service.guests.forEach((group, i) => {
      group.seat = `9-${i + 1}`;
    });
    const docs = indexBook(book);
    const result = run(book, SERVICE, { plan: false, trace: false });
    const everyone = { menu, covers: result.summary.covers, guests: service.guests };
    const shape = shapeOf("Supper", result, docs, SPAN, everyone);
    const bought = book.ingredients.filter(({ free }) => !free);
    const ref = (ingredient: string) => ({ ingredient, lot: `L-${ingredient}`, supplier: "farm" });
    const line = (body: LotBody, i: number): LogLine<LotBody> => ({
      ...{ id: String(i), service: SERVICE, by: "Mira", at: "2027-03-08T09:00:00.000Z", body },
    });
    const amount = { value: 100, unit: "kg" } as const;
    const lines = [
      ...bought.map(({ id }, i) =>
        line({ kind: "delivery", of: ref(id), amount, useBy: "2027-12-31", accepted: true }, i),
      ),
      line(shape, bought.length),
    ];
    const recall = new Recall(lines, weighBy(docs.ingredients));
    const laid = new Set(surround.items.flatMap(({ item }) => eaten(book, item)));
    const seats = service.guests.flatMap(({ seat }) => seat ?? []);
    for (const { id } of bought) {
      const forward = recall.forward([lotKey(ref(id))]);
      expect(forward.covers.length, `book ${seed}, ${id}`).toBe(laid.has(id) ? 1 : 0);
      if (!laid.has(id)) {
        seen.elsewhere++;
        continue;
      }
      expect(new Set(forward.seats.map(({ what }) => what.seat)), `book ${seed}, ${id}`).toEqual(
        new Set(seats),
      );
      for (const seat of seats)
        expect(recall.backFromSeat(SERVICE, seat).lots.map(({ what }) => what.ref.ingredient)).toContain(id);
      const plain = surround.items.some(({ item }) => "ingredient" in item && item.ingredient === id);
      seen[plain ? "plain" : "deep"]++;
    }
  }
  // A generator gone dull would prove nothing.
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(5);
});
