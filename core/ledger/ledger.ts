import { CellSet } from "./cell-set.ts";

/**
 * The ledger: every number of a run is a cell that knows its rule and its inputs.
 *
 * A cell is either given (read from a document, or a stated constant) or derived (a named rule applied to
 * other cells). Cells may only use cells made before them, so the order of making is an order of computing:
 * a change is carried forward in one sweep over the cells it reaches, and each number can say how it came.
 * The sums themselves stay plain functions (see `Rule`); the ledger knows no kitchen.
 */

/** A pure function of numbers; its name is the name by which a trace cites it. Units are the caller's duty. */
export type Rule = (...inputs: number[]) => number;

/** Index of a cell in its ledger. */
export type Cell = number & { readonly cell: unique symbol };

/** Where a given number stands written, or whose figure it is. */
export interface CellSource {
  readonly doc: string;
  readonly table?: string | undefined;
  readonly kind: "published" | "memory" | "measured" | "invented";
}

/** How one number came: applying `rule` to the values of `inputs` gives `value` again. */
export interface TraceNode {
  readonly value: number;
  readonly unit: string;
  /** Name of an exported function; "given" for a number read from a document or stated. */
  readonly rule: string;
  readonly inputs: readonly string[];
  readonly source?: CellSource;
}

/** A number grew beyond what can be counted with: an amount in the documents is wrong by orders of magnitude. */
export class OutOfBounds extends RangeError {
  readonly path: string;

  constructor(path: string, value: number) {
    super(`ledger: ${path} would be ${value}`);
    this.name = "OutOfBounds";
    this.path = path;
  }
}

/** The rule of a cell whose value is read, not computed. */
export function given(value: number): number {
  return value;
}

/** Cells in order of making; derived values are kept up to date by `settle`. */
export class Ledger {
  readonly #paths: string[] = [];
  readonly #units: string[] = [];
  readonly #rules: (Rule | undefined)[] = [];
  readonly #sources = new Map<Cell, CellSource>();
  readonly #byPath = new Map<string, Cell>();
  #values = new Float64Array(1024);
  // Inputs of all cells in one list, those of a cell from its start to the next one's: a ledger of a library has
  // a million of them, and a list of their own for each cell would cost more than the sums.
  #inputs = new Int32Array(4096);
  #starts = new Int32Array(1025);
  /** The same list turned round: who uses a cell. Made anew when cells were added since. */
  #users: { of: number; starts: Int32Array; list: Int32Array } = {
    of: 0,
    starts: new Int32Array(1),
    list: new Int32Array(0),
  };
  readonly #stale = new CellSet();

  /** Number of cells. */
  get size(): number {
    return this.#paths.length;
  }

  /**
   * Writes down a number that is read, not computed.
   * @throws when the path is taken, a mistake of the caller. @throws OutOfBounds when the value is not finite.
   */
  give(path: string, unit: string, value: number, source?: CellSource): Cell {
    return this.#add(path, unit, value, undefined, [], source);
  }

  /**
   * Writes down a number computed from cells made before.
   * @throws as `give`.
   */
  derive(path: string, unit: string, rule: Rule, inputs: readonly Cell[], source?: CellSource): Cell {
    const values = inputs.map((input) => this.#values[input]!);
    return this.#add(path, unit, rule(...values), rule, inputs, source);
  }

  /** The cell at `path`, if any. */
  find(path: string): Cell | undefined {
    return this.#byPath.get(path);
  }

  /** Value of a cell, up to date after `settle`. */
  value(cell: Cell): number {
    return this.#values[cell]!;
  }

  /** Path a cell was written under. */
  path(cell: Cell): string {
    return this.#paths[cell]!;
  }

  /** Rule of a cell; `given` when its value is read. */
  ruleOf(cell: Cell): Rule {
    return this.#rules[cell] ?? given;
  }

  /** Cells the rule of a cell is applied to. */
  inputsOf(cell: Cell): Cell[] {
    return [...this.#inputs.subarray(this.#starts[cell], this.#starts[cell + 1])] as Cell[];
  }

  /** Changes a given number; what depends on it is stale until `settle`. */
  change(cell: Cell, value: number): void {
    if (this.#rules[cell]) throw new Error(`ledger: ${this.#paths[cell]} is derived and cannot be set`);
    if (!Number.isFinite(value)) throw new OutOfBounds(this.#paths[cell]!, value);
    if (this.#values[cell] === value) return;
    this.#values[cell] = value;
    const users = this.#usersNow();
    this.#stale.add(users.list, users.starts[cell]!, users.starts[cell + 1]!);
  }

  /** Recomputes what is stale, each cell once, in order of making. Returns how many cells were computed. */
  settle(): number {
    const [values, rules, inputs, starts] = [this.#values, this.#rules, this.#inputs, this.#starts];
    const users = this.#usersNow();
    return this.#stale.drain((cell) => {
      const value = apply(rules[cell]!, inputs, starts[cell]!, starts[cell + 1]!, values);
      if (value === values[cell]) return;
      if (!Number.isFinite(value)) throw new OutOfBounds(this.#paths[cell]!, value);
      values[cell] = value;
      this.#stale.add(users.list, users.starts[cell]!, users.starts[cell + 1]!);
    });
  }

  /** How the number of a cell came. */
  trace(cell: Cell): TraceNode {
    const source = this.#sources.get(cell);
    return {
      value: this.#values[cell]!,
      unit: this.#units[cell]!,
      rule: (this.#rules[cell] ?? given).name,
      inputs: this.inputsOf(cell).map((input) => this.#paths[input]!),
      ...(source ? { source } : {}),
    };
  }

  #add(
    path: string,
    unit: string,
    value: number,
    rule: Rule | undefined,
    inputs: readonly Cell[],
    source: CellSource | undefined,
  ): Cell {
    if (this.#byPath.has(path)) throw new Error(`ledger: ${path} is written twice`);
    if (!Number.isFinite(value)) throw new OutOfBounds(path, value);
    const cell = this.size as Cell;
    const start = this.#starts[cell]!;
    const end = start + inputs.length;
    this.#values = withRoom(this.#values, cell);
    this.#starts = withRoom(this.#starts, cell + 1);
    this.#inputs = withRoom(this.#inputs, end);
    this.#stale.reach(cell);
    this.#paths.push(path);
    this.#units.push(unit);
    this.#rules.push(rule);
    if (source) this.#sources.set(cell, source);
    this.#values[cell] = value;
    this.#inputs.set(inputs, start);
    this.#starts[cell + 1] = end;
    this.#byPath.set(path, cell);
    return cell;
  }

  #usersNow(): { readonly starts: Int32Array; readonly list: Int32Array } {
    if (this.#users.of !== this.size)
      this.#users = { of: this.size, ...turned(this.size, this.#starts, this.#inputs) };
    return this.#users;
  }
}

/** Users by input from inputs by user, in rising order. */
function turned(
  size: number,
  starts: Int32Array,
  inputs: Int32Array,
): { starts: Int32Array; list: Int32Array } {
  const edges = starts[size]!;
  const ends = new Int32Array(size + 1);
  for (let e = 0; e < edges; e++) ends[inputs[e]! + 1]!++;
  for (let cell = 0; cell < size; cell++) ends[cell + 1]! += ends[cell]!;
  const next = ends.slice(0, size);
  const list = new Int32Array(edges);
  for (let cell = 0; cell < size; cell++)
    for (let e = starts[cell]!; e < starts[cell + 1]!; e++) list[next[inputs[e]!]!++] = cell;
  return { starts: ends, list };
}

/** The rule on the values of its inputs; the usual few are handed over without a list. */
function apply(rule: Rule, inputs: Int32Array, start: number, end: number, values: Float64Array): number {
  switch (end - start) {
    case 1:
      return rule(values[inputs[start]!]!);
    case 2:
      return rule(values[inputs[start]!]!, values[inputs[start + 1]!]!);
    case 3:
      return rule(values[inputs[start]!]!, values[inputs[start + 1]!]!, values[inputs[start + 2]!]!);
    default: {
      const list = new Array<number>(end - start);
      for (let i = start; i < end; i++) list[i - start] = values[inputs[i]!]!;
      return rule(...list);
    }
  }
}

/** The same numbers with room for one more at `at`. */
function withRoom<A extends Float64Array | Int32Array>(array: A, at: number): A {
  if (at < array.length) return array;
  const wider = new (array.constructor as new (length: number) => A)(Math.max(array.length * 2, at + 1));
  wider.set(array);
  return wider;
}
