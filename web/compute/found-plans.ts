import type { Found, FoundPlans } from "../../core/schedule/index.ts";

/** Nobody has found this plan yet. */
export class NotFound extends Error {}

/**
 * Plans that this or another page found before, kept by the server. Asked synchronously, since the engine asks in the
 * middle of its sums; this runs away from the page, where nothing waits for it. Without the server each page searches.
 */
export class PlansOfServer implements FoundPlans {
  /** Answers only from what was found before. @throws NotFound */
  readonly only: FoundPlans = {
    find: (asked) => {
      const found = this.find(asked);
      if (!found) throw new NotFound();
      return found;
    },
    keep: () => {},
  };
  /** The answer given last, for the question asked again right after. */
  #last: { readonly asked: string; readonly found: Found } | undefined;

  find(asked: string): Found | undefined {
    if (this.#last?.asked === asked) return this.#last.found;
    const found = ask(asked);
    if (found) this.#last = { asked, found };
    return found;
  }

  keep(asked: string, found: Found): void {
    this.#last = { asked, found };
    void fetch("/api/plans/keep", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ asked, found }),
    }).catch(() => {});
  }
}

function ask(asked: string): Found | undefined {
  try {
    const request = new XMLHttpRequest();
    request.open("POST", "/api/plans/find", false);
    request.setRequestHeader("content-type", "application/json");
    request.send(JSON.stringify({ asked }));
    return request.status === 200 ? (JSON.parse(request.responseText).found ?? undefined) : undefined;
  } catch {
    return undefined;
  }
}
