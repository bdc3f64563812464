import { expect } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 820, height: 1000 }, serviceWorkers: "block" });

test("A12 a formula from what is here: the scarcest is named, every line is weighed, a figure tells how it came", async ({
  page,
}) => {
  await openAt(page, "/bench/preparation/celeriac-veloute");
  await page.getByRole("button", { name: /At another amount/ }).click();
  const told = page.locator(".another-told");
  await expect(told).toContainText("1 times the formula");
  await page.getByText("what is here", { exact: true }).click();
  const cream = page.locator(".another-here").getByLabel("Cream, 35 % fat");
  await cream.fill("much");
  await cream.press("Enter");
  await expect(page.locator(".another-here .wrong")).toContainText("no unit");
  // Twice what the formula takes.
  await cream.fill("2.9 kg");
  await cream.press("Enter");
  await expect(told).toContainText("2 times the formula");
  await expect(told).toContainText("Cream, 35 % fat gives out first.");
  await page.locator(".another-here").getByLabel("Butter, unsalted, 82 % fat").fill("380 g");
  await page.keyboard.press("Enter");
  await expect(told).toContainText("Butter, unsalted, 82 % fat gives out first.");
  await told.locator(".figure").first().click();
  await expect(page.getByRole("dialog")).toContainText("the smallest of");
});
