import { expect } from "@playwright/test";
import { letGo, fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" });
test.beforeEach(({ one }) => letGo(one));

const LIST = `No;Article;Pack;Price
B1;Quinces;5 kg;14,50
B2;Pears, Conference;6 kg;11,40
`;

test("A3 a new supplier is made on the page, told what is wrong, kept, renamed; another begins with its list", async ({
  page,
}) => {
  await page.goto("/stores");
  await page.getByRole("link", { name: "New supplier" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Brackenrigg Fruit");
  await page.getByLabel("Order by").fill("noon");
  await page.getByRole("button", { name: "Keep the supplier" }).click();
  await expect(page.getByText("Choose at least one day.")).toBeVisible();
  await expect(page.getByText("“noon” is no time of day. Write it as 14:30.")).toBeVisible();
  await page.getByText("Tuesday").click();
  await page.getByText("Saturday").click();
  await page.getByLabel("Order by").fill("12.30");
  await page.getByLabel("Least order").fill("45,50");
  await page.getByRole("button", { name: "Keep the supplier" }).click();
  await expect(page.getByRole("heading", { name: "Brackenrigg Fruit" })).toBeVisible();
  await expect(page.getByText(/Delivers Tuesday and Saturday; order the day before by 12:30/)).toBeVisible();
  await expect(page.getByText(/Bought by Corrie Fell Observatory/)).toBeVisible();
  await page.getByRole("button", { name: "Change name, days and terms" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Brackenrigg Orchard");
  await page.getByRole("button", { name: "Keep the supplier" }).click();
  await expect(page.getByRole("heading", { name: "Brackenrigg Orchard" })).toBeVisible();
  const kept = await page.evaluate(async () => (await (await fetch("/api/book")).json()).book);
  expect(kept.suppliers.at(-1)).toMatchObject({ id: "brackenrigg-fruit", name: "Brackenrigg Orchard" });
  expect(kept.kitchens[0].suppliers).toContain("brackenrigg-fruit");

  // A price list of which nobody has said yet whose it is begins another.
  await page.getByRole("link", { name: "Back to the stores" }).click();
  await page.getByRole("link", { name: "Read a price list" }).click();
  const choosing = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: "Open a price list (CSV or XLSX)" }).click();
  await (await choosing).setFiles({ name: "autumn.csv", mimeType: "text/csv", buffer: Buffer.from(LIST) });
  await expect(page.getByText("autumn.csv is open. Whose prices are these?")).toBeVisible();
  await page.getByRole("button", { name: /Supplier/ }).click();
  await page.getByRole("option", { name: "New supplier" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Wetherlam Fruit");
  await page.getByText("Friday").click();
  await page.getByLabel("Order by").fill("11:00");
  await page.getByRole("button", { name: "Go on to the prices" }).click();
  await expect(page.getByText("Pears, Conference").first()).toBeVisible();
  const row = page.locator(".list-row").filter({ hasText: "Quinces" });
  const yes = row.getByRole("button", { name: "Yes" });
  if (await yes.isVisible()) await yes.click();
  await page.getByRole("button", { name: /^Keep \d/ }).click();
  await expect(page.getByRole("heading", { name: "Wetherlam Fruit" })).toBeVisible();
  await expect(page.getByText(/ingredients? offered/)).toBeVisible();
  await page.getByRole("link", { name: "Back to the stores" }).click();
  await expect(page.getByRole("link", { name: "Wetherlam Fruit" })).toBeVisible();
});
