import { type RefObject, useEffect, useRef } from "react";
import type { Plan } from "../../../core/run/result.ts";

interface Place {
  readonly plan: Plan;
  readonly x: number;
  readonly y: number;
}

/** A task that moved slides once from where it was (200 ms), so that the eye can follow. */
export function useSlide(scroll: RefObject<HTMLElement | null>, plan: Plan, drawn: object | undefined): void {
  const places = useRef(new Map<string, Place>());
  // Places are measured only when what is drawn has changed: measuring is dear.
  useEffect(() => {
    const root = scroll.current;
    if (!root || !drawn) return;
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    const origin = root.getBoundingClientRect();
    const next = new Map<string, Place>();
    for (const element of root.querySelectorAll<SVGGElement | HTMLElement>("[data-task]")) {
      const box = element.getBoundingClientRect();
      const place = { plan, x: box.x - origin.x + root.scrollLeft, y: box.y - origin.y };
      next.set(element.id, place);
      const before = places.current.get(element.id);
      if (still || !before || before.plan === plan) continue;
      const [dx, dy] = [before.x - place.x, before.y - place.y];
      if (Math.hypot(dx, dy) > 1)
        element.animate([{ transform: `translate(${dx}px, ${dy}px)` }, { transform: "none" }], {
          duration: 200,
          easing: "ease-out",
        });
    }
    places.current = next;
  }, [scroll, plan, drawn]);
}
