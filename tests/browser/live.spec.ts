import { type Browser, expect, type Page } from "@playwright/test";
import { computed } from "./computed.ts";
import { fresh as test } from "./one-page.ts";

// Two tablets make the plan of the demo each.
test.setTimeout(150_000);

/** A tablet of its own at the board, in a rehearsal at the given hour. */
async function tablet(browser: Browser, hour: RegExp, options: object = {}): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 820, height: 1180 },
    serviceWorkers: "allow",
    ...options,
  });
  const page = await context.newPage();
  await page.goto("/pass/board");
  await computed(page);
  await expect(page.locator(".board")).toBeVisible();
  await turnTo(page, hour);
  return page;
}

async function turnTo(page: Page, hour: RegExp): Promise<void> {
  const clock = page.locator(".board-hour");
  const slider = page.getByRole("slider", { name: /Time of the run/ });
  await slider.focus();
  for (let k = 0; k < 200 && !hour.test((await clock.textContent()) ?? ""); k++) {
    await page.keyboard.press("ArrowRight");
  }
  await expect(clock).toHaveText(hour);
}

async function choose(page: Page, station: string): Promise<void> {
  await page.locator(".board .pick-button").click();
  await page.locator(".pick-item").getByText(station, { exact: true }).click();
  await expect(page.locator(".board .pick-button")).toContainText(station);
}

/** The station of the first board that has work under way. */
async function busyStation(page: Page): Promise<string> {
  await page.locator(".board .pick-button").click();
  await expect(page.locator(".pick-item").first()).toBeVisible();
  const names = await page.locator(".pick-item").allTextContents();
  await page.keyboard.press("Escape");
  for (const name of names) {
    await choose(page, name);
    if ((await page.locator(".now", { hasText: "nobody has marked it" }).count()) > 0) return name;
  }
  throw new Error("no station has work under way");
}

test("L6, L7 two tablets: late, away, out; what moved is told on both, seen, and taken back", async ({
  browser,
}) => {
  const one = await tablet(browser, /16:0[0-4]/, { serviceWorkers: "block" });
  const station = await busyStation(one);
  const two = await tablet(browser, /16:0[0-4]/, {
    ...{ reducedMotion: "reduce", serviceWorkers: "block" },
  });
  await choose(two, station);

  const task = one.locator(".now", { hasText: "nobody has marked it" }).first();
  const name = (await task.locator(".board-name").textContent())!;
  const mine = (page: Page) =>
    page.locator(".now", { has: page.locator(".board-name", { hasText: name }) }).first();
  await task.getByRole("button", { name: "Start" }).click();
  await expect(mine(one)).toHaveAttribute("data-state", "started");
  // The other tablet hears of it through the server.
  await expect(mine(two)).toHaveAttribute("data-state", "started");

  await mine(one).getByRole("button", { name: "Late" }).click();
  for (const button of await mine(one).getByRole("button").all()) {
    const box = (await button.boundingBox())!;
    expect(Math.min(box.height, box.width)).toBeGreaterThanOrEqual(48);
  }
  const end = await mine(one).locator(".board-time").first().textContent();
  const typed = mine(one).getByRole("textbox", { name: "Minutes late" });
  await typed.fill("soon");
  await typed.press("Enter");
  await expect(mine(one).locator(".wrong")).toContainText("soon");
  await mine(one).getByRole("button", { name: "+20 min" }).click();
  await expect(mine(one).locator(".board-time").first()).not.toHaveText(end!);
  for (const page of [one, two]) await expect(page.locator(".live-moved")).toContainText(/late/);

  await two.getByRole("button", { name: "Equipment out" }).click();
  await two.getByRole("button", { name: "Combi oven" }).click();
  await two.getByRole("button", { name: "Nobody knows" }).click();
  for (const page of [one, two]) {
    await expect(page.locator(".live-breaks")).toContainText("Combi oven is out");
    await expect(page.locator(".live-breaks")).toContainText(/\d+\s(?:min|h)/);
  }
  await expect(one.locator(".live-remedy").first()).toContainText(/fits|not enough/, { timeout: 40_000 });
  await two.getByRole("button", { name: "Was a mistake" }).click();
  // What the twenty minutes themselves upset may still be told.
  const oven = (page: Page) => page.locator(".live-breaks", { hasText: "Combi oven is out" });
  for (const page of [one, two]) await expect(oven(page)).toHaveCount(0);

  const told = await two.locator(".live-event").count();
  await two.locator(".live-event").first().getByRole("button", { name: "Seen" }).click();
  for (const page of [one, two]) await expect(page.locator(".live-event")).toHaveCount(told - 1);
  await one.getByRole("button", { name: "Begin the rehearsal anew" }).click();
  for (const page of [one, two]) await expect(page.locator(".live-event")).toHaveCount(0);
  await one.context().close();
  await two.context().close();
});

test("A6, L4 without network the plan is mended here; then it is sent, once; odd entries are said", async ({
  browser,
}) => {
  const page = await tablet(browser, /16:0[0-4]/);
  await page.getByRole("button", { name: "Somebody away" }).waitFor();
  await page.context().setOffline(true);
  await page.getByRole("button", { name: "Somebody away" }).click();
  const who = page.locator(".live-choice").first();
  const name = (await who.textContent())!;
  await who.click();
  await page.locator(".live-choice", { hasText: "1 h" }).first().click();
  await expect(page.locator(".live-out")).toContainText(`${name} is away from 16:0`);
  await expect(page.locator(".live-moved")).toContainText("is away", { timeout: 20_000 });
  await expect(page.locator(".network")).toContainText("wait");
  await page.context().setOffline(false);
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
  await expect(page.locator(".network")).not.toContainText("wait", { timeout: 20_000 });
  const log = () =>
    page.evaluate(
      async () =>
        (await (await fetch("/api/log/demo")).json()).entries as {
          id: string;
          body: { kind: string; rehearsal?: boolean };
        }[],
    );
  const kinds = (await log()).map((entry) => entry.body.kind);
  expect(kinds.filter((kind) => kind === "absent")).toHaveLength(1);
  expect(kinds).toContain("placed");

  // Another program writes of a task nobody knows, twice.
  await page.evaluate(async () => {
    const entry = {
      ...{ id: crypto.randomUUID(), service: "demo", at: new Date().toISOString(), by: "a slow tablet" },
      body: { kind: "done", task: "no/such/1", when: "D 15:00", turn: 9999, rehearsal: true },
    };
    for (let k = 0; k < 2; k++)
      await fetch("/api/log", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ entries: [entry] }),
      });
  });
  await page.getByRole("button", { name: "One entry could not be followed" }).click();
  await expect(page.locator(".board")).toContainText('nothing in this plan is called "no/such/1"');
  await page.getByRole("button", { name: "Begin the rehearsal anew" }).click();
  await expect(page.locator(".live-out")).not.toContainText("is away");
  await page.context().close();
});
