import { type Cell, given, type Ledger, type TraceNode } from "./ledger.ts";

/**
 * Reads cells for a result. With a tracer behind it, each reading also notes under which JSON Pointer of the
 * result the number stands; without one it only reads, so that the quick way pays nothing for the trace.
 */
export interface Reading {
  /** Value of a cell that will stand at `key` (one or more pointer parts, like "amount/value"). */
  of(cell: Cell, key: string | number): number;
  /** The reading one or more parts further down. */
  under(key: string | number): Reading;
  /** Says how a number came that is no cell; the node is made only when a trace is wanted. */
  note(key: string | number, node: () => NotedNode): void;
}

/** A node whose inputs may be cells of the ledger or pointers. */
export type NotedNode = Omit<TraceNode, "inputs"> & { readonly inputs: readonly (Cell | string)[] };

/** Reads without a trace. */
export function untraced(ledger: Ledger): Reading {
  const reading: Reading = { of: (cell) => ledger.value(cell), under: () => reading, note: () => {} };
  return reading;
}

/** Collects, for the numbers of one result, how each came. */
export class Tracer {
  readonly #ledger: Ledger;
  readonly #cells = new Map<string, Cell>();
  readonly #notes = new Map<string, NotedNode>();
  readonly #firstPointer = new Map<Cell, string>();

  constructor(ledger: Ledger) {
    this.#ledger = ledger;
  }

  /** Says that the number at `pointer` of the result is the value of `cell`. */
  assign(pointer: string, cell: Cell): void {
    this.#cells.set(pointer, cell);
    if (!this.#firstPointer.has(cell)) this.#firstPointer.set(cell, pointer);
  }

  /** Says how the number at `pointer` came when it is no cell. */
  note(pointer: string, node: NotedNode): void {
    this.#notes.set(pointer, node);
  }

  /** Reads cells that stand below `pointer` of the result ("/needs/3"). */
  under(pointer: string): Reading {
    return {
      of: (cell, key) => {
        this.assign(`${pointer}/${key}`, cell);
        return this.#ledger.value(cell);
      },
      under: (key) => this.under(`${pointer}/${key}`),
      note: (key, node) => this.note(`${pointer}/${key}`, node()),
    };
  }

  /**
   * The nodes of all pointers, with everything they rest on. An input that itself stands in the result is cited
   * by its pointer there; a number read from a document is cited by its place in the book.
   */
  nodes(): Record<string, TraceNode> {
    const nodes: Record<string, TraceNode> = {};
    const open: Cell[] = [];
    const cite = (input: Cell | string): string => {
      if (typeof input === "string") {
        const found = this.#ledger.find(input);
        if (found !== undefined) open.push(found);
        return input;
      }
      const read = this.#ledger.ruleOf(input) === given;
      const pointer = read ? undefined : this.#firstPointer.get(input);
      if (pointer !== undefined) return pointer;
      open.push(input);
      return this.#ledger.path(input);
    };
    const node = (cell: Cell): TraceNode => ({
      ...this.#ledger.trace(cell),
      inputs: this.#ledger.inputsOf(cell).map(cite),
    });
    for (const [pointer, cell] of this.#cells) {
      const read = this.#ledger.ruleOf(cell) === given;
      nodes[pointer] = read ? { ...this.#ledger.trace(cell), inputs: [cite(cell)] } : node(cell);
    }
    for (const [pointer, noted] of this.#notes) nodes[pointer] = { ...noted, inputs: noted.inputs.map(cite) };
    for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
      const path = this.#ledger.path(cell);
      if (nodes[path] === undefined) nodes[path] = node(cell);
    }
    return nodes;
  }
}
