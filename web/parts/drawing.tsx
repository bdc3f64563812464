import { createElement, memo, type ReactNode } from "react";
import type { Drawn } from "../../drawing/tree.ts";

/** A drawing on the page. Elements that stand for a task keep their place in the page when the drawing changes. */
export const Drawing = memo(function Drawing({ of }: { readonly of: Drawn }) {
  return <>{element(of, 0)}</>;
});

const made = new WeakMap<Drawn, { readonly index: number; readonly node: ReactNode }>();

/** The same part of a drawing is the same on the page: where one task is drawn anew, the others are not looked at. */
function element(drawn: Drawn, index: number): ReactNode {
  const known = made.get(drawn);
  if (known?.index === index) return known.node;
  const node = elementOf(drawn, index);
  made.set(drawn, { index, node });
  return node;
}

function elementOf(drawn: Drawn, index: number): ReactNode {
  const props: Record<string, string | number> = { key: drawn.attributes["data-task"] ?? index };
  for (const [name, value] of Object.entries(drawn.attributes)) props[reactName(name)] = value;
  return createElement(
    drawn.tag,
    props,
    ...drawn.children.map((child, i) => (typeof child === "string" ? child : element(child, i))),
  );
}

const known = new Map<string, string>();
function reactName(name: string): string {
  if (name.startsWith("data-") || name.startsWith("aria-")) return name;
  let found = known.get(name);
  if (!found) {
    found = name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
    known.set(name, found);
  }
  return found;
}
