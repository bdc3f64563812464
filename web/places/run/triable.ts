import { useMemo } from "react";
import type { Amount } from "../../../core/quantity/schema.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";

export type TriableKind = "price" | "trim" | "portion" | "making";

/** A number of the book that can be tried otherwise: as it is written there, and as the page shows it. */
export interface Triable {
  readonly kind: TriableKind;
  readonly path: string;
  readonly name: string;
  readonly unit: string;
  readonly now: number;
}

/** Every price, trim, portion and yield on which the service in hand rests, by name. */
export function useTriables(): readonly Triable[] {
  const { book } = useBook();
  const { amounts } = useTold();
  const { kitchen } = useService();
  const names = useNames();
  const { say } = useWords();
  return useMemo(() => {
    const found: Triable[] = [];
    const made = new Set(amounts?.needs.map((need) => need.preparation));
    const served = new Set(amounts?.plates.map((plate) => plate.dish));
    const used = new Set<string>();
    const trims = new Set<string>();
    const amount = (at: string, kind: TriableKind, name: string, { value, unit }: Amount) => {
      const now = Number(value);
      if (Number.isFinite(now)) found.push({ kind, path: `${at}/amount/value`, name, unit, now });
    };
    book.preparations.forEach((preparation, i) => {
      if (!made.has(preparation.id)) return;
      amount(`/preparations/${i}/yield`, "making", preparation.name, preparation.yield.amount);
      for (const { item } of preparation.lines)
        if ("ingredient" in item) {
          used.add(item.ingredient);
          if (item.cut) trims.add(`${item.ingredient} ${item.cut}`);
        }
    });
    book.dishes.forEach((dish, i) => {
      if (!served.has(dish.id)) return;
      dish.placements.forEach((placement, k) => {
        if (placement.ingredient) {
          used.add(placement.ingredient);
          if (placement.cut) trims.add(`${placement.ingredient} ${placement.cut}`);
        }
        const name = names.item(placement.preparation ?? placement.ingredient ?? "");
        const on = say("cost.try.on", { name, dish: dish.name });
        amount(`/dishes/${i}/placements/${k}`, "portion", on, placement.amount);
      });
    });
    book.ingredients.forEach((ingredient, i) => {
      ingredient.cuts.forEach((cut, k) => {
        if (!trims.has(`${ingredient.id} ${cut.id}`)) return;
        const path = `/ingredients/${i}/cuts/${k}/trimYield`;
        found.push({
          kind: "trim",
          path,
          name: `${ingredient.name}, ${cut.name}`,
          unit: "%",
          now: cut.trimYield,
        });
      });
    });
    book.suppliers.forEach((supplier, i) => {
      if (!kitchen.suppliers.includes(supplier.id)) return;
      supplier.offers.forEach((offer, k) => {
        if (!used.has(offer.ingredient)) return;
        const path = `/suppliers/${i}/offers/${k}/price`;
        const name = `${names.ingredient(offer.ingredient)}, ${supplier.name}`;
        found.push({ kind: "price", path, name, unit: kitchen.currency, now: Number(offer.price) });
      });
    });
    return found.sort((a, b) => a.name.localeCompare(b.name));
  }, [book, amounts, kitchen, names, say]);
}

/** A first value to try: a tenth dearer, five points less, a tenth less. */
export function firstTry({ kind, now }: Triable): number {
  if (kind === "price") return Number((now * 1.1).toFixed(2));
  if (kind === "trim") return Number(Math.max(0.01, now - 0.05).toFixed(3));
  return Number((now * (kind === "making" ? 0.95 : 0.9)).toPrecision(4));
}
