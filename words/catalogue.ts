import { IntlMessageFormat } from "intl-messageformat";
import { en, type Key } from "./en/index.ts";

export type { Key } from "./en/index.ts";
/** What fills the blanks of a message. */
export type Values = Readonly<Record<string, string | number | Date | boolean>>;
/** Messages of one language; what is missing falls back (see `words`). */
export type Catalogue = Readonly<Partial<Record<Key, string>>>;

/** The languages there are, by BCP 47 tag. Add one here: a folder beside en/ and a line. */
const CATALOGUES: Readonly<Record<string, Catalogue>> = { en };

/** Says one message of the catalogue. */
export type Say = (key: Key, values?: Values) => string;

export interface Words {
  readonly locale: string;
  /** Writing direction of the language. */
  readonly direction: "ltr" | "rtl";
  readonly say: Say;
}

const RIGHT_TO_LEFT = new Set(["ar", "dv", "fa", "he", "ku", "ps", "sd", "ug", "ur", "yi"]);

/**
 * Messages in a language, falling back from "fr-CA" to "fr" to English.
 * @param catalogues other catalogues than the shipped ones, for tests.
 */
export function words(locale: string, catalogues: Readonly<Record<string, Catalogue>> = CATALOGUES): Words {
  const base = locale.split("-")[0] ?? locale;
  const chain = [catalogues[locale], catalogues[base], en];
  const compiled = new Map<Key, IntlMessageFormat>();
  const say: Say = (key, values) => {
    let message = compiled.get(key);
    if (!message) {
      const at = chain.findIndex((catalogue) => catalogue?.[key] !== undefined);
      const text = chain[at]?.[key] ?? en[key];
      message = new IntlMessageFormat(text, at === 2 ? "en" : locale);
      compiled.set(key, message);
    }
    return String(message.format(values as Record<string, string | number | Date | boolean> | undefined));
  };
  return { locale, direction: RIGHT_TO_LEFT.has(base) ? "rtl" : "ltr", say };
}

/** Whether a text is a key of the catalogue (for words built from a document, such as an allergen's). */
export function isKey(key: string): key is Key {
  return Object.hasOwn(en, key);
}

/** The word for an id of a closed list ("allergen", "milk"); the id itself where the list has outgrown the words. */
export function wordFor(say: Say, list: string, id: string): string {
  const key = `${list}.${id}`;
  return isKey(key) ? say(key) : id.replaceAll("-", " ");
}
