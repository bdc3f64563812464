import { describe, expect, test } from "vitest";
import { openEmbedded } from "../persistence/open.ts";
import { Desk, UnreadableBook } from "./desk.ts";

const salt = (id: string) => ({
  id,
  name: id,
  allergens: { status: "known" },
  origin: ["mineral"],
  storage: { state: "ambient", days: 700 },
});
const brine = (...of: string[]) => ({
  id: "brine",
  name: "Brine",
  yield: { amount: { value: 100, unit: "g" } },
  lines: of.map((ingredient) => ({
    ...{ id: `of-${ingredient}`, item: { ingredient }, amount: { value: 100, unit: "g" }, step: "mix" },
  })),
  steps: [{ id: "mix", name: "Mix", text: "Mix." }],
});
const first = {
  format: "tournant-book",
  version: 1,
  ingredients: [salt("fine-salt"), salt("rock-salt")],
  preparations: [brine("fine-salt")],
};
const clock = () => new Date("2027-01-28T09:00:00Z");
const open = async () => {
  const store = await openEmbedded(":memory:");
  const desks = [new Desk(store, clock), new Desk(store, clock)] as const;
  await desks[0].seed(first);
  return { store, desks };
};

describe("desk", () => {
  for (const [who, other] of [
    ["one process", 0],
    ["two processes", 1],
  ] as const)
    test(`V3 taken out and put to use at once, in ${who}: one is refused and the book stays a book`, async () => {
      const { store, desks } = await open();
      const answers = await Promise.all([
        desks[0].remove("ingredients", "rock-salt", 1, "Mira"),
        desks[other].put("preparations", "brine", brine("fine-salt", "rock-salt"), 1, "Jon"),
      ]);
      expect(answers.map((answer) => answer.status).sort()).toEqual(["refused", "saved"]);
      expect((await desks[0].book()).revision).toBe(2);
      await store.close();
    });

  test("V2 many changes of different documents at once, in two processes, are all kept", async () => {
    const { store, desks } = await open();
    const ids = Array.from({ length: 12 }, (_, i) => `salt-${i}`);
    const answers = await Promise.all(
      ids.map((id, i) => desks[(i % 2) as 0 | 1].put("ingredients", id, salt(id), 0, "Mira")),
    );
    expect(answers.every((answer) => answer.status === "saved")).toBe(true);
    const { book } = await desks[1].book();
    expect(book.ingredients.map((one) => one.id)).toEqual(expect.arrayContaining(ids));
    await store.close();
  });

  test("V2 a field left out where it stood at its default is no change of it", async () => {
    const { store, desks } = await open();
    const theirs = { ...salt("fine-salt"), aliases: ["table salt"] };
    await desks[0].put("ingredients", "fine-salt", theirs, 1, "Mira");
    const mine = { ...salt("fine-salt"), notes: "from the corner shop" };
    expect(await desks[1].put("ingredients", "fine-salt", mine, 1, "Jon")).toMatchObject({
      status: "saved",
      merged: true,
      document: { aliases: ["table salt"], notes: "from the corner shop" },
    });
    await store.close();
  });

  test("V3 a change that fails does not stop the next", async () => {
    const { store, desks } = await open();
    const failing = desks[0].put("ingredients", "x", { id: "x" }, 0, "Mira");
    const next = desks[0].put("ingredients", "sea-salt", salt("sea-salt"), 0, "Mira");
    expect((await failing).status).toBe("refused");
    expect((await next).status).toBe("saved");
    await store.close();
  });

  test("V7 what is kept and is no book any more is told with its path, and an import mends it", async () => {
    const { store, desks } = await open();
    const write = {
      kind: "ingredients",
      id: "fine-salt",
      document: { id: "fine-salt" },
      baseRevision: 1,
    } as const;
    await store.save([write], "2027-01-28T09:00:00Z", "another program");
    const failed = await desks[0].book().catch((error: unknown) => error);
    expect(failed).toBeInstanceOf(UnreadableBook);
    expect((failed as UnreadableBook).problems[0]).toMatchObject({ path: "/ingredients/0/name" });
    expect((await desks[0].importBook(first, "Mira")).status).toBe("saved");
    expect((await desks[0].book()).book.ingredients).toHaveLength(2);
    await store.close();
  });
});
