// Installs the packages when there are none, or when the lock file has changed since.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const stamp = join(root, "node_modules", ".installed-from");

/** Makes node_modules agree with package-lock.json; ends the process with a message when it cannot. */
export function install() {
  if (Number(process.versions.node.split(".")[0]) < 20) {
    console.error(
      `Tournant installs with Node 20 or newer; this is ${process.version}. Install a newer Node, then try again.`,
    );
    process.exit(1);
  }
  const lock = createHash("sha256")
    .update(readFileSync(join(root, "package-lock.json")))
    .digest("hex");
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === lock) return;
  console.error("Installing packages …");
  const done = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (done.status !== 0) {
    console.error(
      "The packages could not be installed. Read the message above; a second try often helps when the network was the reason.",
    );
    process.exit(1);
  }
  writeFileSync(stamp, lock);
}
