import { Button } from "react-aria-components";
import type { Estimate } from "../../../core/learning/learn.ts";
import { useWords } from "../../app/settings.tsx";
import { useRecord } from "../../offline/use-log.ts";
import { Table } from "../../parts/table.tsx";
import { useFigureWords } from "./figure-words.ts";
import { LearnedFigure } from "./learned-trace.tsx";
import { useMoment } from "./use-moment.ts";

/** How a learned figure came: what was believed before, each cook, each measurement. */
export function How({ estimate }: { readonly estimate: Estimate }) {
  const { say } = useWords();
  const { value } = useFigureWords();
  const moment = useMoment();
  const record = useRecord();
  const { prior, cooks, measured, spread } = estimate;
  const show = (of: number) => value(estimate, of);
  return (
    <div className="how">
      <h3>{say("learned.how")}</h3>
      <p>
        {say("learned.prior.book")}{" "}
        <LearnedFigure estimate={estimate} at="prior/value">
          {show(prior.value)}
        </LearnedFigure>{" "}
        ({say(`trace.kind.${prior.source}`)}), {say("learned.prior.counts")}{" "}
        <LearnedFigure estimate={estimate} at="prior/lots">
          {say("learned.prior.lots", { lots: prior.lots })}
        </LearnedFigure>
        . {say("learned.prior.spread")}{" "}
        <LearnedFigure estimate={estimate} at="spread">
          {show(spread)}
        </LearnedFigure>
        .
      </p>
      {cooks.length > 0 && (
        <Table heads={[[say("learned.cook")], [say("learned.lots"), "num"], [say("learned.figure"), "num"]]}>
          <tbody>
            {cooks.map((cook, c) => (
              <tr key={cook.by}>
                <th scope="row">{cook.by}</th>
                <td className="num">
                  <LearnedFigure estimate={estimate} at={`cooks/${c}/n`} over>
                    {cook.n}
                  </LearnedFigure>
                </td>
                <td className="num">
                  <LearnedFigure estimate={estimate} at={`cooks/${c}/value`} over>
                    {show(cook.value)}
                  </LearnedFigure>{" "}
                  <LearnedFigure estimate={estimate} at={`cooks/${c}/known`} over>
                    <span className="quiet">± {show(cook.known)}</span>
                  </LearnedFigure>
                </td>
              </tr>
            ))}
          </tbody>
        </Table>
      )}
      <h3>{say("learned.measured")}</h3>
      <ol className="happened">
        {measured.map(({ observation, value: one, leftOut }, i) => (
          <li key={observation.entry}>
            <span className="quiet">{moment(observation.at)}</span>
            <span>
              <LearnedFigure estimate={estimate} at={`measured/${i}/value`}>
                {leftOut === undefined ? show(one) : <s>{show(one)}</s>}
              </LearnedFigure>{" "}
              <span className="quiet">{observation.by}</span>
              {leftOut !== undefined && (
                <>
                  <span className="decide"> {say("learned.out", { reason: leftOut })}</span>{" "}
                  <Button
                    className="link-button"
                    onPress={() => record({ kind: "judged", entry: observation.entry, counts: true })}
                  >
                    {say("learned.again")}
                  </Button>
                </>
              )}
            </span>
          </li>
        ))}
      </ol>
    </div>
  );
}
