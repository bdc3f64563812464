import { expect, test } from "vitest";
import type { BookStore, LogEntry, Write } from "./store.ts";

const AT = "2027-01-28T09:00:00Z";
const salt = { id: "sea-salt", name: "Sea salt ½ œ ✓" };
const put = (id: string, document: unknown, baseRevision = 0): Write => ({
  kind: "ingredients",
  id,
  document,
  baseRevision,
});
const entry = (id: string, more: Partial<LogEntry> = {}): LogEntry => ({
  id,
  service: "first-light",
  at: AT,
  by: "Mira",
  body: { coreC: 74.5 },
  ...more,
});

/**
 * What every store must do. `open` gives a fresh, empty one; `again` opens the same place a second time while the
 * first is open, as another process would (undefined where that cannot be).
 */
export function storeAcceptance(
  open: () => Promise<{ store: BookStore; again?: () => Promise<BookStore> }>,
): void {
  const using = async (use: (store: BookStore, again?: () => Promise<BookStore>) => Promise<void>) => {
    const { store, again } = await open();
    try {
      await use(store, again);
    } finally {
      await store.close();
    }
  };

  test("T1 an empty store is at revision 0", () =>
    using(async (store) => {
      expect(await store.revision()).toBe(0);
      expect(await store.all()).toEqual([]);
      expect(await store.get("ingredients", "sea-salt")).toBeUndefined();
    }));

  test("T2 a save is one revision, whole, and comes back letter for letter", () =>
    using(async (store) => {
      expect(await store.save([put("sea-salt", salt), put("honey", { id: "honey" })], AT, "Mira")).toEqual({
        ok: true,
        revision: 1,
      });
      expect((await store.all()).map((saved) => saved.id)).toEqual(["sea-salt", "honey"]);
      expect(await store.get("ingredients", "sea-salt")).toEqual({
        kind: "ingredients",
        id: "sea-salt",
        revision: 1,
        document: salt,
        at: AT,
        by: "Mira",
      });
    }));

  test("T3 who saves on an old revision is refused, sees the other's words, and nothing is written", () =>
    using(async (store) => {
      await store.save([put("sea-salt", salt)], AT, "Mira");
      await store.save([put("sea-salt", { ...salt, name: "Rock salt" }, 1)], AT, "Jon");
      const answer = await store.save(
        [put("honey", { id: "honey" }), put("sea-salt", { ...salt, name: "Table salt" }, 1)],
        AT,
        "Mira",
      );
      expect(answer).toMatchObject({
        ok: false,
        conflict: [{ revision: 2, by: "Jon", document: { name: "Rock salt" } }],
      });
      expect(await store.revision()).toBe(2);
      expect(await store.get("ingredients", "honey")).toBeUndefined();
    }));

  test("T3 of many who save at once on one revision, exactly one wins", () =>
    using(async (store, again) => {
      await store.save([put("sea-salt", salt)], AT, "Mira");
      const other = again ? await again() : store;
      const answers = await Promise.all(
        Array.from({ length: 12 }, (_, i) =>
          (i % 2 ? store : other).save([put("sea-salt", { ...salt, i }, 1)], AT, `cook ${i}`),
        ),
      );
      expect(answers.filter((answer) => answer.ok)).toHaveLength(1);
      expect(await store.revision()).toBe(2);
      if (other !== store) await other.close();
    }));

  test("T11 what was judged with a book that has moved on is not written", () =>
    using(async (store, again) => {
      await store.save([put("sea-salt", salt)], AT, "Mira");
      const other = again ? await again() : store;
      const saves = await Promise.all([
        store.save([put("honey", { id: "honey" })], AT, "Mira", 1),
        other.save([put("sugar", { id: "sugar" })], AT, "Jon", 1),
      ]);
      expect(saves).toContainEqual({ ok: true, revision: 2 });
      expect(saves).toContainEqual({ ok: false, moved: 2 });
      expect(await store.all()).toHaveLength(2);
      if (other !== store) await other.close();
    }));

  test("T4 a document taken out is gone from the book and stays in its history", () =>
    using(async (store) => {
      await store.save([put("sea-salt", salt)], AT, "Mira");
      await store.save([put("sea-salt", null, 1)], AT, "Mira");
      expect(await store.all()).toEqual([]);
      expect((await store.history("ingredients", "sea-salt")).map((saved) => saved.document)).toEqual([
        null,
        salt,
      ]);
      expect(await store.save([put("sea-salt", salt)], AT, "Mira")).toEqual({ ok: true, revision: 3 });
      expect(await store.get("ingredients", "sea-salt")).toMatchObject({ revision: 3, document: salt });
    }));

  test("T5 a whole book takes the place of what stood, as one revision", () =>
    using(async (store) => {
      await store.save([put("sea-salt", salt), put("honey", { id: "honey" })], AT, "Mira");
      const many = Array.from({ length: 1200 }, (_, i) => ({
        kind: "dishes" as const,
        id: `d-${i}`,
        document: { id: `d-${i}` },
      }));
      const revision = await store.replaceAll(
        [{ kind: "ingredients", id: "honey", document: { id: "honey", new: 1 } }, ...many],
        AT,
        "Mira",
      );
      expect(revision).toBe(2);
      const all = await store.all();
      expect(all).toHaveLength(1201);
      expect(all[0]).toMatchObject({ id: "honey", document: { new: 1 } });
      expect(all.at(-1)!.id).toBe("d-1199");
      expect(await store.history("ingredients", "sea-salt")).toHaveLength(2);
    }));

  test("T6 what changed since a revision is told once each, newest state", () =>
    using(async (store) => {
      await store.save([put("sea-salt", salt), put("honey", { id: "honey" })], AT, "Mira");
      await store.save([put("sea-salt", { ...salt, name: "a" }, 1)], AT, "Mira");
      await store.save([put("sea-salt", { ...salt, name: "b" }, 2)], AT, "Mira");
      await store.save([put("honey", null, 1)], AT, "Mira");
      expect((await store.since(1)).map(({ id, revision, document }) => [id, revision, document])).toEqual([
        ["sea-salt", 3, { ...salt, name: "b" }],
        ["honey", 4, null],
      ]);
    }));

  test("T7 a log entry sent twice is kept once; a correction keeps the first value", () =>
    using(async (store) => {
      expect(await store.appendLog([entry("a"), entry("b", { at: "2027-01-28T10:00:00Z" })])).toBe(2);
      expect(
        await store.appendLog([
          entry("a", { body: { coreC: 1 } }),
          entry("c", { corrects: "a", body: { coreC: 75 } }),
        ]),
      ).toBe(1);
      const log = await store.log("first-light");
      expect(log.map(({ id, corrects, body }) => [id, corrects, body])).toEqual([
        ["a", undefined, { coreC: 74.5 }],
        ["b", undefined, { coreC: 74.5 }],
        ["c", "a", { coreC: 75 }],
      ]);
      expect((await store.log("first-light", log[1]!.seq)).map(({ id }) => id)).toEqual(["c"]);
      expect(await store.log("another")).toEqual([]);
      await store.appendLog([entry("d", { service: "another" })]);
      expect((await store.wholeLog(0, 10)).map(({ id }) => id)).toEqual(["a", "b", "c", "d"]);
      expect((await store.wholeLog(log[1]!.seq, 1)).map(({ id }) => id)).toEqual(["c"]);
    }));

  test("T8 what was acknowledged is there when the place is opened again", () =>
    using(async (store, again) => {
      if (!again) return;
      await store.save([put("sea-salt", salt)], AT, "Mira");
      await store.appendLog([entry("a")]);
      const other = await again();
      expect((await other.get("ingredients", "sea-salt"))!.document).toEqual(salt);
      expect(await other.log("first-light")).toHaveLength(1);
      await other.close();
    }));
}
