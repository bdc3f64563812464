/** What is wrong with an input: JSON Pointer to the place, what is wrong there, and how to mend it. */
export type Problem = { path: string; what: string; mend: string };

/** Something computed all the same, that whoever reads the figures should know. */
export type Note = { code: string; text: string };

/** Carries problems out of the depth of a computation; caught at the entry of the room, never let out of it. */
export class Refused extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map((p) => `${p.path}: ${p.what}; ${p.mend}`).join("\n"));
    this.problems = problems;
  }
}

export function refuse(path: string, what: string, mend: string): never {
  throw new Refused([{ path, what, mend }]);
}

/** A number as a person reads it: as many decimals as asked, no trailing noughts. */
export function plain(x: number, decimals = 1): string {
  return String(Number(x.toFixed(decimals)));
}
