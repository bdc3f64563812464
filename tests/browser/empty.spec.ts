import { expect, type Page } from "@playwright/test";
import { computed } from "./computed.ts";
import { fresh as test } from "./one-page.ts";

test.use({ viewport: { width: 820, height: 1180 }, serviceWorkers: "block" });

const EMPTY = {
  format: "tournant-book",
  version: 1,
  ingredients: [],
  suppliers: [],
  preparations: [],
  dishes: [],
  menus: [],
  kitchens: [],
  services: [],
};

async function withBook(page: Page, book: object): Promise<void> {
  await page.route("**/api/book", (route) => route.fulfill({ json: { book, revision: 1 } }));
}

test("A9 a place without content says what it is for and offers the first step", async ({ page }) => {
  await withBook(page, EMPTY);
  for (const [place, title] of [
    ["/run/plan", "No service yet"],
    ["/pass/cards", "No service yet"],
    ["/log", "No service yet"],
    ["/bench", "Nothing on the bench"],
    ["/stores", "The stores are empty"],
  ] as const) {
    await page.goto(place);
    const empty = page.locator(".empty");
    await expect(empty.getByRole("heading", { name: title })).toBeVisible();
    await expect(empty.getByRole("button").first()).toBeVisible();
  }
});

test("A9 a book that does not come is told with what to do", async ({ page }) => {
  await page.route("**/api/book", (route) => route.abort());
  await page.goto("/run/plan");
  await expect(page.getByRole("heading", { name: "The book can't be reached." })).toBeVisible();
  await expect(page.getByRole("button", { name: "Try again" })).toBeVisible();
});

test("A9 an address that leads nowhere leads back", async ({ page }) => {
  await page.goto("/bench/dish/nothing-of-the-kind");
  await expect(page.getByRole("heading", { name: "There is nothing here." })).toBeVisible();
  await page.getByRole("link", { name: "Back to the run" }).click();
  await computed(page);
});

test("a new service is the one in hand on another evening, tried until it is kept", async ({ page }) => {
  await page.goto("/run/guests");
  await computed(page);
  await page.getByRole("button", { name: "New service" }).click();
  const sheet = page.getByRole("dialog", { name: "New service" });
  const at = sheet.getByRole("textbox", { name: /First course at/ });
  await at.fill("soon");
  await at.press("Enter");
  await expect(sheet.locator(".wrong")).toContainText("Write it as 2027-01-30 19:30");
  await at.fill("2027-03-06 20:00");
  await at.press("Enter");
  await sheet.getByRole("textbox", { name: "Name" }).fill("Spring supper");
  await sheet.getByRole("textbox", { name: "Name" }).press("Enter");
  await sheet.getByRole("button", { name: "Begin" }).click();
  await expect(page.locator("h1")).toHaveText("Spring supper");
  await expect(page.locator(".run-when")).toContainText("6 March 2027");
  await expect(page.locator(".trial")).toContainText("new, not kept yet");
  await computed(page);
  await page.getByRole("button", { name: "Put back" }).click();
  await expect(page.locator("h1")).not.toHaveText("Spring supper");
});

test("a new preparation begins with a name and opens its sheet", async ({ page }) => {
  await page.goto("/bench");
  await computed(page);
  await page.getByRole("button", { name: "New preparation" }).click();
  const name = page.getByRole("textbox", { name: "What is it called" });
  await name.fill("…");
  await name.press("Enter");
  await expect(page.locator(".wrong")).toContainText("needs a letter");
  await name.fill("Crème brûlée");
  await name.press("Enter");
  await expect(page).toHaveURL(/preparation\/creme-brulee/);
  await expect(page.getByRole("textbox", { name: "Name" })).toHaveValue("Crème brûlée");
});
