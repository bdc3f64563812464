import { expect } from "@playwright/test";
import { turnTo } from "./computed.ts";
import { looked, tooFaint } from "./looked.ts";
import { fresh as test } from "./one-page.ts";

// The longest of all: its tests share nothing and go side by side.
test.describe.configure({ mode: "parallel" });

/** Every place, at the width where things collide first. */
const PLACES = [
  "/run/plan",
  "/run/guests",
  "/run/seating",
  "/run/prep",
  "/run/orders",
  "/run/allergens",
  "/run/cost",
  "/run/labels",
  "/run/nutrition",
  "/run/pull",
  "/run/front",
  "/run/control",
  "/pass/cards",
  "/pass/line",
  "/pass/board",
  "/bench",
  "/bench/preparation/celeriac-veloute",
  "/bench/dish/char",
  "/bench/paste",
  "/stores",
  "/stores/add",
  "/stores/stock",
  "/log",
  "/log/write",
  "/log/lots",
  "/log/learned",
  "/log/forecast",
  "/log/recall",
];

/** The five places: wider, their sheets differ by nothing else. */
const FIVE = ["/run/plan", "/pass/board", "/bench/preparation/celeriac-veloute", "/stores", "/log"];
const WIDTHS: readonly (readonly [number, readonly string[]])[] = [
  // In halves, which two processes take at once.
  [390, PLACES.filter((_, k) => k % 2 === 0)],
  [390, PLACES.filter((_, k) => k % 2 === 1)],
  [820, FIVE],
  [1440, [...FIVE, "/run/seating"]],
];

for (const [width, places] of WIDTHS) {
  test.describe(`at ${width} px, ${places[0]} and ${places.length - 1} others`, () => {
    test.use({ viewport: { width, height: width < 500 ? 844 : 1000 }, serviceWorkers: "block" });
    test("A8 every place keeps WCAG 2.2 AA, fits the screen and says nothing wrong", async ({ page }) => {
      test.setTimeout(300_000);
      const said: string[] = [];
      page.on("pageerror", (error) => said.push(error.message));
      page.on("console", (message) => {
        if (message.type() === "error") said.push(message.text());
      });
      await page.goto("/");
      for (const place of places) {
        await test.step(place, async () => {
          await turnTo(page, place);
          const found = (await looked(page)).map((broken) => `${place} ${broken}`);
          expect.soft(found).toEqual([]);
          const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
          expect.soft(wider, `${place} scrolls sideways`).toBeLessThanOrEqual(0);
        });
      }
      expect(said).toEqual([]);
    });
  });
}

test("A8 the dark ground keeps its contrast", async ({ page }) => {
  await page.addInitScript(() =>
    localStorage.setItem("tournant.settings", JSON.stringify({ ground: "dark" })),
  );
  await page.goto("/");
  for (const place of ["/run/plan", "/pass/cards", "/pass/board", "/log"]) {
    await turnTo(page, place);
    expect(await tooFaint(page)).toEqual([]);
  }
});
