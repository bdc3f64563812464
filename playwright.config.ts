import { existsSync } from "node:fs";
import { defineConfig } from "@playwright/test";

/** A browser that is there: the one asked for, Debian's, else the one an npm package carries. */
async function browser(): Promise<string> {
  const asked = process.env.CHROME;
  if (asked) return asked;
  if (existsSync("/usr/bin/chromium")) return "/usr/bin/chromium";
  const { default: carried } = await import("@sparticuz/chromium");
  return carried.executablePath();
}

/** Another port when two copies are tested side by side. */
const PORT = Number(process.env.TEST_PORT ?? 4271);

/** Test processes side by side, each with a server and a book of its own: what one changes no other sees. */
const WORKERS = Number(process.env.TEST_WORKERS ?? 2);

/**
 * Left out of the browser: the panels of its address bar, which nobody sees in a test and which cost a second of processor
 * time for each window. A browser takes the last such list alone, so those that Playwright leaves out stand here again.
 */
const LEFT_OUT = [
  ...["WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "WebUIOmniboxFullPopup"],
  ...["AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades"],
  ...["HttpsFirstBalancedModeAutoEnable", "LensOverlay", "MediaRouter", "PaintHolding"],
  ...["ThirdPartyStoragePartitioning", "AvoidCorsURLLoaderRestartOnRedirect", "OptimizationHints"],
  ...["NetworkTimeServiceQuerying", "AimEnabled", "PreconnectToSearch"],
];

/** Browser tests against the built app and a server with a book of its own. Build first: `npm run build`. */
export default defineConfig({
  testDir: "tests/browser",
  testMatch: "*.spec.ts",
  outputDir: "test-results",
  fullyParallel: false,
  workers: WORKERS,
  // Two browsers, each with workers of its own, share the machine's cores.
  timeout: 120_000,
  expect: { timeout: 15_000 },
  // With PLAYWRIGHT_JSON_OUTPUT_NAME set, the counts also go to that file.
  reporter: process.env.PLAYWRIGHT_JSON_OUTPUT_NAME ? [["list"], ["json"]] : [["list"]],
  use: {
    // Read anew in every test process.
    baseURL: `http://127.0.0.1:${PORT + Number(process.env.TEST_PARALLEL_INDEX ?? 0)}`,
    locale: "en-GB",
    launchOptions: {
      executablePath: await browser(),
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        `--disable-features=${LEFT_OUT.join(",")}`,
      ],
    },
  },
  webServer: Array.from({ length: WORKERS }, (_, k) => ({
    command: `node scripts/on24.mjs tests/browser/serve.ts ${PORT + k}`,
    url: `http://127.0.0.1:${PORT + k}/api/book`,
    timeout: 60_000,
    reuseExistingServer: false,
  })),
});
