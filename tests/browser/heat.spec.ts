import { expect, type Page } from "@playwright/test";
import { openAt } from "./computed.ts";
import { looked } from "./looked.ts";
import { test } from "./one-page.ts";
import { longestStill } from "./still.ts";

test.describe.configure({ mode: "parallel" });
test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });

const FOWL = "/bench/preparation/guinea-fowl-bath/heat";
const sentence = (page: Page) => page.locator(".heat-outcome .sentence").first();

for (const width of [390, 820, 1440]) {
  test.describe(`at ${width} px`, () => {
    test.use({ viewport: { width, height: width < 500 ? 844 : 1000 } });
    test("A8 a heat trial, one and two, keeps WCAG 2.2 AA and fits the screen", async ({ page }) => {
      test.setTimeout(120_000);
      const said: string[] = [];
      page.on("pageerror", (error) => said.push(error.message));
      for (const place of ["/bench/heat", FOWL]) {
        await openAt(page, place);
        await expect(page.locator(".heat-limits")).toBeVisible({ timeout: 40_000 });
        await page.getByRole("button", { name: "What to know" }).click();
        if (place === FOWL) {
          await page.getByRole("button", { name: "Try another beside it" }).click();
          await expect(page.locator(".heat-compare")).toBeVisible();
        }
        await page.evaluate(() => window.scrollTo(0, 0));
        expect.soft((await looked(page)).map((broken) => `${place} ${broken}`)).toEqual([]);
        const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect.soft(wider, `${place} scrolls sideways`).toBeLessThanOrEqual(0);
      }
      expect(said).toEqual([]);
    });
  });
}

test("a preparation's sheet opens its trial, from its piece and its heat target", async ({ page }) => {
  await openAt(page, "/bench/preparation/guinea-fowl-bath");
  await page.getByRole("link", { name: "Heat trial" }).click();
  await expect(sentence(page)).toContainText(/Core reaches 63\s°C after .+ \(.+ to .+\)/);
  await expect(page.getByRole("textbox", { name: "Thickness", exact: true })).toHaveValue("32");
  await expect(page.locator(".heat-caution")).toContainText("calibrated thermometer");
  await expect(page.locator(".heat")).not.toContainText(/\bsafe\b/i);
});

test("A3 a wrong size stays as typed, told beside its field; mended it is computed again", async ({
  page,
}) => {
  await openAt(page, "/bench/heat");
  const diameter = page.getByRole("textbox", { name: "Diameter" });
  await expect(sentence(page)).toContainText("Core reaches");
  const before = (await sentence(page).textContent()) ?? "";
  await diameter.fill("thick");
  await expect(page.locator(".number-entry .wrong")).toContainText(/thick.*give a number/);
  await expect(diameter).toHaveValue("thick");
  await diameter.fill("70");
  await expect(page.locator(".wrong")).toHaveCount(0);
  await expect(sentence(page)).not.toHaveText(before);
  await page.getByRole("textbox", { name: "Temperature" }).fill("130");
  await expect(page.locator(".number-entry .wrong")).toContainText("out of reach");
});

test("two trials: one figure changed in the second, both compared in figures", async ({ page }) => {
  await openAt(page, "/bench/heat");
  await expect(sentence(page)).toContainText("Core reaches");
  await page.getByRole("button", { name: "Try another beside it" }).click();
  await expect(page.locator(".heat-compare")).toContainText("alike");
  const second = page.getByRole("region", { name: "Trial B" });
  await second.getByRole("textbox", { name: "Diameter" }).fill("60");
  const changed = page.locator(".heat-compare tbody tr").first();
  await expect(changed).toContainText(/Diameter\s*50\smm\s*60\smm/);
  const total = page.locator(".heat-compare tbody tr", { hasText: "Time in all" });
  await expect(total.locator("td").last()).toContainText(/^\+\d+\smin$/);
  await page.getByRole("button", { name: "Close trial B" }).click();
  await expect(page.locator(".heat-compare")).toHaveCount(0);
});

test("the slider moves the cut and its figures, by keys too", async ({ page }) => {
  await openAt(page, "/bench/heat");
  await expect(page.locator(".heat-limits")).toBeVisible();
  const core = page.locator(".heat-now dd").first();
  const atEnd = (await core.textContent()) ?? "";
  await page.getByRole("slider", { name: "Moment" }).press("Home");
  await expect(core).not.toHaveText(atEnd);
  await expect(core).toContainText("4 °C");
  await expect(page.getByRole("img", { name: /cut through after 0\smin: core 4\s°C/ })).toBeVisible();
});

test("turned round: how thick, taken into the trial, takes the minutes asked for", async ({ page }) => {
  await openAt(page, "/bench/heat");
  await expect(sentence(page)).toContainText("Core reaches");
  await page.getByRole("button", { name: "Find it" }).click();
  await expect(page.locator(".heat-inverse .large")).toContainText(/mm: then it takes 45\smin/);
  await page.getByRole("button", { name: "Take it into the trial" }).click();
  await expect(sentence(page)).toContainText(/after 45\smin/);
  await page.getByRole("radio", { name: "When must it start?" }).check({ force: true });
  await page.getByRole("button", { name: "Find it" }).click();
  await expect(page.locator(".heat-inverse .large")).toContainText(/At 18:\d\d, for the slow piece/);
});

test("A2 the page never stands still while a block of three directions is computed", async ({ page }) => {
  await openAt(page, "/bench/heat");
  await expect(sentence(page)).toContainText("Core reaches");
  await page.getByRole("button", { name: /Shape/ }).click();
  await page.getByRole("option", { name: "block" }).click();
  expect(await longestStill(page)).toBeLessThan(1000);
  await expect(page.locator(".heat-trial[data-working='false']")).toBeVisible({ timeout: 30_000 });
  await expect(sentence(page)).toContainText("Core reaches");
});

test("predicted curves stand on the control points of the run", async ({ page }) => {
  await openAt(page, "/run/control");
  const point = page.locator(".control", { hasText: "Guinea-fowl" }).first();
  await expect(point.getByRole("img", { name: /as computed along/ })).toBeVisible();
});
