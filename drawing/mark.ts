import { type Drawn, draw, path } from "./tree.ts";

/** Signs that go with a meaning, drawn rather than written: not every font on every paper has them (D3). */
export type Sign = "triangle" | "cross" | "check" | "play" | "pin";

/** A sign in a square of `size` whose corner is at x, y. */
export function signShape(sign: Sign, x: number, y: number, size: number, fill: string): Drawn {
  const line = { fill: "none", stroke: fill, "stroke-width": size * 0.2, "data-sign": sign };
  const at = (u: number, v: number) => [x + u * size, y + v * size] as const;
  switch (sign) {
    case "triangle":
      return draw("path", {
        d: path("M", ...at(0.5, 0.08), "L", ...at(0.96, 0.9), "L", ...at(0.04, 0.9), "Z"),
        fill,
        "data-sign": sign,
      });
    case "play":
      return draw("path", {
        d: path("M", ...at(0.12, 0.06), "L", ...at(0.92, 0.5), "L", ...at(0.12, 0.94), "Z"),
        fill,
        "data-sign": sign,
      });
    case "cross":
      return draw("path", {
        ...line,
        d: path(
          "M",
          ...at(0.12, 0.12),
          "L",
          ...at(0.88, 0.88),
          "M",
          ...at(0.88, 0.12),
          "L",
          ...at(0.12, 0.88),
        ),
      });
    case "pin":
      return draw("path", {
        ...line,
        d: path(
          ...["M", ...at(0.5, 0.55), "L", ...at(0.5, 1), "M", ...at(0.2, 0.55), "L", ...at(0.8, 0.55)],
          ...["M", ...at(0.34, 0.5), "L", ...at(0.34, 0.08), "L", ...at(0.66, 0.08), "L", ...at(0.66, 0.5)],
        ),
      });
    case "check":
      return draw("path", {
        ...line,
        d: path("M", ...at(0.06, 0.55), "L", ...at(0.38, 0.86), "L", ...at(0.94, 0.14)),
      });
  }
}
