import { expect } from "@playwright/test";
import { computed } from "./computed.ts";
import { fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 820, height: 1180 }, serviceWorkers: "allow" });

test("A6 the board reloads without network, takes marks, and sends them once it is back", async ({
  page,
  context,
}) => {
  await page.goto("/pass/board");
  await computed(page);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  // The worker has what it needs once it controls the page.
  await page.reload();
  await computed(page);
  const kinds = () =>
    page.evaluate(async () =>
      ((await (await fetch("/api/log/demo")).json()).entries as { body: { kind: string } }[]).map(
        (e) => e.body.kind,
      ),
    );
  const before = (await kinds()).length;
  await context.setOffline(true);
  await page.reload();
  await computed(page);
  await expect(page.locator(".network")).toContainText("No network");
  const name = (await page.locator(".board-name").first().textContent()) ?? "";
  await page.getByRole("button", { name: "Start" }).first().click();
  await expect(page.locator(".now[data-state=started]").first()).toContainText(name);
  await page.locator(".now[data-state=started]").getByRole("button", { name: "Done" }).click();
  await expect(page.locator(".board-next .done").first()).toBeVisible();
  await expect(page.locator(".network")).toContainText("entries wait");
  await page.reload();
  await computed(page);
  await expect(page.locator(".board-next .done").first()).toBeVisible();
  await context.setOffline(false);
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
  await expect(page.locator(".network")).not.toContainText("wait", { timeout: 20_000 });
  const here = (await kinds()).slice(before);
  expect(here.filter((kind) => kind !== "placed")).toEqual(["started", "done"]);
});

test("A7 a reading beyond its limit says what to do; a correction keeps the first value", async ({
  page,
}) => {
  await page.goto("/log");
  await computed(page);
  const point = page.locator(".watched", { hasText: "Poached char" }).first();
  await point.getByRole("textbox", { name: /Reading/ }).fill("warm");
  await point.getByRole("button", { name: "Write down" }).click();
  await expect(point.locator(".wrong")).toContainText(/warm.*Write/);
  await point.getByRole("textbox", { name: /Reading/ }).fill("58,5");
  await point.getByRole("button", { name: "Write down" }).click();
  await expect(point.getByRole("alert")).toContainText("Back into the water");
  await point.getByRole("button", { name: "Correct" }).click();
  await point.getByRole("textbox", { name: "Right reading" }).fill("63.5");
  await point.getByRole("textbox", { name: "Right reading" }).press("Enter");
  await expect(point.locator("s")).toContainText("58.5");
  await expect(point.locator(".reading strong")).toContainText("63.5");
  await expect(point.getByRole("alert")).toHaveCount(0);
});
