import type { Page } from "@playwright/test";

/** The longest the page stands still within two seconds, ms: from one frame to the next. */
export function longestStill(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((done) => {
        let last = performance.now();
        const began = last;
        let worst = 0;
        const frame = () => {
          const now = performance.now();
          worst = Math.max(worst, now - last);
          last = now;
          if (now - began < 2000) requestAnimationFrame(frame);
          else done(worst);
        };
        requestAnimationFrame(frame);
      }),
  );
}
