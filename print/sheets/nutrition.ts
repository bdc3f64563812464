import type { Content, TableCell } from "pdfmake/interfaces.js";
import type { NutritionLabel } from "../../core/run/result.ts";
import type { SheetPages } from "../frame.ts";
import type { Paper } from "../paper.ts";
import { close, LONG, ruled, TYPE, WIDTH } from "../parts.ts";
import { upright } from "../upright.ts";

/**
 * What each plate holds, as the law of the place writes it: the EU's form per 100 g and per plate, or the US form per
 * plate with daily values. Which one follows the measures the pack is written in.
 */
export function nutritionPages(paper: Paper): SheetPages[] {
  const { result, say, write } = paper;
  const plates = result.nutrition.filter(({ dish }) => dish !== undefined);
  if (plates.length === 0) return [];
  const us = write.preferences.units === "us";
  const order = [...new Set(plates.map(({ dish }) => dish))];
  plates.sort((a, b) => order.indexOf(a.dish) - order.indexOf(b.dish));
  const lines = us ? plates[0]!.us : plates[0]!.eu.per100;
  const inside = us ? LONG : WIDTH;
  return [
    {
      name: say("pack.nutrition"),
      landscape: us,
      content: [
        {
          text: [
            { text: `${say(us ? "nutrition.us" : "nutrition.eu")}. `, bold: true },
            `${say("pack.nutrition.check")}${us ? ` ${say("nutrition.minerals")}` : ""}`,
          ],
          fontSize: TYPE.note,
        },
        close(
          ruled(
            ["*", PORTION, ...lines.map(widthOf)],
            ["", "", ...lines].map((line) =>
              typeof line === "string"
                ? { text: line }
                : upright(say(`nutrient.${line.nutrient}`), widthOf(line) - 8, us ? 124 : 66),
            ),
            plates.map((label) => rowOf(paper, label, us)),
            inside,
          ),
          0,
        ),
      ],
    },
  ];
}

/** Width of a column, points: energy has four digits and a long unit. */
const widthOf = ({ nutrient }: NutritionLabel["us"][number]) => (nutrient.startsWith("energy") ? 38 : 28);
/** Width for what a row is of. */
const PORTION = 36;

function rowOf(paper: Paper, label: NutritionLabel, us: boolean): TableCell[] {
  const { say, dish, variant, write } = paper;
  const words = variant(label.variant ?? "");
  const above = us ? label.us : label.eu.per100;
  const below = us ? label.us.map(({ percent }) => percent) : label.eu.perPortion?.map(shownIn);
  const two = (first: string, second: string, bold: boolean): Content[] => [
    { text: first, bold: !bold },
    { text: second, bold },
  ];
  return [
    {
      text: [
        { text: dish(label.dish!).split(",")[0]! },
        ...(words === "" ? [] : [{ text: `  ${words}`, bold: true }]),
      ],
      fontSize: TYPE.running,
    },
    {
      stack: us
        ? two(write.mass(label.portionG ?? 0), say("pack.nutrition.daily"), false)
        : two(say("pack.nutrition.per100"), write.mass(label.portionG ?? 0), true),
      fontSize: TYPE.running,
    },
    ...above.map(
      (line, i): TableCell => ({
        stack: two(shownIn(line), below?.[i] ?? "", !us),
        fontSize: TYPE.running,
        alignment: "right",
      }),
    ),
  ];
}

/** The figure as the label writes it, "?" where it is not known. */
const shownIn = ({ shown }: NutritionLabel["us"][number]) => shown?.replace("less than ", "< ") ?? "?";
