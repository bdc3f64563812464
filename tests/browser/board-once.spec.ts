import { expect, type Page } from "@playwright/test";
import { computed } from "./computed.ts";
import { fresh as test } from "./one-page.ts";

/** What went to the workers of the board and came back, and which rows of the page were touched. */
interface Seen {
  readonly asked: { readonly keep: number; readonly entries: number }[];
  readonly told: { readonly whole: number; readonly named: number }[];
  readonly rows: string[];
}

const seen = (page: Page) => page.evaluate(() => (window as unknown as { seen: Seen }).seen);

test("L14 a mark asks once, brings back what changed, and leaves rows that it does not concern alone", async ({
  page,
}) => {
  await page.setViewportSize({ width: 820, height: 1180 });
  await page.addInitScript(() => {
    const seen: Seen = { asked: [], told: [], rows: [] };
    Object.assign(window, { seen });
    const Plain = window.Worker;
    window.Worker = class extends Plain {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        this.addEventListener("message", ({ data }) => {
          if (data.type !== "live") return;
          const tasks = data.live.plan.tasks as unknown[];
          const named = tasks.filter((one) => typeof one === "string").length;
          seen.told.push({ whole: tasks.length - named, named });
        });
      }
      override postMessage(message: { type?: string; keep?: number; entries?: unknown[] }, ...more: never[]) {
        if (message.type === "ask")
          seen.asked.push({ keep: message.keep ?? 0, entries: message.entries?.length ?? 0 });
        super.postMessage(message, ...more);
      }
    };
  });
  await page.goto("/pass/board");
  await computed(page);
  const out = page.getByRole("button", { name: "Equipment out" });
  await out.waitFor({ timeout: 60_000 });
  // Once for the plan, once more where the log had something in it.
  await expect.poll(async () => (await seen(page)).told.length, { timeout: 30_000 }).toBeGreaterThan(0);
  await page.waitForTimeout(1500);
  const before = await seen(page);
  await page.evaluate(() => {
    const { seen } = window as unknown as { seen: Seen };
    const rows = (node: Node) =>
      (node instanceof Element ? node : node.parentElement)?.closest("[data-task]");
    new MutationObserver((all) => {
      for (const { target } of all) {
        const row = rows(target)?.getAttribute("data-task");
        if (row) seen.rows.push(row);
      }
    }).observe(document.querySelector(".board")!, {
      ...{ subtree: true, childList: true, characterData: true, attributes: true },
    });
  });
  await out.click();
  await page.locator(".live-choice").first().click();
  await page.locator(".live-choice").nth(3).click();
  await expect(page.locator(".live-out-line")).toHaveCount(1);
  const answers = before.told.length + 1;
  await expect.poll(async () => (await seen(page)).told.length, { timeout: 30_000 }).toBe(answers);
  // Time enough for a second question, were there one: the store, the server and its notice have all been heard by then.
  await page.waitForTimeout(1500);
  const { asked, told, rows } = await seen(page);
  expect(asked).toHaveLength(before.asked.length + 1);
  expect(asked.at(-1)!.entries).toBe(1);
  expect(told).toHaveLength(answers);
  const moved = told.at(-1)!;
  expect(moved.named).toBeGreaterThan(200);
  expect(moved.whole).toBeLessThan(moved.named / 2);
  // A row is touched where its own task moved, and nowhere else.
  expect(new Set(rows).size).toBeLessThanOrEqual(moved.whole);
  await page.getByRole("button", { name: "Begin the rehearsal anew" }).click();
  await expect(page.locator(".live-out-line")).toHaveCount(0);
});
