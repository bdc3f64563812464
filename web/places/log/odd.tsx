import { useState } from "react";
import { Button } from "react-aria-components";
import type { Estimate, Measured } from "../../../core/learning/learn.ts";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { useRecord } from "../../offline/use-log.ts";
import { TextEntry } from "../../parts/text-entry.tsx";
import { useFigureWords } from "./figure-words.ts";
import { LearnedFigure } from "./learned-trace.tsx";
import { useMoment } from "./use-moment.ts";

/** Asks about an odd measurement: only a person says that it does not count. */
export function Odd({ estimate, measured }: { readonly estimate: Estimate; readonly measured: Measured }) {
  const { say } = useWords();
  const { library } = useBook();
  const { value } = useFigureWords();
  const moment = useMoment();
  const record = useRecord();
  const [leaving, setLeaving] = useState(false);
  const { observation, p = 1 } = measured;
  const { body } = observation.line;
  const { entry } = observation;
  const others =
    body.kind === "trim"
      ? (library.ingredients.get(body.ingredient)?.cuts ?? []).filter(
          ({ id, trimYield }) => id !== body.cut && trimYield < 1,
        )
      : [];
  const perThousand = Math.round(p * 1000);
  return (
    <div className="odd" role="status">
      <p>
        <span className="decide">▲ </span>
        {say("learned.odd", {
          ...{ value: value(estimate, measured.value), date: moment(observation.at), by: observation.by },
          question: say(`learned.odd.${estimate.figure.kind}`),
        })}{" "}
        <span className="quiet">
          <LearnedFigure estimate={estimate} at={`measured/${estimate.measured.indexOf(measured)}/p`}>
            {say("learned.odd.chance", { p: perThousand < 1 ? "tiny" : String(perThousand) })}
          </LearnedFigure>
        </span>
      </p>
      {leaving ? (
        <TextEntry
          label={say("learned.odd.reason")}
          value=""
          onChange={(reason) =>
            reason.trim() !== "" && record({ kind: "judged", entry, counts: false, reason: reason.trim() })
          }
        />
      ) : (
        <div className="row wrap">
          <Button
            className="button quiet-button"
            onPress={() => record({ kind: "judged", entry, counts: true })}
          >
            {say("learned.odd.counts")}
          </Button>
          {body.kind === "trim" &&
            others.map((cut) => (
              <Button
                key={cut.id}
                className="button quiet-button"
                onPress={() =>
                  record({ ...body, cut: cut.id }, { by: observation.by, corrects: observation.line.id })
                }
              >
                {say("learned.odd.otherCut", { cut: cut.name.toLowerCase() })}
              </Button>
            ))}
          <Button className="button quiet-button" onPress={() => setLeaving(true)}>
            {say("learned.odd.out")}
          </Button>
        </div>
      )}
    </div>
  );
}
