import { expect } from "@playwright/test";
import { workbook } from "../../core/intake/testing/workbook.ts";
import { letGo, fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });
test.beforeEach(({ one }) => letGo(one));

const RECETTE = `Crème de topinambour, poires
Pour 6 personnes

Pour la crème :
600 g de topinambours, épluchés
20 cl de crème liquide
50 g de beurre doux
sel

Pour la garniture :
2 poires
5 cl de sirop de mélèze

Préparation
Cuire les topinambours 25 min à 95 °C, mixer avec la crème et le beurre.
Tailler les poires, les arroser de sirop.
`;

test("IN20 a French recipe with parts is read, its doubts are answered, and it is kept", async ({ page }) => {
  await page.goto("/bench");
  await page.getByRole("link", { name: "Paste or open a recipe" }).click();
  await page.getByLabel("Paste the recipe").fill(RECETTE);
  await page.getByRole("button", { name: "Read it" }).click();
  await expect(page.getByRole("heading", { name: "crème" })).toBeVisible();
  await expect(page.locator(".paste-row").first()).toContainText("topinambours");
  await expect(page.locator(".paste-row").first()).toContainText("600 g");
  await expect(page.getByText("25 min, 95 °C")).toBeVisible();
  const keep = page.getByRole("button", { name: /^Keep/ });
  await expect(keep).toBeDisabled();
  // Each ingredient that is not known is added, unknown, or taken from the pantry.
  const doubt = (words: RegExp) => page.locator(".paste-doubt").filter({ hasText: words });
  const syrup = doubt(/sirop de mélèze/);
  await syrup.getByRole("button", { name: "Add it, allergens unknown" }).click();
  // Nothing is known of it, so nobody knows what 5 cl weigh: that is asked next.
  await expect(syrup).toContainText("what does 5 cl");
  await syrup.getByRole("button", { name: "As it stands" }).click();
  await expect(syrup).toHaveCount(0);
  for (let n = 0; n < 12; n++) {
    const open = page.locator(".paste-doubt").filter({ hasText: /pantry/ });
    if ((await open.count()) === 0) break;
    const before = await open.count();
    const yes = open.first().getByRole("button", { name: /^Yes|Leave it out/ });
    await yes.first().click();
    await expect(open).not.toHaveCount(before);
  }
  await expect(keep).toBeEnabled();
  await keep.click();
  await expect(page).toHaveURL(/\/bench\/preparation\/creme-de-topinambour/);
  await expect(page.getByRole("textbox", { name: "Name" })).toHaveValue("Crème de topinambour, poires");
  await expect(page.locator(".trial")).toHaveCount(0);
  await page.goto("/bench");
  await page.getByRole("searchbox").fill("topinambour");
  await expect(page.getByRole("link", { name: "Crème de topinambour, poires" })).toBeVisible();
});

test("IN19 a workbook's prices are read, its columns confirmed, and kept with their history", async ({
  page,
}) => {
  const list = workbook([
    {
      name: "February",
      rows: [
        ["Ossenby, February"],
        ["No", "Article", "Pack", null, "Price", null],
        [null, null, "Count", "Size", "Case", "EUR/kg"],
        ["DAIRY"],
        ["D1", "Butter unsalted", 20, "250 g", 44.2, 8.84],
        ["D2", "Buttermilk", 6, "1 L", -3, null],
        ["D3", "Moon milk", 1, "5 L", 9.9, null],
      ],
      merges: ["A1:F1", "C2:D2", "E2:F2", "A2:A3", "B2:B3", "A4:F4"],
    },
  ]);
  await page.goto("/stores/supplier/ossenby-dairy");
  await page.getByRole("button", { name: "Read a price list" }).click();
  const file = { name: "february.xlsx", mimeType: "application/octet-stream", buffer: Buffer.from(list) };
  await page.locator("input[type=file]").setInputFiles(file);
  await expect(page.getByRole("heading", { name: "Are these the columns?" })).toBeVisible();
  const row = (words: string) => page.locator(".list-row").filter({ hasText: words });
  // 44.20 over 5 kg; before 41.50.
  await expect(row("Butter unsalted")).toContainText(/€8.84.* a usable kg/);
  await expect(row("Butter unsalted")).toContainText("+6.5 %");
  await row("Butter unsalted").getByRole("button", { name: /8.84/ }).click();
  await expect(row("Butter unsalted")).toContainText("€44.20 ÷ 5 kg");
  await page.getByRole("button", { name: /rows are not read|row is not read|worth a look/ }).click();
  await expect(page.getByText(/the price -3 is negative/)).toBeVisible();
  await expect(row("Moon milk")).toContainText(/is it the pantry/);
  await page.getByRole("button", { name: /^Price Price Case|Price Case/ }).click();
  await page.getByRole("option", { name: "Price EUR/kg" }).click();
  await expect(row("Butter unsalted")).toContainText("€44.20");
  await expect(page.getByText("as you said")).toBeVisible();
  await page.getByRole("button", { name: "Keep 1 price" }).click();
  const butter = page
    .locator(".line")
    .filter({ hasText: /· D1(?!\d)/ })
    .filter({ hasText: "Butter" });
  await expect(butter).toContainText("€44.20");
  await expect(butter).toContainText(/€41.50 \/ 20 × 250 g\s*until/);
});

test("starter pantry: found by typing, seen, kept", async ({ page }) => {
  await page.goto("/stores/add");
  await expect(page.getByText(/starter pantry/)).toBeVisible();
  await page.getByRole("searchbox").fill("butternut");
  const line = page.locator(".line").filter({ hasText: "Butternut squash" });
  await line.getByRole("checkbox").check({ force: true });
  await page.getByRole("button", { name: "Keep 1 ingredient" }).click();
  await expect(page.getByText("✓ Kept.")).toBeVisible();
  await page.goto("/stores");
  await expect(page.getByText("Butternut squash")).toBeVisible();
});
