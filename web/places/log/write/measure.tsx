import { useState } from "react";
import { Button } from "react-aria-components";
import type { Unit } from "../../../../core/quantity/index.ts";
import type { LogLine } from "../../../../core/safety/log-lines.ts";
import { useBook, useTold } from "../../../app/hands.tsx";
import { useNames } from "../../../app/names.ts";
import { useService } from "../../../app/service.tsx";
import { useSettings } from "../../../app/settings.tsx";
import { type Recorded, useRecord } from "../../../offline/use-log.ts";
import { Pick } from "../../../parts/pick.tsx";
import { FigureEntry, typedIn } from "../figure-entry.tsx";
import { type Measurable, measurables } from "./options.ts";

type Kind = "trim" | "cook" | "pieces" | "time";

/** The two figures of each kind of measurement, in the order they are taken. */
const FIGURES = {
  trim: ["write.ap", "write.ep", "g", "g"],
  cook: ["write.in", "write.out", "g", "g"],
  pieces: ["write.count", "write.mass", "piece", "g"],
  time: ["write.planned", "write.actual", "min", "min"],
} as const;

/** Two figures and a tap. */
export function Measure({
  kind,
  correcting,
  onDone,
}: {
  readonly kind: Kind;
  /** The record to be corrected, as it stands. */
  readonly correcting?: LogLine<Recorded> | undefined;
  readonly onDone: () => void;
}) {
  const { say, write, settings } = useSettings();
  const { library } = useBook();
  const { plan, amounts } = useTold();
  const { kitchen } = useService();
  const names = useNames();
  const record = useRecord();
  const told = plan ?? amounts;
  const options = told ? measurables(kind, told, library, names) : [];
  const before = correcting && figuresOf(correcting.body);
  const [chosen, setChosen] = useState(before?.id ?? "");
  const [by, setBy] = useState(correcting?.by ?? settings.name);
  const here = options.find(({ id }) => id === chosen) ?? (before ? undefined : options[0]);
  const planned = kind === "time" && here?.book !== undefined ? String(here.book) : "";
  const [first, setFirst] = useState(before?.first ?? "");
  const [second, setSecond] = useState(before?.second ?? "");
  const [tried, setTried] = useState(false);
  if (!told) return <p className="quiet">{say("run.computing")}</p>;
  if (options.length === 0 && !correcting) return <p className="quiet">{say("write.nothing")}</p>;
  const [firstLabel, secondLabel, firstUnit, secondUnit] = FIGURES[kind];
  const firstTyped = first === "" ? planned : first;
  const [a, b] = [typedIn(firstTyped, firstUnit), typedIn(second, secondUnit)];
  const epMore = kind === "trim" && a !== undefined && b !== undefined && b > a;
  const wrong = (typed: string, value: number | undefined, unit: Unit) =>
    tried && value === undefined
      ? say(unit === "g" ? "write.wrong" : "write.wrong.count", { typed })
      : undefined;
  const submit = () => {
    setTried(true);
    const id = here?.id ?? before?.id;
    if (a === undefined || b === undefined || epMore || !id) return;
    const [of = "", part = ""] = id.split("/");
    record(bodyOf(kind, of, part, a, b), {
      ...(by === "" ? {} : { by }),
      ...(correcting ? { corrects: correcting.id } : {}),
    });
    setFirst("");
    setSecond("");
    setTried(false);
    onDone();
  };
  return (
    <form
      className="measuring"
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <div className="row wrap">
        {options.length > 0 && (
          <Pick
            label={say("write.which")}
            value={here?.id ?? ""}
            options={options.map(({ id, name }) => [id, name] as const)}
            onChange={setChosen}
          />
        )}
        <Pick
          label={say("write.who")}
          value={by}
          options={[...new Set([...kitchen.crew.map(({ name }) => name), ...(by === "" ? [] : [by])])].map(
            (name) => [name, name] as const,
          )}
          onChange={setBy}
        />
      </div>
      <div className="row wrap measure-figures">
        <FigureEntry
          label={say(firstLabel)}
          typed={firstTyped}
          unit={firstUnit}
          onType={setFirst}
          wrong={wrong(firstTyped, a, firstUnit)}
        />
        <FigureEntry
          label={say(secondLabel)}
          typed={second}
          unit={secondUnit}
          onType={setSecond}
          wrong={epMore ? say("write.epMore") : wrong(second, b, secondUnit)}
        />
        <Button type="submit" className="button big-button">
          {say(correcting ? "write.correction" : "write.down")}
        </Button>
        {correcting && (
          <Button className="button quiet-button" onPress={onDone}>
            {say("write.cancel")}
          </Button>
        )}
      </div>
      {a !== undefined && b !== undefined && !epMore && here?.book !== undefined && kind !== "time" && (
        <p className="quiet" role="status">
          {say("write.yield", comparison(kind, a, b, here, write))}
        </p>
      )}
      {kind === "cook" && <p className="quiet">{say("write.cook.what")}</p>}
    </form>
  );
}

function comparison(
  kind: Exclude<Kind, "time">,
  a: number,
  b: number,
  { book = 0 }: Measurable,
  write: ReturnType<typeof useSettings>["write"],
) {
  return kind === "pieces"
    ? { share: write.mass(b / a), book: write.mass(book) }
    : { share: write.share(b / a), book: write.share(book) };
}

function bodyOf(kind: Kind, of: string, part: string, a: number, b: number): Recorded {
  switch (kind) {
    case "trim":
      return { kind, ingredient: of, cut: part, apG: a, epG: b };
    case "cook":
      return { kind, preparation: of, step: part, inG: a, outG: b };
    case "pieces":
      return { kind, ingredient: of, piece: part, pieces: a, g: b };
    case "time":
      return { kind, preparation: of, step: part, plannedMin: a, actualMin: b };
  }
}

function figuresOf(body: Recorded): { id: string; first: string; second: string } | undefined {
  const of = (a: string, b: string, x: number, y: number) => ({
    id: `${a}/${b}`,
    first: String(x),
    second: String(y),
  });
  switch (body.kind) {
    case "trim":
      return of(body.ingredient, body.cut, body.apG, body.epG);
    case "cook":
      return of(body.preparation, body.step, body.inG, body.outG);
    case "pieces":
      return of(body.ingredient, body.piece, body.pieces, body.g);
    case "time":
      return of(body.preparation, body.step, body.plannedMin, body.actualMin);
    default:
      return undefined;
  }
}
