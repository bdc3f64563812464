import { chromium } from "playwright-core";
const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
const widths = (process.argv[2] ?? "1440,820,390").split(",").map(Number);
for (const width of widths) {
  const page = await browser.newPage({ viewport: { width, height: 1000 }, locale: "en-GB", serviceWorkers: "block" });
  await page.goto("http://127.0.0.1:4331/run/plan");
  await page.locator("main[data-computed='true']").waitFor({ timeout: 120000 });
  await page.waitForTimeout(800);
  if (process.argv[3] === "equipment") { await page.getByText("Equipment", { exact: true }).first().click(); await page.waitForTimeout(500); }
  if (process.argv[3] === "people") { await page.getByText("People", { exact: true }).first().click(); await page.waitForTimeout(500); }
  if (process.argv[4] === "good") { await page.getByRole("button", { name: "What is good" }).click(); await page.waitForTimeout(300); }
  await page.screenshot({ path: `/tmp/w/plan-shot-${process.argv[3] ?? "x"}-${width}.png`, fullPage: true });
  await page.close();
}
await browser.close();
