import { expect, type Page } from "@playwright/test";

/** Waits until the book is there, and the amounts and the plan of the service in hand. */
export async function computed(page: Page): Promise<void> {
  await expect(page.locator("main[data-computed='true']")).toBeVisible({ timeout: 40_000 });
}
