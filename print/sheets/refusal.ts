import type { Content } from "pdfmake/interfaces.js";
import { wordFor } from "../../words/catalogue.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { headCells, part, quiet, ruled, sheetTitle, TYPE } from "../parts.ts";

/** Breaches told one by one; the rest are counted by kind. */
const MOST = 12;

/** The first page of a pack whose plan breaks rules: which, by how much, and what was tried. */
export function refusalPages(paper: Paper): SheetPages[] {
  const { result, say, write, set } = paper;
  const { broken, remedies, status } = result.plan;
  if (status !== "broken") return [];
  const kinds = new Map<string, number>();
  for (const breach of broken) kinds.set(breach.rule, (kinds.get(breach.rule) ?? 0) + 1);
  const content: Content = [
    sheetTitle(say("pack.refusal")),
    { text: set(result.summary.sentence), fontSize: TYPE.board, bold: true, margin: [0, 0, 0, 8] },
    { text: say("pack.refusal.what"), margin: [0, 0, 0, 4] },
    ...noPlanTold(paper),
    part(say("plan.remedies")),
    remedies.length === 0
      ? { text: say("pack.refusal.none") }
      : ruled(
          [16, "*", 200],
          undefined,
          remedies.map((remedy) => [
            { text: remedy.status === "feasible" ? "✓" : "✗", bold: true, fontSize: TYPE.board },
            { text: set(remedy.change), bold: true },
            {
              text: [
                set(remedy.result),
                remedy.spareMin === undefined || remedy.status !== "feasible"
                  ? ""
                  : ` ${say("pack.refusal.spare", { spare: write.span(remedy.spareMin) })}`,
              ],
            },
          ]),
        ),
    part(say("plan.broken", { count: broken.length })),
    quiet(
      [...kinds].map(([rule, count]) => `${write.number(count)} ${wordFor(say, "broken", rule)}`).join(", "),
    ),
    ruled(
      ["*", 70],
      headCells([" ", [say("pack.refusal.by"), "right"]]),
      broken
        .slice(0, MOST)
        .map((breach) => [
          { text: set(breach.what) },
          { text: excess(paper, breach), bold: true, alignment: "right" },
        ]),
    ),
    ...(broken.length > MOST
      ? [{ text: say("plan.more", { count: broken.length - MOST }), margin: [0, 6, 0, 0] } as Content]
      : []),
  ];
  return [{ name: say("pack.refusal"), content }];
}

/** Whether no plan exists, by which rules, or none was found. */
function noPlanTold({ result, say, set }: Paper): Content[] {
  const { noPlan, schedules } = result.plan;
  if (!noPlan) return [];
  if (!noPlan.proved) return [{ text: say("noPlan.searched", { schedules }), margin: [0, 0, 0, 4] }];
  const { rules } = noPlan;
  return [
    {
      text: [
        { text: say("noPlan.proved"), bold: true },
        ` ${rules.length > 0 ? say("noPlan.proved.rules") : say("noPlan.proved.all")}`,
      ],
      margin: [0, 0, 0, 4],
    },
    ...(rules.length > 0
      ? [{ ul: rules.slice(0, MOST).map(({ what }) => set(what)), margin: [0, 0, 0, 4] } as Content]
      : []),
    ...(rules.length > MOST ? [{ text: say("plan.more", { count: rules.length - MOST }) } as Content] : []),
  ];
}

/** By how much; so many °C too much is a difference, not a temperature. */
function excess({ write }: Paper, { by, unit }: { readonly by: number; readonly unit: string }): string {
  if (unit !== "°C") return write.quantity({ value: by, unit });
  return write.preferences.degrees === "F" ? write.kelvin(by) : `${write.number(by, 1)}\u00a0°C`;
}
