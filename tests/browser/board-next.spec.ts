import { expect, type Page } from "@playwright/test";
import { computed } from "./computed.ts";
import { fresh as test } from "./one-page.ts";

async function boardAt(page: Page, hour: RegExp): Promise<void> {
  await page.goto("/pass/board");
  await computed(page);
  const slider = page.getByRole("slider", { name: /Time of the run/ });
  await slider.focus();
  const clock = page.locator(".board-hour");
  for (let k = 0; k < 200 && !hour.test((await clock.textContent()) ?? ""); k++)
    await page.keyboard.press("ArrowRight");
}

/** Turns to the first station at which something comes next that can be begun. */
async function stationWithNext(page: Page): Promise<void> {
  await page.locator(".board .pick-button").click();
  const names = await page.locator(".pick-item").allTextContents();
  await page.keyboard.press("Escape");
  for (const name of names) {
    await page.locator(".board .pick-button").click();
    await page.locator(".pick-item").getByText(name, { exact: true }).click();
    await expect(page.locator(".board .pick-button")).toContainText(name);
    if ((await page.locator(".next-up .board-main").count()) > 0) return;
  }
  throw new Error("nothing can be begun at any station");
}

test.use({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" });

test("L11, L12 what comes next is begun with one tap of a wet thumb, taken back where it was, and the plan is judged once more", async ({
  page,
}) => {
  await boardAt(page, /16:0[0-4]/);
  await stationWithNext(page);
  const button = page.locator(".next-up .board-main");
  await expect(button).toHaveCount(1);
  const name = (await button.getAttribute("aria-label"))!.replace(/^Start /, "");
  for (const each of await page.locator(".next-up button").all()) {
    const box = (await each.boundingBox())!;
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(48);
  }
  // On a telephone the one that matters is as wide as the line it stands in.
  expect((await button.boundingBox())!.width).toBeGreaterThan(200);
  await button.click();
  const just = page.locator(".next-just");
  await expect(just).toContainText(`${name}, begun at 16:0`);
  await expect(page.locator(".now[data-state='started'] .board-name").first()).toHaveText(name);
  // The inspector, who shares nothing with what mends, follows the answer.
  await expect(page.locator(".live-judged-well, .live-judged")).toBeVisible({ timeout: 40_000 });
  await just.getByRole("button", { name: "Not begun" }).click();
  await expect(just).toHaveCount(0);
  await expect(page.locator(".now[data-state='started']")).toHaveCount(0);
  // Whatever had moved has gone back; nobody had seen it, nobody is told.
  await expect(page.locator(".live-event")).toHaveCount(0);
  await page.getByRole("button", { name: "Begin the rehearsal anew" }).click();
});
