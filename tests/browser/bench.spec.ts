import { expect, type Page } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });

async function open(page: Page): Promise<void> {
  await openAt(page, "/bench/preparation/celeriac-veloute");
}
const cream = (page: Page) => page.getByRole("textbox", { name: /amount of Cream/ });
const perKg = (page: Page) => page.locator(".figures dd").nth(2);

test("A4 a changed amount moves cost, orders and plan; undo and put back restore it", async ({ page }) => {
  await open(page);
  const cost = (await perKg(page).textContent())!;
  await cream(page).fill("4 kg");
  await cream(page).press("Enter");
  await expect(perKg(page)).not.toHaveText(cost);
  await expect(page.locator(".trial")).toContainText("being tried");
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(perKg(page)).toHaveText(cost);
  await expect(page.locator(".trial")).toHaveCount(0);
  await cream(page).fill("2 1/2 cup");
  await cream(page).press("Enter");
  await expect(page.locator(".trial")).toBeVisible();
  await page.getByRole("button", { name: "Put back" }).click();
  await expect(cream(page)).toHaveValue("1450 g");
});

test("A3 what can't be read stays as typed, with what, where and how to mend", async ({ page }) => {
  await open(page);
  await cream(page).fill("a splash");
  await cream(page).press("Enter");
  await expect(cream(page)).toHaveValue("a splash");
  await expect(page.locator(".wrong")).toContainText(/a splash.*Write/);
  await cream(page).press("Escape");
  await expect(cream(page)).toHaveValue("1450 g");
  await expect(page.locator(".wrong")).toHaveCount(0);
});

test("an amount is dragged, and stepped by keys", async ({ page }) => {
  await open(page);
  const handle = page.getByRole("slider", { name: /Drag to change: amount of Cream/ });
  const box = (await handle.boundingBox())!;
  await page.mouse.move(box.x + 24, box.y + 24);
  await page.mouse.down();
  await page.mouse.move(box.x + 64, box.y + 24, { steps: 5 });
  await page.mouse.up();
  await expect(cream(page)).toHaveValue("1550 g");
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(cream(page)).toHaveValue("1450 g");
  await handle.press("ArrowUp");
  await expect(cream(page)).toHaveValue("1460 g");
  await page.getByRole("button", { name: "Put back" }).click();
});

test("a preparation inside opens in place", async ({ page }) => {
  await open(page);
  await page.getByRole("button", { name: "Celeriac base", exact: true }).click();
  await expect(page.locator(".nested .formula-line").first()).toBeVisible();
});

test("A4 a trial survives a closed page, is kept, and is there for others", async ({ page }) => {
  await open(page);
  await cream(page).fill("1500 g");
  await cream(page).press("Enter");
  await expect(page.locator(".trial")).toBeVisible();
  await page.waitForTimeout(300);
  await page.reload();
  await expect(cream(page)).toHaveValue("1500 g");
  await page.getByRole("button", { name: "Keep" }).click();
  await expect(page.locator(".trial")).toHaveCount(0);
  const kept = await page.evaluate(async () => {
    const { book } = await (await fetch("/api/book")).json();
    const found = book.preparations.find((p: { id: string }) => p.id === "celeriac-veloute");
    return JSON.stringify(found.lines);
  });
  expect(kept).toContain("1500");
});

test("A4 another's change of the same amount is never overwritten unseen", async ({ page }) => {
  await open(page);
  await cream(page).fill("1600 g");
  await cream(page).press("Enter");
  await page.evaluate(async () => {
    const { book, revision } = await (await fetch("/api/book")).json();
    const document = book.preparations.find((p: { id: string }) => p.id === "celeriac-veloute");
    for (const line of document.lines)
      if (line.item.ingredient?.startsWith("cream")) line.amount.value = 1700;
    await fetch("/api/documents/preparations/celeriac-veloute", {
      method: "PUT",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ document, baseRevision: revision }),
    });
  });
  await page.getByRole("button", { name: "Keep" }).click();
  await expect(page.locator(".trial")).toContainText("Someone else changed it");
  await page.getByRole("button", { name: "Take theirs" }).click();
  await expect(cream(page)).toHaveValue("1700 g");
});

test("a bad book file changes nothing and is told where it is wrong", async ({ page }) => {
  await open(page);
  await page.getByRole("button", { name: "Settings" }).click();
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    page.getByRole("button", { name: "Import" }).click(),
  ]);
  await chooser.setFiles({
    name: "book.json",
    mimeType: "application/json",
    buffer: Buffer.from('{"format":"tournant-book","version":1,"dishes":[{"id":"x"}]}'),
  });
  await expect(page.locator(".book-file .harm").first()).toContainText("/dishes/0");
});
