import type { Estimate } from "../../../core/learning/learn.ts";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { cutName } from "./record-words.ts";

/** How a learned figure is called and written. */
export function useFigureWords() {
  const { say, write } = useWords();
  const { library } = useBook();
  const names = useNames();
  const value = ({ figure }: Pick<Estimate, "figure">, of: number): string => {
    switch (figure.kind) {
      case "cut":
      case "step":
        return write.share(of);
      case "piece":
        return write.mass(of);
      case "work":
        return write.number(of, 2);
    }
  };
  const name = ({ figure: { kind, of, part } }: Pick<Estimate, "figure">): string => {
    if (kind === "cut")
      return cutName(
        names,
        library.ingredients.get(of)?.cuts.find(({ id }) => id === part)?.name ?? part,
        of,
      );
    if (kind === "piece") return `${names.ingredient(of)}, ${part}`;
    const step = library.preparations.get(of)?.steps.find(({ id }) => id === part);
    return `${names.preparation(of)}, ${step?.name.toLowerCase() ?? part}`;
  };
  /** Whether the figure moves by more than it is written with. */
  const moves = (one: Estimate) => value(one, one.value) !== value(one, one.was);
  const sentence = (one: Estimate) =>
    say(`learned.${one.figure.kind}${moves(one) ? "" : ".same"}`, {
      ...{ name: name(one), value: value(one, one.value), was: value(one, one.was) },
    });
  return { value, name, moves, sentence };
}
