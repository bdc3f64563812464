import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "@playwright/test";
import { computed, turnTo } from "./computed.ts";

const WIDTHS = [390, 820, 1440];
const PLACES = [
  "/run/plan",
  "/run/guests",
  "/run/prep",
  "/run/orders",
  "/run/allergens",
  "/run/cost",
  "/run/labels",
  "/run/pull",
  "/run/front",
  "/run/control",
  "/pass/cards",
  "/pass/line",
  "/pass/board",
  "/bench",
  "/bench/preparation/celeriac-veloute",
  "/bench/dish/char",
  "/stores",
  "/log",
];

/** The five places; between phone and desk their sheets differ by nothing else. */
const FIVE = ["/run/plan", "/pass/board", "/bench/preparation/celeriac-veloute", "/stores", "/log"];

for (const width of WIDTHS) {
  test.describe(`at ${width} px`, () => {
    test.use({ viewport: { width, height: width < 500 ? 844 : 1000 }, serviceWorkers: "block" });
    test("A8 every place keeps WCAG 2.2 AA, fits the screen and says nothing wrong", async ({ page }) => {
      test.setTimeout(300_000);
      const said: string[] = [];
      page.on("pageerror", (error) => said.push(error.message));
      page.on("console", (message) => {
        if (message.type() === "error") said.push(message.text());
      });
      await page.goto("/");
      for (const place of width === 820 ? FIVE : PLACES) {
        await test.step(place, async () => {
          await turnTo(page, place);
          const { violations } = await new AxeBuilder({ page })
            .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"])
            .analyze();
          const found = violations.map(
            (v) =>
              `${place} ${v.id}: ${v.nodes
                .slice(0, 3)
                .map((n) => n.html)
                .join(" | ")}`,
          );
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
  for (const place of ["/run/plan", "/pass/cards", "/pass/board", "/log"]) {
    await page.goto(place);
    await computed(page);
    const { violations } = await new AxeBuilder({ page }).withRules(["color-contrast"]).analyze();
    expect(violations.flatMap((v) => v.nodes.map((n) => n.html))).toEqual([]);
  }
});
