import { KG_PER_POSITION, storesFor } from "./holds.ts";
import { THAWED_IN_WATER_G, thawMinutes, wholeUp } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { Draft } from "./step-tasks.ts";
import type { At } from "./tasks.ts";

/** A few grams of a culture or a purée go in as they are. */
const LEAST_THAWED_G = 10;

/**
 * Frozen ingredients are taken out in time (README, P11): for each batch a wait before the step they enter, in
 * cold water when it is little, else in the cold room. Not where the step itself thaws them or takes them
 * frozen: its id begins with "thaw" or "defrost", its target starts below 0 °C, or the line's note says
 * "from frozen".
 */
export function thaws(
  site: Site,
  draft: Draft,
  starts: (prep: string, batch: number, step: string) => At[],
): void {
  for (const [id, amount] of site.amounts.preparations) {
    const prep = site.docs.preparations.get(id);
    if (!prep) continue;
    prep.lines.forEach((line, i) => {
      if (!("ingredient" in line.item) || line.toTaste) return;
      const ingredient = site.docs.ingredients.get(line.item.ingredient);
      if (ingredient?.storage.state !== "frozen" || /\bfrom frozen\b/i.test(line.note ?? "")) return;
      const step = prep.steps.find((s) => s.id === line.step);
      if (!step || /^(thaw|defrost)/.test(step.id)) return;
      const startC = step.target?.startC;
      if (typeof startC === "number" && startC < 0) return;
      const pieceG = Math.max(0, ...ingredient.pieces.map((piece) => piece.g));
      const use = site.amounts.ingredients
        .find(
          (a) =>
            a.ingredient === ingredient.id &&
            a.usedBy.some((u) => u.preparation === id && u.line === line.id),
        )
        ?.usedBy.find((u) => u.preparation === id && u.line === line.id);
      const stores = storesFor(site, "cold");
      const delivered = site.earliest.get(ingredient.id);
      for (const batch of amount.batches) {
        const grams = (use?.grams ?? 0) * batch.share;
        if (grams < LEAST_THAWED_G) continue;
        const task = `thaw/${id}/${line.id}/${batch.index}`;
        draft.tasks.push({
          id: task,
          kind: "thaw",
          preparation: id,
          step: step.id,
          batch: batch.index,
          share: 1,
          name: `Thaw ${ingredient.name}`,
          ...(step.work ? { station: step.work.station } : {}),
          ways: [{ hands: 0, minutes: thawMinutes(grams, pieceG) }],
          interruptible: false,
          ...(delivered === undefined ? {} : { release: wholeUp(delivered) }),
          uses:
            stores.length > 0 && grams > THAWED_IN_WATER_G
              ? [{ units: stores, space: [{ unit: "position", value: grams / 1000 / KG_PER_POSITION }] }]
              : [],
          inG: grams,
          outG: grams,
          pieces: 0,
          how: { from: "thaw", pointer: `${site.docs.pointer("preparations", id)}/lines/${i}` },
        });
        for (const to of starts(id, batch.index, step.id))
          draft.links.push({ from: { task, at: "end" }, to, rule: "thawed", least: 0 });
      }
    });
  }
}
