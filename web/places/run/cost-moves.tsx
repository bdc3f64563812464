import { Button } from "react-aria-components";
import type { Moved } from "../../../core/costing/sensitivity.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";

/** The five prices and the five yields that move the menu most, each of which can be tried. */
export function CostMoves({ onTry }: { readonly onTry: (path: string) => void }) {
  const { amounts, plan } = useTold();
  const { say } = useWords();
  const moves = plan?.cost.sensitivity;
  if (!amounts) return null;
  return (
    <section aria-labelledby="cost-moves">
      <h2 className="part" id="cost-moves">
        {say("cost.moves")}
      </h2>
      {moves ? (
        <>
          <p className="quiet measure">{say("cost.moves.what")}</p>
          <div className="cost-pair">
            <Moves title={say("cost.moves.prices")} of="prices" moves={moves.prices} onTry={onTry} />
            <Moves title={say("cost.moves.yields")} of="yields" moves={moves.yields} onTry={onTry} />
          </div>
        </>
      ) : (
        <p className="quiet">{say("cost.moves.later")}</p>
      )}
    </section>
  );
}

function Moves({
  title,
  of,
  moves,
  onTry,
}: {
  readonly title: string;
  readonly of: "prices" | "yields";
  readonly moves: readonly Moved[];
  readonly onTry: (path: string) => void;
}) {
  const { plan } = useTold();
  const { say, write } = useWords();
  const nameOf = useMoveNames();
  const { currency } = plan!.cost;
  return (
    <table className="table cost-moves">
      <caption className="unseen">{title}</caption>
      <thead>
        <tr>
          <th>{title}</th>
          <th className="num">{say("cost.moves.menu")}</th>
          <th className="num wide-only">{say("cost.moves.share")}</th>
          <th>
            <span className="unseen">{say("cost.moves.try")}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {moves.map((moved, i) => (
          <tr key={moved.path}>
            <th scope="row">{nameOf(moved)}</th>
            <td className="num">
              <Figure at={`/cost/sensitivity/${of}/${i}/change`} unfold="over" label={nameOf(moved)}>
                {moved.change < 0 ? "−" : "+"}
                {write.money(Math.abs(moved.change), currency)}
              </Figure>
            </td>
            <td className="num quiet wide-only">{write.share(moved.share)}</td>
            <td className="num">
              <Button
                className="button quiet-button"
                aria-label={say("cost.moves.tryWhat", { name: nameOf(moved) })}
                onPress={() => onTry(moved.path)}
              >
                {say("cost.moves.try")}
              </Button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function useMoveNames(): (moved: Moved) => string {
  const names = useNames();
  const { library } = useBook();
  const { say } = useWords();
  return ({ ingredient, cut, preparation, kind }) => {
    if (kind === "making") return say("cost.moves.making", { name: names.preparation(preparation!) });
    const name = names.ingredient(ingredient!);
    if (kind === undefined) return name;
    if (preparation !== undefined)
      return say("cost.moves.trimIn", { name, preparation: names.preparation(preparation) });
    const cutName = library.ingredients.get(ingredient!)?.cuts.find(({ id }) => id === cut)?.name;
    return say("cost.moves.trim", { name, cut: cutName ?? cut ?? "" });
  };
}
