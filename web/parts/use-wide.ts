import { useSyncExternalStore } from "react";

/** Whether the page is at least so many px wide. */
export function useWide(px: number): boolean {
  return useSyncExternalStore(
    (listener) => {
      const query = matchMedia(`(min-width: ${px}px)`);
      query.addEventListener("change", listener);
      return () => query.removeEventListener("change", listener);
    },
    () => matchMedia(`(min-width: ${px}px)`).matches,
    () => true,
  );
}
