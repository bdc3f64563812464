import { expect, type Page } from "@playwright/test";
import { computed, openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });
test.describe.configure({ mode: "serial" });

/** Chooses by keys the next task that hands do: the score is read by arrows. */
async function choose(page: Page): Promise<void> {
  const score = page.getByRole("listbox", { name: /Plan of the run/ });
  await score.focus();
  const movable = page.getByRole("button", { name: "Move it" });
  for (let i = 0; i < 12 || !(await movable.isVisible()); i++) {
    await page.keyboard.press("ArrowRight");
    await expect(page.locator(".task-note")).toBeVisible();
  }
  await expect(page.locator(".why").first()).toBeVisible({ timeout: 15_000 });
}

test("P23, R11 a task says why it stands there; moved by keys and by pointer it says what gives; it is pinned and unpinned", async ({
  page,
}) => {
  await openAt(page, "/run/plan");
  await choose(page);
  const why = page.locator(".why");
  await expect(why).toHaveCount(2);
  await expect(why.first()).toContainText("Why not later?");
  await expect(why.first().locator(".why-because li").first()).toHaveText(/^[A-Z].*\.$/);
  expect(await why.allTextContents()).not.toEqual(expect.arrayContaining([expect.stringMatching(/\w\/\w/)]));

  // By keys: Enter, then five minutes a press.
  const note = page.locator(".move-note");
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowLeft");
  await expect(note).toContainText("→");
  await expect(note.locator(".move-gives")).toContainText(/Fits|Breaks/, { timeout: 15_000 });
  await page.keyboard.press("Escape");
  await expect(note).toBeHidden();
  await expect(page.locator(".trial")).toHaveCount(0);

  // By pointer: the bar follows in steps, what gives is said, letting go decides nothing.
  const bar = page.locator("[data-task][aria-selected='true'] rect").first();
  // Clear of the bar of places at the foot of the page.
  await bar.evaluate((each) => each.scrollIntoView({ block: "center", inline: "center" }));
  const box = (await bar.boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2 - 24, box.y + box.height / 2, { steps: 6 });
  await page.mouse.up();
  await expect(note.locator(".move-gives")).toContainText(/Fits|Breaks/, { timeout: 15_000 });
  await page.getByRole("button", { name: "Leave it" }).click();
  await expect(note).toBeHidden();

  // Pinned as it stands: a trial, marked on the score; the plan is made anew; unpinned it is as before.
  await page.getByRole("button", { name: "Pin as it stands" }).click();
  await expect(page.locator(".trial")).toHaveCount(1);
  await computed(page);
  await expect(page.locator("[data-sign='pin']").first()).toBeVisible();
  await page.getByRole("button", { name: "Unpin" }).click();
  await expect(page.locator("[data-sign='pin']")).toHaveCount(0);
});

test("R12, P16 a plan is kept by a name and set beside another; weights are told and set", async ({
  page,
}) => {
  await openAt(page, "/run/plan");
  await page.getByLabel("Name", { exact: true }).fill("before");
  await page.getByRole("button", { name: "Keep this plan to compare" }).click();
  await page.getByRole("button", { name: "What makes a plan good" }).click();
  await expect(page.locator(".good")).toContainText("A change of an oven's temperature");
  await page.getByRole("textbox", { name: /Weight: A minute walked/ }).fill("9");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: "Back to the usual weights" })).toBeVisible();
  await computed(page);
  await page.getByRole("button", { name: "before", exact: true }).click();
  await expect(page.locator(".compare table")).toContainText("Heat-ups");
  await expect(page.locator(".compare")).toContainText(/task differs|tasks differ/);
  // A start of the kept plan says what it was found with.
  const moved = page.locator(".compare .rows li").filter({ has: page.locator("button.figure") });
  await moved.first().locator("button.figure").first().click();
  await expect(moved.first().locator(".trace-input")).toHaveCount(3);
  await page.getByRole("button", { name: "Put back" }).click();
});
