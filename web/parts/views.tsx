import { Link } from "@tanstack/react-router";
import { useEffect, useRef } from "react";
import type { Key } from "../../words/catalogue.ts";
import { useWords } from "../app/settings.tsx";

/** The sheets of a place, side by side; on a narrow screen the one in hand is brought into sight. */
export function Views({
  place,
  label,
  views,
  current,
}: {
  readonly place: "run" | "pass" | "log";
  readonly label: Key;
  readonly views: readonly (readonly [id: string, key: Key])[];
  readonly current: string;
}) {
  const { say } = useWords();
  const row = useRef<HTMLElement>(null);
  useEffect(() => {
    const [nav, here] = [row.current, row.current?.querySelector<HTMLElement>(`[data-view="${current}"]`)];
    // Along the row alone: the page stays where it was read.
    if (nav && here) nav.scrollLeft = here.offsetLeft - (nav.clientWidth - here.offsetWidth) / 2;
  }, [current]);
  return (
    <nav className="views" aria-label={say(label)} ref={row}>
      {views.map(([id, key]) => (
        <Link
          key={id}
          to={`/${place}/$view`}
          params={{ view: id }}
          className="view"
          data-view={id}
          aria-current={id === current ? "page" : undefined}
          resetScroll={false}
        >
          {say(key)}
        </Link>
      ))}
    </nav>
  );
}
