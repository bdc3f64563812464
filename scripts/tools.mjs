// What the tests need beyond npm packages: a browser, PostgreSQL, a reader of PDF files.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";

const found = (command) => spawnSync("sh", ["-c", `command -v ${command}`]).status === 0;

function postgresBin() {
  const base = "/usr/lib/postgresql";
  if (!existsSync(base)) return undefined;
  return readdirSync(base)
    .map((version) => join(base, version, "bin"))
    .filter((bin) => existsSync(join(bin, "initdb")))
    .at(-1);
}

/**
 * Installs by apt what is missing, where apt and the right to use it are there; returns where things are, as
 * environment variables. What stays missing is for the tests to say.
 */
export function prepareTools() {
  const missing = [];
  if (!existsSync("/usr/bin/chromium")) missing.push("chromium");
  if (!found("pdftotext")) missing.push("poppler-utils");
  if (!postgresBin()) missing.push("postgresql");
  if (missing.length > 0 && found("apt-get") && process.getuid?.() === 0) {
    console.log(`Installing ${missing.join(", ")} …`);
    const quiet = {
      stdio: ["ignore", "ignore", "inherit"],
      env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
    };
    spawnSync("apt-get", ["update", "-qq"], quiet);
    spawnSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", ...missing], quiet);
  }
  return {
    ...(existsSync("/usr/bin/chromium") && !process.env.CHROME ? { CHROME: "/usr/bin/chromium" } : {}),
    ...(postgresBin() ? { POSTGRES_BIN: postgresBin() } : {}),
  };
}
