/**
 * The port to a mixed-integer solver: minimise cost · x, each row of A x and each x within its bounds, some of x
 * whole. Whoever runs the program opens a solver and hands it in; the room knows none.
 */
export type MixedInteger = (model: MixedIntegerModel) => MixedIntegerAnswer;

export interface MixedIntegerModel {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Values that keep every row: the search begins with them. */
  readonly start: readonly number[];
  /** A solution this near the bound is as good as proven. */
  readonly gap: number;
  /** Steps of the simplex method after which the search may stop with what it has. */
  readonly steps: number;
}

export interface Column {
  readonly cost: number;
  readonly lower: number;
  readonly upper: number;
  readonly whole: boolean;
}

export interface Row {
  readonly lower: number;
  readonly upper: number;
  /** [place of a column, coefficient] … */
  readonly terms: readonly (readonly [number, number])[];
}

export interface MixedIntegerAnswer {
  /** Best values found; undefined when there are none. */
  readonly values: readonly number[] | undefined;
  readonly objective: number;
  /** No solution costs less. */
  readonly bound: number;
  readonly status: "optimal" | "stopped" | "infeasible";
}
