/** One tag of an XML text: its name without prefix, where it begins, and where it ends (after ">"). */
export interface Tag {
  readonly name: string;
  readonly closing: boolean;
  /** Ends in "/>": holds nothing. */
  readonly empty: boolean;
  readonly from: number;
  readonly to: number;
}

/**
 * Goes through the tags of an XML text once, from "<" to ">". Comments, declarations and instructions are passed
 * over; entities are never defined nor fetched. A tag that does not end, ends the walk. Linear.
 */
export function* tagsOf(xml: string, from = 0): Generator<Tag> {
  for (let at = xml.indexOf("<", from); at >= 0; at = xml.indexOf("<", at)) {
    if (xml.startsWith("<!--", at)) {
      const end = xml.indexOf("-->", at + 4);
      if (end < 0) return;
      at = end + 3;
      continue;
    }
    const end = xml.indexOf(">", at);
    if (end < 0) return;
    const closing = xml[at + 1] === "/";
    let stop = at + (closing ? 2 : 1);
    const start = stop;
    let name = start;
    for (; stop < end; stop++) {
      const code = xml.charCodeAt(stop);
      if (code === 58) name = stop + 1;
      else if (code <= 32 || code === 47) break;
    }
    if (xml[start] !== "?" && xml[start] !== "!")
      yield { name: xml.slice(name, stop), closing, empty: xml[end - 1] === "/", from: at, to: end + 1 };
    at = end + 1;
  }
}

/** The value of an attribute of a tag, its entities as letters; undefined when the tag has none of that name. */
export function attribute(xml: string, tag: Tag, name: string): string | undefined {
  const text = xml.slice(tag.from, Math.min(tag.to, tag.from + 2_000));
  for (let at = text.indexOf(name); at >= 0; at = text.indexOf(name, at + 1)) {
    if (!/[\s:]/.test(text[at - 1] ?? "")) continue;
    const mark = text[at + name.length + 1];
    if (text[at + name.length] !== "=" || (mark !== '"' && mark !== "'")) continue;
    const from = at + name.length + 2;
    const end = text.indexOf(mark, from);
    return end < 0 ? undefined : letters(text.slice(from, end));
  }
  return undefined;
}

const NAMED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/** The five entities of XML and numbered characters as letters; line breaks and hidden marks of cells as spaces. */
export function letters(text: string): string {
  const plain = text.includes("&")
    ? text.replace(/&(?:#(\d{1,7})|#x([0-9a-f]{1,6})|([a-z]{2,4}));/gi, (whole, decimal, hex, name) => {
        if (name !== undefined) return NAMED[String(name)] ?? whole;
        const code = decimal === undefined ? Number.parseInt(hex, 16) : Number(decimal);
        const good = code > 31 && code <= 0x10ffff && !(code >= 0xd800 && code <= 0xdfff);
        return good ? String.fromCodePoint(code) : " ";
      })
    : text;
  return plain.includes("_x") ? plain.replace(/_x00(?:0D|0A|09|1F)_/gi, " ") : plain;
}
