import { expect } from "@playwright/test";
import { computed, openAt } from "./computed.ts";
import { fresh, test } from "./one-page.ts";

test.use({ viewport: { width: 1440, height: 900 }, serviceWorkers: "block" });

test("D13 the hours and what is told of a task stay in sight far down the score; a cut list opens whole", async ({
  page,
}) => {
  await openAt(page, "/run/plan");
  const more = page.getByRole("button", { name: /^Show \d+ more$/ }).first();
  const list = page.locator(".note", { has: more }).locator(".rows > li");
  const left = Number((await more.textContent())!.replace(/\D/g, ""));
  const before = await list.count();
  const section = page.locator(".note", { hasText: /tasks are tight|rules are broken/ }).first();
  await more.click();
  await expect(section.locator(".rows > li")).toHaveCount(before + left);

  const low = page.locator("[data-task]").last();
  await low.evaluate((each) => each.scrollIntoView({ block: "center" }));
  await expect(page.locator(".score-head svg")).toBeInViewport();
  await low.locator("rect").first().dispatchEvent("click");
  await expect(page.locator(".task-note .note-title")).toBeInViewport();
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await expect(page.locator(".task-note")).toHaveCount(0);
});

fresh("covers that cannot be computed say why, and the guests can be mended", async ({ page }) => {
  await page.goto("/run/plan?covers=3");
  await computed(page);
  const head = page.locator(".run-head");
  await expect(head).toContainText("This cannot be computed yet.");
  await expect(head.getByRole("alert")).toContainText(
    /3 covers are fewer than the \d+ guests named\. Ask for/,
  );
  await expect(page.locator("main")).not.toContainText("Computing");
  await page.getByRole("link", { name: "Guests", exact: true }).click();
  await expect(page.locator(".guest").first()).toBeVisible();
  await head.getByRole("button", { name: /^Back to/ }).click();
  await computed(page);
  await expect(head).not.toContainText("This cannot be computed yet.");
});

test("a line of an order stays open when other packs are chosen for it", async ({ page }) => {
  await openAt(page, "/run/orders");
  const lines = page.getByRole("button", { name: /Other ways/ });
  const most = Math.min(12, await lines.count());
  for (let i = 0; i < most; i++) await lines.nth(i).click();
  const open = page.locator(".order-name[aria-expanded='true']");
  await expect(open).toHaveCount(most);
  const names = await open.allTextContents();
  const packs = await page
    .locator(".orders-table tbody tr:not(.order-ways) td:nth-child(3)")
    .allTextContents();
  const covers = page.getByRole("textbox", { name: "Covers" });
  await covers.fill("110");
  await covers.press("Enter");
  await expect
    .poll(() => page.locator(".orders-table tbody tr:not(.order-ways) td:nth-child(3)").allTextContents())
    .not.toEqual(packs);
  // Two kinds of packs of one thing may have become one.
  expect(await open.allTextContents()).toEqual(expect.arrayContaining([...new Set(names)]));
});
