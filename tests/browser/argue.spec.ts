import { expect, type Page } from "@playwright/test";
import { computed } from "./computed.ts";
import { fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });

/** One plate at the bench: a plan of a few tasks, made and mended at once. */
async function oneRun(page: Page, staves?: string): Promise<void> {
  await page.goto("/run/plan?service=bench-trial");
  await expect(page.locator("h1").first()).toContainText("Bench trial");
  await computed(page);
  if (staves) await page.getByText(staves, { exact: true }).first().click();
}

/** The first bar of the score on which hands work, chosen by a tap. */
async function chosenWork(page: Page): Promise<void> {
  const movable = page.getByRole("button", { name: "Move it" });
  const score = page.getByRole("listbox", { name: /Plan of the run/ });
  await score.focus();
  await page.keyboard.press("Home");
  for (let i = 0; i < 20 && !(await movable.isVisible()); i++) await page.keyboard.press("ArrowRight");
  await expect(movable).toBeVisible();
}

test("R11 a task is given to somebody else by keys, by a list and by carrying it across; what gives is said at once", async ({
  page,
}) => {
  await oneRun(page, "People");
  await chosenWork(page);
  const note = page.locator(".move-note");
  const says = note.locator(".move-gives");
  // By keys: Enter, across to the next person, and back with Escape.
  await page.getByRole("listbox", { name: /Plan of the run/ }).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowDown");
  // Who stands last in the list has nobody below.
  if ((await note.locator(".large .block").count()) === 0) await page.keyboard.press("ArrowUp");
  await expect(note.locator(".large .block")).toContainText("→");
  await expect(says).toContainText(/Fits|Breaks/, { timeout: 15_000 });
  expect(await note.textContent()).not.toMatch(/\w\/\w+\/\d/);
  await page.keyboard.press("Escape");
  await expect(note).toBeHidden();

  // By the list: for a finger, and for who cannot carry a bar.
  await page.getByRole("button", { name: "Move it" }).click();
  await note.getByRole("button", { name: /Who instead of/ }).click();
  const options = page.getByRole("option");
  await options.last().click();
  await expect(says).toContainText(/Fits|Breaks/, { timeout: 15_000 });
  await page.getByRole("button", { name: "Leave it" }).click();

  // By pointer: from one person's stave to another's.
  const names = page.locator(".score-name");
  expect(await names.count()).toBeGreaterThan(1);
  const bar = (await page.locator("[data-task][aria-selected='true'] rect").first().boundingBox())!;
  const boxes = await names.evaluateAll((all) => all.map((each) => each.getBoundingClientRect().top));
  const own = boxes.filter((top) => top <= bar.y + 4).length - 1;
  const target = boxes[own === 0 ? 1 : own - 1]! + 12;
  const x = bar.x + bar.width / 2;
  await page.mouse.move(x, bar.y + bar.height / 2);
  await page.mouse.down();
  await page.mouse.move(x, target, { steps: 6 });
  await page.mouse.up();
  await expect(note.locator(".large .block")).toContainText("→");
  await expect(says).toContainText(/Fits|Breaks/, { timeout: 15_000 });
  await page.getByRole("button", { name: "Pin it here" }).click();
  await computed(page);
  await expect(page.locator("[data-sign='pin']").first()).toBeVisible();
  await page.getByRole("button", { name: "Put back" }).click();
  await expect(page.locator("[data-sign='pin']")).toHaveCount(0);
});

test("P21 a plan that breaks a rule: one tap tries a remedy, it fits, and it is taken back", async ({
  page,
}) => {
  // Remedies are planned one after another.
  test.setTimeout(120_000);
  await oneRun(page);
  await chosenWork(page);
  // Pinned where it breaks something: after what needs it.
  await page.getByRole("listbox", { name: /Plan of the run/ }).focus();
  await page.keyboard.press("Enter");
  const says = page.locator(".move-note .move-gives");
  for (let i = 0; i < 40; i++) await page.keyboard.press("ArrowRight");
  await expect(says).toContainText(/Breaks/, { timeout: 15_000 });
  await page.keyboard.press("Enter");
  await computed(page);
  const remedies = page.locator(".remedy");
  await expect(remedies.first()).toBeVisible({ timeout: 30_000 });
  await expect(page.locator(".run-head")).toContainText("Does not fit");
  // Whether none exists is told as well: proved, or sought in so many schedules.
  await expect(page.getByText(/^(Proved: no plan exists|No plan found in \d+)/)).toHaveCount(1);
  const fits = remedies.filter({ hasText: "✓" }).first();
  await expect(fits).toBeVisible();
  await fits.getByRole("button", { name: /^Try it/ }).click();
  await computed(page);
  await expect(page.locator(".run-head")).toContainText("Fits");
  await expect(page.getByText(/^(Proved: no plan exists|No plan found in \d+)/)).toHaveCount(0);
  // Taken back: the pin is there again, and does not fit.
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(page.locator(".run-head")).toContainText("Does not fit", { timeout: 30_000 });
  await expect(page.locator("[data-sign='pin']").first()).toBeVisible();
});

test("R12 figures of two plans side by side say how they came, the kept one too", async ({ page }) => {
  await oneRun(page);
  await page.getByLabel("Name", { exact: true }).fill("first");
  await page.getByRole("button", { name: "Keep this plan to compare" }).click();
  await page.getByRole("button", { name: "first", exact: true }).click();
  const row = page.locator(".compare tr", { hasText: "Most hands at once" });
  await row.locator("button.figure").first().click();
  await expect(row.locator(".trace").first()).toContainText("the most at one time, over how many");
  await row.locator("button.figure").last().click();
  await expect(page.getByRole("dialog")).toContainText("the most at one time, over how many");
});
