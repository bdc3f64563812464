import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { parseBook } from "../core/book/index.ts";
import { type Serving, serve } from "./serve.ts";

const data = mkdtempSync(join(tmpdir(), "tournant-server-"));
const page = join(data, "page");
let server: Serving;
beforeAll(async () => {
  mkdirSync(page);
  writeFileSync(join(page, "index.html"), "<title>page</title>");
  writeFileSync(join(data, "secret.txt"), "secret");
  server = await serve({ port: 0, data, page });
}, 60_000);
afterAll(async () => {
  await server.close();
  rmSync(data, { recursive: true, force: true });
});

const call = async (path: string, init: RequestInit & { json?: unknown } = {}) => {
  const { json, ...rest } = init;
  const answer = await fetch(server.address + path, {
    ...rest,
    ...(json === undefined
      ? {}
      : { body: JSON.stringify(json), headers: { "content-type": "application/json", ...rest.headers } }),
  });
  // biome-ignore lint/suspicious/noExplicitAny: answers of many shapes, judged by the expectations
  return { status: answer.status, headers: answer.headers, body: (await answer.json()) as any };
};
/** A call with headers that fetch will not send. */
const raw = (path: string, headers: Record<string, string>, method = "GET") =>
  new Promise<number>((resolve, reject) => {
    const ask = request(server.address + path, { headers, method }, (answer) => {
      answer.resume();
      resolve(answer.statusCode!);
    });
    ask.on("error", reject);
    ask.end();
  });
const ingredient = async (id: string) => (await call(`/api/documents/ingredients/${id}`)).body;
const anyIngredient = async () => (await call("/api/book")).body.book.ingredients[0].id as string;

describe("server", () => {
  test("V1 a first start seeds the demo; the book is a book", async () => {
    const { status, body } = await call("/api/book");
    expect(status).toBe(200);
    expect(body.revision).toBe(1);
    expect(parseBook(body.book).ok).toBe(true);
    expect(body.book.services.some((service: { id: string }) => service.id === "demo")).toBe(true);
  });

  test("V2 a document is saved on the revision it was changed from", async () => {
    const id = await anyIngredient();
    const { document, revision } = await ingredient(id);
    const saved = await call(`/api/documents/ingredients/${id}`, {
      method: "PUT",
      json: { document: { ...document, notes: "from the corner shop" }, baseRevision: revision },
    });
    expect(saved).toMatchObject({ status: 200, body: { merged: false } });
    expect((await ingredient(id)).document.notes).toBe("from the corner shop");
    const { body } = await call(`/api/documents/ingredients/${id}/history`);
    expect(body.history).toHaveLength(2);
  });

  test("V2 two changes of different things are joined; of the same thing the second is refused with what stands", async () => {
    const id = await anyIngredient();
    const { document, revision } = await ingredient(id);
    const put = (change: object) =>
      call(`/api/documents/ingredients/${id}`, {
        method: "PUT",
        json: { document: { ...document, ...change }, baseRevision: revision },
      });
    expect((await put({ notes: "first" })).status).toBe(200);
    const joined = await put({ aliases: ["other name"] });
    expect(joined).toMatchObject({
      status: 200,
      body: { merged: true, document: { notes: "first", aliases: ["other name"] } },
    });
    const clash = await put({ notes: "second" });
    expect(clash).toMatchObject({
      status: 409,
      body: { clashes: ["/notes"], theirs: { document: { notes: "first" } } },
    });
  });

  test("V2 a document nobody touched is saved on a later revision of the book", async () => {
    const { body } = await call("/api/book");
    const [first, second] = body.book.ingredients.slice(-2);
    const put = (document: { id: string }, baseRevision: number) =>
      call(`/api/documents/ingredients/${document.id}`, {
        method: "PUT",
        json: { document: { ...document, notes: `at ${baseRevision}` }, baseRevision },
      });
    expect(await put(first, body.revision)).toMatchObject({ status: 200, body: { merged: false } });
    expect(await put(second, body.revision + 1)).toMatchObject({ status: 200, body: { merged: false } });
  });

  test("V2 several documents are saved as one revision, all or none", async () => {
    const { body } = await call("/api/book");
    const [like] = body.book.ingredients;
    const fresh = (id: string, more: object = {}) => ({
      ...{ kind: "ingredients", baseRevision: body.revision },
      document: { ...like, id, name: `Of ${id}`, aliases: [], ...more },
    });
    const save = (...documents: object[]) => call("/api/documents", { method: "POST", json: { documents } });
    const bad = await save(fresh("together-1"), fresh("together-2", { storage: { state: "warm", days: 1 } }));
    expect(bad).toMatchObject({ status: 422, body: { problems: [{ path: "/documents/1/storage/state" }] } });
    expect((await call("/api/documents/ingredients/together-1")).status).toBe(404);
    expect(await save(fresh("together-1"), fresh("together-2"))).toMatchObject({
      ...{ status: 200, body: { revision: body.revision + 1 } },
    });
    expect((await save(fresh("together-1"))).status).toBe(409);
  });

  test("V3 a bad document is refused with path and mend, and nothing is lost", async () => {
    const id = await anyIngredient();
    const { document, revision } = await ingredient(id);
    const answer = await call(`/api/documents/ingredients/${id}`, {
      method: "PUT",
      json: { document: { ...document, storage: { state: "warm", days: 3 } }, baseRevision: revision },
    });
    expect(answer.status).toBe(422);
    expect(answer.body.problems[0].path).toBe("/storage/state");
    expect(await ingredient(id)).toMatchObject({ revision });
  });

  test("V3 what others refer to cannot be taken out", async () => {
    const { body } = await call("/api/book");
    const used = body.book.preparations.flatMap((p: { lines: { item: { ingredient?: string } }[] }) =>
      p.lines.flatMap((line) => line.item.ingredient ?? []),
    )[0];
    const { revision } = await ingredient(used);
    const answer = await call(`/api/documents/ingredients/${used}?baseRevision=${revision}`, {
      method: "DELETE",
    });
    expect(answer.status).toBe(422);
  });

  test("V4 export and import give the same book; a bad book changes nothing", async () => {
    const before = (await call("/api/book/export")).body;
    expect((await call("/api/book/import", { method: "POST", json: { format: "other" } })).status).toBe(422);
    expect((await call("/api/book/import", { method: "POST", json: before })).status).toBe(200);
    expect((await call("/api/book/export")).body).toEqual(before);
  });

  test("V5 a log entry is kept once", async () => {
    const entries = [
      {
        id: crypto.randomUUID(),
        service: "demo",
        at: "2027-01-29T10:00:00Z",
        by: "Mira",
        body: { kind: "reading", value: 75, unit: "°C" },
      },
    ];
    expect((await call("/api/log", { method: "POST", json: { entries } })).body).toEqual({ added: 1 });
    expect((await call("/api/log", { method: "POST", json: { entries } })).body).toEqual({ added: 0 });
    expect((await call("/api/log/demo")).body.entries).toHaveLength(1);
    expect((await call("/api/log", { method: "POST", json: { entries: [{ id: "x" }] } })).status).toBe(400);
  });

  test("V11 a body of a known kind is judged; the good entries are kept, the bad ones named", async () => {
    const entry = (body: object) => ({
      id: crypto.randomUUID(),
      service: "judged",
      at: "2027-01-29T10:00:00Z",
      by: "Mira",
      body,
    });
    const trim = { kind: "trim", ingredient: "celeriac", cut: "peeled", apG: 1000, epG: 780 };
    const entries = [entry(trim), entry({ ...trim, epG: 1300 }), entry({ kind: "note", text: "late" })];
    const answer = await call("/api/log", { method: "POST", json: { entries } });
    expect(answer).toMatchObject({
      status: 200,
      body: { added: 2, refused: [{ index: 1, problems: [{ path: "/entries/1/body/epG" }] }] },
    });
    expect((await call("/api/log/judged")).body.entries).toHaveLength(2);
    expect((await call("/api/log?most=10000")).body.entries.length).toBeGreaterThanOrEqual(3);
    const odd = await call("/api/log", { method: "POST", json: { entries: [entry({ kind: "gossip" })] } });
    expect(odd.status).toBe(422);
    expect(odd.body.problems[0]).toMatchObject({ path: "/entries/0/body/kind" });
    expect(odd.body.problems[0].mend).toContain("started");
    const alone = await call("/api/log", { method: "POST", json: { entries: [entries[1]] } });
    expect(alone.status).toBe(422);
    expect(alone.body.problems[0].what).toContain("more was usable than was bought");
    expect(alone.body.refused).toMatchObject([{ index: 0, id: entries[1]!.id }]);
  });

  test("V6 other names for this machine and other sites' writes are refused", async () => {
    expect(await raw("/api/book", { host: "evil.example" })).toBe(403);
    expect(await raw("/api/book", { host: "localhost:1" })).toBe(200);
    const foreign = await call("/api/log", {
      method: "POST",
      json: {},
      headers: { origin: "http://evil.example" },
    });
    expect(foreign.status).toBe(403);
    expect(await raw("/api/log", { "sec-fetch-site": "cross-site" }, "POST")).toBe(403);
    expect(await raw("/api/log", { origin: "null" }, "POST")).toBe(403);
  });

  test("V7 answers carry strict headers and never a stack", async () => {
    const { headers } = await call("/api/book");
    expect(headers.get("content-security-policy")).toContain("script-src 'self' 'wasm-unsafe-eval';");
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    const broken = await fetch(`${server.address}/api/log`, {
      method: "POST",
      body: "{ not json",
      headers: { "content-type": "application/json" },
    });
    expect(broken.status).toBe(400);
    expect(await broken.text()).not.toContain("at ");
  });

  test("V7 no file outside the page's folder is served", async () => {
    for (const path of [
      "/../secret.txt",
      "/%2e%2e/secret.txt",
      "/..%2fsecret.txt",
      "/page/../../secret.txt",
      "/%zz",
    ])
      expect([400, 404]).toContain(await raw(path, {}));
    expect(await raw("/%00", {})).not.toBe(500);
    expect(await raw("/run/demo", {})).toBe(200);
  });

  test("V8 those who listen hear of a save, and what they missed", async () => {
    const id = await anyIngredient();
    const { document, revision } = await ingredient(id);
    const abort = new AbortController();
    const answer = await fetch(`${server.address}/api/events`, {
      signal: abort.signal,
      headers: { "last-event-id": String(revision - 1) },
    });
    const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
    let heard = "";
    const until = async (text: string) => {
      while (!heard.includes(text)) heard += (await reader.read()).value ?? "";
    };
    await until('"revision"');
    await until("event: here");
    const saved = await call(`/api/documents/ingredients/${id}`, {
      method: "PUT",
      json: { document: { ...document, notes: "heard" }, baseRevision: revision },
    });
    await until(`"revision":${saved.body.revision}`);
    const entry = {
      ...{ id: crypto.randomUUID(), service: "demo", at: "2027-01-30T12:00:00Z", by: "Ansa" },
      body: { kind: "note", text: "heard" },
    };
    await call("/api/log", { method: "POST", json: { entries: [entry] } });
    await until('event: log\ndata: {"services":["demo"]}');
    abort.abort();
  });

  test("V9 a second start keeps what was written", async () => {
    const id = await anyIngredient();
    const before = await ingredient(id);
    await server.close();
    server = await serve({ port: 0, data, page });
    expect(await ingredient(id)).toEqual(before);
  });

  test("V10 the API describes itself", async () => {
    const { body } = await call("/api/openapi.json");
    expect(Object.keys(body.paths)).toContain("/api/documents/{kind}/{id}");
    expect((await call("/api/schema/book.json")).body.properties.preparations).toBeDefined();
    expect((await call("/api/nothing")).status).toBe(404);
  });
});

test("V12 a plan found is there for the next who asks the same, and for no other; one that can't be read is refused", async () => {
  const asked = JSON.stringify([
    { seed: 1, schedules: 4 },
    { horizon: 60, tasks: [] },
  ]);
  const place = { task: "t", start: 5, end: 9, mode: 0, persons: ["p"], resources: [] };
  const schedule = { placements: [place], spans: [] };
  const found = { schedule, reason: "schedules", schedules: 4, bounds: [["late", 0]] };
  expect((await call("/api/plans/find", { method: "POST", json: { asked } })).body.found).toBeNull();
  expect((await call("/api/plans/keep", { method: "POST", json: { asked, found } })).status).toBe(200);
  expect((await call("/api/plans/find", { method: "POST", json: { asked } })).body.found).toEqual(found);
  const other = await call("/api/plans/find", { method: "POST", json: { asked: `${asked} ` } });
  expect(other.body.found).toBeNull();
  for (const bad of [
    { ...found, schedules: -1 },
    { ...found, reason: "stopped" },
    { ...found, schedule: { placements: [{ ...place, start: 0.5 }], spans: [] } },
  ]) {
    const refused = await call("/api/plans/keep", { method: "POST", json: { asked, found: bad } });
    expect(refused.status).toBe(400);
    expect(refused.body.problems[0].what).toBeTruthy();
  }
  expect((await call("/api/plans/find", { method: "POST", json: { asked } })).body.found).toEqual(found);
});
