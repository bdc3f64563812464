import { createContext } from "react";
import type { Traced } from "../compute/protocol.ts";

/** Who answers how a figure came, and what its inputs are called, where it is not the worker of the service. */
export interface TraceFrom {
  readonly trace: (path: string) => Traced | undefined;
  readonly words: (path: string) => string | undefined;
}

export const TraceSource = createContext<TraceFrom | undefined>(undefined);
