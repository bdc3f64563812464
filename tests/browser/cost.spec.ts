import { expect } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });

test("C10 C11 C9 the five that move the menu, a what-if that keeps nothing, a price for a wanted share", async ({
  page,
}) => {
  await openAt(page, "/run/cost");
  const moves = page.getByRole("region", { name: "What moves it" });
  await expect(moves.getByRole("row")).toHaveCount(12);
  await moves
    .getByRole("button", { name: /^Try .*(rib|char)/i })
    .first()
    .click();
  const tried = page.getByRole("region", { name: "What if" });
  const menu = tried.getByRole("row", { name: /Menu, per cover/ });
  await expect(menu).toContainText("+€");
  // The figure as tried tells how it came.
  await menu.getByRole("button").click();
  await expect(page.getByRole("dialog")).toContainText("over");
  await page.keyboard.press("Escape");
  const entry = tried.getByRole("textbox").first();
  const before = Number(await entry.inputValue());
  await entry.fill(String(before * 2));
  await entry.press("Enter");
  await expect(menu).toContainText("+€");
  await tried.getByRole("button", { name: "Back to what is written" }).click();
  await expect(menu).toHaveCount(0);
  // Nothing was kept: no trial stands in the book.
  await expect(page.getByRole("button", { name: /put back/i })).toHaveCount(0);

  const price = page.getByRole("region", { name: "Price for a wanted share" });
  const printed = price.locator("strong");
  const dear = Number(((await printed.textContent()) ?? "").replace(/[^\d.]/g, ""));
  const share = price.getByRole("textbox", { name: /share wanted/ });
  await share.fill("40");
  await share.press("Enter");
  await expect
    .poll(async () => Number(((await printed.textContent()) ?? "").replace(/[^\d.]/g, "")))
    .toBeLessThan(dear);
});

test("N2 N3 a nutrition label by either law; what is not known is said so, never nought", async ({
  page,
}) => {
  await openAt(page, "/run/nutrition");
  await page.getByRole("button", { name: /Label of/ }).click();
  await page.getByRole("option", { name: /velouté.*a plate$/ }).click();
  const label = page.getByRole("article");
  await expect(label.getByRole("row", { name: /^Salt/ })).toContainText("g");
  await expect(label.getByRole("row", { name: /^sugars/ })).toContainText("not known");
  await expect(label.locator("strong", { hasText: "CELERY" }).first()).toBeVisible();
  await page.getByText("US, 21 CFR 101.9").click();
  await expect(label.getByRole("row", { name: /^Sodium/ })).toContainText("mg");
  await label.getByRole("row", { name: /^Fat/ }).getByRole("button").click();
  await expect(page.getByRole("dialog")).toContainText("as written");
});
