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

/** The sentence with the names of the documents in the place of what is marked. An id that nobody bears stays, in quotes. */
export function namesIn(scope: Scope, sentence: string): string {
  return sentence.replace(MARKED, (_, kind: Kind, id: string) => nameOf(scope, kind, id) ?? `"${id}"`);
}

function nameOf(scope: Scope, kind: Kind, id: string): string | undefined {
  const { kitchen } = scope;
  const one = (list: readonly { readonly id: string; readonly name: string }[]) =>
    list.find((each) => each.id === id)?.name;
  switch (kind) {
    case "task":
      return taskName(scope, id);
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

/** A task by its preparation and step: "Rye crumb: Toast, batch 2". Read from its id, since it may not be in the plan. */
function taskName(scope: Scope, id: string): string | undefined {
  const parts = id.split("/");
  const [first = "", second = "", third = ""] = parts;
  if (id === "line-check") return "Line check and tasting";
  if (first === "course") return nameOf(scope, "course", second);
  if (first === "plate") {
    const dish = nameOf(scope, "dish", third);
    return dish && `Plate ${dish}`;
  }
  if (first === "thaw") {
    const preparation = scope.preparations.get(second);
    const item = preparation?.lines.find((line) => line.id === third)?.item;
    const food = item && "ingredient" in item ? nameOf(scope, "ingredient", item.ingredient) : undefined;
    return food && `Thaw ${food} for ${preparation!.name}`;
  }
  const preparation = scope.preparations.get(first);
  const step = preparation?.steps.find((each) => each.id === second);
  if (!preparation || !step) return undefined;
  const [batch = "1", load] = third.split(".");
  const which = [
    ...(batch === "1" ? [] : [`batch ${batch}`]),
    ...(load === undefined ? [] : [`load ${load}`]),
    ...(parts[3] === "wait" ? ["the waiting"] : (parts[3]?.startsWith("look") ?? false) ? ["a look-in"] : []),
  ];
  return [`${preparation.name}: ${step.name}`, ...which].join(", ");
}
