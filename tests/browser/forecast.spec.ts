import { expect } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" });

test("LE13 each figure of a forecast opens how it came, down to what was written in the log", async ({
  page,
}) => {
  await openAt(page, "/log/forecast");
  const sentence = page.locator(".forecast .sentence");
  await expect(sentence).toContainText("are expected", { timeout: 60_000 });
  const figures = page.locator(".forecast .figure");
  expect(await figures.count()).toBeGreaterThan(12);
  // None may be without a trace.
  for (const figure of await figures.all()) {
    await figure.click();
    const told = page.getByRole("dialog");
    await expect(told.locator(".trace-rule").first()).toBeVisible();
    await page.keyboard.press("Escape");
    await expect(told).toHaveCount(0);
  }
  await figures.nth(2).click();
  const told = page.getByRole("dialog");
  await expect(told).toContainText("guaranteed");
  await told.getByRole("button", { name: /what is expected/ }).click();
  await told.getByRole("button", { name: /past service 1/ }).click();
  await expect(told).toContainText("guaranteed then");
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
});
