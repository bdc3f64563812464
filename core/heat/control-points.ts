import {
  type CookFood,
  cookRules,
  coolingRules,
  holding,
  type LimitSource,
  parasiteFreezing,
  reheating,
  thawing,
  timeAsControl,
} from "./limits-data.ts";

/** What is done to a food at a step, as far as its hazards go. */
export type Handled = {
  food: CookFood | "rice" | "shellfish" | "dairy" | "other";
  /** "guinea-fowl", "duck" …: said when no table names it. */
  species?: string;
  act: "cook" | "cool" | "reheat" | "hold-hot" | "hold-cold" | "serve-raw" | "thaw" | "cure" | "ferment";
  /** Core the step asks for, °C, and log10 it asks for, when it asks. */
  coreC?: number;
  log10?: number;
  /** Packed with little oxygen: vacuum, bath in a bag, under fat. */
  reducedOxygen?: boolean;
  /** Nitrite goes in; plain salt is salting, not curing. */
  nitrite?: boolean;
  /** What stands for the killing of parasites in fish served raw or undercooked. */
  parasites?: "farm-letter" | "frozen" | "none";
  /** The kitchen's boiling point, °C. */
  boilingC?: number;
};

export type LimitPart = {
  what: "coreC" | "airC" | "minutes" | "pH" | "log10" | "document";
  op: ">=" | "<=";
  value: number;
  /** Within so many minutes, or held so many seconds. */
  withinMin?: number;
  forSeconds?: number;
};

/** A point where a hazard is held in check (Codex HACCP principles 2 to 7), as data for the log. */
export type ControlData = {
  level: "critical" | "practice";
  hazard: string;
  limit: string;
  parts: readonly LimitPart[];
  monitor: string;
  corrective: string;
  record: string;
  source: LimitSource | { doc: string; kind: "common practice" };
  notes: readonly string[];
};

const probeEach = "probe the middle of the thickest piece of each batch with a checked thermometer";

/** The control point that a step makes, or undefined where nothing is held in check there. */
export function controlFor(h: Handled): ControlData | undefined {
  switch (h.act) {
    case "cook":
      return cooking(h);
    case "cool":
      return cooling();
    case "reheat":
      return reheat();
    case "hold-hot":
      return hotHold(h);
    case "hold-cold":
      return coldHold(h);
    case "thaw":
      return thaw();
    case "serve-raw":
      return raw(h);
    case "cure":
      return cure(h);
    case "ferment":
      return undefined;
  }
}

/** Codex lets a plan be clear: the points that kill, cool and hold critical, at most seven; the rest practice. */
export function chooseCritical(points: readonly ControlData[], most = 7): ControlData[] {
  let critical = 0;
  return points.map((point) => {
    if (point.level === "critical" && critical < most) {
      critical++;
      return point;
    }
    return { ...point, level: "practice" };
  });
}

function cooking(h: Handled): ControlData {
  const food: CookFood =
    h.food === "rice" || h.food === "other" || h.food === "dairy"
      ? "plant"
      : h.food === "shellfish"
        ? "fish"
        : h.food;
  const rule = cookRules[food];
  const asked = h.coreC;
  // The hottest printed pair that the step's own temperature covers: the shortest hold.
  const covered = rule.options.findLast((o) => asked === undefined || asked >= o.celsius);
  const notes: string[] = [];
  const poultry = food === "poultry";
  const below = asked !== undefined && asked < rule.options[0]!.celsius;
  if (poultry && below) {
    notes.push(
      "Poultry below 74 °C is outside Food Code 3-401.11(A)(3): it needs a variance (3-502.11) and a HACCP plan with an integrated hold.",
    );
    if (h.species && !["chicken", "turkey"].includes(h.species))
      notes.push(
        `No FSIS table names ${h.species}: the longer of chicken and turkey is taken, which FSIS allows for other poultry.`,
      );
  } else if (below)
    notes.push(
      `${asked} °C is below ${rule.options[0]!.celsius} °C (${rule.source.table}): served so, it needs the menu's consumer advisory (3-603.11) or a variance.`,
    );
  if (h.reducedOxygen)
    notes.push(
      "Cooked in reduced-oxygen packing: 3-502.12 asks for a HACCP plan, labelling and cold holding of its own.",
    );
  if (asked !== undefined && h.boilingC !== undefined && asked >= h.boilingC - 0.5)
    notes.push(`Water boils at ${h.boilingC.toFixed(1)} °C here: no wet core passes it.`);
  const parts: LimitPart[] =
    h.log10 !== undefined
      ? [{ what: "log10", op: ">=", value: h.log10 }]
      : covered
        ? [pairPart(covered)]
        : [{ what: "coreC", op: ">=", value: asked! }];
  if (h.log10 !== undefined && asked !== undefined) parts.push({ what: "coreC", op: ">=", value: asked });
  return {
    level: "critical",
    hazard: `${hazardOf(h)} alive in the core`,
    limit: parts.map(partInWords).join("; "),
    parts,
    monitor: h.log10 === undefined ? probeEach : `${probeEach}; log core and time until the hold is over`,
    corrective: "cook on until the limit is met; if the time for it has run out, discard",
    record: "batch, core, time, who",
    source: rule.source,
    notes,
  };
}

function cooling(): ControlData {
  const rule = coolingRules[0]!;
  const parts: LimitPart[] = rule.stages.map((s) => ({
    what: "coreC",
    op: "<=",
    value: s.toC,
    withinMin: s.withinMin,
  }));
  return {
    level: "critical",
    hazard: "spores (Clostridium perfringens, Bacillus cereus) growing while it cools",
    limit: `from 57 °C: ${parts.map(partInWords).join("; ")}`,
    parts,
    monitor: "probe the thickest piece at the start, at 2 hours and at 6 hours",
    corrective:
      "21 °C missed at 2 hours: reheat to 74 °C at once and cool again in thinner layers; 5 °C missed at 6 hours: discard",
    record: "batch, core and time at each reading, which remedy was taken, who",
    source: rule.source,
    notes: [],
  };
}

function reheat(): ControlData {
  const { celsius, seconds, withinMin } = reheating;
  const parts: LimitPart[] = [{ what: "coreC", op: ">=", value: celsius, forSeconds: seconds, withinMin }];
  return {
    level: "critical",
    hazard: "what grew while it was cold",
    limit: parts.map(partInWords).join("; "),
    parts,
    monitor: "probe the middle of each container as it goes into the hot cabinet",
    corrective: "heat on within the two hours; after that discard",
    record: "batch, core, minutes since it left the cold, who",
    source: reheating.source,
    notes: ["Reheated for one guest's immediate order any temperature is allowed (3-403.10)."],
  };
}

function hotHold(h: Handled): ControlData {
  const least = h.food === "roast" ? holding.roastHotC : holding.hotC;
  const parts: LimitPart[] = [{ what: "coreC", op: ">=", value: least }];
  return {
    level: "critical",
    hazard: "growth while it is held warm",
    limit: parts.map(partInWords).join("; "),
    parts,
    monitor: "probe the coolest spot every two hours",
    corrective: `below the limit for at most ${timeAsControl.mostMin / 60} hours in all: reheat to 74 °C; longer or unknown: discard`,
    record: "time, temperature, who",
    source: holding.source,
    notes: [],
  };
}

function coldHold(h: Handled): ControlData {
  const parts: LimitPart[] = [{ what: "airC", op: "<=", value: holding.coldC }];
  return {
    level: h.reducedOxygen ? "critical" : "practice",
    hazard: h.reducedOxygen ? "Clostridium botulinum and Listeria growing without air" : "growth in the cold",
    limit: parts.map(partInWords).join("; "),
    parts,
    monitor: "read the air at opening, mid-day and close",
    corrective: `above ${holding.coldC} °C for at most ${timeAsControl.mostMin / 60} hours: cool at once; longer or unknown: discard`,
    record: "cooler, temperature, time, who",
    source: holding.source,
    notes: h.reducedOxygen ? ["Reduced-oxygen packs: days and temperature by 3-502.12 and the plan."] : [],
  };
}

function thaw(): ControlData {
  const parts: LimitPart[] = [{ what: "coreC", op: "<=", value: thawing.refrigeratedC }];
  return {
    level: "practice",
    hazard: "growth at the surface while the middle is frozen",
    limit: `${parts.map(partInWords).join("; ")}; in running water ${thawing.waterC} °C or below`,
    parts,
    monitor: "read the air of the cooler; feel for ice before the next step",
    corrective: "surface above 5 °C for more than 4 hours: discard",
    record: "pulled at, from where, who",
    source: thawing.source,
    notes: [],
  };
}

function raw(h: Handled): ControlData | undefined {
  if (h.food !== "fish") {
    return {
      level: "practice",
      hazard: `${hazardOf(h)} in food served raw or undercooked`,
      limit: "consumer advisory on the menu; not for guests at risk",
      parts: [],
      monitor: "check the menu's wording and the guests' needs before service",
      corrective: "serve the cooked variant",
      record: "who checked, when",
      source: { doc: "FDA Food Code 2022", table: "3-603.11, 3-801.11", kind: "published" },
      notes: [],
    };
  }
  const [cold, colder] = parasiteFreezing.options;
  const freeze = `frozen at ${cold.celsius} °C or below for ${cold.hours} h, or at ${colder.celsius} °C for ${colder.hours} h`;
  const letter =
    "supplier's letter that the fish is farmed on feed without live parasites, on file for this lot";
  const way = h.parasites ?? "none";
  return {
    level: "critical",
    hazard: "parasites in fish served raw, salted or undercooked",
    limit: way === "farm-letter" ? letter : freeze,
    parts:
      way === "farm-letter"
        ? [{ what: "document", op: ">=", value: 1 }]
        : [{ what: "airC", op: "<=", value: cold.celsius, forSeconds: cold.hours * 3600 }],
    monitor:
      way === "farm-letter"
        ? "check the letter names this lot at delivery"
        : "log the freezer through the days",
    corrective: "no letter and not frozen: cook to 63 °C or send back",
    record: way === "farm-letter" ? "letter, lot, date" : "lot, freezer temperatures, dates",
    source: parasiteFreezing.source,
    notes:
      way === "none" ? ["Neither a letter nor freezing is recorded: it cannot be served raw or salted."] : [],
  };
}

function cure(h: Handled): ControlData {
  const parts: LimitPart[] = [{ what: "airC", op: "<=", value: holding.coldC }];
  return {
    level: h.nitrite ? "critical" : "practice",
    hazard: h.nitrite ? "too much nitrite, or growth while it cures" : "growth while the salt goes in",
    limit: `${parts.map(partInWords).join("; ")}; salt by weight of the piece`,
    parts,
    monitor: "weigh salt and piece; read the cooler twice a day",
    corrective: "wrong weight: discard the cure and start again; above 5 °C for more than 4 hours: discard",
    record: "weights, times, temperatures, who",
    source: h.nitrite
      ? { doc: "FDA Food Code 2022", table: "3-502.11", kind: "published" }
      : { doc: "salting with plain salt under cold holding", kind: "common practice" },
    notes: [
      h.nitrite
        ? "Curing with nitrite needs a variance and a HACCP plan (3-502.11)."
        : "With plain salt it is called salted, not cured: salt alone is no kill step.",
    ],
  };
}

function hazardOf(h: Handled): string {
  const by: Record<Handled["food"], string> = {
    poultry: "Salmonella and Campylobacter",
    "ground-meat": "E. coli O157:H7 and Salmonella",
    "whole-meat": "Salmonella and E. coli on the surface",
    roast: "Salmonella",
    fish: "parasites, Vibrio and Listeria",
    shellfish: "Vibrio and viruses",
    egg: "Salmonella",
    "egg-for-one": "Salmonella",
    plant: "Listeria and spores",
    rice: "Bacillus cereus",
    dairy: "Listeria and Salmonella",
    other: "pathogens",
  };
  return by[h.food];
}

function pairPart(option: { celsius: number; seconds: number }): LimitPart {
  return option.seconds > 0
    ? { what: "coreC", op: ">=", value: option.celsius, forSeconds: option.seconds }
    : { what: "coreC", op: ">=", value: option.celsius };
}

/** A part of a limit in words: "core at least 63 °C for 15 s". */
export function partInWords(part: LimitPart): string {
  const [name, unit] = {
    coreC: ["core", " °C"],
    airC: ["air", " °C"],
    minutes: ["time", " min"],
    pH: ["pH", ""],
    log10: ["reduction", " log10"],
    document: ["document", ""],
  }[part.what] as [string, string];
  if (part.what === "document") return "document on file";
  const seconds = part.forSeconds ?? 0;
  const held = seconds >= 7200 ? ` for ${seconds / 3600} h` : seconds > 0 ? ` for ${seconds} s` : "";
  const within = part.withinMin ? ` within ${part.withinMin} min` : "";
  return `${name} ${part.op === ">=" ? "at least" : "at most"} ${part.value}${unit}${held}${within}`;
}
