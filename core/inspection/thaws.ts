import { lineG, yieldG } from "./grams.ts";
import { named } from "./named.ts";
import { firstTask } from "./order.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { KG_PER_POSITION, positionsIn, STORES } from "./stores.ts";
import { type Finding, roundUp } from "./types.ts";

/** Thawing (production, P11; FSIS "The Big Thaw", from memory): least grams, grams that thaw in water in an hour. */
const LEAST_G = 10;
const WATER_G = 500;
const COLD_ROOM_G_A_DAY = 2000;

/** Judges that what is stored frozen has thawed, long enough, before the step it enters. */
export function judgeThaws(scope: Scope, parts: Parts): Finding[] {
  const found: Finding[] = [];
  for (const batches of parts.batches.values())
    for (const { preparation, batch, grams, loads } of batches)
      for (const line of preparation.lines) {
        if (!("ingredient" in line.item)) continue;
        const ingredient = scope.ingredients.get(line.item.ingredient)!;
        const step = preparation.steps.find((each) => each.id === line.step)!;
        const mass = (lineG(scope, line) * grams) / yieldG(preparation);
        if (ingredient.storage.state !== "frozen" || mass < LEAST_G) continue;
        // Said to go in frozen, or thawed by the step itself.
        if (/\bfrom frozen\b/i.test(line.note ?? "") || /^(thaw|defrost)/.test(step.id)) continue;
        const startC = step.target?.startC;
        if (typeof startC === "number" && startC < 0) continue;
        const id = `thaw/${preparation.id}/${line.id}/${batch}`;
        const task = parts.thaws.get(`${preparation.id}/${line.id}/${batch}`);
        if (!task) {
          found.push({
            rule: "missing",
            tasks: [id],
            by: 1,
            unit: "task",
            what: `${named(id)} is not in the plan`,
          });
          continue;
        }
        const pieceG = Math.max(0, ...ingredient.pieces.map((piece) => piece.g));
        const days = Math.max(1, pieceG / COLD_ROOM_G_A_DAY);
        const least = mass <= WATER_G ? 60 : roundUp(days * 1440);
        const short = least - (task.endMin - task.startMin);
        if (short > 0)
          found.push({
            rule: "duration",
            tasks: [id],
            by: short,
            unit: "min",
            what: `${named(id)} needs ${least} min, ${task.endMin - task.startMin} are planned`,
          });
        const positions =
          mass > WATER_G && positionsIn(scope, STORES.cold) > 0 ? mass / 1000 / KG_PER_POSITION : 0;
        const off = Math.abs(task.equipment.reduce((sum, each) => sum + each.space, 0) - positions);
        if (off > 1e-6 * Math.max(1, positions))
          found.push({
            ...{ rule: "store", tasks: [id], by: off, unit: "position" },
            what: `${named(id)} takes ${positions} positions of a cold room`,
          });
        for (const load of loads.get(line.step) ?? []) {
          const by = task.endMin - load.startMin;
          const tasks = [id, firstTask(load)];
          if (by > 0)
            found.push({
              rule: "thawed",
              tasks,
              by,
              unit: "min",
              what: `${named(load.id)} begins before ${named(id)} ends`,
            });
        }
      }
  return found;
}
