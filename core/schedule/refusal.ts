/** A problem that cannot be read as meant: where, what, and how to mend it. */
export interface Refusal {
  /** Path inside the problem, such as `tasks[3].modes[0].duration`. */
  readonly path: string;
  readonly what: string;
  readonly mend: string;
}
