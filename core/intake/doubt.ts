import type { Country } from "../quantity/index.ts";

/** One thing a person should settle. */
export interface Doubt {
  /** Where: "/lines/3", "/steps/0", "/yields", or "" for the whole. */
  readonly path: string;
  readonly at: number;
  readonly ask: string;
  /** "link": which ingredient a line means; "measures": whose spoons; "oven": which oven; else left out. */
  readonly about?: "link" | "measures" | "oven";
  /** Answers that are ready to be taken, the likeliest first. */
  readonly choices?: readonly Choice[];
}

/** An answer to a doubt: the line or step written anew, whose measures, which kind of oven (null: none). */
export type Choice =
  | { readonly kind: "text"; readonly text: string; readonly label: string }
  | { readonly kind: "country"; readonly country: Country }
  | { readonly kind: "oven"; readonly oven: string | null; readonly name: string };
