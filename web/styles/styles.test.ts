import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const HERE = import.meta.dirname;

/** Classes that a sheet gives looks of their own, outside of conditions on the screen: ".name" and its states. */
function classesOf(css: string): Set<string> {
  const found = new Set<string>();
  let depth = 0;
  for (const part of css.replace(/\/\*[\s\S]*?\*\//g, "").split(/(?<=[{}])/)) {
    const text = part.slice(0, -1).trim();
    if (part.endsWith("{") && depth === 0 && !text.startsWith("@"))
      for (const selector of text.split(",")) {
        const [, name] = /^\s*\.([\w-]+)(?:::?[\w-]+|\[[^\]]*\])*\s*$/.exec(selector) ?? [];
        if (name) found.add(name);
      }
    depth += part.endsWith("{") ? 1 : part.endsWith("}") ? -1 : 0;
  }
  return found;
}

test("the reader of sheets sees a class, its states, and not what stands under another or a condition", () => {
  const css =
    ".a, .b:hover { x: y } .c .d { x: y } @media print { .e { x: y } } .f[data-g='1'] { x: y } /* .h { */";
  expect([...classesOf(css)]).toEqual(["a", "b", "f"]);
});

test("no class gets its looks from two sheets: what one place changes no other place sees", () => {
  const sheets = readdirSync(HERE).filter((name) => name.endsWith(".css") && name !== "print.css");
  const owners = new Map<string, string[]>();
  for (const sheet of sheets)
    for (const name of classesOf(readFileSync(join(HERE, sheet), "utf8")))
      owners.set(name, [...(owners.get(name) ?? []), sheet]);
  expect(owners.size).toBeGreaterThan(200);
  expect([...owners].filter(([, list]) => list.length > 1)).toEqual([]);
});
