import type { Library } from "../book/index-book.ts";
import { FormulaCells, type PreparationCells } from "../formula/cells.ts";
import { orderOfMaking, takenFrom } from "../formula/graph.ts";
import type { Step } from "../formula/schema.ts";
import { Ledger } from "../ledger/ledger.ts";
import type { Problem } from "../pantry/refusal.ts";

/**
 * What is doubtful in a book though possible: amounts that cannot be weighed, yields that do not agree with their
 * balance, lines taken away by name that weigh more than what is taken away.
 */
export function bookWarnings(docs: Library): Problem[] {
  const ledger = new Ledger();
  const formula = new FormulaCells(ledger, docs, docs.pointer);
  const warnings: Problem[] = [];
  for (const preparation of orderOfMaking(docs, docs.preparations.keys(), docs.pointer)) {
    const cells = formula.add(preparation);
    const outG = ledger.value(cells.balance.outG);
    const declaredG = ledger.value(cells.yieldG);
    if (declaredG > 0 && Math.abs(outG - declaredG) > preparation.yield.tolerance * declaredG)
      warnings.push({
        path: `${docs.pointer("preparations", preparation.id)}/yield/amount`,
        what: `the steps give ${Math.round(outG)} g, the yield says ${Math.round(declaredG)} g`,
        mend: "weigh it once and correct the yield, or the change of a step",
      });
    for (const { step, lost } of cells.balance.steps) {
      if (!step.discard?.lines) continue;
      const namedG = leastNamed(ledger, cells, step);
      const discardedG = ledger.value(lost.at(-1)!.g);
      if (namedG > discardedG * (1 + preparation.yield.tolerance))
        warnings.push({
          path: `${docs.pointer("preparations", preparation.id)}/steps/${preparation.steps.indexOf(step)}/discard`,
          what: `the lines named weigh at least ${Math.round(namedG)} g here, taken away are ${Math.round(discardedG)} g`,
          mend: "correct the factor, or the share that is taken up",
        });
    }
  }
  return [...formula.problems, ...warnings];
}

/** The least that goes of the lines a step takes away by name, g: each has lost as much on its way as all it was with. */
function leastNamed(ledger: Ledger, { balance, lines }: PreparationCells, step: Step): number {
  let namedG = 0;
  for (const { line: id, takenUp } of step.discard!.lines!) {
    const named = lines.find(({ line, weighed }) => weighed && line.id === id);
    if (!named) continue;
    const out = new Map<string, number>();
    for (const cells of balance.steps) {
      let g = cells.step.id === named.line.step ? ledger.value(named.ep) : 0;
      for (const from of takenFrom(cells.step)) g += from.share * (out.get(from.step) ?? 0);
      const [inG, outG] = [ledger.value(cells.inG), ledger.value(cells.outG)];
      if (cells.step.id !== step.id) {
        out.set(cells.step.id, inG > 0 ? g * Math.min(1, outG / inG) : 0);
        continue;
      }
      const changedG = outG + ledger.value(cells.lost.at(-1)!.g);
      if (inG > 0) namedG += g * Math.min(1, changedG / inG) * (1 - takenUp);
      break;
    }
  }
  return namedG;
}
