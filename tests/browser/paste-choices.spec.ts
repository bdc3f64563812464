import { expect } from "@playwright/test";
import { fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 820, height: 1100 }, serviceWorkers: "block" });

const CARD = `Aunt Vi's batter pudding

1 cup flour
1,500 g milk
1 stick butter

Method
1. Rest overnight.
2. Bake in a moderate oven for 1 hour.
`;

test("IN21 IN22 IN23 one tap settles whose cups, which oven, how long and how hot", async ({ page }) => {
  await page.goto("/bench/paste");
  await page.getByLabel("Paste the recipe").fill(CARD);
  await page.getByRole("button", { name: "Read it" }).click();
  const doubt = (words: RegExp) => page.locator(".paste-doubt").filter({ hasText: words });
  const tap = async (words: RegExp, answer: string) => {
    await doubt(words).getByRole("button", { name: answer, exact: true }).click();
    await expect(doubt(words)).toHaveCount(0);
  };
  await tap(/whose spoons, cups and pints/, "British: pint 568 mL, tablespoon 15 mL");
  await tap(/"1,500 g" is read as/, "1500 g");
  await tap(/overnight is no number of hours/, "12 h");
  await tap(/a moderate oven is commonly/, "180 °C");
  await expect(page.getByText("1 h, 180 °C")).toBeVisible();
  // Now that its heat is known the step takes an oven, and that is asked.
  const oven = doubt(/one shelf for a batch/);
  await expect(oven).toContainText("180 °C");
  await oven.getByRole("button", { name: "No oven" }).click();
  await expect(oven).toHaveCount(0);
});
