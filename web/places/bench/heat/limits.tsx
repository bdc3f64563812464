import type { ReactNode } from "react";
import type { TargetLimit } from "../../../../core/heat/fill-target.ts";
import { useWords } from "../../../app/settings.tsx";
import type { HeatMore, LimitLine } from "../../../compute/heat-protocol.ts";

/** Each limit with what was computed for it, the margin, and whose limit it is. */
export function Limits({ more, food }: { readonly more: HeatMore; readonly food: string }) {
  const { say, write } = useWords();
  return (
    <section className="heat-limits">
      <h3>{say("heat.limits")}</h3>
      {more.limits.length === 0 ? (
        <p className="quiet">{say("heat.limits.none")}</p>
      ) : (
        <p className="quiet small">{say("heat.limits.plan", { time: write.span(more.planMinutes) })}</p>
      )}
      <ul className="rows">
        {more.limits.map((line) => (
          <li key={keyOf(line)}>{limit(line)}</li>
        ))}
      </ul>
      {food === "" && more.limits.length > 0 && <p className="quiet small">{say("heat.limits.food")}</p>}
    </section>
  );

  function limit(line: LimitLine): ReactNode {
    if (line.kind === "asked") return <Asked limit={line.limit} />;
    const source = `${line.source.doc}, ${line.source.table}`;
    if (line.kind === "cook") {
      const { option, met, heldSeconds, peakC } = line.judged;
      const hold = option.seconds > 0 ? write.span(option.seconds / 60) : "none";
      const name = say("heat.limit.pair", {
        food: say(`heat.food.${line.food}`),
        value: write.temperature(option.celsius),
        hold,
      });
      const hot = peakC - option.celsius;
      const margin =
        hot < 0 || option.seconds === 0
          ? write.kelvin(Math.abs(hot))
          : write.span(Math.abs(heldSeconds - option.seconds) / 60);
      const computed =
        option.seconds > 0
          ? say("heat.limit.held", { time: write.span(heldSeconds / 60), peak: write.temperature(peakC) })
          : say("heat.limit.took", { value: write.temperature(peakC) });
      return (
        <Judged
          name={name}
          computed={computed}
          state={met ? "met" : "missed"}
          margin={margin}
          source={source}
        />
      );
    }
    return line.judged.stages.map((stage) => (
      <Judged
        key={stage.toC}
        name={say("heat.limit.cool", {
          // The code counts both spans from the first temperature.
          from: write.temperature(line.judged.stages[0]!.fromC),
          to: write.temperature(stage.toC),
          within: write.span(stage.withinMin),
        })}
        computed={
          stage.minutes === null ? undefined : say("heat.limit.took", { value: write.span(stage.minutes) })
        }
        state={stage.state}
        margin={stage.state === "running" ? undefined : write.span(Math.abs(stage.spareMin))}
        source={source}
        more={
          stage.state === "missed" && line.judged.remedy !== "none"
            ? say("heat.limit.remedy", { remedy: line.judged.remedy })
            : undefined
        }
      />
    ));
  }
}

function Asked({ limit }: { readonly limit: TargetLimit }) {
  const { say, write } = useWords();
  const figure = (value: number) =>
    limit.what === "log10" ? write.number(value, 1) : write.temperature(value);
  const size = Math.abs(limit.margin);
  return (
    <Judged
      name={say(`heat.limit.${limit.what}`, {
        op: say(limit.op === ">=" ? "heat.limit.least" : "heat.limit.most"),
        value: figure(limit.limit),
      })}
      computed={say("heat.limit.took", { value: figure(limit.value) })}
      state={limit.met ? "met" : "missed"}
      margin={limit.what === "log10" ? `${write.number(size, 1)} log10` : write.kelvin(size)}
      source={say("heat.limit.asked", { n: limit.stage + 1 })}
    />
  );
}

function Judged({
  name,
  computed,
  state,
  margin,
  source,
  more,
}: {
  readonly name: string;
  readonly computed: string | undefined;
  readonly state: "met" | "missed" | "running";
  readonly margin: string | undefined;
  readonly source: string;
  readonly more?: string | undefined;
}) {
  const { say } = useWords();
  const mark = { met: "✓", missed: "✕", running: "▲" }[state];
  const tone = { met: "done", missed: "harm", running: "decide" }[state];
  return (
    <div className="heat-limit">
      <p>
        <strong>{name}</strong>
      </p>
      <p className={tone}>
        {mark} {say(`heat.limit.${state}`)}
        {margin && `, ${say(state === "met" ? "heat.limit.margin" : "heat.limit.short", { value: margin })}`}
      </p>
      <p className="quiet small">{[computed, source].filter(Boolean).join(" · ")}</p>
      {more && <p className="harm">{more}</p>}
    </div>
  );
}

function keyOf(line: LimitLine): string {
  return line.kind === "asked"
    ? `${line.limit.stage} ${line.limit.what} ${line.limit.op}`
    : `${line.kind} ${line.source.table}`;
}
