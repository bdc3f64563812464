import { useState } from "react";
import { Button } from "react-aria-components";
import { type ListLine, SURE } from "../../../../core/intake/index.ts";
import { useBook } from "../../../app/hands.tsx";
import { useNames } from "../../../app/names.ts";
import { useWords } from "../../../app/settings.tsx";
import type { Intake } from "../../../compute/intake-protocol.ts";
import { FindPick } from "../../../parts/find-pick.tsx";
import { Fold } from "../../../parts/fold.tsx";
import { Line } from "../../../parts/line.tsx";
import { UsableFigure } from "../usable-figure.tsx";

/** Rows drawn at once; a list may have ten thousand. */
const STEP = 40;

interface Shown {
  readonly line: ListLine;
  readonly at: number;
  readonly asks: readonly string[];
}

/** The rows of a list: what must be settled first, then what changes, what is new, what stays. */
export function ListRows({
  told,
  currency,
  ties,
  onTie,
}: {
  readonly told: Intake["list"]["told"];
  readonly currency: string;
  readonly ties: Readonly<Record<number, string | null>>;
  readonly onTie: (row: number, ingredient: string | null) => void;
}) {
  const { say } = useWords();
  const asks = new Map<string, string[]>();
  for (const { path, ask } of told.doubts) asks.set(path, [...(asks.get(path) ?? []), ask]);
  const groups = { settle: [], changed: [], new: [], same: [], left: [] } as Record<string, Shown[]>;
  told.lines.forEach((line, at) => {
    const own = (asks.get(`/rows/${at}`) ?? []).map((ask) => ask.replace(`${line.row.description}: `, ""));
    const name = !line.tie
      ? ties[at] === null
        ? "left"
        : "settle"
      : line.tie.confidence < SURE
        ? "settle"
        : line.compared!.state;
    groups[name]!.push({ line, at, asks: own });
  });
  const whole = asks.get("") ?? [];
  return (
    <>
      {whole.map((ask) => (
        <p key={ask} className="decide">
          ▲ {ask}
        </p>
      ))}
      {(["settle", "changed", "new"] as const).map(
        (name) =>
          groups[name]!.length > 0 && (
            <section key={name}>
              <h2 className="part">{say(`list.${name}`, { count: groups[name]!.length })}</h2>
              <Rows shown={groups[name]!} currency={currency} onTie={onTie} />
            </section>
          ),
      )}
      {(["same", "left"] as const).map(
        (name) =>
          groups[name]!.length > 0 && (
            <Fold key={name} summary={say(`list.${name}`, { count: groups[name]!.length })}>
              <Rows shown={groups[name]!} currency={currency} onTie={onTie} />
            </Fold>
          ),
      )}
    </>
  );
}

function Rows({
  shown,
  currency,
  onTie,
}: {
  readonly shown: readonly Shown[];
  readonly currency: string;
  readonly onTie: (row: number, ingredient: string | null) => void;
}) {
  const { say } = useWords();
  const [most, setMost] = useState(STEP);
  return (
    <>
      {shown.slice(0, most).map((one) => (
        <Row key={one.at} shown={one} currency={currency} onTie={(id) => onTie(one.at, id)} />
      ))}
      {shown.length > most && (
        <Button className="link-button" onPress={() => setMost(most + 5 * STEP)}>
          {say("list.more", { count: shown.length - most })}
        </Button>
      )}
    </>
  );
}

function Row({
  shown: { line, asks },
  currency,
  onTie,
}: {
  readonly shown: Shown;
  readonly currency: string;
  readonly onTie: (ingredient: string | null) => void;
}) {
  const { say, write } = useWords();
  const { book } = useBook();
  const names = useNames();
  const { row, tie, compared } = line;
  const change = compared?.changePercent;
  return (
    <Line
      className="list-row"
      mark={change === undefined ? undefined : percent(change, write.number)}
      margin={
        compared && (
          <div className="list-figures">
            {compared.usable && (
              <p>
                <UsableFigure usable={compared.usable} currency={currency} /> {say("list.usable")}
              </p>
            )}
            {compared.oldUsable && compared.state === "changed" && (
              <p className="quiet">
                {say("list.was", { price: write.money(compared.oldUsable.perKg, currency) })}
                {change !== undefined && <strong className="change"> {percent(change, write.number)}</strong>}
              </p>
            )}
          </div>
        )
      }
    >
      <span className="list-said">
        <span>
          {row.description}
          <span className="quiet small block">
            {row.packText}
            {row.catchWeight && `, ${say("list.catch")}`}
            {row.code && ` · ${row.code}`} · {say("list.line", { at: row.at })}
          </span>
        </span>
        <span className="num">{write.money(row.price, currency)}</span>
      </span>
      {asks.map((ask) => (
        <p key={ask} className="decide small">
          ▲ {ask}
        </p>
      ))}
      <div className="row wrap">
        <FindPick
          label={say("list.tie", { name: row.description })}
          text={tie ? names.ingredient(tie.ingredient) : say("list.tie.none")}
          list={book.ingredients}
          onPick={onTie}
        />
        {tie && tie.confidence < SURE && (
          <Button className="button quiet-button" onPress={() => onTie(tie.ingredient)}>
            {say("list.tie.yes")}
          </Button>
        )}
        <Button className="link-button" onPress={() => onTie(null)}>
          {say("list.tie.leave")}
        </Button>
      </div>
    </Line>
  );
}

const percent = (value: number, number: (value: number, digits: number) => string) =>
  `${value < 0 ? "−" : "+"}${number(Math.abs(value), 1)} %`;
