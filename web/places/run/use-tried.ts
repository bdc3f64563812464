import { useEffect, useState } from "react";
import type { Trial } from "../../../core/costing/what-if.ts";
import { useHands, useTold } from "../../app/hands.tsx";
import type { Tried } from "../../compute/protocol.ts";

/** What plates and menu cost as tried; the newest answer wins, and new amounts ask again. */
export function useTried(trial: Trial): Tried | undefined {
  const { runner } = useHands();
  const { amounts } = useTold();
  const [tried, setTried] = useState<Tried>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: `amounts` is what makes the question new
  useEffect(() => {
    let current = true;
    void runner.tryCost(trial).then((answer) => current && setTried(answer));
    return () => {
      current = false;
    };
  }, [runner, trial, amounts]);
  return tried;
}
