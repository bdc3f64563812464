import type { Ingredient } from "../pantry/schema.ts";

/** A line's ingredient found in the pantry. */
export interface Link {
  /** Id of the ingredient. */
  readonly ingredient: string;
  /** From 0 to 1: 1 is the same name; below SURE a person is asked. */
  readonly confidence: number;
  /** What was matched. */
  readonly by: "name" | "alias" | "words" | "head";
  /** The pantry lacks it: it is taken from the shelf and goes into the book with what is kept. */
  readonly shelf?: true;
  /** What else the same line names, each surely known: "salt and pepper". */
  readonly also?: readonly Link[];
}

/** From this confidence on a link is taken without asking. */
export const SURE = 0.8;

/** Words that say how much of a thing there is in a name, never which thing. */
const IDLE = new Set(
  (
    "a an the of in and or with for from de du des d di da del della la le les l il el los las un une una von mit in zum " +
    "large small medium big fresh freshly good fine finely roughly thinly coarsely chopped diced sliced minced grated ground " +
    "crushed peeled trimmed beaten melted softened toasted ripe whole extra organic free range cold warm hot room temperature " +
    "picked washed homemade quality plain unsalted pure " +
    "frais fraiche fraiches gros grosse petit petite petits petites fresco fresca frescos frescas grande grandes grosse kleine " +
    "frische frisch hache hachee rape rapee picado picada tritato tritata gehackt gehackte " +
    "grille grillee rapee fondu fondue emince emincee concasse concassee pelee pelada picada tostada rallado rallada " +
    "fuso morbido grattugiato grattugiata tritate gerieben geriebene weiche kalte lauwarme zerlassene fein grob"
  ).split(" "),
);

interface Entry {
  readonly id: string;
  readonly by: "name" | "alias";
  /** All words in singular, in order. */
  readonly words: readonly string[];
  /** Words before the first comma: the name without what is said of it. */
  readonly core: readonly string[];
  readonly head: string;
}

/** The pantry made ready for looking up: build it once for many lines. */
export class PantryIndex {
  private readonly exact = new Map<string, Entry>();
  private readonly byWord = new Map<string, Entry[]>();

  constructor(ingredients: Iterable<Ingredient>) {
    for (const { id, name, aliases } of ingredients) {
      this.put(id, name, "name");
      for (const alias of aliases ?? []) this.put(id, alias, "alias");
      this.put(id, id.replaceAll("-", " "), "alias");
    }
  }

  private put(id: string, name: string, by: Entry["by"]): void {
    const words = wordsOf(name);
    const core = wordsOf(name.split(",")[0]!);
    if (core.length === 0) return;
    const entry: Entry = { id, by, words, core, head: headOf(name.split(",")[0]!, core) };
    for (const key of [words.join(" "), core.join(" ")])
      if (key && !this.exact.has(key)) this.exact.set(key, entry);
    for (const word of new Set(words)) {
      const list = this.byWord.get(word);
      if (list) list.push(entry);
      else this.byWord.set(word, [entry]);
    }
  }

  /** The ingredient the words most likely mean, or undefined when none comes near. */
  find(said: string): Link | undefined {
    const words = wordsOf(said.slice(0, 200));
    if (words.length === 0) return undefined;
    const whole = this.exact.get(words.join(" "));
    if (whole) return { ingredient: whole.id, confidence: whole.by === "name" ? 1 : 0.98, by: whole.by };
    const meant = useful(words);
    const bare = this.exact.get(meant.join(" "));
    if (bare) return { ingredient: bare.id, confidence: 0.95, by: bare.by };
    const german = this.germanPlural(said, meant);
    if (german) return { ingredient: german.id, confidence: 0.9, by: german.by };
    return this.nearest(meant.length > 0 ? meant : words, headOf(said, words));
  }

  /** "Zwiebeln", "Karotten": a plural in -n or -en of a noun written large, whose singular is a name. */
  private germanPlural(said: string, words: readonly string[]): Entry | undefined {
    const last = words.at(-1);
    if (!last || last.length < 5 || !/\p{Lu}\p{Ll}+e?n\s*$/u.test(said)) return undefined;
    const front = words.slice(0, -1);
    for (const ending of [/n$/, /en$/]) {
      const entry = ending.test(last) && this.exact.get([...front, last.replace(ending, "")].join(" "));
      if (entry) return entry;
    }
    return undefined;
  }

  /** By shared words: the head word must be among them. */
  private nearest(words: readonly string[], head: string): Link | undefined {
    const have = new Set(words);
    const seen = new Map<Entry, number>();
    for (const word of have)
      for (const entry of (this.byWord.get(word) ?? []).slice(0, MOST_ENTRIES)) seen.set(entry, 0);
    const best = new Map<string, Link>();
    for (const entry of seen.keys()) {
      const { core } = entry;
      const shared = core.filter((word) => have.has(word)).length;
      const more = entry.words.filter((word) => have.has(word)).length;
      const heads = entry.head === head || core.includes(head);
      if (!heads) continue;
      // How much of the pantry's name is said, and how much of what is said the pantry's name explains.
      const covered = core.length === 0 ? 0 : shared / core.length;
      const explained = more / have.size;
      const full = covered === 1;
      // A word that the pantry's name does not explain (vegan, almond, wheat-free) may change everything: ask.
      const confidence = !full
        ? 0.25 + 0.3 * covered * explained
        : explained === 1
          ? 0.92
          : 0.55 + 0.23 * explained;
      const known = best.get(entry.id);
      if (!known || known.confidence < confidence)
        best.set(entry.id, {
          ingredient: entry.id,
          confidence: round(confidence),
          by: covered === 1 ? "words" : "head",
        });
    }
    const ranked = [...best.values()].sort((a, b) => b.confidence - a.confidence);
    const [first, second] = ranked;
    if (!first || first.confidence < LEAST) return undefined;
    // Two that fit alike are a question, however well they fit.
    const torn = second !== undefined && first.confidence - second.confidence < 0.05;
    return torn ? { ...first, confidence: round(Math.min(first.confidence, 0.6)) } : first;
  }
}

const LEAST = 0.4;
/** A word in more names than this tells nothing. */
const MOST_ENTRIES = 2_000;
const round = (n: number) => Math.round(n * 100) / 100;
const useful = (words: readonly string[]) => words.filter((word) => !IDLE.has(word));

/** Words in small letters, without accents, in the singular. */
function wordsOf(text: string): string[] {
  return text
    .normalize("NFD")
    .replace(/[\u0300-\u036f’']/g, "")
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replaceAll("œ", "oe")
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "")
    .map(singular);
}

/** The singular as the same stem for both forms; it need not be a word of any language. */
export function singular(word: string): string {
  if (word.length < 4) return word;
  if (/(?:ss|us|is)$/.test(word)) return word;
  if (/ies$/.test(word) && word.length > 4) return `${word.slice(0, -3)}y`;
  if (/ves$/.test(word)) return `${word.slice(0, -3)}f`;
  if (/(?:ch|sh|x|ss|o)es$/.test(word)) return word.slice(0, -2);
  if (/(?:eau|eu|ou)x$/.test(word)) return word.slice(0, -1);
  return /s$/.test(word) ? word.slice(0, -1) : word;
}

/** The word that names the thing: the last before "in", "for" …; after "de", "di" the first. */
function headOf(name: string, words: readonly string[]): string {
  const romance = /^(.*?)\s(?:de|du|des|d['’]|di|del|della|dello|al|alla|à|con|avec)\b/iu.exec(name);
  const english = /^(.*?)\s(?:in|for|with|from|of)\s/iu.exec(name);
  const front = wordsOf((romance ?? english)?.[1] ?? "");
  const use = useful(front.length > 0 ? front : words);
  return use.at(-1) ?? words.at(-1)!;
}
