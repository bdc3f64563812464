import { useMemo } from "react";
import { cameBy } from "../../../core/learning/came.ts";
import { useLog } from "../../offline/use-log.ts";

/** Past services as the log has them: each course's plates, and how many came of those guaranteed. */
export function useCame(): { readonly ready: boolean } & ReturnType<typeof cameBy> {
  const { lines, ready } = useLog();
  return useMemo(() => ({ ready, ...cameBy(lines) }), [lines, ready]);
}
