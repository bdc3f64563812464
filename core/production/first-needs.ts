import type { Planned } from "./prep-lists.ts";
import type { Site } from "./site.ts";

/**
 * Minute at which each ingredient is first needed in the plan (README, P20): the start of the first task of a step
 * it enters, of its thawing, or of the plate-up it goes on. Ingredients of no task are absent.
 */
export function firstNeeds(site: Site, planned: readonly Planned[]): Map<string, number> {
  const needs = new Map<string, number>();
  const need = (ingredient: string, minute: number) => {
    const known = needs.get(ingredient);
    if (known === undefined || minute < known) needs.set(ingredient, minute);
  };
  const entering = new Map<string, string[]>();
  const enter = (key: string, ingredient: string) => {
    const list = entering.get(key);
    if (list) list.push(ingredient);
    else entering.set(key, [ingredient]);
  };
  for (const id of site.amounts.preparations.keys())
    for (const line of site.docs.preparations.get(id)?.lines ?? [])
      if ("ingredient" in line.item) {
        enter(`${id}/${line.step}`, line.item.ingredient);
        enter(`thaw ${id}/${line.id}`, line.item.ingredient);
      }
  for (const plate of site.amounts.plates)
    for (const placement of plate.placements)
      if (placement.ingredient !== undefined && plate.count + plate.spare > 0)
        enter(`plate ${plate.course}/${plate.dish}`, placement.ingredient);
  for (const { task, plan } of planned) {
    const key =
      task.kind === "plate"
        ? `plate ${task.step}/${task.preparation}`
        : task.kind === "thaw"
          ? `thaw ${task.id.split("/").slice(1, 3).join("/")}`
          : `${task.preparation}/${task.step}`;
    for (const ingredient of entering.get(key) ?? []) need(ingredient, plan.startMin);
  }
  return needs;
}
