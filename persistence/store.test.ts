import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { storeAcceptance } from "./acceptance.ts";
import { openEmbedded, openPostgres } from "./open.ts";
import { postgresBin, startPostgres } from "./postgres-server.ts";
import type { BookStore, Heard } from "./store.ts";

const folders: string[] = [];
const folder = () => {
  const made = mkdtempSync(join(tmpdir(), "tournant-store-"));
  folders.push(made);
  return made;
};
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

describe("embedded store in a file", () => {
  storeAcceptance(async () => {
    const file = join(folder(), "book.db");
    return { store: await openEmbedded(file), again: () => openEmbedded(file) };
  });

  test("T9 another process hears of a save, and of a log that grows", async () => {
    const file = join(folder(), "book.db");
    await hearsTheOther(await openEmbedded(file), await openEmbedded(file));
  });

  test("T8 a process that is killed loses nothing it acknowledged", async () => {
    const file = join(folder(), "book.db");
    const writer = spawn(process.execPath, [join(import.meta.dirname, "write-until-killed.ts"), file], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    let acknowledged = 0;
    await new Promise<void>((resolve) => {
      writer.stdout!.on("data", (chunk: Buffer) => {
        acknowledged += chunk.toString().split("\n").length - 1;
        if (acknowledged >= 200) writer.kill("SIGKILL");
      });
      writer.on("exit", () => resolve());
    });
    const store = await openEmbedded(file);
    expect(acknowledged).toBeGreaterThanOrEqual(200);
    expect(await store.revision()).toBeGreaterThanOrEqual(acknowledged);
    await store.close();
  });
});

/** What one writes the other hears within two seconds; of its own log it is not told again. */
async function hearsTheOther(one: BookStore, other: BookStore): Promise<void> {
  const heard: Heard[] = [];
  const stop = await other.listen!((what) => heard.push(what));
  const entry = (id: string, service: string) => ({
    ...{ id, service, at: "2027-01-28T09:00:00Z", by: "Mira", body: { kind: "note", text: "x" } },
  });
  await other.appendLog([entry("own", "supper")]);
  const within = async (wanted: Heard) => {
    const began = performance.now();
    while (!heard.some((what) => JSON.stringify(what).includes(JSON.stringify(wanted).slice(1, -1)))) {
      expect(performance.now() - began).toBeLessThan(2000);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  };
  const document = { kind: "ingredients", id: "a", document: { id: "a" }, baseRevision: 0 } as const;
  await one.save([document], "2027-01-28T09:00:00Z", "Mira");
  await within({ revision: 1 });
  heard.length = 0;
  await one.appendLog([entry("a", "lunch"), entry("b", "lunch")]);
  await within({ services: ["lunch"] });
  expect(heard.some((what) => what.revision !== undefined)).toBe(false);
  await stop();
  await one.close();
  await other.close();
}

describe("embedded store in memory", () => {
  storeAcceptance(async () => ({ store: await openEmbedded(":memory:") }));
});

const bin = postgresBin();
if (!bin)
  console.log("SKIPPED: no PostgreSQL server found (install Debian's postgresql, or set POSTGRES_BIN)");
describe.skipIf(!bin)("store on PostgreSQL", () => {
  let server: Awaited<ReturnType<typeof startPostgres>>;
  let admin: pg.Client;
  let count = 0;
  beforeAll(async () => {
    server = await startPostgres(bin!);
    admin = new pg.Client({ connectionString: server.url });
    await admin.connect();
  }, 60_000);
  afterAll(async () => {
    await admin?.end();
    await server?.stop();
  });

  const fresh = async () => {
    const name = `book_${++count}`;
    await admin.query(`create database ${name}`);
    return server.url.replace(/postgres$/, name);
  };

  storeAcceptance(async () => {
    const url = await fresh();
    return { store: await openPostgres(url), again: () => openPostgres(url) };
  });

  test("T9 another process hears of a save, and of a log that grows", async () => {
    const url = await fresh();
    await hearsTheOther(await openPostgres(url), await openPostgres(url));
  });

  test("T10 several processes may start on one empty server at once", async () => {
    const url = await fresh();
    const stores = await Promise.all([openPostgres(url), openPostgres(url), openPostgres(url)]);
    expect(await Promise.all(stores.map((store) => store.revision()))).toEqual([0, 0, 0]);
    for (const store of stores) await store.close();
  });
});
