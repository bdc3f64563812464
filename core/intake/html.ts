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

const ENTITIES: Readonly<Record<string, string>> = {
  ...{
    amp: "&",
    lt: "<",
    gt: ">",
    quot: '"',
    apos: "'",
    nbsp: " ",
    deg: "°",
    ndash: "–",
    mdash: "—",
    hellip: "…",
  },
  ...{
    frac12: "½",
    frac14: "¼",
    frac34: "¾",
    frac13: "⅓",
    frac23: "⅔",
    rsquo: "’",
    lsquo: "‘",
    ldquo: "“",
    rdquo: "”",
  },
  ...{
    eacute: "é",
    egrave: "è",
    agrave: "à",
    ccedil: "ç",
    ntilde: "ñ",
    uuml: "ü",
    ouml: "ö",
    auml: "ä",
    szlig: "ß",
    times: "×",
  },
};

/** Text without tags and with its entities as letters; breaks and list items become new lines. Linear. */
export function plainText(html: string): string {
  if (!html.includes("<") && !html.includes("&")) return html;
  return untagged(html).replace(
    /&(?:#(\d{1,7})|#x([0-9a-f]{1,6})|([a-z]{2,8}\d{0,2}));/gi,
    (whole, decimal, hex, name) => {
      if (name !== undefined) return ENTITIES[String(name).toLowerCase()] ?? whole;
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
