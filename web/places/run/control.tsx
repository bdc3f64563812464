import { Link } from "@tanstack/react-router";
import type { ControlPoint } from "../../../core/run/result.ts";
import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Predicted } from "./predicted.tsx";

/** Critical control points, then good practice checks: hazard, limit, how to watch, what to do. */
export function ControlPoints() {
  const { plan, amounts } = useTold();
  const { say } = useWords();
  const points = (plan ?? amounts)?.control ?? [];
  if (points.length === 0)
    return (
      <div className="page">
        <Empty title={say("control.none")}>{say("control.none.what")}</Empty>
      </div>
    );
  const of = (level: ControlPoint["level"]) => points.filter((point) => point.level === level);
  return (
    <div className="page sheet-page">
      {(["critical", "practice"] as const).map(
        (level) =>
          of(level).length > 0 && (
            <section key={level}>
              <h2 className="part">{say(`control.${level}`)}</h2>
              {of(level).map((point) => (
                <Point key={`${point.preparation} ${point.step} ${point.limit}`} point={point} />
              ))}
            </section>
          ),
      )}
      <p className="no-print">
        <Link to="/log">{say("control.log")}</Link>
      </p>
    </div>
  );
}

function Point({ point }: { readonly point: ControlPoint }) {
  const names = useNames();
  const { say, write } = useWords();
  return (
    <article className="control">
      <h3>
        {names.item(point.preparation)} <span className="quiet">{point.hazard}</span>
      </h3>
      <p className="large">
        <strong>{point.limit}</strong>
        {point.when && (
          <span className="quiet"> {/^D/.test(point.when) ? write.clock(point.when) : point.when}</span>
        )}
      </p>
      <dl className="pairs">
        <dt>{say("control.monitor")}</dt>
        <dd>{point.monitor}</dd>
        <dt>{say("control.corrective")}</dt>
        <dd>{point.corrective}</dd>
        <dt>{say("control.record")}</dt>
        <dd>{point.record}</dd>
      </dl>
      <Predicted point={point} />
      {point.note && <p className="decide">▲ {point.note}</p>}
      {point.source && <p className="quiet small">{point.source}</p>}
    </article>
  );
}
