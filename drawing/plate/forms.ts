import type { Ink } from "../ink.ts";
import { type Drawn, draw, path } from "../tree.ts";
import type { Footprint, Form } from "./size.ts";

/**
 * One piece seen from above, centred on 0,0, its length along x, in mm. Each form has its own outline and its own
 * few lines, so that forms are told apart without colour (D3).
 */
export function formShape(
  form: Form,
  size: Footprint,
  ink: Ink,
  line: { stroke: string; width: number },
): Drawn {
  const { alongMm: l, acrossMm: w } = size;
  const edge = {
    stroke: line.stroke,
    "stroke-width": line.width,
    "stroke-linejoin": "round",
    "stroke-dasharray": size.basis === "written" ? undefined : "2.4 1.6",
  };
  const hair = {
    stroke: line.stroke,
    "stroke-width": line.width * 0.5,
    fill: "none",
    "stroke-linecap": "round",
  };
  const shape = (d: string, fill: string, ...lines: Drawn[]) =>
    draw("g", {}, draw("path", { d, fill, ...edge }), ...lines);
  switch (form) {
    case "quenelle":
      return shape(
        leaf(l, w),
        ink.tint(0.05),
        draw("path", { ...hair, d: path("M", -l * 0.4, 0, "Q", 0, -w * 0.16, l * 0.4, 0) }),
      );
    case "slice":
    case "fan":
      return shape(
        slab(l, w, Math.min(l, w) * 0.18),
        ink.tint(0.16),
        ...[-0.25, 0.05, 0.3].map((y) =>
          draw("path", { ...hair, d: path("M", -l * 0.36, y * w, "L", l * 0.36, y * w - w * 0.06) }),
        ),
      );
    case "line":
      return shape(slab(l, w, w / 2), ink.tint(0.4));
    case "pool":
      return shape(
        puddle(l, w),
        ink.tint(0.1),
        draw("path", {
          ...hair,
          d: path("M", -l * 0.28, -w * 0.12, "Q", -l * 0.1, -w * 0.3, l * 0.14, -w * 0.26),
        }),
      );
    case "dot":
      return shape(oval(l, w), ink.tint(0.55));
    case "mound":
      return shape(
        oval(l, w),
        ink.tint(0.1),
        ...[0.62, 0.3].map((r) =>
          draw("path", {
            ...hair,
            d: path("M", -l * r * 0.5, 0, "A", l * r * 0.5, w * r * 0.5, 0, 1, 1, l * r * 0.3, w * r * 0.4),
          }),
        ),
      );
    case "crisp":
      return shape(
        shard(l, w),
        ink.ground,
        ...[-0.3, -0.1, 0.1, 0.3].map((x) =>
          draw("path", { ...hair, d: path("M", x * l - w * 0.1, w * 0.26, "L", x * l + w * 0.1, -w * 0.26) }),
        ),
      );
    case "layer":
      return shape(oval(l, w), ink.tint(0.06), draw("path", { ...hair, d: oval(l * 0.86, w * 0.86) }));
  }
}

function oval(l: number, w: number): string {
  return path(
    "M",
    -l / 2,
    0,
    "A",
    l / 2,
    w / 2,
    0,
    1,
    1,
    l / 2,
    0,
    "A",
    l / 2,
    w / 2,
    0,
    1,
    1,
    -l / 2,
    0,
    "Z",
  );
}

/** Pointed at both ends, as two spoons leave it. */
function leaf(l: number, w: number): string {
  const c = l * 0.34;
  return path(
    "M",
    -l / 2,
    0,
    "C",
    -c,
    -w * 0.64,
    c,
    -w * 0.64,
    l / 2,
    0,
    "C",
    c,
    w * 0.64,
    -c,
    w * 0.64,
    -l / 2,
    0,
    "Z",
  );
}

function slab(l: number, w: number, r: number): string {
  const x = l / 2;
  const y = w / 2;
  return path(
    "M",
    -x + r,
    -y,
    "L",
    x - r,
    -y,
    "Q",
    x,
    -y,
    x,
    -y + r,
    "L",
    x,
    y - r,
    "Q",
    x,
    y,
    x - r,
    y,
    "L",
    -x + r,
    y,
    "Q",
    -x,
    y,
    -x,
    y - r,
    "L",
    -x,
    -y + r,
    "Q",
    -x,
    -y,
    -x + r,
    -y,
    "Z",
  );
}

/** A pool runs out a little unevenly; always the same way, so that a picture stays the same. */
function puddle(l: number, w: number): string {
  const radii = [1, 0.94, 1.03, 0.96, 1.01, 0.93, 1.02, 0.97];
  const points = radii.map((r, i) => {
    const angle = (i / radii.length) * 2 * Math.PI;
    return [(l / 2) * r * Math.cos(angle), (w / 2) * r * Math.sin(angle)] as const;
  });
  const mid = (i: number) => {
    const a = points[i % points.length]!;
    const b = points[(i + 1) % points.length]!;
    return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const;
  };
  const parts: (string | number)[] = ["M", ...mid(0)];
  for (let i = 1; i <= points.length; i++) parts.push("Q", ...points[i % points.length]!, ...mid(i));
  return path(...parts, "Z");
}

function shard(l: number, w: number): string {
  const x = l / 2;
  const y = w / 2;
  return path(
    "M",
    -x,
    y * 0.5,
    "L",
    -x * 0.62,
    -y * 0.86,
    "L",
    x * 0.1,
    -y * 0.6,
    "L",
    x,
    -y,
    "L",
    x * 0.74,
    y * 0.7,
    "L",
    -x * 0.1,
    y,
    "Z",
  );
}
