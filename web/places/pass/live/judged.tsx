import { useSettings } from "../../../app/settings.tsx";
import { useLive } from "./use-live.ts";

/** What the inspector, by sums of its own, finds in the mended plan that the plan does not say. */
export function Judged() {
  const { findings, live } = useLive();
  const { say, write } = useSettings();
  if (!findings) return null;
  // Of a plan that nothing has happened to, nothing need be said.
  if (findings.length === 0 && live?.because === undefined) return null;
  if (findings.length === 0) return <p className="quiet live-judged-well">✓ {say("judged.well")}</p>;
  return (
    <section className="live-judged" aria-label={say("judged.title")}>
      <h2 className="board-part">▲ {say("judged.title")}</h2>
      <p className="board-text">{say("judged.what")}</p>
      <ul className="live-moves">
        {findings.slice(0, MOST).map((found) => (
          <li key={`${found.rule} ${found.what}`}>
            <span>{found.what}</span>
            <strong className="live-time">
              {found.unit === "min"
                ? write.span(found.by)
                : say("live.breaks.by", { by: write.number(found.by, 1), unit: found.unit })}
            </strong>
          </li>
        ))}
      </ul>
      {findings.length > MOST && (
        <p className="board-text">{say("judged.more", { count: findings.length - MOST })}</p>
      )}
    </section>
  );
}

/** Told one by one. */
const MOST = 6;
