import { describe, expect, test } from "vitest";
import { type Fry, fryBook } from "../../tests/fry-book.ts";
import { indexBook } from "../book/index.ts";
import { inspect } from "../inspection/index.ts";
import { computeAmounts } from "../production/compute-amounts.ts";
import { planService } from "../production/plan-service.ts";
import { apartFor } from "../safety/apart.ts";
import { Contents } from "../safety/contents.ts";
import { solve } from "../schedule/index.ts";
import { unsaid } from "./judge.ts";
import { run } from "./run.ts";

const OPTIONS = { schedules: 40, remedies: false, trace: false } as const;
const planned = (fry: Fry) => run(fryBook(fry), "supper", OPTIONS);
/** Nobody says how to clean the fryer, and the chips can only be fried after the fritters. */
const TOO_LATE: Fry = { keeps: { fritters: 60, chips: 10 }, chipsAfterMin: 60 };
const task = ({ plan }: ReturnType<typeof planned>, of: string) =>
  plan.tasks.find((each) => each.preparation === of && each.kind === "work")!;
const cell = ({ allergens }: ReturnType<typeof planned>, dish: string, what: string) =>
  allergens.find((each) => each.dish === dish && (each.allergen ?? each.need) === what)!;

describe("R10 what a guest must not have is kept from that guest's plate", () => {
  test("in a fryer nobody says how to clean, what is for the guest goes first", () => {
    const result = planned({});
    expect(result.plan.status).toBe("feasible");
    expect(task(result, "chips").endMin).toBeLessThanOrEqual(task(result, "fritters").startMin);
    expect(cell(result, "chip-plate", "gluten").state).toBe("free");
    expect(cell(result, "chip-plate", "coeliac").state).toBe("free");
  });

  test("after the flour only when there is time to clean", () => {
    const fry = { cleanMin: 15, keeps: { fritters: 60, chips: 10 }, chipsAfterMin: 60 };
    const result = planned(fry);
    expect(result.plan.status).toBe("feasible");
    const [chips, fritters] = [task(result, "chips"), task(result, "fritters")];
    expect(chips.startMin - fritters.endMin).toBeGreaterThanOrEqual(15);
    expect(cell(result, "chip-plate", "coeliac").state).toBe("free");
  });

  test("where no order can be kept a wait is given up, never the guest; a second fryer is the remedy", () => {
    // Fritters keep an hour and are eaten first, chips keep ten minutes and are eaten an hour later.
    const result = run(fryBook(TOO_LATE), "supper", { ...OPTIONS, remedies: true });
    expect(result.plan.status).toBe("broken");
    expect(result.plan.broken.map(({ rule }) => rule)).not.toContain("contact");
    expect(cell(result, "chip-plate", "coeliac").state).toBe("free");
    const fitting = result.plan.remedies.filter(({ status }) => status === "feasible").map((r) => r.change);
    expect(fitting).toEqual(
      expect.arrayContaining(["Fryer cleaned in between, in 20 min", "one more: Fryer"]),
    );
  });

  test("what has happened in the fryer counts: it is said, and told with its way", () => {
    const fry = {
      ...TOO_LATE,
      pins: [{ task: "fritters/fry/1", start: "D 19:00", status: "done" as const }],
    };
    const book = fryBook(fry);
    const result = run(book, "supper", OPTIONS);
    expect(result.plan.status).toBe("broken");
    expect(result.plan.broken.map(({ rule }) => rule)).toEqual(["contact"]);
    expect(result.plan.broken.find(({ rule }) => rule === "contact")!.what).toContain("gluten");
    expect(inspect(book, result, { service: "supper" }).findings).toEqual([]);
    const told = cell(result, "chip-plate", "coeliac");
    expect(told.state).toBe("may");
    expect(told.shared).toMatchObject([
      {
        path: ["chip-plate", "chips"],
        place: "fryer",
        from: ["fritters", "flour-batter"],
        tasks: ["chips/fry/1", "fritters/fry/1"],
      },
    ]);
  });

  test("what is over is cleaned off like anything else before what comes next", () => {
    const pins = [{ task: "fritters/fry/1", start: "D 20:02", status: "done" as const }];
    const result = planned({ ...TOO_LATE, cleanMin: 15, pins });
    const [chips, fritters] = [task(result, "chips"), task(result, "fritters")];
    expect(fritters.endMin - fritters.startMin).toBe(12);
    const after = chips.startMin - fritters.endMin;
    expect(after >= 15 || chips.endMin <= fritters.startMin).toBe(true);
    expect(result.plan.broken.map(({ rule }) => rule)).not.toContain("contact");
    expect(cell(result, "chip-plate", "coeliac").state).toBe("free");
  });

  test("a diet that is no allergy asks for no order", () => {
    const result = planned({ ...TOO_LATE, need: "vegan" });
    expect(result.plan.status).toBe("feasible");
    expect(cell(result, "chip-plate", "gluten").state).toBe("may");
    expect(cell(result, "chip-plate", "vegan").state).toBe("free");
  });

  test.each(["nothing is kept apart", "flour is not seen"])("a planner to whom %s is caught", (how) => {
    const book = fryBook(TOO_LATE);
    const docs = indexBook(book);
    const contents = new Contents(docs);
    const amounts = computeAmounts(docs, "supper", { meets: contents.meets.bind(contents) });
    const right = apartFor(contents, amounts.plates);
    const blind = { ...right, carried: () => new Set<never>() };
    const fillTarget = () => ({ minutes: 0 });
    const { plan } = planService(docs, amounts, {
      ...{ seed: 1, schedules: 40, engine: solve as never, fillTarget, remedySchedules: 0 },
      apart: how === "nothing is kept apart" ? undefined : blind,
    });
    expect(plan.status).toBe("feasible");
    expect(unsaid(docs, amounts, plan, fillTarget).map(({ rule }) => rule)).toEqual(["contact"]);
  });
});
