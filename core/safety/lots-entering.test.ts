import { describe, expect, it } from "vitest";
import type { Ingredient } from "../pantry/schema.ts";
import type { LogLine } from "./log-lines.ts";
import {
  enteringAt,
  intoOf,
  type LotsHere,
  type MadeHere,
  notesOf,
  usedIn,
  usualFrom,
} from "./lots-entering.ts";
import { Recall } from "./lots-recall.ts";
import type { LotBody, Shape } from "./lots-schema.ts";
import { lotKey, stockOf, type Weigh } from "./lots-stock.ts";

const weigh: Weigh = (_, { value, unit }) =>
  unit === "g" ? Number(value) : unit === "kg" ? Number(value) * 1000 : undefined;
const food = (id: string, free = false) => [id, { id, free } as unknown as Ingredient] as const;

/** Purée in two batches of celeriac and cream, soup of purée with chives, on one dish. */
const task = (preparation: string, step: string, batch: number, startMin: number, kind = "work") => ({
  ...{ kind: kind as "work", preparation, step, batch, startMin, endMin: startMin + 30 },
});
const PUREE = [task("puree", "cook", 1, 100), task("puree", "cook", 2, 200)] as const;
const SOUP = task("soup", "mix", 1, 400);
const PLATE = task("dish", "first", 0, 600, "plate");
const sheet = (preparation: string, batch: number, step: string, items: readonly [string, number][]) => ({
  ...{ preparation, batch },
  lines: items.map(([item, exactG]) => ({ step, item, exactG })),
});
const made: MadeHere = {
  needs: [
    {
      preparation: "puree",
      batches: [1, 2].map((index) => ({ index, amount: { value: 900, unit: "g" } })),
    },
    { preparation: "soup", batches: [{ index: 1, amount: { value: 2000, unit: "g" } }] },
  ],
  batchSheets: [
    sheet("puree", 1, "cook", [
      ["celeriac", 1000],
      ["water", 500],
    ]),
    sheet("puree", 2, "cook", [["celeriac", 1000]]),
    sheet("soup", 1, "mix", [["puree", 1200]]),
  ],
  plates: [{ course: "first", dish: "dish", variant: "standard", count: 2, spare: 0 }],
  tasks: [...PUREE, SOUP, PLATE],
};
const shape: Shape = {
  ...{ kind: "shape", name: "Supper", from: "2027-03-09T06:00:00.000Z", to: "2027-03-11T22:00:00.000Z" },
  made: [
    { preparation: "puree", batches: 2, ingredients: ["celeriac"], preparations: [] },
    { preparation: "soup", batches: 1, ingredients: [], preparations: ["puree"] },
  ],
  plates: [
    {
      ...{ course: "first", dish: "dish", variant: "standard", needs: [], count: 2, seats: ["1-1", "1-2"] },
      ...{ ingredients: ["chives"], preparations: ["soup"] },
    },
  ],
};
const placement = (item: object, value: number) => ({ n: 1, amount: { value, unit: "g" }, ...item });
const dish = {
  id: "dish",
  placements: [placement({ preparation: "soup" }, 100), placement({ ingredient: "chives", n: 2 }, 2)],
  variants: [],
};

/** A kitchen's log that grows. */
class Evening {
  readonly lines: LogLine[] = [];
  write(body: LotBody): void {
    const n = this.lines.length + 1;
    const id = `00000000-0000-4000-8000-${String(n).padStart(12, "0")}`;
    const at = `2027-03-10T09:${String(n).padStart(2, "0")}:00.000Z`;
    this.lines.push({ id, service: "s1", at, by: "Mira", body });
  }
  deliver(ingredient: string, lot: string, grams: number, useBy: string): string {
    const of = { ingredient, lot, supplier: "farm" };
    this.write({ kind: "delivery", of, amount: { value: grams, unit: "g" }, useBy, accepted: true });
    return lotKey(of);
  }
  here(stock: LotsHere["service"]["stock"] = []): LotsHere {
    return {
      ...{ today: "2027-03-10", service: { id: "s1", stock } },
      ingredients: new Map([food("celeriac"), food("chives"), food("water", true)]),
      dishes: new Map([["dish", dish]]) as unknown as LotsHere["dishes"],
      ...{ made, weigh, stock: stockOf(this.lines, weigh), used: usedIn(this.lines, "s1") },
    };
  }
  /** One tap on the board: what went in as a rule. */
  tap(at: (typeof made.tasks)[number]): void {
    for (const entering of enteringAt(this.here(), at))
      for (const body of notesOf(usualFrom(entering), intoOf(at)!)) this.write(body);
  }
}

describe("lots from the board", () => {
  it("S23 asks for what is bought, and for batches only where there are several", () => {
    const evening = new Evening();
    const at = (one: Parameters<typeof enteringAt>[1]) =>
      enteringAt(evening.here(), one).map((each) => each.ingredient ?? each.preparation);
    expect(at(PUREE[0])).toEqual(["celeriac"]);
    expect(at(SOUP)).toEqual(["puree"]);
    // Soup was made in one batch: nothing needs to be said of it.
    expect(at(PLATE)).toEqual(["chives"]);
    expect(at({ ...PUREE[0], kind: "passive" })).toEqual([]);
  });

  it("S23 S14 what ends first goes in, and the next where it does not hold enough", () => {
    const evening = new Evening();
    evening.deliver("celeriac", "LATE", 4000, "2027-03-20");
    evening.deliver("celeriac", "SOON", 600, "2027-03-12");
    evening.tap(PUREE[0]);
    const used = usedIn(evening.lines, "s1");
    expect(used.map(({ lot, amount }) => [lot?.lot, amount?.value])).toEqual([
      ["SOON", 600],
      ["LATE", 400],
    ]);
    evening.tap(PUREE[1]);
    expect(usedIn(evening.lines, "s1").at(-1)).toMatchObject({ lot: { lot: "LATE" }, into: { batch: 2 } });
  });

  it("S23 what is past its date is no usual answer", () => {
    const evening = new Evening();
    evening.deliver("celeriac", "OLD", 4000, "2027-03-09");
    evening.tap(PUREE[0]);
    expect(usedIn(evening.lines, "s1")).toEqual([]);
    evening.deliver("celeriac", "FRESH", 4000, "2027-03-20");
    const [entering] = enteringAt(evening.here(), PUREE[0]);
    expect(entering!.from.map(({ lot, past }) => [lot?.lot, past])).toEqual([
      ["FRESH", undefined],
      ["OLD", true],
    ]);
  });

  it("S23 a lot that only the service's stock tells of is counted first, then used", () => {
    const evening = new Evening();
    const stock: LotsHere["service"]["stock"] = [
      {
        item: { ingredient: "celeriac" },
        ...{ amount: { value: 2, unit: "kg" }, useBy: "2027-03-11", lot: "ST-1" },
      },
    ];
    const [entering] = enteringAt(evening.here(stock), PUREE[0]);
    const notes = notesOf(usualFrom(entering!), intoOf(PUREE[0])!);
    expect(notes.map(({ kind }) => kind)).toEqual(["counted", "used"]);
    for (const body of notes) evening.write(body);
    expect(
      enteringAt(evening.here(stock), PUREE[1])[0]!.from.map(({ lot, onHand }) => [lot?.lot, onHand]),
    ).toEqual([["ST-1", 1000]]);
  });

  it("S18 S23 delivery, board, recall: the lot is found at the seat, and from the seat, batch by batch", () => {
    const evening = new Evening();
    const bad = evening.deliver("celeriac", "BAD", 1000, "2027-03-12");
    const good = evening.deliver("celeriac", "GOOD", 3000, "2027-03-20");
    evening.deliver("chives", "CH-1", 50, "2027-03-12");
    evening.write(shape);
    for (const one of [...PUREE, SOUP, PLATE]) evening.tap(one);
    // 1,200 g of purée are more than one batch of 900: both are noted, and nothing is left to chance.
    const recall = new Recall(evening.lines, weigh);
    const seats = (key: string) =>
      recall.forward([key]).seats.map(({ what, certain }) => [what.seat, certain]);
    expect(seats(bad)).toEqual([
      ["1-1", true],
      ["1-2", true],
    ]);
    expect(seats(good)).toEqual(seats(bad));
    const back = recall.backFromSeat("s1", "1-2");
    expect(back.lots.map(({ what, certain }) => [what.ref.lot, certain]).sort()).toEqual([
      ["BAD", true],
      ["CH-1", true],
      ["GOOD", true],
    ]);
    expect(back.unexplained).toEqual([]);
    expect(
      recall
        .forward([bad])
        .batches.map(({ what }) => `${what.preparation} ${what.batch}`)
        .sort(),
    ).toEqual(["puree 1", "soup 1"]);
  });

  it("S23 one batch that is enough keeps the other out of the recall", () => {
    const evening = new Evening();
    const bad = evening.deliver("celeriac", "BAD", 1000, "2027-03-12");
    evening.deliver("celeriac", "GOOD", 3000, "2027-03-20");
    evening.write(shape);
    for (const one of PUREE) evening.tap(one);
    const [entering] = enteringAt(evening.here(), SOUP);
    const second = entering!.from.find(({ batch }) => batch?.batch === 2)!;
    for (const body of notesOf([{ source: second, grams: 900 }], intoOf(SOUP)!)) evening.write(body);
    expect(new Recall(evening.lines, weigh).forward([bad]).seats).toEqual([]);
  });
});
