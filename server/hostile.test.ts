import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writeLimit } from "./guard.ts";
import { type Serving, serve, whyNot } from "./serve.ts";

const data = mkdtempSync(join(tmpdir(), "tournant-hostile-"));
const page = join(data, "page");
let server: Serving;
beforeAll(async () => {
  mkdirSync(join(page, "assets"), { recursive: true });
  writeFileSync(join(page, "index.html"), "<title>page</title>");
  writeFileSync(join(page, "assets", "a.js"), "1");
  writeFileSync(join(data, "secret.txt"), "secret");
  symlinkSync(join(data, "secret.txt"), join(page, "link.txt"));
  symlinkSync(data, join(page, "out"));
  server = await serve({ port: 0, data, page });
}, 60_000);
afterAll(async () => {
  await server.close();
  rmSync(data, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
}
/** A call letter for letter, with headers and bodies that fetch would not send. */
const raw = (
  path: string,
  {
    method = "GET",
    headers = {},
    body = [],
  }: { method?: string; headers?: object; body?: (string | Buffer)[] } = {},
) =>
  new Promise<Answer>((resolve, reject) => {
    const ask = request(
      {
        ...new URL(server.address),
        host: "127.0.0.1",
        port: new URL(server.address).port,
        path,
        method,
        headers: { ...headers },
      },
      (answer) => {
        let text = "";
        answer.setEncoding("utf8");
        answer.on("data", (more: string) => {
          text += more;
        });
        answer.on("end", () => resolve({ status: answer.statusCode!, headers: answer.headers, text }));
      },
    );
    ask.on("error", reject);
    for (const part of body) ask.write(part);
    ask.end();
  });
const json = { "content-type": "application/json" };
const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;

describe("hostile callers", () => {
  test("V6 what a form can send is not read, whatever it says", async () => {
    for (const type of [
      "text/plain",
      "application/x-www-form-urlencoded",
      "multipart/form-data; boundary=x",
      "",
    ])
      for (const path of ["/api/book/import", "/api/log", "/api/run/demo"]) {
        const headers = type === "" ? {} : { "content-type": type };
        expect((await raw(path, { method: "POST", headers, body: ["{}"] })).status).toBe(400);
      }
  });

  test("V6 another site cannot make this machine compute either", async () => {
    const foreign = { "sec-fetch-site": "cross-site" };
    expect((await raw("/api/pack/demo.pdf", { headers: foreign })).status).toBe(403);
    expect((await raw("/api/book", { headers: { origin: "http://evil.example" } })).status).toBe(403);
    expect((await raw("/", { headers: foreign })).status).toBe(200);
  });

  test("V7 nesting without end is refused in words at every door", async () => {
    const entry = `"id":"${crypto.randomUUID()}","service":"demo","at":"2027-01-29T10:00:00Z","by":"m"`;
    for (const [method, path, body] of [
      ["POST", "/api/book/import", deep],
      ["POST", "/api/book/import", `{"format":${deep},"version":1}`],
      ["POST", "/api/log", `{"entries":[{${entry},"body":{"a":${deep}}}]}`],
      ["PUT", "/api/documents/ingredients/x", `{"document":{"id":"x","name":${deep}},"baseRevision":0}`],
    ] as const) {
      const answer = await raw(path, { method, headers: json, body: [body] });
      expect(answer.status).toBe(422);
      expect(JSON.parse(answer.text).problems[0].mend).not.toBe("");
    }
  });

  test("V7 what is wrong with a call is told in words, with its path", async () => {
    const { status, text } = await raw("/api/log", {
      method: "POST",
      headers: json,
      body: ['{"entries":{}}'],
    });
    expect(status).toBe(400);
    expect(JSON.parse(text).problems).toEqual([
      { path: "/entries", what: "this is an object", mend: "give a list" },
    ]);
  });

  test("V7 only a book may be large; a body without a length is counted as it comes", async () => {
    const body = Array.from({ length: 6 }, () => Buffer.alloc(1024 * 1024, " "));
    // The server may hang up while the rest still comes: then the caller sees no answer.
    const refused = await raw("/api/log", { method: "POST", headers: json, body }).catch(() => undefined);
    expect([413, undefined]).toContain(refused?.status);
    const said = { ...json, "content-length": String(6 * 1024 * 1024) };
    const early = await raw("/api/log", { method: "POST", headers: said, body: [body[0]!] }).catch(
      () => undefined,
    );
    expect([413, undefined]).toContain(early?.status);
    expect((await raw("/api/book/import", { method: "POST", headers: json, body })).status).toBe(400);
  });

  test("V7 a link that leads out of the page's folder is not followed", async () => {
    for (const path of ["/link.txt", "/out/secret.txt", "/out/book.db"])
      expect(await raw(path)).toMatchObject({ status: 404 });
  });

  test("V7 only what is there is kept for a year; the book is never kept", async () => {
    expect((await raw("/assets/a.js")).headers["cache-control"]).toContain("immutable");
    for (const path of ["/assets/gone", "/assets/gone.js", "/assets/"])
      expect(await raw(path)).toMatchObject({ status: 404 });
    expect((await raw("/run/demo")).headers["cache-control"]).toBe("no-cache");
    expect((await raw("/api/book")).headers["cache-control"]).toBe("no-store");
  });

  test("V7 a page that is known is not sent again, however the caller says so", async () => {
    const etag = (await raw("/")).headers.etag as string;
    for (const known of [etag, `W/${etag}`, `"x", ${etag}`, "*"])
      expect((await raw("/", { headers: { "if-none-match": known } })).status).toBe(304);
    expect((await raw("/", { headers: { "if-none-match": '"x"' } })).status).toBe(200);
  });

  test("V7 more jobs than anybody could mean are refused, and the work goes on after", {
    timeout: 60_000,
  }, async () => {
    const starts = await Promise.all(
      Array.from({ length: 45 }, () =>
        raw("/api/run/nobody", { method: "POST", headers: json, body: ["{}"] }),
      ),
    );
    const taken = starts.filter(({ status }) => status === 202);
    expect(taken.length).toBeGreaterThan(0);
    expect(starts.filter(({ status }) => status === 503).length).toBe(45 - taken.length);
    expect(taken.length).toBeLessThan(45);
    const last = JSON.parse(taken.at(-1)!.text).job as string;
    for (;;) {
      const state = JSON.parse((await raw(`/api/jobs/${last}`)).text).state as string;
      if (state === "refused") break;
      expect(state).toBe("running");
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    expect((await raw("/api/run/nobody", { method: "POST", headers: json, body: ["{}"] })).status).toBe(202);
  });

  test("V7 writes are counted anew when the clock is put back", async () => {
    let time = 1_000_000;
    const limit = writeLimit(1, 60_000, () => time);
    const ask = async () => {
      let passed = false;
      const c = { req: { method: "POST" }, header() {}, json: () => new Response() };
      await limit(c as never, async () => {
        passed = true;
      });
      return passed;
    };
    expect([await ask(), await ask()]).toEqual([true, false]);
    time -= 3_600_000;
    expect([await ask(), await ask()]).toEqual([true, false]);
  });

  test("V9 a start that cannot be says why, in words", async () => {
    const port = Number(new URL(server.address).port);
    const failed = await serve({ port, data: join(data, "second"), page }).catch((error: unknown) => error);
    expect(whyNot(failed, port)).toContain(`port ${port} is taken`);
    const broken = join(data, "broken");
    mkdirSync(broken);
    writeFileSync(join(broken, "book.db"), "no database, only words. ".repeat(200));
    expect(whyNot(await serve({ port: 0, data: broken, page }).catch((error: unknown) => error))).toMatch(
      /not a book.*To mend/,
    );
    const file = join(data, "secret.txt");
    expect(whyNot(await serve({ port: 0, data: file, page }).catch((error: unknown) => error))).toMatch(
      /is a file.*To mend/,
    );
  });
});
