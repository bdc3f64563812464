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

/** The rule of a cell whose value is read, not computed. */
export function given(value: number): number {
  return value;
}

/** Cells in order of making; derived values are kept up to date by `settle`. */
export class Ledger {
  readonly #paths: string[] = [];
  readonly #units: string[] = [];
  readonly #rules: (Rule | undefined)[] = [];
  readonly #inputs: (readonly Cell[])[] = [];
  readonly #sources: (CellSource | undefined)[] = [];
  readonly #users: Cell[][] = [];
  readonly #values: number[] = [];
  readonly #byPath = new Map<string, Cell>();
  #stale: Uint8Array = new Uint8Array(1024);
  #firstStale = Number.POSITIVE_INFINITY;
  #lastStale = -1;

  /** Number of cells. */
  get size(): number {
    return this.#values.length;
  }

  /**
   * Writes down a number that is read, not computed.
   * @throws when the path is taken or the value is not finite: both are mistakes of the caller.
   */
  give(path: string, unit: string, value: number, source?: CellSource): Cell {
    return this.#add(path, unit, value, undefined, [], source);
  }

  /**
   * Writes down a number computed from cells made before.
   * @throws when the path is taken or the result is not finite.
   */
  derive(path: string, unit: string, rule: Rule, inputs: readonly Cell[], source?: CellSource): Cell {
    return this.#add(path, unit, this.#apply(rule, inputs), rule, inputs, source);
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
  inputsOf(cell: Cell): readonly Cell[] {
    return this.#inputs[cell]!;
  }

  /** Changes a given number; what depends on it is stale until `settle`. */
  change(cell: Cell, value: number): void {
    if (this.#rules[cell]) throw new Error(`ledger: ${this.#paths[cell]} is derived and cannot be set`);
    if (!Number.isFinite(value)) throw new Error(`ledger: ${this.#paths[cell]} would become ${value}`);
    if (this.#values[cell] === value) return;
    this.#values[cell] = value;
    this.#spread(cell);
  }

  /** Recomputes what is stale, each cell once, in order of making. Returns how many cells were computed. */
  settle(): number {
    let done = 0;
    for (let i = this.#firstStale; i <= this.#lastStale; i++) {
      if (!this.#stale[i]) continue;
      this.#stale[i] = 0;
      done++;
      const value = this.#apply(this.#rules[i]!, this.#inputs[i]!);
      if (value === this.#values[i]) continue;
      if (!Number.isFinite(value)) throw new Error(`ledger: ${this.#paths[i]} became ${value}`);
      this.#values[i] = value;
      this.#spread(i as Cell);
    }
    this.#firstStale = Number.POSITIVE_INFINITY;
    this.#lastStale = -1;
    return done;
  }

  /** How the number of a cell came. */
  trace(cell: Cell): TraceNode {
    const source = this.#sources[cell];
    return {
      value: this.#values[cell]!,
      unit: this.#units[cell]!,
      rule: (this.#rules[cell] ?? given).name,
      inputs: this.#inputs[cell]!.map((input) => this.#paths[input]!),
      ...(source ? { source } : {}),
    };
  }

  /** Forgets every cell made after the ledger had `size` cells (what a new covers figure builds anew). */
  truncate(size: number): void {
    for (let i = this.size - 1; i >= size; i--) {
      for (const input of this.#inputs[i]!) {
        const users = this.#users[input]!;
        while (users.length > 0 && users.at(-1)! >= size) users.pop();
      }
      this.#byPath.delete(this.#paths[i]!);
    }
    for (const list of [
      this.#paths,
      this.#units,
      this.#rules,
      this.#inputs,
      this.#sources,
      this.#users,
      this.#values,
    ]) {
      list.length = size;
    }
    this.#stale.fill(0, size);
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
    if (!Number.isFinite(value)) throw new Error(`ledger: ${path} would be ${value}`);
    const cell = this.#values.length as Cell;
    this.#paths.push(path);
    this.#units.push(unit);
    this.#rules.push(rule);
    this.#inputs.push(inputs);
    this.#sources.push(source);
    this.#users.push([]);
    this.#values.push(value);
    this.#byPath.set(path, cell);
    for (const input of inputs) this.#users[input]!.push(cell);
    if (cell >= this.#stale.length) {
      const wider = new Uint8Array(this.#stale.length * 2);
      wider.set(this.#stale);
      this.#stale = wider;
    }
    return cell;
  }

  #apply(rule: Rule, inputs: readonly Cell[]): number {
    const v = this.#values;
    switch (inputs.length) {
      case 1:
        return rule(v[inputs[0]!]!);
      case 2:
        return rule(v[inputs[0]!]!, v[inputs[1]!]!);
      case 3:
        return rule(v[inputs[0]!]!, v[inputs[1]!]!, v[inputs[2]!]!);
      default:
        return rule(...inputs.map((input) => v[input]!));
    }
  }

  #spread(cell: Cell): void {
    for (const user of this.#users[cell]!) {
      this.#stale[user] = 1;
      if (user < this.#firstStale) this.#firstStale = user;
      if (user > this.#lastStale) this.#lastStale = user;
    }
  }
}
