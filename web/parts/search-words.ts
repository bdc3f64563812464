import { isKey, type Say } from "../../words/catalogue.ts";

/** What the search for a plan was given, as a chef would say it; undefined of every other path. */
export function searchWords(path: string, say: Say): string | undefined {
  if (/^const:\/number\/\d+$/.test(path)) return say("tracePath.place");
  const key = `tracePath.${path}`;
  return isKey(key) ? say(key) : undefined;
}

/** Figures that only tell one question from another: their digits say nothing to anybody. */
export function isMark(path: string): boolean {
  return path === "calc:/plan/problem" || path === "calc:/plan/limits";
}
