/** The server of the browser tests: a book of its own, made anew, on the port given. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { serve } from "../../server/serve.ts";

const data = mkdtempSync(join(tmpdir(), "tournant-browser-"));
const running = await serve({ port: Number(process.argv[2] ?? 4271), data });
process.stdout.write(`${running.address}\n`);
for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close());
await running.closed;
rmSync(data, { recursive: true, force: true });
