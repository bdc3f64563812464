// npm start: install, build the page when its sources changed, then serve. A second start is quick.
import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { install } from "./install.mjs";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
process.chdir(root);
install();
const { env24, node24 } = await import("./on24.mjs");

const SOURCES = ["web", "core", "drawing", "words", "vite.config.ts", "package-lock.json"];
const stamp = join("dist", ".built-from");

/** Size and time of every source file, hashed: changes when any of them does. */
function fingerprint() {
  const hash = createHash("sha256");
  const visit = (path) => {
    const stat = statSync(path);
    if (stat.isDirectory()) for (const name of readdirSync(path).sort()) visit(join(path, name));
    else hash.update(`${path} ${stat.size} ${stat.mtimeMs}\n`);
  };
  for (const source of SOURCES) if (existsSync(source)) visit(source);
  return hash.digest("hex");
}

const now = fingerprint();
if (!existsSync(stamp) || readFileSync(stamp, "utf8") !== now) {
  console.error("Building the page …");
  const built = spawnSync(node24(), ["node_modules/vite/bin/vite.js", "build", "--logLevel", "warn"], {
    stdio: ["ignore", 2, 2],
    env: env24(),
  });
  if (built.status !== 0) process.exit(built.status ?? 1);
  writeFileSync(stamp, now);
}
if (process.argv.includes("--build-only")) process.exit(0);

const server = spawn(node24(), ["server/main.ts", ...process.argv.slice(2)], {
  stdio: "inherit",
  env: env24(),
});
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => server.kill(signal));
server.on("exit", (code, signal) => process.exit(code ?? (signal ? 0 : 1)));
