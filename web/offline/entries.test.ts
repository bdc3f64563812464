import { afterEach, describe, expect, test, vi } from "vitest";
import { Entries } from "./entries.ts";

/** A server whose answers wait until they are let go; this tablet's store keeps nothing, as in a private window. */
function server() {
  const sent: string[][] = [];
  const held: (() => void)[] = [];
  vi.stubGlobal("fetch", async (_: string, options?: { body?: string }) => {
    if (!options?.body) return { ok: false };
    const { entries } = JSON.parse(options.body) as { entries: { body: { text: string } }[] };
    sent.push(entries.map(({ body }) => body.text));
    await new Promise<void>((go) => held.push(go));
    return { ok: true, json: async () => ({ added: entries.length }) };
  });
  return { sent, held };
}

/** Once it is so. */
const so = (what: () => void) => vi.waitFor(what, { timeout: 4000, interval: 2 });

describe("A6 entries", () => {
  afterEach(() => vi.unstubAllGlobals());

  test("what the tablet cannot keep stands on the page and is sent; what comes while a call is under way follows it", async () => {
    const { sent, held } = server();
    const entries = new Entries();
    await entries.open("supper");
    let told = 0;
    entries.subscribe(() => told++);
    void entries.write({ kind: "note", text: "one" });
    // Before anything was kept or sent.
    expect(entries.list().map(({ text }) => text)).toEqual(["one"]);
    expect(told).toBeGreaterThan(0);
    await so(() => expect(held).toHaveLength(1));
    expect(sent).toEqual([["one"]]);
    void entries.write({ kind: "note", text: "two" });
    await so(() => expect(entries.waiting()).toBe(2));
    expect(sent).toHaveLength(1);
    held.shift()!();
    await so(() => expect(held).toHaveLength(1));
    expect(sent).toEqual([["one"], ["two"]]);
    held.shift()!();
    await so(() => expect(entries.waiting()).toBe(0));
    expect(entries.list().map(({ text }) => text)).toEqual(["one", "two"]);
  });

  test("without network they wait, and no call follows by itself", async () => {
    let calls = 0;
    vi.stubGlobal("fetch", async () => {
      calls++;
      throw new TypeError("no network");
    });
    const entries = new Entries();
    await entries.open("supper");
    const before = calls;
    void entries.write({ kind: "note", text: "one" });
    void entries.write({ kind: "note", text: "two" });
    await so(() => expect(entries.waiting()).toBe(2));
    await new Promise((done) => setTimeout(done, 20));
    expect(calls - before).toBeLessThanOrEqual(2);
    expect(entries.list()).toHaveLength(2);
  });

  test("what the server keeps nothing of is not sent for ever", async () => {
    let calls = 0;
    vi.stubGlobal("fetch", async (_: string, options?: { body?: string }) => {
      if (!options?.body) return { ok: false };
      calls++;
      const { entries } = JSON.parse(options.body) as { entries: { id: string }[] };
      const problems = [{ path: "/entries/0", what: "it is odd", mend: "write it anew" }];
      const refused = entries.map(({ id }, index) => ({ index, id, problems }));
      return { ok: false, status: 422, json: async () => ({ problems, refused }) };
    });
    const entries = new Entries();
    await entries.open("supper");
    await entries.write({ kind: "note", text: "odd" });
    await so(() => expect(entries.waiting()).toBe(0));
    await entries.send();
    expect(calls).toBe(1);
    expect(entries.list()).toHaveLength(1);
  });
});
