// Checks the order of the rooms, and first that the check itself can fail:
// a deliberate bad import (the canary) must be refused.
import { spawnSync } from "node:child_process";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { env24, node24 } from "./on24.mjs";

const folders = [
  "core",
  "persistence",
  "server",
  "drawing",
  "words",
  "web",
  "print",
  "cli",
  "data",
  "evidence",
  "solver",
];
const cruise = (paths) =>
  spawnSync(node24(), ["node_modules/dependency-cruiser/bin/dependency-cruiser.mjs", ...paths], {
    encoding: "utf8",
    env: env24(),
  });

const canary = join("core", "numerics", "zz-canary.ts");
mkdirSync(join("core", "numerics"), { recursive: true });
writeFileSync(canary, 'import "../run/result.ts";\n');
let refused;
try {
  refused = cruise([canary]);
} finally {
  rmSync(canary);
}
if (refused.status === 0 || !refused.stdout.includes("core-numerics-imports-only-rooms-above")) {
  console.error(
    "boundaries: the canary import was not refused, so this check sees nothing.\n",
    refused.stdout,
    refused.stderr,
  );
  process.exit(1);
}
const { existsSync } = await import("node:fs");
const real = cruise(folders.filter((f) => existsSync(f)));
process.stdout.write(real.stdout);
process.stderr.write(real.stderr);
process.exit(real.status ?? 1);
