import { expect, test } from "vitest";
import { indexBook, parseBook } from "../../core/book/index.ts";
import { ShapeSchema } from "../../core/safety/lots-schema.ts";
import { shapeOf } from "../../core/safety/lots-shape.ts";
import { demoBook } from "./book.ts";

test("S18 a service's shape names what each batch and plate takes, tap water left out", () => {
  const read = parseBook(demoBook);
  if (!read.ok) throw new Error("the demo is refused");
  const docs = indexBook(read.value);
  const dish = docs.dishes.get("short-rib")!;
  const preparation = dish.placements.find((one) => one.preparation)!.preparation!;
  const shape = shapeOf(
    "Supper",
    {
      needs: [{ preparation, batches: [{}, {}] }],
      plates: [
        {
          ...{ course: "main", dish: dish.id, variant: "standard", needs: [], seats: ["1-1"] },
          ...{ count: 10, spare: 1 },
        },
        {
          ...{ course: "main", dish: dish.id, variant: "coeliac", needs: ["coeliac"], seats: [] },
          ...{ count: 0, spare: 0 },
        },
      ],
    },
    docs,
    { from: "2027-01-28T06:00:00.000Z", to: "2027-01-30T23:00:00.000Z" },
  );
  expect(ShapeSchema.parse(shape)).toEqual(shape);
  expect(shape.plates).toHaveLength(1);
  expect(shape.plates[0]).toMatchObject({ count: 11, seats: ["1-1"] });
  expect(shape.plates[0]!.preparations).toContain(preparation);
  expect(shape.made[0]).toMatchObject({ preparation, batches: 2 });
  const items = docs.preparations.get(preparation)!.lines.map(({ item }) => item);
  const wanted = items.flatMap((item) =>
    "ingredient" in item && !docs.ingredients.get(item.ingredient)!.free ? [item.ingredient] : [],
  );
  expect(new Set(shape.made[0]!.ingredients)).toEqual(new Set(wanted));
});
