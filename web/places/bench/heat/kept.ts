import type { Draft } from "./draft.ts";

const KEY = "tournant.heat.1";

/** Trials as they were last typed, of a preparation or from scratch (""); kept while the tablet's window is open. */
export function kept(at: string): readonly Draft[] | undefined {
  try {
    const drafts = JSON.parse(sessionStorage.getItem(`${KEY} ${at}`) ?? "null") as readonly Draft[] | null;
    return drafts && drafts.length > 0 ? drafts : undefined;
  } catch {
    return undefined;
  }
}

export function keep(at: string, drafts: readonly Draft[]): void {
  try {
    sessionStorage.setItem(`${KEY} ${at}`, JSON.stringify(drafts));
  } catch {
    // Nothing is kept in a private window: the trials last as long as the page.
  }
}
