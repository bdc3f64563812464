import type { Country, Unit } from "../quantity/index.ts";

/** One line of ingredients as read. No word of the text is lost: it is in the amount, the ingredient or the note. */
export interface ReadLine {
  /** The line as it stands in the source, without the space around it. */
  readonly text: string;
  /** Least and most, equal when one number is given; null when the text gives no measurable amount. */
  readonly low: number | null;
  readonly high: number | null;
  /** The same two numbers exactly ("1 3/4"), in `unit`. */
  readonly exact: { readonly low: string; readonly high: string } | null;
  /** A unit of the closed list; "" for what is simply counted, and where there is no amount. */
  readonly unit: Unit | "";
  /** The words as written. */
  readonly ingredient: string;
  readonly note: string;
  /** True when the cook decides how much: "to taste", "for serving". */
  readonly toTaste: boolean;
  /** What a person should settle, "" when nothing. */
  readonly doubt: string;
  /** Line of the source, from 1. */
  readonly at: number;
  /** Place in `parts`, or null for the preparation itself. */
  readonly part: number | null;
}

/** One step as read. */
export interface ReadStep {
  readonly text: string;
  /** All its times added up, a range by its long end; null when none is given in figures. */
  readonly minutes: number | null;
  readonly temperatureC: number | null;
  readonly doubt: string;
  readonly at: number;
  readonly part: number | null;
}

/** What the text says it makes. */
export interface ReadYield {
  readonly text: string;
  readonly low: number;
  readonly high: number;
  /** "" for portions and pieces. */
  readonly unit: Unit | "";
  /** "portions" where persons are fed; otherwise the words as written ("23 cm tarts"). */
  readonly what: string;
  readonly at: number;
}

/** A part with its own heading: a sub-preparation. */
export interface ReadPart {
  readonly name: string;
  /** The heading as written. */
  readonly text: string;
  readonly at: number;
  /** Only the way of the text says that it is one. */
  readonly guessed?: true;
}

/** What could not be read, by line; the rest is kept. */
export interface ReadProblem {
  /** Line of the source, from 1. */
  readonly at: number;
  readonly what: string;
  readonly mend: string;
}

/** A recipe as read: nothing is linked or computed yet. */
export interface ReadRecipe {
  /** Whose spoons and cups it means, where someone said so; else it is judged by its words. */
  readonly country?: Country;
  readonly title: string;
  readonly yields: readonly ReadYield[];
  readonly parts: readonly ReadPart[];
  readonly lines: readonly ReadLine[];
  readonly steps: readonly ReadStep[];
  /** Lines that are none of these: introductions, notes, times of preparation. */
  readonly other: readonly { readonly at: number; readonly text: string }[];
  readonly problems: readonly ReadProblem[];
}
