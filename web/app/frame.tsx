import { Link, Outlet, useLocation } from "@tanstack/react-router";
import { useEffect } from "react";
import { ToldProvider, useBookState, useRunState, useWaiting } from "./hands.tsx";
import { Opening } from "./opening.tsx";
import { ServiceProvider } from "./service.tsx";
import { useWords } from "./settings.tsx";
import { SettingsButton } from "./settings-sheet.tsx";
import { Trials } from "./trials.tsx";

const PLACES = [
  ["bench", "/bench"],
  ["stores", "/stores"],
  ["run", "/run/plan"],
  ["pass", "/pass/cards"],
  ["log", "/log"],
] as const;

/** What stands round every place: the five names, the service in hand, the state of the network. */
export function Frame() {
  const { say } = useWords();
  const { status } = useBookState();
  const { plan, planning, problems } = useRunState();
  const computed = planning === "idle" && (plan !== undefined || problems.length > 0);
  const { pathname } = useLocation();
  const place = pathname.split("/")[1] ?? "";
  // A change of place is said to those who hear the page.
  useEffect(() => {
    document.title = PLACES.some(([name]) => name === place)
      ? `${say(`place.${place as (typeof PLACES)[number][0]}`)} · Tournant`
      : "Tournant";
  }, [place, say]);
  return (
    <>
      <a className="skip" href="#main">
        {say("frame.skip")}
      </a>
      <header className="top">
        <p className="wordmark">Tournant</p>
        <nav className="places" aria-label={say("frame.places")}>
          {PLACES.map(([name, to]) => (
            <Link
              key={name}
              to={to as "/bench"}
              className="place"
              aria-current={place === name ? "page" : undefined}
            >
              {say(`place.${name}`)}
            </Link>
          ))}
        </nav>
        <div className="top-end">
          <Network />
          <SettingsButton />
        </div>
      </header>
      <main id="main" tabIndex={-1} data-computed={computed} className={`main at-${place}`}>
        {status === "ready" ? (
          <ServiceProvider without={<Outlet />}>
            <Trials />
            <ToldProvider>
              <Outlet />
            </ToldProvider>
          </ServiceProvider>
        ) : (
          <Opening />
        )}
      </main>
    </>
  );
}

/** Says when the network is gone and what waits to be sent; nothing when all is well. */
function Network() {
  const { say } = useWords();
  const { offline } = useBookState();
  const waiting = useWaiting();
  return (
    <p className="network small" role="status">
      {offline && <span>{say("frame.offline")}</span>}
      {waiting > 0 && <span> {say("frame.waiting", { count: waiting })}</span>}
    </p>
  );
}

export function Lost() {
  const { say } = useWords();
  return (
    <div className="page">
      <h1>{say("frame.lost")}</h1>
      <p>
        <Link to="/run/$view" params={{ view: "plan" }}>
          {say("frame.lost.back")}
        </Link>
      </p>
    </div>
  );
}

/** Where a page could not be drawn: what stands, and the way on. */
export function Broken({ error }: { readonly error: unknown }) {
  const { say } = useWords();
  return (
    <div className="page">
      <h1>{say("frame.broken")}</h1>
      <p className="large">{say("frame.broken.mend")}</p>
      <p className="quiet">{error instanceof Error ? error.message : String(error)}</p>
      <p>
        <button type="button" className="button" onClick={() => location.reload()}>
          {say("frame.broken.again")}
        </button>
      </p>
    </div>
  );
}
