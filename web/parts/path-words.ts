import type { Book } from "../../core/book/schema.ts";
import type { Names } from "../app/names.ts";
import type { Told } from "../compute/protocol.ts";

interface Known {
  readonly book: Book;
  readonly result: Told | undefined;
  readonly names: Names;
}

/**
 * A path of the trace as a cook would say it: "Celeriac velouté, celeriac, amount". Every step that has a name is
 * named, numbers of lists are left out, the last field is spelled in words.
 */
export function pathWords(path: string, known: Known): string {
  const [scheme, rest] = path.startsWith("/") ? ["", path] : splitScheme(path);
  const keys = rest
    .split("/")
    .slice(1)
    .map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));
  const root: unknown = scheme === "book" ? known.book : scheme === "" ? known.result : undefined;
  const parts: string[] = [];
  let here = root;
  keys.forEach((key, i) => {
    here = here !== null && typeof here === "object" ? (here as Record<string, unknown>)[key] : undefined;
    const name = nameOf(here, known.names);
    if (name) parts.push(name);
    else if (root === undefined) parts.push(known.names.item(key));
    else if (i === keys.length - 1 && !/^\d+$/.test(key) && key !== "value") parts.push(spaced(key));
    else if (i === keys.length - 2 && keys.at(-1) === "value") parts.push(spaced(key));
  });
  const words = parts
    .filter((part, i) => part !== parts[i - 1])
    .map((part) => (root === undefined ? spaced(part) : part));
  return words.join(", ") || spaced(rest);
}

function splitScheme(path: string): [string, string] {
  const colon = path.indexOf(":");
  return [path.slice(0, colon), path.slice(colon + 1)];
}

function nameOf(value: unknown, names: Names): string | undefined {
  if (value === null || typeof value !== "object" || Array.isArray(value)) return undefined;
  const node = value as Record<string, unknown>;
  const text = (key: string) => (typeof node[key] === "string" ? (node[key] as string) : undefined);
  const item = node.item as { ingredient?: string; preparation?: string } | string | undefined;
  if (text("name")) return text("name");
  if (typeof item === "object") return names.item(item.ingredient ?? item.preparation ?? "");
  if (text("preparation")) return names.preparation(text("preparation")!);
  if (text("dish"))
    return `${names.dish(text("dish")!)}${text("variant") && text("variant") !== "standard" ? ` (${text("variant")})` : ""}`;
  if (text("ingredient")) return names.ingredient(text("ingredient")!);
  return undefined;
}

function spaced(key: string): string {
  return key
    .replace(/([a-z0-9])([A-Z])/g, "$1 $2")
    .replaceAll(/[-_/]/g, " ")
    .toLowerCase()
    .trim();
}
