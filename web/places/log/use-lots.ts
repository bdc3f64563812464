import { useMemo } from "react";
import { Recall } from "../../../core/safety/lots-recall.ts";
import type { Shape } from "../../../core/safety/lots-schema.ts";
import { shapeOf } from "../../../core/safety/lots-shape.ts";
import { type Stock, stockOf } from "../../../core/safety/lots-stock.ts";
import { weighBy } from "../../../core/safety/lots-weigh.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useLotLog } from "../../offline/use-log.ts";

/** What is on hand by the records. */
export function useStock(): { readonly stock: Stock; readonly ready: boolean; readonly offline: boolean } {
  const { library } = useBook();
  const { lines, ready, offline } = useLotLog();
  const stock = useMemo(() => stockOf(lines, weighBy(library.ingredients)), [lines, library]);
  return { stock, ready, offline };
}

/** What the service in hand makes of what; undefined until its amounts are there. */
export function useShape(): Shape | undefined {
  const { library } = useBook();
  const { plan, amounts } = useTold();
  const { service, menu, clock } = useService();
  const told = amounts ?? plan;
  return useMemo(() => {
    if (!told) return undefined;
    const last = Math.max(0, ...(menu?.courses ?? []).map(({ afterMin }) => afterMin));
    const at = (minute: number) => new Date(clock.zonedOf(minute).replace(/\[.*$/, "")).toISOString();
    // An hour for the last course to be eaten.
    const span = { from: at(0), to: at(clock.service + last + 60) };
    const everyone = menu && { menu, covers: told.summary.covers, guests: service.guests };
    return shapeOf(service.name, told, library, span, everyone);
  }, [told, library, service, menu, clock]);
}

/** The records of lots, ready to be asked; the service in hand as it is planned now where nobody kept its shape. */
export function useRecall(): {
  readonly recall: Recall | undefined;
  readonly lines: number;
  readonly offline: boolean;
} {
  const { library } = useBook();
  const { lines, ready, offline } = useLotLog();
  const { service } = useService();
  const shape = useShape();
  const recall = useMemo(() => {
    if (!ready) return undefined;
    const kept = lines.some(
      (line) => line.service === service.id && (line.body as { kind?: string }).kind === "shape",
    );
    const own = { id: "planned", service: service.id, at: shape?.from ?? "", by: "", body: shape };
    return new Recall(shape && !kept ? [...lines, own] : lines, weighBy(library.ingredients));
  }, [lines, ready, library, service.id, shape]);
  return { recall, lines: lines.length, offline };
}
