import { runHeat } from "../../core/heat/command.ts";
import { EXIT, type Io, readArgs, readText, refuse, writeJson } from "../io.ts";

const help = `tournant heat FILE.json [--json]

Temperatures inside a piece through stages (conduction in its real shape). The file:
  shape       {kind: slab|cylinder|sphere|finite-cylinder|brick, thicknessMm | diameterMm, lengthMm | sidesMm}
              full sizes, all faces exposed; core is the geometric centre
  material    {conductivity, density, specificHeat} or {composition: fractions of water, protein, fat, carbohydrate, fibre, ash}
  layers?     from the outside in
  startC, stages [{mediumC, coefficient | medium, one of minutes | untilCoreC | untilLog10 {dMinutes, referenceC, zC, log10} …}]
  altitudeM?, spread?

JSON: {stages: [{minutes, coreC, surfaceC, meanC, log10}], totalMinutes, curve, notes}.
What is computed is advice: a calibrated thermometer, the local code and the licensed person decide.
`;

function run(args: string[], io: Io): number {
  const { words, options } = readArgs(args, { json: "flag" }, { least: 1, most: 1 });
  const text = readText(words[0]!);
  if (!text.ok) return refuse(text.problems, options.json, io);
  let input: unknown;
  try {
    input = JSON.parse(text.value);
  } catch (error) {
    const problem = {
      path: "",
      what: `this is not JSON: ${(error as Error).message}`,
      mend: "mend the text where the message points",
    };
    return refuse([problem], options.json, io);
  }
  const answer = runHeat(input);
  if (!answer.ok) return refuse(answer.problems, options.json, io);
  if (options.json) writeJson(answer.value, io);
  else {
    for (const [i, stage] of answer.value.stages.entries())
      io.out(
        `stage ${i + 1}: ${stage.minutes.toFixed(1)} min, core ${stage.coreC.toFixed(1)} °C, surface ${stage.surfaceC.toFixed(1)} °C, mean ${stage.meanC.toFixed(1)} °C, ${stage.log10.toFixed(2)} log10\n`,
      );
    io.out(`in all ${answer.value.totalMinutes.toFixed(1)} min\n`);
    for (const note of answer.value.notes) io.note(`${note}\n`);
  }
  return EXIT.computed;
}

export default { help, run };
