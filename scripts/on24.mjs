// Runs a script on the Node 24 that npm carries, whatever Node the machine has.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");

/** Path of a Node of major version 24 or newer. Throws a message with the mend when there is none. */
export function node24() {
  if (Number(process.versions.node.split(".")[0]) >= 24) return process.execPath;
  const name = { linux: "node-linux", win32: "node-win" }[process.platform];
  const file = process.platform === "win32" ? "bin/node.exe" : "bin/node";
  const carried = name && join(root, "node_modules", `${name}-${process.arch}`, file);
  if (carried && existsSync(carried)) return carried;
  throw new Error(
    `Tournant runs on Node 24 or newer; this is ${process.version} and npm carries none for ${process.platform}-${process.arch}. Install Node 24, then try again.`,
  );
}

/** Environment whose PATH finds the carried Node first, for tools that start `node` themselves. */
export function env24() {
  const sep = process.platform === "win32" ? ";" : ":";
  return {
    ...process.env,
    PATH: [dirname(node24()), join(root, "node_modules", ".bin"), process.env.PATH].join(sep),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const done = spawnSync(node24(), process.argv.slice(2), { stdio: "inherit", env: env24(), cwd: root });
  process.exit(done.status ?? 1);
}
