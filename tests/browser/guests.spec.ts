import { expect, type Page } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.slow();
test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });

/** The amounts are enough: the plan is stopped, so that it takes nothing from a machine that has much to do. */
async function amounts(page: Page): Promise<void> {
  await expect(page.locator(".figures dd").first()).toBeVisible({ timeout: 40_000 });
  const stop = page.getByRole("button", { name: "Stop" });
  if (await stop.isVisible()) await stop.click();
}

test("the seating sheet: every seat at every course, in the order of the tables, what is changed in words", async ({
  page,
}) => {
  await openAt(page, "/run/seating");
  await amounts(page);
  const tables = page.locator(".seat-table h2");
  await expect(tables.first()).toHaveText("Table 1");
  await expect(tables.last()).toHaveText("Everyone else");
  const seat = page.locator(".seat", { hasText: "3-2" });
  await expect(seat).toContainText("vegetarian and coeliac");
  await expect(seat.locator("dd")).toHaveCount(5);
  await expect(seat).toContainText("Crisp buckwheat instead of Rye crumb");
  await expect(page.locator(".seat .harm")).toHaveCount(0);
});

test("a pasted list: seats and needs are read, an unknown word is asked about, nothing is dropped", async ({
  page,
}) => {
  await openAt(page, "/run/guests");
  await amounts(page);
  await page.getByText("Write or paste a list").click();
  await page.getByLabel("A guest a line").fill("T9 S1 coeliac, no nightshades\n1-3 sesame allergy");
  await page.getByRole("button", { name: "Read", exact: true }).click();
  const add = page.getByRole("button", { name: "Add 2 guests" });
  await expect(add).toBeDisabled();
  await expect(page.locator(".guest-list")).toContainText("1-3 no sesame is there already");
  await page.getByRole("button", { name: /no nightshades/ }).click();
  await page.getByRole("option", { name: "no need: leave it out" }).click();
  await add.click();
  await expect(page.locator(".guest", { hasText: "9-1" })).toContainText("coeliac");
  await expect(page.locator(".guest", { hasText: "1-3" })).toContainText("no sesame");
  await expect(page.locator(".guest", { hasText: "1-3" })).toContainText("vegetarian");
});
