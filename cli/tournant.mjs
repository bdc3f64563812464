#!/usr/bin/env node
// The command `tournant`: hands over to the Node 24 that npm carries, since the machine's own may be older.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { env24, node24 } from "../scripts/on24.mjs";

const main = join(dirname(fileURLToPath(import.meta.url)), "main.ts");
let node;
try {
  node = node24();
} catch (error) {
  console.error(error.message);
  process.exit(1);
}
const done = spawnSync(node, [main, ...process.argv.slice(2)], { stdio: "inherit", env: env24() });
process.exit(done.status ?? 1);
