// npm test: everything that must hold, from a fresh clone. Prints what each part said and closes with the counts.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { install } from "./install.mjs";

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));
install();
const { env24, node24 } = await import("./on24.mjs");
const { prepareTools } = await import("./tools.mjs");

const only = process.argv.slice(2);
const wanted = (name) => only.length === 0 || only.includes(name);
const counts = { passed: 0, failed: 0, skipped: 0 };
const reports = mkdtempSync(join(tmpdir(), "tournant-test-"));
const env = { ...env24(), ...prepareTools() };

function run(name, args, extra = {}) {
  const from = Date.now();
  console.log(`\n── ${name}`);
  const done = spawnSync(node24(), args, { stdio: "inherit", env: { ...env, ...extra } });
  console.log(
    `── ${name}: ${done.status === 0 ? "holds" : "FAILS"}, ${((Date.now() - from) / 1000).toFixed(1)} s`,
  );
  return done.status === 0;
}

function check(name, args) {
  if (!wanted(name)) return;
  if (run(name, args)) counts.passed++;
  else counts.failed++;
}

check("types", ["node_modules/@typescript/native/bin/tsc", "-p", "tsconfig.json"]);
check("lint", ["node_modules/@biomejs/biome/bin/biome", "check", "."]);
check("boundaries", ["scripts/boundaries.mjs"]);
check("unused", ["node_modules/knip/bin/knip.js"]);

if (wanted("unit")) {
  const report = join(reports, "unit.json");
  const ok = run("unit", [
    "node_modules/vitest/vitest.mjs",
    "run",
    "--reporter=dot",
    "--reporter=json",
    `--outputFile.json=${report}`,
  ]);
  if (existsSync(report)) {
    const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(
      readFileSync(report, "utf8"),
    );
    counts.passed += numPassedTests;
    counts.failed += numFailedTests;
    counts.skipped += numPendingTests + (numTodoTests ?? 0);
    // A file that fails to load fails no test of its own.
    if (!ok && numFailedTests === 0) counts.failed++;
  } else counts.failed++;
}

if (wanted("browser")) {
  const report = join(reports, "browser.json");
  const built = spawnSync(node24(), ["scripts/start.mjs", "--build-only"], { stdio: "inherit", env });
  const ok =
    built.status === 0 &&
    run("browser", ["node_modules/@playwright/test/cli.js", "test"], { PLAYWRIGHT_JSON_OUTPUT_NAME: report });
  if (existsSync(report)) {
    const { stats } = JSON.parse(readFileSync(report, "utf8"));
    counts.passed += stats.expected + stats.flaky;
    counts.failed += stats.unexpected;
    counts.skipped += stats.skipped;
    if (!ok && stats.unexpected === 0) counts.failed++;
  } else counts.failed++;
}

rmSync(reports, { recursive: true, force: true });
console.log("");
if (counts.skipped > 0) console.log(`${counts.skipped} checks were skipped: their lines above say why.`);
console.log(`tests: ${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`);
process.exit(counts.failed > 0 || (process.env.CI && counts.skipped > 0) ? 1 : 0);
