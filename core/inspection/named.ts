import type { PlanTask } from "../run/result.ts";
import type { Scope } from "./scope.ts";

/** What an id in a sentence stands for; without a kind it is a task of the plan. */
export type Kind =
  | "task"
  | "preparation"
  | "dish"
  | "ingredient"
  | "course"
  | "group"
  | "person"
  | "skill"
  | "unit"
  | "station"
  | "supplier"
  | "offer";

const MARKED = /‹(\w+) ([^›]*)›/g;

/** Marks an id in a sentence: `namesIn` puts its name there, so that a judge's sum need not know any names. */
export function named(id: string, kind: Kind = "task"): string {
  return `‹${kind} ${id}›`;
}

/**
 * The sentence with the names of the documents in the place of what is marked, and a task with which of its batches and
 * loads it is and when it begins in the plan. An id that nobody bears stays, in quotes. Figures to a thousandth, an hour and
 * more of minutes in hours.
 */
export function namesIn(scope: Scope, sentence: string, tasks: readonly PlanTask[] = []): string {
  return sentence
    .replace(/\d+\.\d{4,}(e-\d+)?/g, (figure) => String(Math.round(Number(figure) * 1000) / 1000))
    .replace(/\b(\d+) min\b/g, (_, minutes: string) => minutesText(Number(minutes)))
    .replace(
      MARKED,
      (_, kind: Kind, id: string) =>
        (kind === "task" ? taskName(scope, id, tasks) : nameOf(scope, kind, id)) ?? `"${id}"`,
    );
}

function minutesText(minutes: number): string {
  const [h, m] = [Math.floor(minutes / 60), minutes % 60];
  if (h === 0) return `${m} min`;
  return m === 0 ? `${h} h` : `${h} h ${m} min`;
}

function nameOf(scope: Scope, kind: Exclude<Kind, "task">, id: string): string | undefined {
  const { kitchen } = scope;
  const one = (list: readonly { readonly id: string; readonly name: string }[]) =>
    list.find((each) => each.id === id)?.name;
  switch (kind) {
    case "preparation":
      return scope.preparations.get(id)?.name;
    case "dish":
      return scope.dishes.get(id)?.name;
    case "ingredient":
      return scope.ingredients.get(id)?.name;
    case "course":
      return one(scope.menu.courses);
    case "group":
      return groupName(scope, id);
    case "person":
      return one(kitchen.crew);
    case "skill":
      return one(kitchen.skills);
    case "station":
      return one(kitchen.stations);
    case "unit":
      return unitName(scope, id);
    case "supplier":
      return one(scope.suppliers);
    case "offer":
      return offerName(scope, id);
  }
}

/** A unit by its equipment's name; a kind of equipment by its own word. */
function unitName({ kitchen }: Scope, id: string): string | undefined {
  const [equipment, number] = id.split("#");
  const name = kitchen.equipment.find((each) => each.id === equipment)?.name;
  if (name !== undefined) return number === undefined ? name : `${name} (${number})`;
  return number === undefined ? id.replaceAll("-", " ") : undefined;
}

/** Guests by their seat, else by what they need. */
function groupName({ service }: Scope, id: string): string | undefined {
  const group = service.guests.find((each) => each.id === id);
  if (!group) return undefined;
  if (group.seat !== undefined) return `the guest at ${group.seat}`;
  const needs = group.needs.join(", ");
  return `${group.count} guests${needs === "" ? "" : ` (${needs})`}`;
}

/** What a supplier sells, by its ingredient and pack. */
function offerName({ suppliers, ingredients }: Scope, id: string): string | undefined {
  const offer = suppliers.flatMap((supplier) => supplier.offers).find((each) => each.id === id);
  const name = offer && ingredients.get(offer.ingredient)?.name;
  if (!offer || name === undefined) return undefined;
  const times = offer.innerPerPack === 1 ? "" : `${offer.innerPerPack} × `;
  return `${name} (${times}${offer.inner.value} ${offer.inner.unit})`;
}

/**
 * A task by its preparation and step, which of them, and when: "Rye crumb: Toast (batch 2 of 3, the waiting, D-1 14:20)".
 * Read from its id, since it may not be in the plan.
 */
function taskName(scope: Scope, id: string, tasks: readonly PlanTask[]): string | undefined {
  const name = plainName(scope, id);
  if (name === undefined) return undefined;
  const planned = tasks.find((task) => task.id === id) ?? tasks.find((task) => task.id === `${id}/wait`);
  const which = [
    ...(/^(line-check|(course|plate|thaw)\/)/.test(id) ? [] : partOf(id, tasks)),
    ...(planned ? [planned.start] : []),
  ];
  return which.length === 0 ? name : `${name} (${which.join(", ")})`;
}

function plainName(scope: Scope, id: string): string | undefined {
  const [first = "", second = "", third = ""] = id.split("/");
  if (id === "line-check") return "Line check and tasting";
  if (first === "course") return nameOf(scope, "course", second);
  if (first === "plate") {
    const dish = nameOf(scope, "dish", third);
    return dish && `Plate ${dish}`;
  }
  const preparation = scope.preparations.get(first === "thaw" ? second : first);
  if (first === "thaw") {
    const item = preparation?.lines.find((line) => line.id === third)?.item;
    const food = item && "ingredient" in item ? nameOf(scope, "ingredient", item.ingredient) : undefined;
    return food && `Thaw ${food} for ${preparation!.name}`;
  }
  const step = preparation?.steps.find((each) => each.id === second);
  return preparation && step && `${preparation.name}: ${step.name}`;
}

/** Which batch of how many, which load of how many, its waiting or a look-in. */
function partOf(id: string, tasks: readonly PlanTask[]): string[] {
  const [preparation = "", step = "", third = "1", part = ""] = id.split("/");
  const [batch = "1", load] = third.split(".");
  const alike = tasks.filter((task) => task.preparation === preparation && task.kind !== "plate");
  const batches = Math.max(0, ...alike.map((task) => task.batch));
  const loads = alike.flatMap((task) => {
    const [, n] = new RegExp(`^${preparation}/${step}/${batch}\\.(\\d+)`).exec(task.id) ?? [];
    return n === undefined ? [] : [Number(n)];
  });
  const of = (n: string, all: number) => (all > 1 ? `${n} of ${all}` : n);
  return [
    ...(batch === "1" && batches <= 1 ? [] : [`batch ${of(batch, batches)}`]),
    ...(load === undefined ? [] : [`load ${of(load, Math.max(0, ...loads))}`]),
    ...(part === "wait" ? ["the waiting"] : part.startsWith("look-") ? [part.replace("-", "-in ")] : []),
  ];
}
