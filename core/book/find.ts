/** What can be found by its names. */
export interface Named {
  readonly id: string;
  readonly name: string;
  readonly aliases?: readonly string[];
}

/** Letters without their accents, small: "creme" finds "Crème". */
export function plainLetters(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll("œ", "oe")
    .replaceAll("ß", "ss");
}

/**
 * A list made ready to be searched as a person types: built once, then each search goes through it once. All words
 * typed must stand in one name; a name that begins with them comes first, then one with a word that does, then the
 * rest, each in the order of the alphabet.
 */
export class Finder<T extends Named> {
  readonly #entries: readonly { readonly of: T; readonly names: readonly string[] }[];

  constructor(list: readonly T[]) {
    const order = new Intl.Collator("en", { sensitivity: "base", numeric: true });
    this.#entries = list
      .map((of) => ({ of, names: [of.name, ...(of.aliases ?? [])].map(plainLetters) }))
      .sort((a, b) => order.compare(a.of.name, b.of.name));
  }

  /** What fits, the best first; all of the list, by name, while nothing is typed. */
  find(typed: string): T[] {
    const words = plainLetters(typed).split(/\s+/).filter(Boolean);
    if (words.length === 0) return this.#entries.map((entry) => entry.of);
    const ranks: T[][] = [[], [], []];
    for (const { of, names } of this.#entries) {
      let best = 3;
      for (const name of names) {
        if (!words.every((word) => name.includes(word))) continue;
        const rank = name.startsWith(words[0]!) ? 0 : words.every((word) => startsWord(name, word)) ? 1 : 2;
        if (rank < best) best = rank;
      }
      if (best < 3) ranks[best]!.push(of);
    }
    return ranks.flat();
  }
}

/** True when a word of the name begins so. */
function startsWord(name: string, word: string): boolean {
  for (let at = name.indexOf(word); at >= 0; at = name.indexOf(word, at + 1))
    if (at === 0 || !/[\p{L}\p{N}]/u.test(name[at - 1]!)) return true;
  return false;
}
