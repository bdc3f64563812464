import { type Say, wordFor } from "./catalogue.ts";

/** For whom a dish is changed: "vegetarian, coeliac"; undefined for the dish as written. */
export function variantWords(say: Say, variant: string): string | undefined {
  if (variant === "" || variant === "standard") return undefined;
  return variant
    .split("+")
    .map((need) => wordFor(say, "need", need))
    .join(", ");
}
