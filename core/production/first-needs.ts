import type { Planned } from "./planned.ts";
import type { Site } from "./site.ts";

/** From the first to the last time that one use takes of an ingredient, minutes. */
export interface UseSpan {
  readonly first: number;
  readonly last: number;
}

/** Key of what a line of a preparation, or a dish in a course, takes. */
export const lineUse = (preparation: string, line: string) => `line ${preparation}/${line}`;
export const plateUse = (course: string, dish: string) => `plate ${course}/${dish}`;

/** Key of what goes with every cover, by its place in the menu's list. */
export const besideUse = (place: number) => `beside ${place}`;

/**
 * When each use takes its ingredients in the plan (README, P20): from the start of the first task of its step, or of
 * its thawing, to the start of the last; on plates, the starts of the plate-up; beside the plates, from the first to the
 * last plate-up of all. Uses of no task are absent.
 */
export function spansOfUse(site: Site, planned: readonly Planned[]): Map<string, UseSpan> {
  const spans = new Map<string, UseSpan>();
  const seen = (key: string, minute: number) => {
    const known = spans.get(key) ?? { first: minute, last: minute };
    spans.set(key, { first: Math.min(known.first, minute), last: Math.max(known.last, minute) });
  };
  const entering = new Map<string, string[]>();
  for (const id of site.amounts.preparations.keys())
    for (const line of site.docs.preparations.get(id)?.lines ?? [])
      if ("ingredient" in line.item) {
        const key = `${id}/${line.step}`;
        entering.set(key, [...(entering.get(key) ?? []), line.id]);
      }
  const { surround } = site.amounts.menu;
  const beside = surround && "items" in surround ? surround.items.map((_, place) => besideUse(place)) : [];
  for (const { task, plan } of planned) {
    if (task.kind === "plate") {
      seen(plateUse(task.step, task.preparation), plan.startMin);
      for (const key of beside) seen(key, plan.startMin);
    } else if (task.kind === "thaw") {
      const [, preparation = "", line = ""] = task.id.split("/");
      seen(lineUse(preparation, line), plan.startMin);
    } else
      for (const line of entering.get(`${task.preparation}/${task.step}`) ?? [])
        seen(lineUse(task.preparation, line), plan.startMin);
  }
  return spans;
}

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
