import type { BookInput } from "../../book/schema.ts";
import type { Random } from "../../numerics/random.ts";

/** Documents of one kind as they may be written. */
export type Docs<K extends Exclude<keyof BookInput, "format" | "version">> = NonNullable<
  BookInput[K]
>[number];

/** An integer from `least` to `most`. */
export function between(random: Random, least: number, most: number): number {
  return least + random.below(most - least + 1);
}

/** Whether a thing of this chance happens. */
export function chance(random: Random, p: number): boolean {
  return random.next() < p;
}

/** What a figure of a made-up book comes from. */
export const INVENTED = { doc: "made up by chance", kind: "invented" } as const;
