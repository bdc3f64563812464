import type { SpreadInput } from "../../../../core/heat/spread.ts";
import { isKey, type Say } from "../../../../words/catalogue.ts";
import type { Format } from "../../../../words/format.ts";

const SPREAD: Readonly<Record<string, SpreadInput>> = {
  thicknessMm: "thickness",
  startC: "start",
  mediumC: "medium",
  coefficient: "coefficient",
};

/** A place of a trial in the words of its form: "/stages/0/untilCoreC" is "Stage 1, end". */
export function placeWords(path: string, say: Say): string {
  const [first = "", ...keys] = path.split("/").slice(1);
  if (first === "startC") return say("heat.start");
  if (first === "altitudeM") return say("heat.altitude");
  if (first === "material") return ofMaterial(keys, say);
  if (first === "organism") return say("heat.counted");
  if (first === "spread") {
    const input = SPREAD[keys[0] ?? ""];
    return input ? say("heat.place.tolerance", { input: say(`heat.input.${input}`) }) : say("heat.spread");
  }
  if (first === "stages") return ofStage(keys, say);
  if (first === "shape") return ofShape(keys, say);
  if (first === "minutes") return say("heat.inverse.minutes");
  return say("heat.title");
}

function ofShape([key = "", i = "", inner = ""]: readonly string[], say: Say): string {
  if (key === "thicknessMm") return say("heat.thickness");
  if (key === "diameterMm") return say("heat.diameter");
  if (key === "lengthMm") return say("heat.length");
  if (key === "sidesMm" && isKey(`heat.side.${i}`)) return say(`heat.side.${i}` as "heat.side.0");
  if (key === "layers" && i !== "")
    return say("heat.place.layer", {
      n: Number(i) + 1,
      what: say(inner === "thicknessMm" ? "heat.place.thickness" : "heat.place.material"),
    });
  return say(key === "layers" ? "heat.layers" : "heat.shape");
}

function ofMaterial([kind = "", part = ""]: readonly string[], say: Say): string {
  const key = `heat.part.${part}`;
  if (kind === "composition" && isKey(key)) return say(key);
  const given = `heat.${kind}`;
  return isKey(given) ? say(given) : say("heat.material");
}

function ofStage([i = "0", key = ""]: readonly string[], say: Say): string {
  const known = ["medium", "mediumC", "coefficient", "underside"].includes(key);
  const what = say((known ? `heat.place.${key}` : "heat.place.end") as "heat.place.end");
  return say("heat.place.stage", { n: Number(i) + 1, what });
}

export interface Change {
  readonly path: string;
  readonly a: string;
  readonly b: string;
}

/** Where two trials differ, and what stands there in each, as a person reads it. */
export function changesBetween(a: unknown, b: unknown, say: Say, write: Format): Change[] {
  const [before, after] = [leaves(a), leaves(b)];
  const paths = [...new Set([...before.keys(), ...after.keys()])];
  return paths
    .filter((path) => before.get(path) !== after.get(path))
    .map((path) => ({ path, a: text(path, before.get(path)), b: text(path, after.get(path)) }));

  function text(path: string, value: unknown): string {
    if (value === undefined) return say("heat.compare.none");
    if (typeof value !== "number") {
      const word = [`heat.medium.${value}`, `heat.shape.${value}`].find(isKey);
      return word && isKey(word) ? say(word) : String(value);
    }
    const key = path.split("/").findLast((each) => !/^\d+$/.test(each)) ?? "";
    if (key.endsWith("Mm")) return write.length(value);
    if (path.startsWith("/spread/") && key.endsWith("C")) return write.kelvin(value);
    if (key.endsWith("C") && key !== "zC") return write.temperature(value);
    if (key === "minutes") return write.span(value);
    if (path === "/spread/coefficient") return write.share(value);
    if (path.includes("/composition/")) return write.mass(100 * value);
    return write.number(value, 3);
  }
}

/** Every plain value with its place. */
function leaves(value: unknown, path = ""): Map<string, unknown> {
  if (value === undefined) return new Map();
  if (value === null || typeof value !== "object") return new Map([[path, value]]);
  return new Map(Object.entries(value).flatMap(([key, inner]) => [...leaves(inner, `${path}/${key}`)]));
}
