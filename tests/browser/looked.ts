import AxeBuilder from "@axe-core/playwright";
import type { Page } from "@playwright/test";

/** The rules every place keeps: WCAG 2.2 to AA, and what its authors count as good practice. */
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/**
 * Looks over the page as it stands.
 * @returns a line for each rule that is broken, with the first elements that break it.
 */
export async function looked(page: Page): Promise<string[]> {
  const { violations } = await axe(page)
    // What passes is not written up: it is half of the time.
    .options({ resultTypes: ["violations"] })
    .withTags(TAGS)
    .analyze();
  return violations.map(
    (v) =>
      `${v.id}: ${v.nodes
        .slice(0, 3)
        .map((n) => n.html)
        .join(" | ")}`,
  );
}

/** The text whose contrast is too low. */
export async function tooFaint(page: Page): Promise<string[]> {
  const { violations } = await axe(page).withRules(["color-contrast"]).analyze();
  return violations.flatMap((v) => v.nodes.map((n) => n.html));
}

/**
 * In the page itself, without a second, blank one to gather what was found: only frames of other origins need that, and
 * the app has no frame. The same rules and findings in a third of the time.
 */
function axe(page: Page): AxeBuilder {
  return new AxeBuilder({ page }).setLegacyMode();
}
