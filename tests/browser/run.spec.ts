import { expect } from "@playwright/test";
import * as rules from "../../core/run/rules.ts";
import { openAt } from "./computed.ts";
import { fresh, test } from "./one-page.ts";
import { longestStill } from "./still.ts";

const spaced = (name: string) => name.replace(/([a-z0-9])([A-Z])/g, "$1 $2").toLowerCase();

test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });

test("A2 covers by number, by keys and by drag: amounts follow at once, the plan after", async ({ page }) => {
  await openAt(page, "/run/orders");
  const plates = page.locator(".figures dd").nth(2);
  const before = Number(((await plates.textContent()) ?? "").match(/\d+/)![0]);
  const field = page.getByRole("textbox", { name: "Covers" });
  await field.fill("90");
  await field.press("Enter");
  await expect(plates).not.toContainText(String(before));
  await expect(page).toHaveURL(/covers=90/);
  const slider = page.getByRole("slider", { name: "Covers" });
  await slider.press("ArrowRight");
  await expect(field).toHaveValue("91");
  const thumb = (await page.locator(".thumb").boundingBox())!;
  await page.mouse.move(thumb.x + 16, thumb.y + 16);
  await page.mouse.down();
  await page.mouse.move(thumb.x + 20, thumb.y + 16, { steps: 8 });
  const dragged = Number(await field.inputValue());
  expect(dragged).toBeGreaterThan(91);
  await page.mouse.up();
  await expect(page).toHaveURL(new RegExp(`covers=${dragged}`));
  await page.getByRole("button", { name: /Back to 72/ }).click();
  await expect(field).toHaveValue("72");
  await expect(page).not.toHaveURL(/covers=/);
});

fresh(
  "A2 the page never stands still while the plan is being made, and a plan can be stopped",
  async ({ page }) => {
    await page.goto("/run/plan?service=demo-700");
    await expect(page.locator(".figures dd").first()).toBeVisible({ timeout: 30_000 });
    expect(await longestStill(page)).toBeLessThan(1000);
    await page.getByRole("button", { name: "Stop" }).click();
    await expect(page.locator(".planning")).toContainText("Stopped");
    await expect(page.getByRole("button", { name: "Plan again" })).toBeVisible();
  },
);

test("A5 a figure unfolds how it came, as deep as it goes", async ({ page }) => {
  await openAt(page, "/bench/preparation/celeriac-veloute");
  await page.locator(".figures .figure").first().click();
  const trace = page.locator(".trace").first();
  // The rule is cited by the name of its function, whatever the build does to names.
  const rule = ((await trace.locator(".trace-rule").first().textContent()) ?? "").trim();
  expect(Object.keys(rules).map(spaced)).toContain(rule);
  const steps = trace.locator("button.trace-input");
  await expect(steps.first()).toBeVisible();
  const before = await page.locator(".trace").count();
  await steps.first().click();
  await expect(page.locator(".trace")).toHaveCount(before + 1);
});

test("A8 the score is read by keys: arrows choose a task, the margin tells of it", async ({ page }) => {
  await openAt(page, "/run/plan");
  const score = page.getByRole("listbox", { name: /Plan of the run/ });
  await score.focus();
  await page.keyboard.press("ArrowRight");
  await expect(score).toHaveAttribute("aria-activedescendant", /^task-/);
  const first = (await score.getAttribute("aria-activedescendant"))!;
  await expect(page.locator(".note-title").first()).toBeVisible();
  await page.keyboard.press("ArrowRight");
  await expect(score).not.toHaveAttribute("aria-activedescendant", first);
  await page.keyboard.press("ArrowDown");
  await expect(score).not.toHaveAttribute(
    "aria-activedescendant",
    new RegExp(`^${first.split("-").slice(0, 2).join("-")}-`),
  );
  await page.keyboard.press("Escape");
  await expect(page.locator(".plan-hint")).toBeVisible();
});

test("D9 the score shows stations, then ovens with their temperatures; people and equipment by choice", async ({
  page,
}) => {
  await openAt(page, "/run/plan");
  await expect(page.locator(".score-name").first()).toBeVisible();
  await expect(page.locator(".score-scroll svg")).toContainText("°C");
  await page.locator(".choice-option", { hasText: "People" }).click();
  const person = (await page.locator(".score-name").first().textContent()) ?? "";
  await page.locator(".choice-option", { hasText: "Equipment" }).click();
  await expect(page.locator(".score-name").first()).not.toHaveText(person);
});

test("an allergen tells the way it arrives", async ({ page }) => {
  await openAt(page, "/run/allergens");
  await page
    .getByRole("button", { name: /hazelnut brown butter.*tree nuts: contains/i })
    .first()
    .click();
  await expect(page.locator(".paths-place")).toContainText("›");
  await expect(page.locator(".paths-place")).toContainText(/hazelnut/i);
});

test("A8 measures, degrees and clock change the writing alone", async ({ page }) => {
  await openAt(page, "/run/cost");
  const cost = (await page.locator(".figures dd").first().textContent()) ?? "";
  await page.getByRole("button", { name: "Settings" }).click();
  await page.getByRole("radio", { name: "US" }).check({ force: true });
  await page.getByRole("radio", { name: "°F" }).check({ force: true });
  await page.getByRole("radio", { name: "12 hours" }).check({ force: true });
  await page.keyboard.press("Escape");
  await expect(page.locator(".run-when")).toContainText("7:30 pm");
  expect((await page.locator(".figures dd").first().textContent()) ?? "").toBe(cost);
  await page.getByRole("link", { name: "Plan", exact: true }).click();
  await expect(page.locator(".score-scroll svg")).toContainText("°F");
  await page.getByRole("link", { name: "Orders" }).click();
  await expect(page.locator("tbody").first()).toContainText(/\b(lb|oz)\b/);
});

test("prep lists and plate cards print a page each, in black, without the frame", async ({ page }) => {
  await openAt(page, "/run/prep");
  await page.emulateMedia({ media: "print" });
  await expect(page.locator(".top")).toBeHidden();
  await expect(page.locator(".run-head")).toBeHidden();
  await expect(page.locator(".prep-entry").first()).toBeVisible();
  const lists = await page.locator(".sheet-page").count();
  const pdf = await page.pdf({ preferCSSPageSize: true });
  const pages = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
  expect(pages).toBeGreaterThanOrEqual(lists);
  await page.emulateMedia({ media: "screen" });
  await openAt(page, "/pass/cards");
  const cards = await page.locator(".card").count();
  await page.emulateMedia({ media: "print" });
  const printed = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(printed.match(/\/Type\s*\/Page\b/g)?.length ?? 0).toBeGreaterThanOrEqual(cards);
});
