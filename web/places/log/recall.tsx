import { useState } from "react";
import { Button } from "react-aria-components";
import type { Recall } from "../../../core/safety/lots-recall.ts";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Empty } from "../../parts/empty.tsx";
import { Pick } from "../../parts/pick.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { type Plate, plateWords } from "./plate-words.ts";
import { BackAnswer, ForwardAnswer } from "./recall-answer.tsx";
import { useRecall } from "./use-lots.ts";

/** A lot: where it went. A plate or seat: what may be in it. One question, one sentence, lists to print. */
export function RecallView() {
  const { say } = useWords();
  const { recall, lines, offline } = useRecall();
  const [code, setCode] = useState("");
  const [plate, setPlate] = useState<Plate>();
  if (!recall) return <p className="page quiet">{say("log.reading.all")}</p>;
  if (recall.stock.lots.size === 0)
    return (
      <div className="page">
        <Empty title={say("recall.none")}>{say("recall.none.what")}</Empty>
      </div>
    );
  const found = code === "" ? [] : recall.lotsOf(code);
  return (
    <div className="page recall">
      <div className="recall-ask no-print">
        <TextEntry
          label={say("recall.lot")}
          className="lot-code"
          value={code}
          onChange={(next) => {
            setPlate(undefined);
            setCode(next.trim());
          }}
        />
        <Button className="button">{say("recall.lot.find")}</Button>
      </div>
      <AskPlate
        recall={recall}
        plate={plate}
        onAsk={(next) => {
          setCode("");
          setPlate(next);
        }}
      />
      {code !== "" && found.length === 0 && (
        <p className="harm large" role="alert">
          ✕ {say("recall.unknown", { code })}
        </p>
      )}
      <div className="recall-answer" aria-live="polite">
        {code !== "" && found.map((lot) => <ForwardAnswer key={lot.key} recall={recall} lot={lot} />)}
        {plate && <BackAnswer recall={recall} plate={plate} />}
      </div>
      {(found.length > 0 || plate) && (
        <p className="row wrap no-print recall-print">
          <Button className="button" onPress={() => window.print()}>
            {say("recall.print")}
          </Button>
        </p>
      )}
      <p className="quiet small">
        {say("recall.note")} {say("recall.ms", { lines })}
        {offline && ` ${say("log.offline")}`}
      </p>
    </div>
  );
}

function AskPlate({
  recall,
  plate,
  onAsk,
}: {
  readonly recall: Recall;
  readonly plate: Plate | undefined;
  readonly onAsk: (plate: Plate | undefined) => void;
}) {
  const { say, write } = useWords();
  const names = useNames();
  const newest = [...recall.shapes].toSorted(([, a], [, b]) => (a.to < b.to ? 1 : -1));
  const service = plate?.service ?? newest[0]?.[0];
  const shape = service === undefined ? undefined : recall.shapes.get(service);
  if (!service || !shape) return null;
  const rows = shape.plates.map((row, i) => [String(i), plateWords(say, names, row)] as const);
  const seats = plate ? (shape.plates[plate.row]?.seats ?? []) : [];
  return (
    <div className="recall-ask no-print">
      <Pick
        label={say("recall.seat")}
        value={service}
        options={newest.map(([id, one]) => [id, `${one.name}, ${write.date(one.to.slice(0, 10))}`] as const)}
        onChange={(id) => onAsk({ service: id, row: 0 })}
      />
      <Pick
        label={say("recall.plate")}
        value={plate ? String(plate.row) : ""}
        options={[["", say("recall.plate.none")] as const, ...rows]}
        onChange={(row) => onAsk(row === "" ? undefined : { service, row: Number(row) })}
      />
      {seats.length > 0 && plate && (
        <Pick
          label={say("recall.seatOf")}
          value={plate.seat ?? ""}
          options={[["", say("recall.seat.none")] as const, ...seats.map((seat) => [seat, seat] as const)]}
          onChange={(seat) => onAsk({ service, row: plate.row, ...(seat === "" ? {} : { seat }) })}
        />
      )}
    </div>
  );
}
