import { figureKey } from "../../../core/learning/figures.ts";
import type { Estimate } from "../../../core/learning/learn.ts";
import { useWords } from "../../app/settings.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Line } from "../../parts/line.tsx";
import { Accept } from "./accept.tsx";
import { EffectNote } from "./effect-note.tsx";
import { useFigureWords } from "./figure-words.ts";
import { How } from "./how.tsx";
import { LearnedFigure, LearnedTrace } from "./learned-trace.tsx";
import { Odd } from "./odd.tsx";
import { useLearned } from "./use-learned.ts";

/** What the log tells of the book: each figure beside the book's, to be taken over one by one. Never by itself. */
export function LearnedView() {
  const { say } = useWords();
  const { estimates, offline, effectOf } = useLearned();
  if (!estimates) return <p className="page quiet">{say("log.reading.all")}</p>;
  if (estimates.length === 0)
    return (
      <div className="page">
        <Empty title={say("learned.none")}>{say("learned.none.what")}</Empty>
      </div>
    );
  const asked = estimates.flatMap(({ measured }) => measured).filter((one) => one.asked).length;
  return (
    <div className="page">
      <p className="large">
        {say("learned.sentence", {
          ...{ count: estimates.length, off: estimates.filter(isOff).length, asked },
        })}
        {offline && <span className="quiet"> {say("log.offline")}</span>}
      </p>
      {estimates.map((estimate) => (
        <Learned key={figureKey(estimate.figure)} estimate={estimate} effectOf={effectOf} />
      ))}
    </div>
  );
}

/** Whether the book stands off by more than the measuring itself is unsure. */
function isOff({ value, was, known }: Estimate): boolean {
  return Math.abs(value - was) > known;
}

function Learned({
  estimate,
  effectOf,
}: {
  readonly estimate: Estimate;
  readonly effectOf: ReturnType<typeof useLearned>["effectOf"];
}) {
  const { say } = useWords();
  const { sentence, value, moves } = useFigureWords();
  const { n, cooks, next, known, measured } = estimate;
  return (
    <LearnedTrace estimate={estimate}>
      <Line
        className="learned"
        mark={measured.some(({ asked }) => asked) ? <span className="decide">▲</span> : undefined}
        margin={
          <ul className="plain small">
            <li>
              <LearnedFigure estimate={estimate} at="n">
                {say("learned.n", { n, cooks: cooks.length })}
              </LearnedFigure>
            </li>
            <li>
              <LearnedFigure estimate={estimate} at="value">
                {value(estimate, estimate.value)}
              </LearnedFigure>{" "}
              <LearnedFigure estimate={estimate} at="known">
                {say("learned.known", { known: value(estimate, known) })}
              </LearnedFigure>
            </li>
            <li className="quiet">
              {say("learned.next.lot")}{" "}
              <LearnedFigure estimate={estimate} at="next/0">
                {value(estimate, next[0])}
              </LearnedFigure>
              {" – "}
              <LearnedFigure estimate={estimate} at="next/1">
                {value(estimate, next[1])}
              </LearnedFigure>
            </li>
          </ul>
        }
      >
        <Fold
          summary={<span className={isOff(estimate) ? "learned-off" : "quiet"}>{sentence(estimate)}</span>}
        >
          {moves(estimate) && (
            <>
              <EffectNote estimate={estimate} effectOf={effectOf} />
              <Accept estimate={estimate} />
            </>
          )}
          <How estimate={estimate} />
        </Fold>
        {measured
          .filter(({ asked }) => asked)
          .map((one) => (
            <Odd key={one.observation.entry} estimate={estimate} measured={one} />
          ))}
      </Line>
    </LearnedTrace>
  );
}
