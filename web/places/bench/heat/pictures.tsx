import { useRef, useState } from "react";
import { Label, Slider, SliderThumb, SliderTrack } from "react-aria-components";
import { curveDrawing, heatSectionDrawing, PAGE_INK, thicknessOf } from "../../../../drawing/index.ts";
import { textWidth } from "../../../../drawing/text.ts";
import { useWords } from "../../../app/settings.tsx";
import type { HeatTold } from "../../../compute/heat-protocol.ts";
import { Drawing } from "../../../parts/drawing.tsx";
import { useWidth } from "../../../parts/use-size.ts";
import { pointAt, profileAt } from "./moment.ts";

/** What two trials share so that they can be compared by eye. */
export interface Scales {
  readonly celsius: readonly [number, number];
  readonly minutes: number;
  readonly pxPerMm: number;
}

/** Nobody counts further, log10. */
export const MOST_LOG10 = 12;

/** Curves along time, and the piece cut through at the moment that the slider stands at. */
export function Pictures({ told, scales }: { readonly told: HeatTold; readonly scales: Scales }) {
  const { say, write } = useWords();
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const { result, input } = told;
  const [moment, setMoment] = useState<number>();
  const minute = Math.min(moment ?? result.totalMinutes, result.totalMinutes);
  const now = pointAt(result.curve, minute);
  const profile = profileAt(result.profiles, minute);
  const shape = say(`heat.shape.${input.shape.kind}`);
  const at = {
    shape,
    time: write.span(minute),
    core: write.temperature(now.coreC),
    surface: write.temperature(now.surfaceC),
  };
  return (
    <div className="heat-pictures" ref={box}>
      {width > 0 && <Curves told={told} scales={scales} minute={minute} width={width} />}
      <Slider
        className="heat-slider"
        minValue={0}
        maxValue={result.totalMinutes}
        step={result.totalMinutes / 200}
        value={minute}
        onChange={(next) => setMoment(next as number)}
      >
        <Label className="field-label">{say("heat.moment")}</Label>
        <SliderTrack className="track">
          <SliderThumb className="thumb" />
        </SliderTrack>
      </Slider>
      <dl className="heat-now" aria-live="off">
        <dt>{say("heat.at", { time: at.time })}</dt>
        <dd>
          {say("heat.core")} <strong>{at.core}</strong>
        </dd>
        <dd>
          {say("heat.surface")} <strong>{at.surface}</strong>
        </dd>
        <dd>
          {say("heat.mean")} <strong>{write.temperature(now.meanC)}</strong>
        </dd>
        <dd>
          log10 <strong>{log10Text(now.worstLog10, write.number)}</strong>
        </dd>
      </dl>
      <div className="heat-cut">
        <Drawing
          of={heatSectionDrawing(
            {
              piece: input.shape,
              mm: profile.mm,
              celsius: profile.celsius,
              from: scales.celsius[0],
              to: scales.celsius[1],
              pxPerMm: scales.pxPerMm,
              title: say("heat.cut.title", at),
              writeC: write.temperature,
              writeMm: write.length,
            },
            PAGE_INK,
          )}
        />
      </div>
    </div>
  );
}

function Curves({
  told,
  scales,
  minute,
  width,
}: {
  readonly told: HeatTold;
  readonly scales: Scales;
  readonly minute: number;
  readonly width: number;
}) {
  const { say, write } = useWords();
  const { result, input, more } = told;
  const line = (key: "coreC" | "surfaceC" | "meanC") =>
    result.curve.map((point) => [point.minute, point[key]] as const);
  const end = result.curve.at(-1)!;
  let ended = 0;
  const ends = result.stages.slice(0, -1).map((stage) => {
    ended += stage.minutes;
    return { x: ended };
  });
  const uprights = [...ends, { x: minute, strong: true }];
  const x = {
    from: 0,
    to: scales.minutes,
    write: write.span,
    ...(scales.minutes > 90 ? { step: scales.minutes > 600 ? 120 : 30 } : {}),
  };
  const targets = input.stages.flatMap((stage) => stage.untilCoreC ?? stage.untilPeakCoreC ?? []);
  const target = targets.at(-1);
  const cools = target !== undefined && target < input.startC;
  const names = (["heat.core", "heat.surface", "heat.mean", "heat.worst"] as const).map((key) => say(key));
  const room = Math.max(...names.map((name) => textWidth(name, 14)));
  const most = Math.min(MOST_LOG10, Math.max(8, ...result.curve.map((point) => point.worstLog10)));
  const counted = result.curve.filter((point) => point.worstLog10 <= most);
  return (
    <>
      <figure>
        <figcaption className="field-label">{say("heat.curve")}</figcaption>
        <Drawing
          of={curveDrawing(
            {
              points: line("coreC"),
              name: say("heat.core"),
              lines: [
                { points: line("surfaceC"), name: say("heat.surface"), dash: "7 4" },
                { points: line("meanC"), name: say("heat.mean"), dash: "2 3" },
              ],
              ...(more?.slow && more.quick ? { area: [...more.quick, ...more.slow.toReversed()] } : {}),
              limits:
                target === undefined
                  ? []
                  : [{ y: target, side: cools ? "above" : "below", name: write.temperature(target) }],
              uprights,
              x,
              y: { from: scales.celsius[0], to: scales.celsius[1], write: write.temperature },
              title: say("heat.curve.title", {
                time: write.span(result.totalMinutes),
                core: write.temperature(end.coreC),
                surface: write.temperature(end.surfaceC),
              }),
              room,
              width,
              height: 260,
            },
            PAGE_INK,
          )}
        />
        <p className="quiet small">{say("heat.legend")}</p>
      </figure>
      <figure>
        <figcaption className="field-label">{say("heat.lethality")}</figcaption>
        <Drawing
          of={curveDrawing(
            {
              points: counted.map((point) => [point.minute, point.worstLog10] as const),
              name: say("heat.worst"),
              limits: lethalityAsked(told).map((y) => ({
                y,
                side: "below",
                name: `${write.number(y)} log10`,
              })),
              uprights,
              x,
              y: { from: 0, to: most, write: (value) => write.number(value) },
              title: say("heat.lethality.title", { value: log10Text(end.worstLog10, write.number) }),
              room,
              width,
              height: 150,
            },
            PAGE_INK,
          )}
        />
        {counted.length < result.curve.length && (
          <p className="quiet small">{say("heat.lethality.beyond", { most: MOST_LOG10 })}</p>
        )}
      </figure>
    </>
  );
}

function lethalityAsked({ input }: HeatTold): number[] {
  return input.stages.flatMap((stage) => {
    if (stage.untilLog10) return [stage.untilLog10.log10];
    return stage.untilTable ? [Number(stage.untilTable.table.match(/[\d.]+$/)?.[0])] : [];
  });
}

/** log10 to a tenth; beyond what anyone counts only that it is more. */
export function log10Text(value: number, number: (value: number, digits?: number) => string): string {
  return value > MOST_LOG10 ? `> ${MOST_LOG10}` : number(value, value < 1 ? 2 : 1);
}

export function scalesOf(
  all: readonly HeatTold[],
  rangeOf: (result: HeatTold["result"]) => readonly [number, number],
): Scales {
  const ranges = all.map(({ result }) => rangeOf(result));
  return {
    celsius: [Math.min(...ranges.map(([low]) => low)), Math.max(...ranges.map(([, high]) => high))],
    minutes: Math.max(
      ...all.map(({ result, more }) => Math.max(result.totalMinutes, more?.slow?.at(-1)?.[0] ?? 0)),
    ),
    pxPerMm: Math.min(
      ...all.map(({ input: { shape } }) => {
        const flat = shape.kind === "slab" || shape.kind === "brick";
        return Math.min((flat ? 140 : 240) / thicknessOf(shape), 12);
      }),
    ),
  };
}
