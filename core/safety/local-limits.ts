import type { Handled, LimitPart } from "../heat/control-points.ts";
import type { Kitchen } from "../production/schema.ts";

/** Words by which a kitchen's local limit is known, °C or minutes as they end. */
export const LOCAL_LIMITS = [
  "poultryCoreC",
  "mincedCoreC",
  "eggCoreC",
  "fishCoreC",
  "meatCoreC",
  "reheatCoreC",
  "reheatMin",
  "hotHoldC",
  "coldHoldC",
  "coolTo21Min",
  "coolTo5Min",
] as const;
export type LocalLimit = (typeof LOCAL_LIMITS)[number];

/** Of a part of a limit: the local limits of its figure and of its minutes. */
export function localNames(handled: Handled, part: LimitPart): { value?: LocalLimit; within?: LocalLimit } {
  switch (handled.act) {
    case "cook": {
      if (part.what !== "coreC") return {};
      const by = {
        poultry: "poultryCoreC",
        "ground-meat": "mincedCoreC",
        egg: "eggCoreC",
        fish: "fishCoreC",
        shellfish: "fishCoreC",
        "whole-meat": "meatCoreC",
      } as const;
      return handled.food in by ? { value: by[handled.food as keyof typeof by] } : {};
    }
    case "reheat":
      return { value: "reheatCoreC", within: "reheatMin" };
    case "hold-hot":
      return { value: "hotHoldC" };
    case "hold-cold":
    case "cure":
      return { value: "coldHoldC" };
    case "cool":
      return part.withinMin === undefined ? {} : { within: part.value >= 20 ? "coolTo21Min" : "coolTo5Min" };
    default:
      return {};
  }
}

export interface LocalFigure {
  readonly value: number;
  readonly index: number;
  readonly doc: string;
}

/** The kitchen's limit of a name. Of several the last one written counts. */
export function localLimit(
  kitchen: Pick<Kitchen, "localLimits">,
  name: LocalLimit | undefined,
): LocalFigure | undefined {
  const index = kitchen.localLimits.findLastIndex((one) => one.what === name);
  const found = kitchen.localLimits[index];
  return found && { value: found.value, index, doc: found.doc };
}

/** Local limits whose name says nothing to the tool: they would bind nothing, so it is said. */
export function unknownLocalLimits(kitchen: Kitchen, pointer: string) {
  return kitchen.localLimits.flatMap((one, i) =>
    (LOCAL_LIMITS as readonly string[]).includes(one.what)
      ? []
      : [
          {
            path: `${pointer}/localLimits/${i}/what`,
            what: `"${one.what}" is no limit that is known: nothing is judged by it`,
            mend: `name one of: ${LOCAL_LIMITS.join(", ")}`,
          },
        ],
  );
}
