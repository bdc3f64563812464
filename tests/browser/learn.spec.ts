import { expect } from "@playwright/test";
import { openAt } from "./computed.ts";
import { test } from "./one-page.ts";

test.use({ viewport: { width: 1280, height: 900 } });

test("L1 a trim is typed in seconds, seen learned, taken into the book with its source", async ({ page }) => {
  await openAt(page, "/log/write");
  await page.getByRole("button", { name: /Which/ }).click();
  await page.getByRole("option", { name: /^Kale/ }).click();
  await page.getByRole("button", { name: /Who/ }).click();
  await page.getByRole("option", { name: /Wen Castell/ }).click();
  const [bought, usable] = [page.getByLabel("As purchased, g"), page.getByLabel("Usable, g")];
  await bought.fill("2 kg");
  await usable.fill("2.2 kg");
  await page.getByRole("button", { name: "Write down" }).click();
  await expect(page.locator(".wrong")).toContainText("Check which of the two");
  await usable.fill("900");
  await expect(page.getByText("That is 45 %; the book says 58 %.")).toBeVisible();
  await page.getByRole("button", { name: "Write down" }).click();
  await expect(page.locator(".lately li").first()).toContainText("2 kg bought, 900 g usable");
  // The first value stays beside its correction.
  await page.getByRole("button", { name: "Correct" }).first().click();
  await usable.fill("1000");
  await page.getByRole("button", { name: "Write the correction" }).click();
  await expect(page.locator(".lately li").first().locator("s")).toContainText("900 g");
  await expect(page.locator(".lately li").first()).toContainText("1 kg usable (50 %)");

  await page.getByRole("link", { name: "Learned" }).click();
  const kale = page.locator(".learned", { hasText: /^.?Kale/ });
  await expect(kale).toContainText("the book says 58 %");
  // Each figure tells how it came, down to what was weighed.
  await kale.getByRole("button", { name: /^1 measurement, 1 cook/ }).click();
  await expect(kale.locator(".trace")).toContainText("measurements that count");
  await kale
    .locator(".trace")
    .getByRole("button", { name: /measurement 1/ })
    .click();
  await expect(kale.locator(".trace").first()).toContainText("natural logarithm of share");
  await kale.locator(".fold-summary").click();
  await expect(kale.locator(".effect li").first()).toContainText(/→/, { timeout: 30_000 });
  await kale.getByRole("button", { name: /into the book/ }).click();
  await expect(page.getByText("Taken into the book", { exact: false }).first()).toBeVisible();
  const cut = await page.evaluate(async () => {
    const { book } = await (await fetch("/api/book")).json();
    return book.ingredients
      .find((one: { id: string }) => one.id === "kale")
      .cuts.find((one: { id: string }) => one.id === "leaves");
  });
  expect(cut.source.kind).toBe("measured");
  expect(cut.source.doc).toContain("1 measurement by 1 cook");
  expect(cut.trimYield).toBeGreaterThan(0.5);
  expect(cut.trimYield).toBeLessThan(0.58);
  expect(cut.spread).toBeGreaterThan(0);
});

test("L2 an odd trim is asked about and left out only when a person says so, with the reason", async ({
  page,
}) => {
  await openAt(page, "/log/learned");
  const celeriac = page.locator(".learned", { hasText: "Celeriac, peeled" });
  await expect(celeriac.locator(".odd")).toContainText("was it another cut?");
  await expect(celeriac).toContainText("10 measurements");
  await celeriac.getByRole("button", { name: "Leave it out" }).click();
  await celeriac.getByLabel("Why it does not count").fill("half of it was for staff");
  await celeriac.getByLabel("Why it does not count").press("Enter");
  await expect(celeriac).toContainText("9 measurements");
  await expect(celeriac.locator(".odd")).toHaveCount(0);
  await celeriac.locator(".fold-summary").click();
  await expect(celeriac).toContainText("left out: half of it was for staff");
});

test("L3 a delivery is received against its limit, its lot opened, and recalled both ways", async ({
  page,
}) => {
  await openAt(page, "/stores/stock");
  const form = page.locator(".fold", { hasText: /Celeriac/ }).first();
  await form.locator(".fold-summary").click();
  await form.getByRole("button", { name: "Take in" }).click();
  await expect(form).toContainText("Write the lot as it stands on the pack.");
  await form.getByLabel("Lot").fill("CE-77");
  await form.getByLabel("Use by").fill("2027-02-09");
  await form.getByLabel(/At the door/).fill("9");
  await form.getByRole("button", { name: "Take in" }).click();
  await expect(form.getByRole("alert")).toContainText("above 5");
  await form.getByLabel(/At the door/).fill("4");
  await form.getByRole("button", { name: "Take in" }).click();
  await expect(form.locator(".done").first()).toContainText("lot CE-77");

  await openAt(page, "/log/lots");
  await page.locator(".fold-summary", { hasText: "Celeriac base" }).first().click();
  await page.getByRole("button", { name: /^Celeriac: CE-77/ }).click();
  await expect(page.locator(".lot-line .done").first()).toContainText("lot CE-77");

  await page.getByRole("link", { name: "Recall" }).click();
  await page.getByLabel("Lot code, as on the pack").fill("ce-77");
  await page.getByLabel("Lot code, as on the pack").press("Enter");
  await expect(page.locator(".recall-answer .sentence")).toContainText("lot CE-77");
  await expect(page.locator(".recall-list li", { hasText: "Celeriac base, batch 1" })).toContainText(
    "by the records",
  );
  await expect(page.locator(".recall-list li", { hasText: /velouté/i }).first()).toBeVisible();
  await page.getByLabel("Lot code, as on the pack").fill("nothing");
  await page.getByLabel("Lot code, as on the pack").press("Enter");
  await expect(page.getByRole("alert")).toContainText("No lot “nothing”");
});
