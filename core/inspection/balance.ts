import type { Balance } from "../run/result.ts";
import { lineG, yieldG } from "./grams.ts";
import { enteringOf, massesOf } from "./masses.ts";
import { named } from "./named.ts";
import type { Made } from "./needs.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

/** The balance must close to this, g. */
const CLOSED_G = 0.1;

/** Judges mass balances of what is made: what goes in, what is left at the end, and that nothing is lost unnamed. */
export function judgeBalance(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  balances: readonly Balance[],
): Finding[] {
  const found: Finding[] = [];
  for (const { preparation, grams } of made.values()) {
    const { id } = preparation;
    const told = balances.find((each) => each.preparation === id);
    const say = (by: number, what: string) => {
      if (by > CLOSED_G)
        found.push({
          rule: "balance",
          tasks: [],
          by,
          unit: "g",
          what: `${named(id, "preparation")}: ${what}`,
        });
    };
    if (!told) {
      say(grams, "no balance is told");
      continue;
    }
    const factor = grams / yieldG(preparation);
    const inG = factor * preparation.lines.reduce((sum, line) => sum + lineG(scope, line), 0);
    const masses = massesOf(scope, preparation);
    let outG = 0;
    for (const step of preparation.steps) {
      const taken = preparation.steps.flatMap(enteringOf).filter((from) => from.id === step.id);
      outG += factor * masses.get(step.id)!.outG * (1 - taken.reduce((sum, from) => sum + from.share, 0));
    }
    say(Math.abs(told.inG - inG), `${inG} g go in, not ${told.inG}`);
    say(Math.abs(told.outG - outG), `${outG} g come out, not ${told.outG}`);
    say(Math.abs(told.declaredG - grams), `${grams} g are declared`);
    const lost = told.lost.reduce((sum, each) => sum + each.g, 0);
    say(
      Math.abs(told.inG + told.waterG - lost - told.outG),
      "what goes in and what is named as lost do not add up",
    );
  }
  return found;
}
