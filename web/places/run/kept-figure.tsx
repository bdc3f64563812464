import { useState } from "react";
import { type Came, type KeptFigure, type KeptPlan, placeOf } from "../../../core/run/compare.ts";
import { useWords } from "../../app/settings.tsx";
import type { Told, Traced } from "../../compute/protocol.ts";
import { ruleWords } from "../../parts/trace.tsx";

/** Inputs of a figure that are kept with it. */
const MOST = 8;

const FIGURES: readonly KeptFigure[] = [
  ...(["covers", "spareMin", "breaches", "handsMinutes"] as const),
  ...(["peakHands", "heatUps", "holdsNearlyUsed", "costPerCover"] as const),
];

/** How the figures of a plan came, asked for when it is kept: later its trace is gone. */
export async function cameOf(
  told: Told,
  trace: (at: string) => Promise<Traced | undefined>,
  nameOf: (path: string) => string,
): Promise<NonNullable<KeptPlan["came"]>> {
  const came: Partial<Record<KeptFigure | "starts", Came>> = {};
  const keep = async (as: KeptFigure | "starts", at: string, of = MOST) => {
    const traced = await trace(at);
    if (!traced) return;
    const inputs = traced.inputs.flatMap(({ path, node }) =>
      node ? [{ name: nameOf(path), value: node.value, unit: node.unit }] : [],
    );
    came[as] = {
      rule: traced.node.rule,
      inputs: inputs.slice(0, of),
      more: Math.max(0, inputs.length - MOST),
    };
  };
  for (const figure of FIGURES) await keep(figure, placeOf(figure, told));
  // Problem, seed and schedules are those of all starts; the number of the task, last, is its own.
  if (told.plan.tasks.length > 0) await keep("starts", "/plan/tasks/0/startMin", 3);
  return came;
}

/** A figure of a kept plan: tapped, it says how it came when it was kept. */
export function KeptFigureView({
  came,
  children,
}: {
  readonly came: Came | undefined;
  readonly children: string;
}) {
  const { say, write } = useWords();
  const [open, setOpen] = useState(false);
  if (!came) return children;
  const value = (input: Came["inputs"][number]) =>
    input.unit === "" || input.unit === "1" ? write.number(input.value, 4) : write.quantity(input);
  return (
    <span className="figure-below">
      <button type="button" className="figure" aria-expanded={open} onClick={() => setOpen(!open)}>
        {children}
        <span className="unseen">, {say("trace.how")}</span>
      </button>
      {open && (
        <span className="trace">
          <span className="trace-rule">{ruleWords(came.rule, say)}</span>
          {came.inputs.map((input, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: the list is kept as it is
            <span key={i} className="trace-input">
              <span className="trace-name">{input.name}</span>
              <span className="trace-value">{value(input)}</span>
            </span>
          ))}
          {came.more > 0 && <span className="small quiet">{say("trace.more", { count: came.more })}</span>}
        </span>
      )}
    </span>
  );
}
