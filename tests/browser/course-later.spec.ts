import { expect } from "@playwright/test";
import { fresh as test } from "./one-page.ts";

test.use({ serviceWorkers: "block" });

test("L13 the floor asks for a course later: one button, its plates go along, nothing else has to be done", async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto("/pass/board");
  const later = page.getByRole("button", { name: "Course later" }).first();
  await later.waitFor({ timeout: 60_000 });
  // Four buttons, each with its words inside it.
  for (const button of await page.locator(".board-do").first().getByRole("button").all()) {
    const [box, over] = [
      (await button.boundingBox())!,
      await button.evaluate((b) => b.scrollWidth - b.clientWidth),
    ];
    expect(box.height).toBeGreaterThanOrEqual(48);
    expect(over).toBeLessThanOrEqual(0);
  }
  await later.click();
  await page.getByRole("button", { name: "+10 min" }).click();
  await expect(page.locator(".live-breaks")).toContainText("The guests wait", { timeout: 20_000 });
  await expect(page.locator(".live-breaks")).toContainText("10 min later than the service has it");
  await expect(page.locator(".live-moved")).toContainText("later");
  await expect(page.getByText("What can be done")).toHaveCount(0);
  await page.getByRole("button", { name: "Begin the rehearsal anew" }).click();
  await expect(page.locator(".live-breaks")).toHaveCount(0);
});
