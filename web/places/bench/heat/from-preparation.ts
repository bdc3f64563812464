import type { Preparation, Step } from "../../../../core/formula/schema.ts";
import type { Material, Stage } from "../../../../core/heat/schema.ts";
import type { Documents } from "../../../../core/production/documents.ts";
import { compositionOfIngredient, compositionOfStep } from "../../../../core/run/composition.ts";
import type { Told } from "../../../compute/protocol.ts";
import {
  type Draft,
  EMPTY_PARTS,
  FIRST,
  MATERIAL,
  type MaterialDraft,
  PARTS,
  STAGE,
  type StageDraft,
} from "./draft.ts";

/** A trial of a preparation: its piece, the composition of what goes in, the stages of its heat target. */
export function draftOf(
  preparation: Preparation,
  library: Documents,
  amounts: Told | undefined,
  altitudeM: number,
): Draft {
  const { piece } = preparation;
  const heated = preparation.steps.find((step) => step.target?.stages.every((stage) => !stage.untilMass));
  const target = heated?.target;
  const sizes: Partial<Draft> =
    piece === undefined
      ? {}
      : piece.kind === "slab"
        ? { thicknessMm: piece.thicknessMm, stacked: piece.stacked ?? false }
        : piece.kind === "brick"
          ? { sidesMm: piece.sidesMm }
          : { diameterMm: piece.diameterMm, ...("lengthMm" in piece ? { lengthMm: piece.lengthMm } : {}) };
  const spread = target?.spread;
  const start = target?.startC;
  return {
    ...FIRST,
    ...sizes,
    kind: piece?.kind ?? FIRST.kind,
    layers: (piece?.layers ?? []).map((layer) => ({
      name: layer.name ?? "",
      thicknessMm: layer.thicknessMm,
      material: { ...MATERIAL, by: "written", written: writtenOf(layer) },
    })),
    material: materialOf(preparation, heated, library, amounts),
    startC: typeof start === "number" ? start : FIRST.startC,
    stages: target
      ? target.stages.map(stageDraft)
      : [{ ...STAGE, celsius: coreLimitOf(preparation) ?? STAGE.celsius }],
    altitudeM,
    spread: spread
      ? {
          thicknessMm: spread.thicknessMm,
          startC: spread.startC,
          mediumC: spread.mediumC,
          coefficientPercent:
            spread.coefficient === undefined ? undefined : Math.round(spread.coefficient * 1000) / 10,
        }
      : FIRST.spread,
  };
}

/** Composition of an ingredient as parts of 100 g; undefined where the book does not know it. */
export function partsOf(library: Documents, ingredient: string): MaterialDraft["parts"] | undefined {
  const found = compositionOfIngredient(library, ingredient);
  return found.ok ? ofHundred(found.composition) : undefined;
}

function materialOf(
  preparation: Preparation,
  heated: Step | undefined,
  library: Documents,
  amounts: Told | undefined,
): MaterialDraft {
  const step = heated ?? preparation.steps.at(-1)!;
  const grams = new Map(
    amounts?.batchSheets.flatMap((sheet) =>
      sheet.lines.map((line) => [`${sheet.preparation} ${line.line}`, line.exactG] as const),
    ),
  );
  let known = true;
  const gramsOf = (id: string, line: string) => {
    const g = grams.get(`${id} ${line}`);
    if (g === undefined) known = false;
    return g ?? 0;
  };
  const found = compositionOfStep(library, gramsOf, preparation, step);
  if (!found.ok || !known) return { ...MATERIAL, parts: EMPTY_PARTS };
  return { ...MATERIAL, parts: ofHundred(found.composition) };
}

function ofHundred(composition: Readonly<Partial<Record<(typeof PARTS)[number], number | undefined>>>) {
  return Object.fromEntries(
    PARTS.map((part) => [part, Math.round(1000 * (composition[part] ?? 0)) / 10]),
  ) as Record<(typeof PARTS)[number], number>;
}

function stageDraft(stage: Stage): StageDraft {
  const { mediumC, coefficient, underside } = stage;
  const under: Partial<StageDraft> =
    underside === undefined
      ? {}
      : underside === "insulated"
        ? { underside }
        : { underside: underside.medium ?? "", undersideC: underside.mediumC };
  return {
    ...STAGE,
    name: stage.name,
    medium: stage.medium ?? "",
    mediumC,
    coefficient,
    ...under,
    ...untilOf(stage),
  };
}

function untilOf(stage: Stage): Partial<StageDraft> {
  if (stage.untilCoreC !== undefined) return { until: "core", celsius: stage.untilCoreC };
  if (stage.untilPeakCoreC !== undefined) return { until: "peak", celsius: stage.untilPeakCoreC };
  if (stage.untilSurfaceC !== undefined) return { until: "surface", celsius: stage.untilSurfaceC };
  if (stage.untilMeanC !== undefined) return { until: "mean", celsius: stage.untilMeanC };
  if (stage.untilDonenessC) {
    const [celsius, highC] = stage.untilDonenessC;
    return { until: "doneness", celsius, highC };
  }
  if (stage.untilLog10) {
    const { log10, ...written } = stage.untilLog10;
    return { until: "log10", log10, written };
  }
  if (stage.untilTable) {
    const { table, fatPercent } = stage.untilTable;
    return { until: "table", table, fatPercent };
  }
  return { until: "minutes", minutes: stage.minutes };
}

function coreLimitOf(preparation: Preparation): number | undefined {
  const limits = preparation.steps.flatMap((step) => (step.control ? [step.control.limit] : []));
  return limits.find((limit) => limit.what === "coreC" && limit.op.startsWith(">"))?.value;
}

function writtenOf(layer: { readonly material?: Material } | Material): Material {
  if ("material" in layer && layer.material) return layer.material;
  const {
    name: _name,
    thicknessMm: _mm,
    ...material
  } = layer as Material & { name?: string; thicknessMm?: number };
  return material as Material;
}
