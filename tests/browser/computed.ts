import { expect, type Page } from "@playwright/test";

/** Waits until the book is there, and the amounts and the plan of the service in hand. */
export async function computed(page: Page, timeout = 40_000): Promise<void> {
  await expect(page.locator("main[data-computed='true']")).toBeVisible({ timeout });
}

/** Turns to another place as a link in the page does: the book and the plan stay. */
export async function turnTo(page: Page, place: string): Promise<void> {
  await page.evaluate((to) => history.pushState({}, "", to), place);
  await expect(page).toHaveURL(new RegExp(`${place}(\\?|$)`));
  await computed(page);
  await expect(page.locator("h1").first()).toBeVisible();
}

/** Turns to another place and waits until it is the one that is seen: for tests that share a page. */
export async function openAt(page: Page, place: string, timeout?: number): Promise<void> {
  await page.evaluate(() => document.querySelector("main h1")?.setAttribute("data-left", ""));
  await page.evaluate((to) => history.pushState({}, "", to), place);
  await expect(page.locator("h1[data-left]")).toHaveCount(0);
  await computed(page, timeout);
  await expect(page.locator("h1").first()).toBeVisible();
}
