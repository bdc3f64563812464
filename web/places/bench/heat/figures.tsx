import { organisms } from "../../../../core/heat/organisms.ts";
import type { SpreadInput } from "../../../../core/heat/spread.ts";
import { wordFor } from "../../../../words/catalogue.ts";
import { useWords } from "../../../app/settings.tsx";
import type { HeatTold } from "../../../compute/heat-protocol.ts";
import { Fold } from "../../../parts/fold.tsx";
import { stageName } from "./outcome.ts";
import { log10Text } from "./pictures.tsx";

/** The end of each stage for the quick piece, the one as written and the slow one, and what moves it most. */
export function BandTable({ told }: { readonly told: HeatTold }) {
  const { say, write } = useWords();
  const { band, stages } = told.result;
  if (!band) return null;
  const never = say("heat.band.never");
  const input = (name: SpreadInput | "none") => say(`heat.input.${name}`);
  return (
    <section>
      <h3>{say("heat.band")}</h3>
      <div className="heat-table">
        <table className="table small-table">
          <thead>
            <tr>
              <th scope="col">{say("heat.stages")}</th>
              {(["quick", "mid", "slow"] as const).map((end) => (
                <th key={end} scope="col" className="num">
                  {say(`heat.band.${end}`)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {band.stages.map((stage, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the place in the list is the stage
              <tr key={i}>
                <th scope="row">
                  {stageName(told.input.stages[i]!, i, say, (id) => wordFor(say, "heat.medium", id))}
                </th>
                <Cell minutes={stage.minutes.low} core={stage.coreC.low} log10={stage.log10.low} />
                <Cell minutes={stages[i]!.minutes} core={stages[i]!.coreC} log10={stages[i]!.worstLog10} />
                {stage.minutes.high === null || stage.coreC.high === null || stage.log10.high === null ? (
                  <td className="num decide">▲ {never}</td>
                ) : (
                  <Cell minutes={stage.minutes.high} core={stage.coreC.high} log10={stage.log10.high} />
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        <strong>{say("heat.band.driver", { input: input(band.driver) })}</strong>
      </p>
      <ul className="plain small quiet">
        {band.moves.map((move) => (
          <li key={move.input}>
            {move.minutes === null
              ? say("heat.band.aloneNever", { input: input(move.input) })
              : say("heat.band.alone", {
                  input: input(move.input),
                  minutes: signed(move.minutes, write.span),
                  kelvin: signed(move.coreC ?? 0, write.kelvin),
                })}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Cell(end: { readonly minutes: number; readonly core: number; readonly log10: number }) {
  const { write } = useWords();
  return (
    <td className="num">
      {write.span(end.minutes)}
      <br />
      {write.temperature(end.core)}
      <br />
      <span className="quiet">{log10Text(end.log10, write.number)} log10</span>
    </td>
  );
}

/** What should be known: the notes of the computation, where the organism's figures come from, how true it is. */
export function Notes({ told }: { readonly told: HeatTold }) {
  const { say, write } = useWords();
  const { notes, judgedBy, error } = told.result;
  const counted = organisms.find(
    (each) => judgedBy === `D ${each.dMinutes} min at ${each.referenceC} °C, z ${each.zC} K`,
  );
  return (
    <Fold summary={say("heat.notes")}>
      <ul className="rows">
        {notes.map((note) => (
          <li key={note.text}>{note.text}</li>
        ))}
        {counted && (
          <li>
            {say("heat.lethalitySource", {
              name: counted.name,
              food: counted.food,
              doc: counted.source.doc,
              low: write.temperature(counted.rangeC[0]),
              high: write.temperature(counted.rangeC[1]),
            })}
          </li>
        )}
        <li>
          {say("heat.error", {
            celsius: write.kelvin(Math.max(0.1, error.celsius)),
            share: write.share(Math.max(0.001, error.ofMinutes)),
          })}
        </li>
      </ul>
    </Fold>
  );
}

/** A difference with its sign. */
export function signed(value: number, write: (value: number) => string): string {
  const size = write(Math.abs(value));
  if (size === write(0)) return size;
  return value > 0 ? `+${size}` : `−${size}`;
}
