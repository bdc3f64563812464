import type { CookFood } from "../../../../core/heat/limits-data.ts";
import { organisms } from "../../../../core/heat/organisms.ts";
import type { DAndZ, LethalityTableRef, Material, Piece } from "../../../../core/heat/schema.ts";
import type { HeatTrial } from "../../../compute/heat-protocol.ts";

/** What stands in a field: a number where it could be read, else the text as it was typed (A3). */
export type Typed = number | string | undefined;

export const PARTS = ["water", "protein", "fat", "carbohydrate", "fibre", "ash"] as const;
export type Part = (typeof PARTS)[number];

export interface MaterialDraft {
  /** By hand in parts, by given properties, as a document has it, or an ingredient of the book by its id. */
  readonly by: "parts" | "given" | "written" | `ingredient:${string}`;
  /** g of 100 g. */
  readonly parts: Readonly<Record<Part, Typed>>;
  readonly conductivity: Typed;
  readonly density: Typed;
  readonly specificHeat: Typed;
  readonly written?: Material | undefined;
}

export interface LayerDraft {
  readonly name: string;
  readonly thicknessMm: Typed;
  readonly material: MaterialDraft;
}

export const UNTILS = ["core", "peak", "surface", "mean", "minutes", "log10", "table", "doneness"] as const;
export type Until = (typeof UNTILS)[number];

export interface StageDraft {
  readonly name?: string | undefined;
  /** "" stands for any temperature with a coefficient. */
  readonly medium: string;
  readonly mediumC: Typed;
  readonly coefficient: Typed;
  readonly until: Until;
  readonly celsius: Typed;
  readonly highC: Typed;
  readonly minutes: Typed;
  /** An organism by its id, or the D and z that a document writes. */
  readonly organism: string;
  readonly written?: DAndZ | undefined;
  readonly log10: Typed;
  readonly table: LethalityTableRef["table"];
  readonly fatPercent: Typed;
  /** "" for the stage's own medium. */
  readonly underside: string;
  readonly undersideC: Typed;
}

export interface Draft {
  readonly kind: Piece["kind"];
  readonly thicknessMm: Typed;
  readonly diameterMm: Typed;
  readonly lengthMm: Typed;
  readonly sidesMm: readonly [Typed, Typed, Typed];
  readonly stacked: boolean;
  readonly layers: readonly LayerDraft[];
  readonly material: MaterialDraft;
  readonly startC: Typed;
  readonly stages: readonly StageDraft[];
  readonly altitudeM: Typed;
  readonly spread: {
    readonly thicknessMm: Typed;
    readonly startC: Typed;
    readonly mediumC: Typed;
    readonly coefficientPercent: Typed;
  };
  readonly food: CookFood | "";
  readonly organism: string;
}

export const EMPTY_PARTS: Readonly<Record<Part, Typed>> = {
  water: undefined,
  protein: undefined,
  fat: undefined,
  carbohydrate: undefined,
  fibre: undefined,
  ash: undefined,
};

export const MATERIAL: MaterialDraft = {
  by: "parts",
  parts: EMPTY_PARTS,
  conductivity: undefined,
  density: undefined,
  specificHeat: undefined,
};

export const STAGE: StageDraft = {
  medium: "boiling-water",
  mediumC: undefined,
  coefficient: undefined,
  until: "core",
  celsius: 74,
  highC: undefined,
  minutes: undefined,
  organism: "salmonella-poultry",
  log10: 7,
  table: "fsis-poultry-7",
  fatPercent: undefined,
  underside: "",
  undersideC: undefined,
};

/** Where a trial from scratch begins: a poached roll. Composition about that of raw poultry meat, from memory. */
export const FIRST: Draft = {
  kind: "cylinder",
  thicknessMm: 30,
  diameterMm: 50,
  lengthMm: 200,
  sidesMm: [60, 90, 40],
  stacked: false,
  layers: [],
  material: { ...MATERIAL, parts: { ...EMPTY_PARTS, water: 74, protein: 20, fat: 5, ash: 1 } },
  startC: 4,
  stages: [STAGE],
  altitudeM: 0,
  spread: { thicknessMm: 2, startC: 1, mediumC: 1, coefficientPercent: 20 },
  food: "",
  organism: "salmonella-poultry",
};

/** A number as someone types it, comma or point; the text itself where it is none; nothing where it is blank. */
export function readTyped(text: string): Typed {
  const trimmed = text.trim().replace(/^[−–]/, "-").replace(",", ".");
  if (trimmed === "") return undefined;
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(trimmed) ? Number(trimmed) : text;
}

/** The trial as an input of the `heat` command; what could not be read stands in it as typed and is refused there. */
export function inputOf(draft: Draft): HeatTrial["input"] {
  return {
    shape: {
      ...sizesOf(draft),
      ...(draft.layers.length === 0
        ? {}
        : {
            layers: draft.layers.map((layer) => ({
              ...(layer.name === "" ? {} : { name: layer.name }),
              thicknessMm: layer.thicknessMm,
              material: materialOf(layer.material),
            })),
          }),
    },
    material: materialOf(draft.material),
    startC: draft.startC,
    stages: draft.stages.map(stageOf),
    altitudeM: draft.altitudeM,
    spread: {
      thicknessMm: draft.spread.thicknessMm,
      startC: draft.spread.startC,
      mediumC: draft.spread.mediumC,
      coefficient: hundredth(draft.spread.coefficientPercent),
    },
    organism: organismOf(draft.organism),
  };
}

export function trialOf(draft: Draft): HeatTrial {
  return { input: inputOf(draft), food: draft.food === "" ? undefined : draft.food };
}

function sizesOf(draft: Draft): object {
  const { kind, thicknessMm, diameterMm, lengthMm, sidesMm } = draft;
  switch (kind) {
    case "slab":
      return { kind, thicknessMm, ...(draft.stacked ? { stacked: true } : {}) };
    case "cylinder":
    case "sphere":
      return { kind, diameterMm };
    case "finite-cylinder":
      return { kind, diameterMm, lengthMm };
    case "brick":
      return { kind, sidesMm };
  }
}

function materialOf(material: MaterialDraft): unknown {
  if (material.by === "written") return material.written;
  if (material.by === "given") {
    const { conductivity, density, specificHeat } = material;
    return { conductivity, density, specificHeat };
  }
  return {
    composition: Object.fromEntries(PARTS.map((part) => [part, hundredth(material.parts[part])])),
  };
}

function stageOf(stage: StageDraft): object {
  const { name, medium, mediumC, coefficient, underside, undersideC } = stage;
  return {
    ...(name ? { name } : {}),
    ...(medium === "" ? {} : { medium }),
    mediumC,
    coefficient,
    ...untilOf(stage),
    ...(underside === ""
      ? {}
      : { underside: underside === "insulated" ? underside : { medium: underside, mediumC: undersideC } }),
  };
}

function untilOf(stage: StageDraft): object {
  const { celsius, highC, minutes, log10, table, fatPercent } = stage;
  switch (stage.until) {
    case "core":
      return { untilCoreC: celsius };
    case "peak":
      return { untilPeakCoreC: celsius };
    case "surface":
      return { untilSurfaceC: celsius };
    case "mean":
      return { untilMeanC: celsius };
    case "minutes":
      return { minutes };
    case "doneness":
      return { untilDonenessC: [celsius, highC] };
    case "log10":
      return { untilLog10: { ...(stage.written ?? organismOf(stage.organism)), log10 } };
    case "table":
      return { untilTable: { table, fatPercent } };
  }
}

function organismOf(id: string): object | undefined {
  const found = organisms.find((organism) => organism.id === id);
  if (!found) return undefined;
  const { dMinutes, referenceC, zC } = found;
  return { dMinutes, referenceC, zC };
}

const hundredth = (typed: Typed): Typed => (typeof typed === "number" ? typed / 100 : typed);
