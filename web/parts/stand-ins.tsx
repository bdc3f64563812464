import { Button } from "react-aria-components";
import type { Ingredient, Substitute } from "../../core/pantry/schema.ts";
import { againstSubstitute } from "../../core/purchasing/substitutes.ts";
import { useBook } from "../app/hands.tsx";
import { useNames } from "../app/names.ts";
import { useWords } from "../app/settings.tsx";
import { Choice } from "./choice.tsx";
import { FindPick } from "./find-pick.tsx";
import { TextEntry } from "./text-entry.tsx";

/** What may stand in for a food, wherever it is used or in one line: how much, when, and what speaks against it. */
export function StandIns({
  food,
  said,
  onChange,
}: {
  readonly food: Ingredient;
  readonly said: readonly Substitute[];
  readonly onChange: (said: Substitute[]) => void;
}) {
  const { book, library } = useBook();
  const names = useNames();
  const { say, write } = useWords();
  return (
    <div className="stand-ins">
      {said.map((one, i) => {
        const other = library.ingredients.get(one.ingredient);
        const against = other ? againstSubstitute(food, other) : [];
        const name = names.ingredient(one.ingredient);
        const set = (more: Partial<Substitute>) => onChange(said.with(i, { ...one, ...more }));
        return (
          <div key={`${one.ingredient} ${one.cut ?? ""}`} className="stand-in">
            <p className="stand-in-name">
              {name}
              {one.cut !== undefined && (
                <span className="quiet">
                  , {other?.cuts.find(({ id }) => id === one.cut)?.name ?? one.cut}
                </span>
              )}
              <Button
                className="remove"
                aria-label={say("standIn.remove", { name })}
                onPress={() => onChange(said.toSpliced(i, 1))}
              >
                ✕
              </Button>
            </p>
            <div className="row wrap">
              <TextEntry
                label={say("standIn.factor", { food: food.name })}
                className="price"
                value={write.number(one.factor, 3)}
                onChange={(typed) => set({ factor: readFactor(typed)! })}
                check={(typed) =>
                  readFactor(typed) === undefined ? say("standIn.factor.wrong", { typed }) : undefined
                }
              />
              <Choice
                label={say("standIn.when", { name })}
                hideLabel
                value={one.when}
                options={[
                  ["missing", say("standIn.missing")],
                  ["cheaper", say("standIn.cheaper")],
                ]}
                onChange={(when) => set({ when })}
              />
            </div>
            <p className={against.length > 0 ? "decide small" : "quiet small"}>
              {against.length > 0
                ? `▲ ${say("standIn.against", { name, why: against.join(", ") })}`
                : say("orders.instead.same", { name: food.name })}
            </p>
          </div>
        );
      })}
      {said.length < MOST && (
        <FindPick
          label={say("standIn.add", { food: food.name })}
          text={say("standIn.add", { food: food.name })}
          list={book.ingredients.filter(
            ({ id }) => id !== food.id && !said.some((one) => one.ingredient === id),
          )}
          onPick={(id) => onChange([...said, { ingredient: id, ...cutOf(id), factor: 1, when: "missing" }])}
        />
      )}
    </div>
  );

  /** The first cut it has: as it is trimmed for use. */
  function cutOf(id: string): { cut?: string } {
    const [first] = library.ingredients.get(id)?.cuts ?? [];
    return first ? { cut: first.id } : {};
  }
}

/** As many as a document may name. */
const MOST = 10;

/** "1.25" or "1,25", above nought up to a hundred; undefined when it is no such number. */
function readFactor(typed: string): number | undefined {
  const text = typed.trim().replace(",", ".");
  const factor = /^\d{1,3}(\.\d{1,4})?$/.test(text) ? Number(text) : 0;
  return factor > 0 && factor <= 100 ? factor : undefined;
}
