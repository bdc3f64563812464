import type { Library } from "../../../../core/book/index-book.ts";
import { changeFactor } from "../../../../core/learning/figures.ts";
import type { Names } from "../../../app/names.ts";
import type { Told } from "../../../compute/protocol.ts";
import { cutName } from "../record-words.ts";

/** One thing that can be measured: by an id, in words, with what the book says of it. */
export interface Measurable {
  readonly id: string;
  readonly name: string;
  readonly of: string;
  readonly part: string;
  /** EP / AP, out / in, g of a piece; minutes as planned for a batch. */
  readonly book?: number;
}

/** What this service trims, cooks, counts and times, by name. */
export function measurables(
  kind: "trim" | "cook" | "pieces" | "time",
  told: Told,
  library: Library,
  names: Names,
): Measurable[] {
  const found = new Map<string, Measurable>();
  const add = (of: string, part: string, name: string, book?: number) => {
    const id = `${of}/${part}`;
    if (!found.has(id)) found.set(id, { id, name, of, part, ...(book === undefined ? {} : { book }) });
  };
  for (const { preparation } of told.needs) {
    const made = library.preparations.get(preparation);
    if (!made) continue;
    for (const { item } of made.lines) {
      if (!("ingredient" in item)) continue;
      const ingredient = library.ingredients.get(item.ingredient);
      const cut = ingredient?.cuts.find(({ id }) => id === item.cut);
      if (kind === "trim" && ingredient && cut && cut.trimYield < 1)
        add(ingredient.id, cut.id, cutName(names, cut.name, ingredient.id), cut.trimYield);
      if (kind === "pieces")
        for (const piece of ingredient?.pieces ?? [])
          add(ingredient!.id, piece.name, `${ingredient!.name}, ${piece.name}`, piece.g);
    }
    for (const step of made.steps) {
      const factor = changeFactor(step);
      if (kind === "cook" && factor) add(made.id, step.id, `${made.name}, ${step.name}`, factor.value);
      if (kind === "time" && step.work) {
        const task = told.plan.tasks.find(
          (one) => one.preparation === made.id && one.step === step.id && one.kind === "work",
        );
        const planned = task ? { book: task.endMin - task.startMin } : {};
        add(made.id, step.id, `${made.name}, ${step.name}`, planned.book);
      }
    }
  }
  return [...found.values()].sort((a, b) => a.name.localeCompare(b.name));
}
