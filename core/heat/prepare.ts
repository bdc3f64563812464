import type { z } from "zod";
import { killRateOf, killRateOfTable, tableLog10 } from "./lethality.ts";
import { type Air, type Around, airOf, around, type Place } from "./media.ts";
import { organismNamed } from "./organisms.ts";
import { type Whole, wholeOf } from "./piece.ts";
import { type Note, plain, refuse } from "./problem.ts";
import type { DAndZ, Layer, LethalityTableRef, Material, OvenSchema, Piece, Stage } from "./schema.ts";
import type { KillRate } from "./stepper.ts";

/** When a stage ends. Temperatures °C, `seconds` as said. */
export type End =
  | { by: "minutes"; seconds: number }
  | { by: "core" | "surface" | "mean" | "peak"; celsius: number }
  | { by: "doneness"; lowC: number; highC: number }
  | { by: "log10"; log10: number };

export type ReadyStage = {
  path: string;
  name?: string;
  around: Around;
  underside?: Around | "insulated";
  oven?: z.infer<typeof OvenSchema>;
  end: End;
};

/** What lethality is counted by: an organism's D and z, or a printed table. */
export type Judge = { what: string; rate: KillRate; organism?: DAndZ; table?: LethalityTableRef };

/** A trial read and found computable. */
export type Ready = {
  whole: Whole;
  startC: number;
  stages: readonly ReadyStage[];
  twoFaced: boolean;
  air: Air;
  judge: Judge;
  notes: Note[];
};

export type Question = {
  piece: Piece;
  material?: Material | undefined;
  layers?: readonly Layer[] | undefined;
  startC: number;
  stages: readonly Stage[];
  place: Place;
  organism?: DAndZ | undefined;
  /** Where the parts of the question stand in the caller's document. */
  paths?: { piece?: string; stages?: string; spread?: string };
};

/** Reads a question, refusing what cannot be computed and noting what should be known. Throws Refused. */
export function prepare(q: Question): Ready {
  const piecePath = q.paths?.piece ?? "/shape";
  const stagesPath = q.paths?.stages ?? "/stages";
  if (q.layers && q.piece.layers)
    refuse("/layers", "layers are given twice, here and in the shape", "keep one of the two");
  const inShape = q.piece.layers !== undefined;
  const layers = q.piece.layers ?? q.layers ?? [];
  const layersPath = inShape ? `${piecePath}/layers` : "/layers";
  const whole = wholeOf(q.piece, q.material, layers, layersPath, "/material");
  const air = airOf(q.place);
  const notes: Note[] = [];
  const outside = whole.layers[0]!.material;
  const wet =
    "composition" in outside ? (outside.composition.water ?? 0) >= 0.3 : outside.specificHeat >= 2500;
  const judge = judgeOf(q, stagesPath);
  const stages = q.stages.map((stage, i) => stageOf(stage, `${stagesPath}/${i}`, whole, air, wet, notes));
  for (const [i, stage] of stages.entries())
    if (stage.end.by === "peak" && (i === stages.length - 1 || stages[i + 1]!.end.by === "peak"))
      refuse(
        `${stage.path}/untilPeakCoreC`,
        "the core can only go on rising in a stage that follows",
        "add a rest after this stage, for example {medium: still-air, minutes: 15}",
      );
  const twoFaced = stages.some((stage) => stage.underside !== undefined);
  return { whole, startC: q.startC, stages, twoFaced, air, judge, notes: unique(notes) };
}

function stageOf(
  stage: Stage,
  path: string,
  whole: Whole,
  air: Air,
  wet: boolean,
  notes: Note[],
): ReadyStage {
  if (stage.untilMass)
    refuse(
      `${path}/untilMass`,
      "a reduction has no piece to follow",
      "compute reductions by themselves, or end this stage by minutes",
    );
  const ready: ReadyStage = { path, around: around(stage, air, wet, path, notes), end: endOf(stage) };
  if (stage.name !== undefined) ready.name = stage.name;
  if (stage.underside !== undefined) {
    if (whole.upright === undefined)
      refuse(
        `${path}/underside`,
        `a ${whole.kind} has no underside`,
        "take a slab, finite-cylinder or brick",
      );
    ready.underside =
      stage.underside === "insulated"
        ? "insulated"
        : around(stage.underside, air, wet, `${path}/underside`, notes);
  }
  if (stage.oven) {
    if (whole.kind === "slab" || whole.kind === "cylinder")
      refuse(
        `${path}/oven`,
        `a ${whole.kind} without ends has no mass to load an oven with`,
        "take a brick, sphere or finite-cylinder",
      );
    ready.oven = stage.oven;
  }
  return ready;
}

function endOf(stage: Stage): End {
  if (stage.minutes !== undefined) return { by: "minutes", seconds: stage.minutes * 60 };
  if (stage.untilCoreC !== undefined) return { by: "core", celsius: stage.untilCoreC };
  if (stage.untilSurfaceC !== undefined) return { by: "surface", celsius: stage.untilSurfaceC };
  if (stage.untilMeanC !== undefined) return { by: "mean", celsius: stage.untilMeanC };
  if (stage.untilPeakCoreC !== undefined) return { by: "peak", celsius: stage.untilPeakCoreC };
  if (stage.untilLog10 !== undefined) return { by: "log10", log10: stage.untilLog10.log10 };
  if (stage.untilTable !== undefined) return { by: "log10", log10: tableLog10(stage.untilTable) };
  const [a, b] = stage.untilDonenessC!;
  return { by: "doneness", lowC: Math.min(a, b), highC: Math.max(a, b) };
}

/** One organism or table counts through the whole trial: the one a stage ends by, else the one asked for. */
function judgeOf(q: Question, stagesPath: string): Judge {
  let found: { judge: Judge; key: string } | undefined;
  for (const [i, stage] of q.stages.entries()) {
    const { untilLog10, untilTable } = stage;
    if (!untilLog10 && !untilTable) continue;
    const judge = untilTable ? byTable(untilTable) : byOrganism(untilLog10!);
    if (found && found.key !== judge.what)
      refuse(
        `${stagesPath}/${i}/${untilTable ? "untilTable" : "untilLog10"}`,
        "two stages count lethality by different organisms",
        "count one organism in a trial, and run a second trial for the other",
      );
    found ??= { judge, key: judge.what };
  }
  if (found) return found.judge;
  return byOrganism(q.organism ?? organismNamed("salmonella-poultry")!);
}

function byOrganism(o: DAndZ): Judge {
  const organism = { dMinutes: o.dMinutes, referenceC: o.referenceC, zC: o.zC };
  const what = `D ${plain(o.dMinutes, 4)} min at ${plain(o.referenceC, 2)} °C, z ${plain(o.zC, 2)} K`;
  return { what, rate: killRateOf(organism), organism };
}

function byTable(table: LethalityTableRef): Judge {
  const fat = table.table.startsWith("fsis-meat") ? "" : `, fat ${table.fatPercent ?? 12} %`;
  return { what: `${table.table}${fat}`, rate: killRateOfTable(table), table };
}

function unique(notes: readonly Note[]): Note[] {
  return notes.filter((note, i) => notes.findIndex((n) => n.text === note.text) === i);
}
