import { expect } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 820, height: 1100 }, serviceWorkers: "block" });

test("O13 LE12 how far covers miss by the log is one tap; each line then says why so much and what the chance trades", async ({
  page,
}) => {
  await openAt(page, "/run/orders");
  const line = page.locator(".order-name").nth(1);
  const why = page.locator(".order-ways");
  await line.click();
  await expect(why).toContainText("as purchased are needed by the usual yields");
  await page.getByRole("button", { name: /^Count in \d/ }).click();
  // Other packs may be the best ones once the plan has followed, and another line stands there, closed: then once more.
  await expect(async () => {
    if ((await why.count()) === 0) await line.click({ timeout: 2000 });
    await expect(why).toContainText("for a chance of 95 % of having enough", { timeout: 2000 });
    const said = (await why.textContent({ timeout: 2000 }))!.replaceAll(/\s/g, " ");
    const [, left, short] = /too many loses €(\d[\d,]*\.\d\d).* too few costs €(\d[\d,]*\.\d\d)/.exec(said)!;
    // 95 to 5, nineteen times as much; the loss is written to the cent.
    const [loss, cost] = [left!, short!].map((money) => Number(money.replaceAll(",", "")));
    expect(Math.abs(cost! - 19 * loss!)).toBeLessThanOrEqual(19 * 0.005 + 0.005);
    await why.getByText(`€${short}`).click({ timeout: 2000 });
    await expect(page.getByRole("dialog")).toContainText("lost on one too many", { timeout: 3000 });
  }).toPass({ timeout: 60_000 });
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Leave it out" }).click();
  await expect(page.getByText("How far the covers may miss is not counted in.")).toBeVisible();
});
