import { describe, expect, test } from "vitest";
import { judged, type Small, toldBy } from "./testing/breaking.ts";

/** What is said of traces when one thing is made so: the coeliac guest's gratin, the flour of the tarts. */
function contact(name: string, breaking: (small: Small) => unknown, told: readonly unknown[]): void {
  test(name, () => expect(toldBy(judged(breaking)).filter(([rule]) => rule === "contact")).toEqual(told));
}

const sliceIn = (s: Small, unit: string, kind: string) => {
  const use = { kind, during: "work", space: { value: 0.5, unit: "kg" }, per: "batch" };
  s.step("gratin", "slice").uses = [{ ...use, kind }];
  s.task("gratin/slice/1").equipment = [{ id: unit, space: 0.5, unit: "kg" }];
};
/** The mixer becomes something that is not a vessel of one preparation. */
const asFryer = (s: Small, cleanMin?: number) => {
  s.unit("mixer").kind = "fryer";
  if (cleanMin !== undefined) s.unit("mixer").cleanMin = cleanMin;
  s.step("tart", "mix").uses[0].kind = "fryer";
  sliceIn(s, "mixer", "fryer");
};

describe("I16 what a guest must not have comes near that guest's plate", () => {
  contact("nothing in the service as it is", () => {}, []);
  const beside = (s: Small) => s.time("gratin/bake/1/wait", "12:44", "13:29");
  contact("beside the tarts in an oven of which nobody says that its shelves share no air", beside, [
    ["contact", ["tart/bake/1/wait", "gratin/bake/1/wait"], 30],
    ["contact", ["tart/bake/2/wait", "gratin/bake/1/wait"], 30],
  ]);
  contact(
    "shelves that share no air",
    (s) => {
      beside(s);
      s.unit("combi").sharedAir = false;
    },
    [],
  );
  contact("in the same fryer, hours after the flour, nobody says how it is cleaned", (s) => asFryer(s), [
    ["contact", ["tart/mix/1", "gratin/slice/1"], 1],
    ["contact", ["tart/mix/2", "gratin/slice/1"], 1],
  ]);
  contact("cleaned in time", (s) => asFryer(s, 30), []);
  contact(
    "the gratin first: nothing lies there before it",
    (s) => {
      asFryer(s);
      s.time("gratin/slice/1", "08:00", "08:15");
    },
    [],
  );
  contact(
    "too little time to clean between",
    (s) => {
      asFryer(s, 30);
      s.time("gratin/slice/1", "12:40", "12:55");
    },
    [
      ["contact", ["tart/mix/1", "gratin/slice/1"], expect.any(Number)],
      ["contact", ["tart/mix/2", "gratin/slice/1"], expect.any(Number)],
    ],
  );
  contact("at the bench beside the tarts", (s) => s.time("gratin/slice/1", "12:00", "12:08"), [
    ["contact", expect.arrayContaining(["gratin/slice/1"]), expect.any(Number)],
  ]);
  contact(
    "flour nobody has said a word of counts as flour",
    (s) => {
      s.ingredient("flour").allergens = { status: "unknown", contains: [], mayContain: [] };
      beside(s);
    },
    [
      ["contact", ["tart/bake/1/wait", "gratin/bake/1/wait"], 30],
      ["contact", ["tart/bake/2/wait", "gratin/bake/1/wait"], 30],
    ],
  );
});
