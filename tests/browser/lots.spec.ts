import { expect, type Page } from "@playwright/test";
import { computed } from "./computed.ts";
import { letGo, fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 820, height: 1180 }, serviceWorkers: "block" });
test.beforeEach(({ one }) => letGo(one));

/** A service of one dish in some days, so that the board counts, and a lot of beef at the door. */
async function prepare(page: Page): Promise<void> {
  await page.goto("/stores/new-supplier");
  await page.evaluate(async () => {
    const day = (n: number) => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10);
    const send = async (path: string, method: string, body: unknown) => {
      const headers = { "content-type": "application/json" };
      const answer = await fetch(path, { method, headers, body: JSON.stringify(body) });
      if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    };
    const { book, revision } = await (await fetch("/api/book")).json();
    const trial = book.services.find((one: { id: string }) => one.id === "bench-trial");
    const document = {
      ...trial,
      ...{ id: "lots-day", name: "Lots day", at: `${day(4)}T18:00`, horizon: "D-5 00:00", covers: 2 },
      guests: [
        {
          ...{ id: "table-one", count: 2, seat: "1-1", needs: [] },
          choices: [{ course: "main", dish: "short-rib" }],
        },
      ],
    };
    await send("/api/documents/services/lots-day", "PUT", { document, baseRevision: revision });
    const of = { ingredient: "short-rib", lot: "TEST-77", supplier: "kelder-voss" };
    const body = { kind: "delivery", of, amount: { value: 40, unit: "kg" }, useBy: day(9), accepted: true };
    const entry = {
      id: crypto.randomUUID(),
      service: "lots-day",
      at: new Date().toISOString(),
      by: "Wen",
      body,
    };
    await send("/api/log", "POST", { entries: [entry] });
  });
}

test("S23 delivery, board, recall: one tap on the board, and the lot is found at the seat, and back", async ({
  page,
}) => {
  await prepare(page);
  await page.goto("/pass/board?service=lots-day");
  await computed(page);
  await expect(page.locator(".board")).toBeVisible();
  await expect(page.getByText(/move the time to rehearse/)).toHaveCount(0);
  // The station whose next work takes the meat.
  const meat = page.locator(".task-lots", { hasText: "TEST-77" });
  await page.locator(".board .pick-button").click();
  const stations = await page.locator(".pick-item").allTextContents();
  await page.keyboard.press("Escape");
  for (const station of stations) {
    await page.locator(".board .pick-button").click();
    await page.locator(".pick-item").getByText(station, { exact: true }).click();
    if ((await meat.count()) > 0) break;
  }
  await meat
    .first()
    .getByRole("button", { name: /went in/ })
    .click();
  await expect(page.locator(".task-lots", { hasText: "✓ lot TEST-77" }).first()).toBeVisible();

  await page.getByRole("link", { name: "Log", exact: true }).click();
  await page.getByRole("link", { name: "Recall" }).click();
  await page.getByLabel("Lot code").fill("TEST-77");
  await page.keyboard.press("Enter");
  // Other services of the book may have had it on hand too; this seat had it by what was noted.
  await expect(page.getByText(/TEST-77: in \d+ batch(?:es)?, at \d+ seats?/)).toBeVisible();
  await expect(page.getByText(/^1-1, Lots day.*by the records/)).toBeVisible();
});
