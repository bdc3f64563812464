import { readFileSync } from "node:fs";
import { expect } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 1440, height: 1000 }, serviceWorkers: "block" });

test("O3 O8 O9 orders say how good they are, what else could be had, and go to the supplier as a table", async ({
  page,
}) => {
  await openAt(page, "/run/orders");
  await expect(page.getByText("proven.", { exact: false }).first()).toBeVisible({ timeout: 60_000 });
  const order = page.locator("section.sheet-page").first();
  await expect(order).toContainText("Order by");

  // Another way of the first line, and how its cost came.
  const name = order.getByRole("button", { name: /Other ways/ }).first();
  await name.click();
  await expect(name).toHaveAttribute("aria-expanded", "true");
  const ways = order.locator(".order-ways");
  await expect(ways).toContainText(/dearer in all|costs the same in all|No other offer/);

  const [file] = await Promise.all([
    page.waitForEvent("download"),
    order.getByRole("button", { name: /as a table/ }).click(),
  ]);
  const lines = readFileSync(await file.path(), "utf8")
    .trim()
    .split("\r\n");
  expect(lines[0]).toContain("Supplier,Order by,Delivered,Offer");
  expect(lines.length).toBe(1 + (await order.locator("tbody tr:not(.order-ways)").count()));

  await expect(page.getByRole("textbox", { name: /Chance of having enough/ })).toHaveValue("95");
  // Whether anything varies hangs on what this book has learned: then what it costs to be surer is told.
  const sure = page.locator("section", { has: page.locator("#orders-sure") });
  const varies = (await sure.getByText("Nothing is known to vary").count()) === 0;
  const surer = sure.locator("tbody tr");
  if (varies) await expect(surer.filter({ hasText: /Enough in \d+/ })).not.toHaveCount(0);
  else await expect(surer).toHaveCount(0);
});
