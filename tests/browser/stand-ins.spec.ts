import { expect } from "@playwright/test";
import { computed } from "./computed.ts";
import { letGo, fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 820, height: 1000 }, serviceWorkers: "block" });
test.beforeEach(({ one }) => letGo(one));

test("O12 a substitute for one line is set where the line stands; one that brings more is refused in words", async ({
  page,
}) => {
  await page.goto("/bench/preparation/horseradish-buttermilk");
  await computed(page);
  await page.getByRole("button", { name: "replace… Crème fraîche, 30 % fat" }).click();
  const add = page.getByRole("button", { name: /Let something stand in for Crème/ });
  const take = async (typed: string, name: string) => {
    await add.click();
    await page.getByRole("searchbox").fill(typed);
    await page.getByRole("button", { name, exact: true }).click();
  };
  await take("cream", "Cream, 35 % fat");
  const lines = page.locator(".formula-line");
  await expect(lines.nth(1)).toContainText("or Cream, 35 % fat");
  const cream = page.locator(".stand-in").first();
  await expect(cream).toContainText("It brings no allergen and no origin");
  const ratio = cream.getByLabel(/Grams for 1 g/);
  await ratio.fill("much");
  await ratio.press("Enter");
  await expect(cream.locator(".wrong")).toContainText("is no ratio");
  await ratio.fill("1,25");
  await ratio.press("Enter");
  await expect(ratio).toHaveValue("1.25");
  await cream.getByText("Also if cheaper").click();
  await take("wheat", "Strong wheat flour");
  await expect(page.locator(".stand-in").nth(1)).toContainText("will not be ordered for it: it contains");
  await page.locator(".stand-in").nth(1).locator(".remove").click();
  await expect(page.locator(".stand-in")).toHaveCount(1);
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.reload();
  await expect(lines.nth(1)).toContainText("or Cream, 35 % fat");
});
