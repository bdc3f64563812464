/** What is wrong with a document: JSON Pointer into the book, what is wrong, how to mend it. */
export interface Problem {
  readonly path: string;
  readonly what: string;
  readonly mend: string;
}

/** Documents that cannot be computed with: every problem found, the first in the message. */
export class Refusal extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    const first = problems[0];
    const more = problems.length > 1 ? ` (and ${problems.length - 1} more)` : "";
    super(first ? `${first.path}: ${first.what}; ${first.mend}${more}` : "refused without a problem named");
    this.name = "Refusal";
    this.problems = problems;
  }
}
