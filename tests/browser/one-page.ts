import { test as base, type Page } from "@playwright/test";
import { computed, openAt } from "./computed.ts";

/** What this tablet remembers, and what stands open or is being tried: as a fresh page has it, or not. */
async function leftover(page: Page): Promise<string> {
  return await page.evaluate(() => {
    // What a sheet remembers while the page is open goes with the sheet.
    sessionStorage.clear();
    const kept = Object.entries(localStorage).sort();
    const open = document.querySelectorAll(".trial, [role=dialog], [role=alertdialog], [aria-modal]").length;
    return JSON.stringify([kept, open, location.search]);
  });
}

/** A place without a plan or a trial: who goes there and on opens the next place anew. */
const BETWEEN = "/bench/paste";
/** About as long as a page takes to open, ms. */
const PATIENCE = 5_000;

/** The page that tests share, while there is one. */
interface One {
  page?: Page;
  asFound?: string;
}

/** Closes the shared page: before a test that changes the book from a page of its own, or it would be planned twice. */
export async function letGo(one: One): Promise<void> {
  const { page } = one;
  delete one.page;
  await page?.context().close();
}

/** For tests that need a page of their own: a route, another address, no network, several tablets. */
export const fresh = base.extend<object, { one: One }>({
  one: [
    // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the pattern.
    async ({}, use) => {
      const one: One = {};
      await use(one);
      await letGo(one);
    },
    { scope: "worker" },
  ],
});

/**
 * For tests that share nothing with one another but the page they are read on. To open the app anew for each costs
 * more than most of them do: a page that a test left as it found it, down to what the tablet keeps, serves the next;
 * any other is closed. Both kinds know the shared page, so that one process runs both.
 */
export const test = fresh.extend({
  page: async ({ one, browser, viewport }, use, info) => {
    if (!one.page) {
      one.page = await (await browser.newContext({ serviceWorkers: "block" })).newPage();
      await one.page.goto("/run/plan");
      await computed(one.page);
      await openAt(one.page, BETWEEN);
      one.asFound = await leftover(one.page);
    }
    const { page } = one;
    if (viewport) await page.setViewportSize(viewport);
    await use(page);
    if (info.status === info.expectedStatus && !page.isClosed()) {
      await page.emulateMedia({ media: null });
      await page.keyboard.press("Escape");
      // A page that still makes a plan for what a test asked is no page to wait for.
      const back = await openAt(page, BETWEEN, PATIENCE).then(
        () => true,
        () => false,
      );
      if (back && (await leftover(page)) === one.asFound) return;
    }
    await letGo(one);
  },
});
