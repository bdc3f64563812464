import { useState } from "react";
import { Button } from "react-aria-components";
import { type LogLine, standing } from "../../../../core/safety/log-lines.ts";
import { useWords } from "../../../app/settings.tsx";
import { type Recorded, useLog } from "../../../offline/use-log.ts";
import { Choice } from "../../../parts/choice.tsx";
import { useRecordWords } from "../record-words.ts";
import { useMoment } from "../use-moment.ts";
import { CoversServed } from "./covers.tsx";
import { FromBoard } from "./from-board.tsx";
import { Measure } from "./measure.tsx";

const KINDS = ["trim", "cook", "pieces", "time", "covers"] as const;
type Kind = (typeof KINDS)[number];

/** What was weighed, counted and timed: two figures and a tap; corrections keep the first value (A7). */
export function WriteView() {
  const { say } = useWords();
  const { lines } = useLog();
  const [kind, setKind] = useState<Kind>("trim");
  const [correcting, setCorrecting] = useState<LogLine<Recorded>>();
  const lately = standing<Recorded>(lines, [kind]).toReversed().slice(0, 12);
  const measured = kind === "covers" ? undefined : kind;
  return (
    <div className="page">
      <Choice
        label={say("write.kind")}
        hideLabel
        value={kind}
        onChange={(next) => {
          setKind(next);
          setCorrecting(undefined);
        }}
        options={KINDS.map((one) => [one, say(`write.${one}`)] as const)}
      />
      {measured ? (
        <Measure
          key={`${measured} ${correcting?.id ?? ""}`}
          kind={measured}
          correcting={correcting}
          onDone={() => setCorrecting(undefined)}
        />
      ) : (
        <CoversServed />
      )}
      {kind === "time" && <FromBoard />}
      <h2 className="part">{say("write.lately")}</h2>
      {lately.length === 0 && <p className="quiet">{say("write.none")}</p>}
      <ol className="happened lately">
        {lately.map(({ first, now }) => (
          <li key={first.id}>
            <Moment at={first.at} />
            <span>
              {first.id !== now.id && (
                <>
                  <RecordSaid body={first.body} struck />{" "}
                </>
              )}
              <RecordSaid body={now.body} />
              <span className="quiet"> {now.by}</span>
            </span>
            {measured && (
              <Button className="button quiet-button" onPress={() => setCorrecting(now)}>
                {say("write.correct")}
              </Button>
            )}
          </li>
        ))}
      </ol>
    </div>
  );
}

function Moment({ at }: { readonly at: string }) {
  return <span className="quiet">{useMoment()(at)}</span>;
}

function RecordSaid({ body, struck }: { readonly body: Recorded; readonly struck?: boolean }) {
  const text = useRecordWords()(body);
  return struck ? <s>{text}</s> : <span>{text}</span>;
}
