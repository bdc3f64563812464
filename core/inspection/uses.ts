import type { PlateCount } from "../run/result.ts";
import { namedForm } from "./forms.ts";
import { gramsOfIngredient, lineG, placementG, yieldG } from "./grams.ts";
import type { Made } from "./needs.ts";
import type { Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";

/** One use of an ingredient in one cut: how much, and from the first to the last time it is taken. */
export interface Use {
  readonly ingredient: string;
  readonly cut: string;
  readonly epG: number;
  readonly trim: number;
  readonly firstMin: number;
  /** Undefined before there is a plan. */
  readonly lastMin: number | undefined;
  readonly task: string | undefined;
  /** The line that takes it ("preparation/line"); undefined on plates and beside them. */
  readonly line: string | undefined;
}

/** What the service takes of each ingredient and when, without what goes in to taste. */
export function usesOf(
  scope: Scope,
  made: ReadonlyMap<string, Made>,
  parts: Parts | undefined,
  plates: readonly PlateCount[],
): Use[] {
  const uses: Use[] = [];
  const add = (
    item: { readonly ingredient: string; readonly cut?: string | undefined },
    epG: number,
    trimYield: number | undefined,
    taken: readonly { readonly startMin: number; readonly id: string }[],
    line?: string,
  ) => {
    const ingredient = scope.ingredients.get(item.ingredient)!;
    if (ingredient.free || epG <= 0) return;
    const trim = trimYield ?? ingredient.cuts.find((cut) => cut.id === item.cut)?.trimYield ?? 1;
    const inOrder = [...taken].sort((a, b) => a.startMin - b.startMin);
    // What has no task in the plan is told elsewhere; without a plan nobody knows when it is used.
    const firstMin = inOrder[0]?.startMin ?? Number.POSITIVE_INFINITY;
    const lastMin = inOrder.at(-1)?.startMin;
    const { ingredient: id, cut = "" } = item;
    uses.push({ ingredient: id, cut, epG, trim, firstMin, lastMin, task: inOrder[0]?.id, line });
  };
  for (const { preparation, grams } of made.values())
    for (const line of preparation.lines) {
      if (!("ingredient" in line.item)) continue;
      const loads = (parts?.loads ?? [])
        .filter((load) => load.preparation.id === preparation.id && load.step.id === line.step)
        .map((load) => ({ startMin: load.startMin, id: (load.work ?? load.wait)!.id }));
      const thaws = [...(parts?.thaws ?? [])].flatMap(([key, task]) =>
        key.startsWith(`${preparation.id}/${line.id}/`) ? [task] : [],
      );
      const epG = (lineG(scope, line) * grams) / yieldG(preparation);
      add(line.item, epG, line.trimYield, [...loads, ...thaws], `${preparation.id}/${line.id}`);
    }
  for (const row of plates)
    for (const placement of namedForm(scope.dishes.get(row.dish)!, row.variant)!) {
      if (placement.ingredient === undefined) continue;
      const tasks = (parts?.plates ?? []).filter((t) => t.step === row.course && t.preparation === row.dish);
      const { ingredient, cut } = placement;
      add({ ingredient, cut }, (row.count + row.spare) * placementG(scope, placement), undefined, tasks);
    }
  // What goes with every cover stands there from the first plate-up to the last.
  const { surround } = scope.menu;
  if (surround && "items" in surround)
    for (const { item, amount } of surround.items)
      if ("ingredient" in item) {
        const grams = gramsOfIngredient(amount, scope.ingredients.get(item.ingredient)!);
        add(item, scope.covers * grams, undefined, parts?.plates ?? []);
      }
  return uses;
}
