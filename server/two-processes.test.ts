import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { serve } from "./serve.ts";

test("V8 a page of one process hears within two seconds of a log that another process writes", async () => {
  const data = mkdtempSync(join(tmpdir(), "tournant-two-"));
  const here = await serve({ port: 0, data, page: data });
  const main = join(import.meta.dirname, "main.ts");
  const other = spawn(process.execPath, [main, "--port", "0", "--data", data], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  try {
    let said = "";
    for await (const chunk of other.stdout!) {
      said += chunk;
      if (said.includes("Stop it")) break;
    }
    const address = /http:\S+/.exec(said)![0];
    const abort = new AbortController();
    const answer = await fetch(`${here.address}/api/events`, { signal: abort.signal });
    const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
    let heard = "";
    const until = async (text: string) => {
      while (!heard.includes(text)) heard += (await reader.read()).value ?? "";
    };
    await until("event: here");
    const entry = {
      ...{ id: crypto.randomUUID(), service: "demo", at: "2027-01-30T12:00:00Z", by: "Ansa" },
      body: { kind: "note", text: "from the other process" },
    };
    const written = await fetch(`${address}/api/log`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ entries: [entry] }),
    });
    expect(written.status).toBe(200);
    const began = performance.now();
    await until(`event: log\ndata: {"services":["demo"]}`);
    expect(performance.now() - began).toBeLessThan(2000);
    abort.abort();
  } finally {
    const ended = once(other, "exit");
    other.kill("SIGTERM");
    await ended;
    await here.close();
    rmSync(data, { recursive: true, force: true });
  }
}, 60_000);
