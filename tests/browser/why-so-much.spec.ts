import { expect, test } from "@playwright/test";

test.use({ viewport: { width: 820, height: 1100 }, serviceWorkers: "block" });

test("O13 LE12 how far covers miss by the log is one tap; each line then says why so much and what the chance trades", async ({
  page,
}) => {
  await page.goto("/run/orders");
  const line = page.locator(".order-name").nth(1);
  await line.click({ timeout: 60_000 });
  const why = page.locator(".order-ways");
  await expect(why).toContainText("as purchased are needed by the usual yields");
  await page.getByRole("button", { name: /^Count in 4/ }).click();
  await expect(why).toContainText("for a chance of 95 % of having enough");
  await expect(why).toContainText("One pack too many loses");
  // Lost 11.10 on one too many: 95 to 5, nineteen times as much.
  await why.getByText("€210.90").click();
  await expect(page.getByRole("dialog")).toContainText("lost on one too many");
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Leave it out" }).click();
  await expect(why).not.toContainText("for a chance of 95 %");
});
