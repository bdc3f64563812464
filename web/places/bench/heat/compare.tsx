import { useWords } from "../../../app/settings.tsx";
import type { HeatTold, HeatTrial } from "../../../compute/heat-protocol.ts";
import { signed } from "./figures.tsx";
import { bandText } from "./outcome.ts";
import { log10Text, MOST_LOG10 } from "./pictures.tsx";
import { changesBetween, placeWords } from "./place-words.ts";

/** Two trials in figures: what was changed, and what came of it. */
export function Compare({
  trials,
  told,
}: {
  readonly trials: readonly [HeatTrial["input"], HeatTrial["input"]];
  readonly told: readonly [HeatTold, HeatTold];
}) {
  const { say, write } = useWords();
  const [a, b] = told;
  const changes = changesBetween(trials[0], trials[1], say, write);
  const rows = [
    row("heat.compare.total", (t) => t.result.totalMinutes, write.span),
    row("heat.compare.slow", (t) => t.result.band?.totalMinutes.high ?? undefined, write.span),
    row("heat.compare.core", (t) => t.result.stages.at(-1)!.coreC, write.temperature, write.kelvin),
    row("heat.compare.surface", (t) => t.result.stages.at(-1)!.surfaceC, write.temperature, write.kelvin),
    row("heat.compare.mean", (t) => t.result.stages.at(-1)!.meanC, write.temperature, write.kelvin),
    row("heat.compare.peak", (t) => t.more?.leftAlone?.peakC, write.temperature, write.kelvin),
    row(
      "heat.compare.log10",
      (t) => t.result.stages.at(-1)!.worstLog10,
      (value) => log10Text(value, write.number),
      (value) => write.number(value, 1),
      MOST_LOG10,
    ),
  ];
  return (
    <section className="heat-compare">
      <h2 className="part">{say("heat.compare")}</h2>
      {changes.length === 0 && <p className="quiet">{say("heat.compare.same")}</p>}
      <div className="heat-table">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">{say("heat.compare.what")}</th>
              {["A", "B"].map((side) => (
                <th key={side} scope="col" className="num">
                  {say("heat.compare.figure", { side })}
                </th>
              ))}
              <th scope="col" className="num">
                {say("heat.compare.difference")}
              </th>
            </tr>
          </thead>
          <tbody>
            {changes.map((change) => (
              <tr key={change.path}>
                <th scope="row">
                  <span className="decide">▲ {say("heat.compare.changed")}</span>{" "}
                  {placeWords(change.path, say)}
                </th>
                <td className="num">{change.a}</td>
                <td className="num">{change.b}</td>
                <td />
              </tr>
            ))}
            {rows}
          </tbody>
        </table>
      </div>
    </section>
  );

  function row(
    name: Parameters<typeof say>[0],
    of: (told: HeatTold) => number | undefined,
    text: (value: number) => string,
    difference: (value: number) => string = text,
    most = Number.POSITIVE_INFINITY,
  ) {
    const [left, right] = [of(a), of(b)];
    const both = left !== undefined && right !== undefined && Math.max(left, right) <= most;
    const total = name === "heat.compare.total";
    const cell = (value: number | undefined, side: HeatTold) => {
      if (value === undefined) return <span className="quiet">{say("heat.compare.none")}</span>;
      return total && side.result.band
        ? bandText({ say, write }, side.result.band.totalMinutes)
        : text(value);
    };
    return (
      <tr key={name}>
        <th scope="row">{say(name)}</th>
        <td className="num">{cell(left, a)}</td>
        <td className="num">{cell(right, b)}</td>
        <td className="num">{both && signed(right - left, difference)}</td>
      </tr>
    );
  }
}
