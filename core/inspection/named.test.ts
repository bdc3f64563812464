import { describe, expect, test } from "vitest";
import { BookSchema } from "../book/schema.ts";
import { namesIn } from "./named.ts";
import { scopeOf } from "./scope.ts";
import { judged, type Small } from "./testing/breaking.ts";
import { smallBook } from "./testing/small-book.ts";
import { smallResult } from "./testing/small-result.ts";

const book = BookSchema.parse(smallBook());
const scope = scopeOf(book, { service: "supper" });

/** Gives every document a name that holds none of its id, so that an id in a sentence shows. */
function renamed(small: Small): Set<string> {
  const ids = new Set<string>();
  let n = 0;
  const rename = (each: { id: string; name?: string }) => {
    ids.add(each.id);
    each.name = `NAME${++n}`;
  };
  for (const kind of ["ingredients", "preparations", "dishes", "menus", "suppliers"])
    small.book[kind].forEach(rename);
  for (const preparation of small.book.preparations) preparation.steps.forEach(rename);
  for (const supplier of small.book.suppliers) for (const offer of supplier.offers) ids.add(offer.id);
  for (const list of ["crew", "equipment", "stations", "skills"]) small.kitchen[list].forEach(rename);
  small.book.menus[0].courses.forEach(rename);
  for (const group of small.service.guests) ids.add(group.id);
  for (const task of small.result.plan.tasks) ids.add(task.id);
  return ids;
}

/** Ids that stand in a sentence as a word of their own, or as part of a longer one with strokes. */
function idsIn(sentence: string, ids: ReadonlySet<string>): string[] {
  const words = sentence.replace(/[:;,.()"]/g, " ").split(/\s+/);
  return words.filter((word) => ids.has(word) || /\w\/\w/.test(word) || /#\d/.test(word));
}

const FAULTS: Readonly<Record<string, (s: Small) => unknown>> = {
  "no work": (s) => s.drop("gratin/slice/1"),
  "no wait": (s) => s.drop("stock/simmer/1/wait"),
  "no thaw": (s) => s.drop("thaw/tart/berries/1"),
  "no plate-up": (s) => s.drop("plate/main/meat"),
  "no course": (s) => s.drop("course/main"),
  twice: (s) => s.copy("course/main", "course/main"),
  stranger: (s) => s.copy("gratin/slice/1", "gratin/slice/2", { batch: 2 }),
  short: (s) => s.time("gratin/slice/1", "17:01", "17:10"),
  "wait cut": (s) => s.time("sauce/reduce/1/wait", "18:08", "18:20"),
  busy: (s) => s.time("sauce/reduce/1", "17:00", "17:08"),
  nobody: (s) => (s.task("gratin/slice/1").hands = []),
  unskilled: (s) => (s.task("sauce/reduce/1").hands = ["cas"]),
  away: (s) => s.time("gratin/slice/1", "14:00", "14:15"),
  early: (s) => s.time("stock/strain/1", "10:00", "10:15"),
  late: (s) => s.move("gratin/bake/1/wait", 60),
  held: (s) => s.time("gratin/bake/1/wait", "13:20", "14:05"),
  "no unit": (s) => (s.task("gratin/bake/1/wait").equipment = []),
  "other unit": (s) => (s.task("tart/bake/1/wait").equipment[0].id = "kettle#2"),
  "too hot": (s) => (s.task("gratin/bake/1/wait").equipment[0].setC = 240),
  full: (s) => (s.unit("combi").capacity[0].value = 1),
  uncleaned: (s) => s.time("sauce/reduce/1", "11:10", "11:18"),
  pinned: (s) =>
    (s.service.pins[0] = { ...s.service.pins[0], start: "D 10:00", crew: ["ben"], equipment: ["kettle#2"] }),
  plates: (s) => (s.row("meat").count = 6),
  spare: (s) => (s.row("green").spare = 5),
  "not fed": (s) => (s.row("meat").notFed = [s.service.guests[0].id]),
  need: (s) => (s.result.needs[0].amount.value = 1),
  batches: (s) => s.result.needs[0].batches.pop(),
  balance: (s) => (s.result.balance[0].outG = 1),
  matrix: (s) => (s.result.allergens.find((cell: { state: string }) => cell.state !== "free").state = "free"),
  packs: (s) => (s.result.orders[0].lines[0].packs = 0.5),
  price: (s) => (s.result.orders[0].lines[0].price = "99.00"),
  "no offer": (s) => (s.result.orders[0].lines[0].offer = "nothing"),
  "too little": (s) => s.result.orders[0].lines.pop(),
};

describe("I18 a finding is told with names, never ids", () => {
  test.each(Object.entries(FAULTS))("%s", (_, fault) => {
    let ids = new Set<string>();
    const { findings } = judged((small) => {
      fault(small);
      ids = renamed(small);
    });
    expect(findings.length).toBeGreaterThan(0);
    for (const { what } of findings) {
      expect(idsIn(what, ids), what).toEqual([]);
      expect(what).not.toMatch(/[‹›]|undefined/);
    }
  });

  test("every kind of task is named from the documents, one that is not there stays as it is, in quotes", () => {
    const say = (id: string) => namesIn(scope, `‹task ${id}›`);
    const name = (id: string) => book.preparations.find((each) => each.id === id)!.name;
    expect(say("line-check")).toBe("Line check and tasting");
    expect(say("tart/mix/2")).toMatch(new RegExp(`^${name("tart")}: .+ \\(batch 2\\)$`));
    expect(say("stock/simmer/1.2/wait")).toMatch(/ \(load 2, the waiting\)$/);
    expect(say("nothing/at/1")).toBe('"nothing/at/1"');
  });

  test("of a plan that is known, which of how many it is, and when it begins", () => {
    const { tasks } = smallResult().plan;
    const [mix, wait] = ["tart/mix/2", "stock/simmer/1/wait"].map(
      (id) => tasks.find((task) => task.id === id)!,
    );
    const say = (id: string) => namesIn(scope, `‹task ${id}›`, tasks);
    expect(say("tart/mix/2")).toMatch(new RegExp(` \\(batch 2 of 2, ${mix!.start}\\)$`));
    expect(say("tart/mix/1")).toMatch(/ \(batch 1 of 2, D 12:00\)$/);
    expect(say("stock/simmer/1/wait")).toMatch(new RegExp(` \\(the waiting, ${wait!.start}\\)$`));
    expect(say("stock/simmer/1/look-2")).toMatch(/ \(look-in 2, D 10:50\)$/);
    expect(say("plate/main/meat")).toMatch(/^Plate .+ \(D 19:26\)$/);
    expect(namesIn(scope, "1.30000000000004 g")).toBe("1.3 g");
  });
});
