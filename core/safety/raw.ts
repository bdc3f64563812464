import type { Step } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";

/**
 * Least core temperature that ends an ingredient's being raw, °C; undefined when it is not raw as bought.
 * FDA Food Code 2022, 3-401.11: poultry (A)(3) 74, eggs not for immediate service (A)(2) 68, fish and whole
 * meat (A)(1) 63; milk by 21 CFR 1240.61, 72 for 15 s. A longer hold at less may do as much: it is not counted
 * here, since this rule decides for guests who must not be served undercooked food.
 */
export function cookedAtC(ingredient: Ingredient): number | undefined {
  const is = (origin: Ingredient["origin"][number]) => ingredient.origin.includes(origin);
  const limits = [
    is("raw-animal") && is("poultry") ? 74 : undefined,
    is("raw-egg") ? 68 : undefined,
    is("unpasteurised") ? 72 : undefined,
    is("raw-animal") ? 63 : undefined,
  ].filter((limit) => limit !== undefined);
  return limits.length > 0 ? Math.max(...limits) : undefined;
}

/** The core temperature a step is held to, °C: by its control limit or its heat target; undefined when none is. */
export function stepCoreC(step: Step): number | undefined {
  const found: number[] = [];
  const limits = step.control ? [step.control.limit, ...(step.control.and ?? [])] : [];
  for (const limit of limits)
    if (limit.what === "coreC" && (limit.op === ">=" || limit.op === ">")) found.push(limit.value);
  for (const stage of step.target?.stages ?? [])
    if (stage.untilCoreC !== undefined) found.push(stage.untilCoreC);
  return found.length > 0 ? Math.max(...found) : undefined;
}
