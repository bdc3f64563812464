import { Button } from "react-aria-components";
import type { LiveRemedy } from "../../../../core/production/live-remedies.ts";
import { useSettings } from "../../../app/settings.tsx";
import { Fold } from "../../../parts/fold.tsx";
import { useBoard, useLive } from "./use-live.ts";

/** What no longer fits, by how much, and what can be done about it. */
export function Breaks() {
  const { live, remedies, problems } = useLive();
  const { say, write } = useSettings();
  // That a course goes out later was somebody's own word: nothing has to be done about it.
  const called = live?.breaches.every(({ tasks }) => tasks.every((id) => id.startsWith("course/"))) ?? false;
  return (
    <>
      {problems.map((problem) => (
        <p key={problem.what} className="board-text harm" role="alert">
          ✕ {problem.what}. {problem.mend}.
        </p>
      ))}
      {live && live.breaches.length > 0 && (
        <section className="live-breaks" role="alert">
          <h2 className="board-part">
            {called ? `▲ ${say("live.called")}` : `✕ ${say("live.breaks", { count: live.breaches.length })}`}
          </h2>
          <ul className="live-moves">
            {live.breaches.map((broken) => (
              <li key={`${broken.rule} ${broken.tasks.join(" ")} ${broken.what}`}>
                <span>{broken.what}</span>
                <strong className="live-time">
                  {broken.unit === "min"
                    ? write.span(broken.by)
                    : say("live.breaks.by", { by: write.number(broken.by, 1), unit: broken.unit })}
                </strong>
              </li>
            ))}
          </ul>
          {!called && (
            <>
              <h3 className="board-part">{say("live.remedies")}</h3>
              {remedies === undefined && <p className="board-text quiet">{say("live.remedies.trying")}</p>}
              {remedies?.length === 0 && <p className="board-text">{say("live.remedies.none")}</p>}
            </>
          )}
          <ul>
            {remedies?.map((remedy) => (
              <OneRemedy key={remedy.change} remedy={remedy} />
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function OneRemedy({ remedy }: { readonly remedy: LiveRemedy }) {
  const board = useBoard();
  const { say } = useSettings();
  const others = remedy.moves.filter(({ task }) => !remedy.instead?.some((one) => one.tasks.includes(task)));
  return (
    <li className="live-remedy">
      <p className="board-text">
        <strong>{remedy.change}</strong>{" "}
        <span className={remedy.fits ? "done" : "decide"}>
          {remedy.fits ? `✓ ${say("live.remedies.fits")}` : `▲ ${remedy.result}`}
        </span>
        , {say("live.remedies.moves", { count: others.length })}.
        {remedy.instead && <span className="quiet"> {say("live.remedies.heat")}</span>}
      </p>
      {remedy.instead && (
        <Button
          className="board-button live-step"
          onPress={() =>
            board.say({
              kind: "instead",
              each: remedy.instead!.map(({ tasks, unit, parts }) => ({ tasks: [...tasks], unit, parts })),
            })
          }
        >
          {say("live.remedies.do")}
        </Button>
      )}
    </li>
  );
}

/** Entries nobody could follow, with the mend. */
export function Unfollowed() {
  const { live } = useLive();
  const { say } = useSettings();
  if (!live || live.unfollowed.length === 0) return null;
  return (
    <Fold summary={say("live.unfollowed", { count: live.unfollowed.length })}>
      <ul className="live-moves">
        {live.unfollowed.map(({ entry, what, mend }) => (
          <li key={`${entry} ${what}`}>
            <span>
              {what}. {mend}.
            </span>
          </li>
        ))}
      </ul>
    </Fold>
  );
}
