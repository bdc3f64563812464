/** A script of data found in a page. Nothing in the page is ever run. */
export interface DataBlock {
  readonly text: string;
  /** Line of the page it starts on, from 1. */
  readonly at: number;
}

/** Elements whose content is text, not markup: a tag inside them is none. */
const RAW = ["script", "style", "textarea", "title", "noscript", "template"] as const;
const TYPE = /\btype\s*=\s*["']?\s*application\/ld\+json/i;
/** Attributes that are looked at; a longer tag is none of a page's own. */
const LONGEST_TAG = 2_000;

/**
 * Finds the blocks of JSON-LD in a page: goes once from "<" to "<", past comments and raw elements.
 * Linear in the page; a tag or comment that is never closed ends the search.
 */
export function dataBlocks(page: string): DataBlock[] {
  const blocks: DataBlock[] = [];
  const lines = new LineCount(page);
  let at = 0;
  while (at < page.length) {
    const open = page.indexOf("<", at);
    if (open < 0) break;
    if (page.startsWith("<!--", open)) {
      const end = page.indexOf("-->", open + 4);
      if (end < 0) break;
      at = end + 3;
      continue;
    }
    const name = RAW.find((one) => isTag(page, open + 1, one));
    if (!name) {
      at = open + 1;
      continue;
    }
    const end = page.indexOf(">", open);
    if (end < 0) break;
    if (name === "noscript" || name === "template") {
      at = end + 1;
      continue;
    }
    const close = closing(page, end + 1, name);
    if (close < 0) break;
    if (name === "script" && TYPE.test(page.slice(open, Math.min(end, open + LONGEST_TAG))))
      blocks.push({ text: page.slice(end + 1, close), at: lines.at(end + 1) });
    at = close + name.length + 2;
  }
  return blocks;
}

/** True when a tag of this name stands here. */
function isTag(page: string, at: number, name: string): boolean {
  if (page.slice(at, at + name.length).toLowerCase() !== name) return false;
  return /^[\s/>]?$/.test(page.slice(at + name.length, at + name.length + 1));
}

function closing(page: string, from: number, name: string): number {
  for (let at = page.indexOf("</", from); at >= 0; at = page.indexOf("</", at + 2))
    if (isTag(page, at + 2, name)) return at;
  return -1;
}

/** Counts lines up to places that only move on. */
class LineCount {
  private line = 1;
  private place = 0;
  private readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
  at(place: number): number {
    for (
      let i = this.text.indexOf("\n", this.place);
      i >= 0 && i < place;
      i = this.text.indexOf("\n", i + 1)
    ) {
      this.line++;
      this.place = i + 1;
    }
    return this.line;
  }
}

const ENTITIES: Readonly<Record<string, string>> = Object.fromEntries(
  (
    "amp & lt < gt > quot \" apos ' deg ° ndash – mdash — hellip … rsquo ’ lsquo ‘ ldquo “ rdquo ” laquo « raquo » times × frasl ⁄ " +
    "frac12 ½ frac14 ¼ frac34 ¾ frac13 ⅓ frac23 ⅔ frac15 ⅕ frac18 ⅛ frac38 ⅜ frac58 ⅝ frac78 ⅞ half ½ szlig ß aelig æ AElig Æ oelig œ " +
    "OElig Œ oslash ø Oslash Ø euro € pound £ cent ¢ bull • middot · prime ′ Prime ″ ordm º ordf ª micro µ plusmn ± minus − copy © reg ®"
  )
    .split(" ")
    .flatMap((word, i, all) => (i % 2 === 0 ? [[word, all[i + 1]!]] : [])),
);
/** Spaces of several widths are one space; what only guides a line break is nothing. */
const BLANK = /^(?:nbsp|ensp|emsp|thinsp)$/;
const NOTHING = /^(?:shy|zwj|zwnj)$/;
const MARKS: Readonly<Record<string, string>> = {
  ...{ acute: "\u0301", grave: "\u0300", circ: "\u0302", uml: "\u0308" },
  ...{ tilde: "\u0303", ring: "\u030a", cedil: "\u0327", caron: "\u030c" },
};

/** The letter that an entity names: "eacute" is an e with its mark; undefined when it names none. */
function entity(name: string): string | undefined {
  if (BLANK.test(name)) return " ";
  if (NOTHING.test(name)) return "";
  if (Object.hasOwn(ENTITIES, name)) return ENTITIES[name];
  const mark = MARKS[name.slice(1)];
  if (mark) return `${name[0]}${mark}`.normalize("NFC");
  const small = name.toLowerCase();
  return Object.hasOwn(ENTITIES, small) ? ENTITIES[small] : undefined;
}

/** Text without tags and with its entities as letters; breaks and list items become new lines. Linear. */
export function plainText(html: string): string {
  if (!html.includes("<") && !html.includes("&")) return html;
  return untagged(html).replace(
    /&(?:#(\d{1,7})|#x([0-9a-f]{1,6})|([a-z]{2,8}\d{0,2}));/gi,
    (whole, decimal, hex, name) => {
      if (name !== undefined) return entity(String(name)) ?? whole;
      const code = decimal === undefined ? Number.parseInt(hex, 16) : Number(decimal);
      return code > 31 && code <= 0x10ffff && !(code >= 0xd800 && code <= 0xdfff)
        ? String.fromCodePoint(code)
        : " ";
    },
  );
}

function untagged(html: string): string {
  const pieces: string[] = [];
  let at = 0;
  while (at < html.length) {
    const open = html.indexOf("<", at);
    // "<" before anything but a name is a mark of its own: "< 5 °C".
    const tag = open >= 0 && /[a-z/!]/i.test(html[open + 1] ?? "");
    const end = tag ? html.indexOf(">", open) : -1;
    if (open < 0 || (tag && end < 0)) break;
    if (!tag) {
      pieces.push(html.slice(at, open + 1));
      at = open + 1;
      continue;
    }
    pieces.push(html.slice(at, open));
    if (/^<\/?(?:br|p|li|div|ol|ul|h\d)\b/i.test(html.slice(open, open + 6))) pieces.push("\n");
    at = end + 1;
  }
  pieces.push(html.slice(at));
  return pieces.join("");
}
