import { useEffect, useState, useSyncExternalStore } from "react";
import type { FromHeat, HeatTrial, ToHeat } from "../../../compute/heat-protocol.ts";
import { type HeatHand, HeatRunner, type HeatState } from "../../../compute/heat-runner.ts";

function makeHand(): HeatHand {
  const worker = new Worker(new URL("../../../heat-worker.ts", import.meta.url), { type: "module" });
  const hand: HeatHand = {
    onmessage: null,
    postMessage: (message: ToHeat) => worker.postMessage(message),
    terminate: () => worker.terminate(),
  };
  worker.onmessage = (event: MessageEvent<FromHeat>) => hand.onmessage?.({ data: event.data });
  return hand;
}

/** A runner as long as the part that uses it is on the page. */
export function useRunner(): { readonly runner: HeatRunner; readonly state: HeatState } {
  const [runner] = useState(() => new HeatRunner(makeHand));
  useEffect(() => () => runner.close(), [runner]);
  return { runner, state: useSyncExternalStore(runner.subscribe, runner.state) };
}

/** Keeps a trial computed: asked anew with every change of it. */
export function useTrial(trial: HeatTrial | undefined): {
  readonly runner: HeatRunner;
  readonly state: HeatState;
} {
  const used = useRunner();
  const { runner } = used;
  const said = JSON.stringify(trial);
  useEffect(() => {
    if (said !== undefined) runner.trial(JSON.parse(said) as HeatTrial);
  }, [runner, said]);
  return used;
}
