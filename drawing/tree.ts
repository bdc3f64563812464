/** One element of a drawing. Attribute names are SVG's own. */
export interface Drawn {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (Drawn | string)[];
}

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Makes an element; attributes without a value and empty children are left out. */
export function draw(
  tag: string,
  attributes: Attributes,
  ...children: (Drawn | string | undefined | false)[]
): Drawn {
  const kept: Record<string, string | number> = {};
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    kept[name] = typeof value === "number" ? tidy(value) : value;
  }
  return {
    tag,
    attributes: kept,
    children: children.filter((c): c is Drawn | string => c !== undefined && c !== false && c !== ""),
  };
}

/** A length to a hundredth: enough for any screen or printer, and pictures stay comparable. */
export function tidy(value: number): number {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? 0 : rounded;
}

/** A path from commands and numbers: path("M", 0, 0, "L", 10, 5). */
export function path(...parts: readonly (string | number)[]): string {
  return parts.map((part) => (typeof part === "number" ? tidy(part) : part)).join(" ");
}

const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (mark) => ESCAPES[mark]!);
}

/** The drawing as SVG text, one element a line. */
export function svgText(drawn: Drawn, indent = ""): string {
  const attributes = Object.entries(drawn.attributes)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join("");
  const open = `${indent}<${drawn.tag}${attributes}`;
  if (drawn.children.length === 0) return `${open}/>\n`;
  if (drawn.children.every((child) => typeof child === "string"))
    return `${open}>${escaped(drawn.children.join(""))}</${drawn.tag}>\n`;
  const inside = drawn.children
    .map((child) =>
      typeof child === "string" ? `${indent} ${escaped(child)}\n` : svgText(child, `${indent} `),
    )
    .join("");
  return `${open}>\n${inside}${indent}</${drawn.tag}>\n`;
}
