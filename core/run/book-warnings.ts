import type { Library } from "../book/index-book.ts";
import { FormulaCells } from "../formula/cells.ts";
import { orderOfMaking } from "../formula/graph.ts";
import { Ledger } from "../ledger/ledger.ts";
import type { Problem } from "../pantry/refusal.ts";

/** What is doubtful in a book though possible: amounts that cannot be weighed, yields that do not agree with their balance. */
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
  }
  return [...formula.problems, ...warnings];
}
