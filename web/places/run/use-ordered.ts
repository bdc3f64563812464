import { useTold } from "../../app/hands.tsx";
import type { Told } from "../../compute/protocol.ts";

/**
 * The result whose orders are shown: the plan's, once it belongs to what is asked; until then those of the quick answer,
 * which takes everything as needed on the first day.
 */
export function useOrdered(): { readonly told: Told | undefined; readonly early: boolean } {
  const { amounts, plan, behind } = useTold();
  return behind || !plan ? { told: amounts, early: true } : { told: plan, early: false };
}
