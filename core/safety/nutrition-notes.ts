import type { Cell, CellSource } from "../ledger/ledger.ts";
import type { NotedNode, Tracer } from "../ledger/tracer.ts";

/** A number and where its trace has it. */
export interface Known {
  readonly value: number;
  readonly input: Cell | string;
}

/**
 * Numbers of nutrition with how each came, kept until a trace is asked for. They hang on the formulas alone, not on
 * covers, so they are worked out once, and written as nodes only for what is looked into.
 */
export class Notes {
  readonly #nodes = new Map<string, NotedNode>();

  /** A number of the book. */
  given(path: string, unit: string, value: number, source?: CellSource): Known {
    return this.#note(path, { value, unit, rule: "given", inputs: [], ...(source ? { source } : {}) });
  }

  /** A figure of a table. */
  stated(path: string, value: number, unit: string, source: CellSource): Known {
    return this.given(`const:${path.slice(path.indexOf(":") + 1)}`, unit, value, source);
  }

  /** A number that only counts or leaves things as they are. */
  constant(value: number): Known {
    return this.given(`const:/number/${value}`, "", value);
  }

  /** A number by a rule, whose name the trace cites. */
  derived(
    path: string,
    value: number,
    unit: string,
    rule: ((...numbers: number[]) => number) | string,
    inputs: readonly Known[],
  ): Known {
    const name = typeof rule === "string" ? rule : rule.name;
    return this.#note(path, { value, unit, rule: name, inputs: inputs.map(({ input }) => input) });
  }

  /** Writes all of them into a trace. */
  write(tracer: Tracer): void {
    for (const [path, node] of this.#nodes) tracer.note(path, node);
  }

  #note(path: string, node: NotedNode): Known {
    if (!this.#nodes.has(path)) this.#nodes.set(path, node);
    return { value: node.value, input: path };
  }
}
