import type { HeatOutcome } from "../../../core/run/heat-outcome.ts";
import type { ControlPoint } from "../../../core/run/result.ts";
import { curveDrawing, PAGE_INK } from "../../../drawing/index.ts";
import { useEntries, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { type Entry, readings } from "../../offline/entry.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { placed } from "./predicted-time.ts";

/** The computed core at a control point, and beside it what was read there. */
export function Predicted({ point }: { readonly point: ControlPoint }) {
  const { plan, amounts } = useTold();
  const outcome = (plan ?? amounts)?.heat.find(
    (heat) => heat.preparation === point.preparation && heat.step === point.step && heat.curve.length > 1,
  );
  const limits = point.parts.filter((part) => part.what === "coreC");
  if (!outcome || limits.length === 0) return null;
  return <PredictedCurve point={point} outcome={outcome} limits={limits} />;
}

function PredictedCurve({
  point,
  outcome,
  limits,
}: {
  readonly point: ControlPoint;
  readonly outcome: HeatOutcome;
  readonly limits: ControlPoint["parts"];
}) {
  const names = useNames();
  const { say, write } = useWords();
  const { plan } = useTold();
  const { list } = useEntries();
  const here = useMaybeService();
  const { curve } = outcome;
  const ofPoint = (entry: Entry) => entry.preparation === point.preparation && entry.step === point.step;
  const tasks = (plan?.plan.tasks ?? []).flatMap((task) =>
    here && task.preparation === point.preparation && task.step === point.step
      ? [{ id: task.id, start: Date.parse(here.clock.zonedOf(task.startMin).replace(/\[.*/, "")) / 60_000 }]
      : [],
  );
  const read = readings(list).filter((reading) => ofPoint(reading.first));
  const { inside, outside } = placed(read, list, tasks, curve.at(-1)!.minute);
  const last = Math.max(curve.at(-1)!.minute, ...inside.map(([minute]) => minute));
  const all = [
    ...curve.flatMap((each) => [each.slowC, each.quickC]),
    ...inside.map(([, celsius]) => celsius),
    ...limits.map((limit) => limit.value),
  ];
  const end = curve.at(-1)!;
  return (
    <figure className="predicted">
      <figcaption className="field-label">{say("heat.predicted")}</figcaption>
      <Drawing
        of={curveDrawing(
          {
            points: inside,
            readings: true,
            lines: [
              { points: curve.map((each) => [each.minute, each.coreC] as const), name: say("heat.core") },
            ],
            area: [
              ...curve.map((each) => [each.minute, each.quickC] as const),
              ...curve.map((each) => [each.minute, each.slowC] as const).reverse(),
            ],
            limits: limits.map((limit) => ({
              y: limit.value,
              side: limit.op.startsWith(">") ? "below" : "above",
              name: write.temperature(limit.value),
            })),
            x: {
              from: 0,
              to: last,
              write: write.span,
              ...(last > 90 ? { step: last > 600 ? 120 : 30 } : {}),
            },
            y: {
              from: Math.floor(Math.min(...all) / 10) * 10,
              to: Math.ceil(Math.max(...all) / 10) * 10,
              write: write.temperature,
            },
            title: say("heat.predicted.title", {
              name: names.preparation(point.preparation),
              time: write.span(end.minute),
              slow: write.temperature(end.slowC),
              quick: write.temperature(end.quickC),
              count: inside.length,
            }),
            width: 460,
            height: 190,
          },
          PAGE_INK,
        )}
      />
      <p className="quiet small">
        {say("heat.predicted.legend")}
        {outside > 0 && ` ${say("heat.predicted.outside", { count: outside })}`}
      </p>
    </figure>
  );
}
