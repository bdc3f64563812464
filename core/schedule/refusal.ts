/** A problem that cannot be read as meant: where, what, and how to mend it. */
export interface Refusal {
  /** JSON Pointer into the problem, such as `/tasks/3/modes/0/duration`; or a line of a text file. */
  readonly path: string;
  readonly what: string;
  readonly mend: string;
}
