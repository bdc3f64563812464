import { useEffect, useState } from "react";
import { Button } from "react-aria-components";
import type { Preparation } from "../../../core/formula/schema.ts";
import {
  type AmountAsked,
  ANOTHER,
  type AnotherAmount,
  type OnHand,
} from "../../../core/production/another-amount.ts";
import { type Amount, convert } from "../../../core/quantity/index.ts";
import { weighBy } from "../../../core/safety/lots-weigh.ts";
import { useBook, useBookState, useHands } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import type { Another } from "../../compute/protocol.ts";
import { AmountEntry, readTyped } from "../../parts/amount-entry.tsx";
import { Choice } from "../../parts/choice.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Fold } from "../../parts/fold.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { useStock } from "../log/use-lots.ts";

type By = AmountAsked["by"];
type Asked = { readonly [item: string]: string };
const WAYS: readonly By[] = ["mass", "portions", "here"];

/** The formula at another amount, without any service: to a mass, to portions, or from what is there. */
export function AnotherFold({ preparation }: { readonly preparation: Preparation }) {
  const { say } = useWords();
  const [open, setOpen] = useState(false);
  return (
    <Fold summary={say("another.open")} open={open} onOpen={setOpen}>
      <AnotherAmountAsked preparation={preparation} />
    </Fold>
  );
}

function AnotherAmountAsked({ preparation }: { readonly preparation: Preparation }) {
  const { say } = useWords();
  const [by, setBy] = useState<By>("mass");
  const [wanted, setWanted] = useState(preparation.yield.amount);
  const [portions, setPortions] = useState(10);
  const usual = useUsualPortion(preparation);
  const [portion, setPortion] = useState(usual);
  const [here, setHere] = useState<Asked>({});
  const grams = useGrams(preparation);
  const portionG = portion && grams(portion);
  const wantedG = grams(wanted);
  const limits = useLimits(here);
  // What it takes does not depend on how much: asked only where it is listed.
  const listed = useAnother(preparation, by === "here" ? { by: "mass", g: 1000 } : undefined, portionG);
  const asked: AmountAsked | undefined =
    by === "mass"
      ? wantedG === undefined
        ? undefined
        : { by, g: wantedG }
      : by === "portions"
        ? { by, portions }
        : limits.length > 0
          ? { by, here: limits }
          : undefined;
  const answer = useAnother(preparation, asked, portionG);
  return (
    <div className="another">
      <Choice
        label={say("another.by")}
        value={by}
        options={WAYS.map((way) => [way, say(`another.by.${way}`)])}
        onChange={setBy}
      />
      <div className="row wrap another-asked">
        {by === "mass" && (
          <div>
            <span className="field-label">{say("another.wanted")}</span>
            <AmountEntry label={say("another.wanted")} amount={wanted} onChange={setWanted} />
          </div>
        )}
        {by === "portions" && (
          <CountEntry
            label={say("another.portions")}
            value={portions}
            least={1}
            most={100_000}
            onChange={setPortions}
          />
        )}
        <div>
          <span className="field-label">{say("another.portion")}</span>
          <AmountEntry
            label={say("another.portion")}
            amount={portion ?? { value: 100, unit: "g" }}
            onChange={setPortion}
          />
        </div>
      </div>
      {by === "mass" && wantedG === undefined && <p className="decide">▲ {say("another.notWeighed")}</p>}
      {by === "here" && (
        <HereList
          takes={(listed?.made?.takes ?? []).toSorted((a, b) => b.apG - a.apG)}
          typed={here}
          onChange={setHere}
        />
      )}
      {asked && answer?.refused !== undefined && <p className="decide">▲ {answer.refused}</p>}
      {asked && answer?.made && <Told preparation={preparation} made={answer.made} limits={limits} />}
    </div>
  );
}

/** What a plate of the book carries of it, the first that does. */
function useUsualPortion({ id }: Preparation) {
  const { book } = useBook();
  for (const dish of book.dishes)
    for (const placement of dish.placements) if (placement.preparation === id) return placement.amount;
  return undefined;
}

/** Grams of an amount of the preparation, where its density or its pieces tell. */
function useGrams({ name, yield: made, density }: Preparation): (amount: Amount) => number | undefined {
  const densityKgPerL = density?.kgPerL;
  const whole = convert(made.amount, "g", { densityKgPerL });
  const gPerPiece = whole.ok && made.pieces ? whole.value / made.pieces : undefined;
  return (amount) => {
    const there = convert(amount, "g", { of: name, densityKgPerL, gPerPiece });
    return there.ok && there.value > 0 ? there.value : undefined;
  };
}

/** The answer to what is asked, and the one before while it is on its way. */
function useAnother(preparation: Preparation, asked: AmountAsked | undefined, portionG: number | undefined) {
  const { runner } = useHands();
  const { version } = useBookState();
  const { kitchen } = useService();
  const [answer, setAnswer] = useState<Another>();
  const key = JSON.stringify([asked, portionG]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the question is new when its text is, or the book
  useEffect(() => {
    if (!asked) return;
    let current = true;
    const { scaleStepG } = kitchen.measures;
    void runner
      .another({ preparation: preparation.id, asked, portionG, scaleStepG })
      .then((told) => current && setAnswer(told));
    return () => {
      current = false;
    };
  }, [runner, preparation.id, key, version, kitchen]);
  return answer;
}

/** One key for an ingredient in a cut. */
const keyOf = ({ ingredient, cut }: { readonly ingredient: string; readonly cut?: string | undefined }) =>
  `${ingredient}/${cut ?? ""}`;

/** An ingredient with its cut, as a cook says it. */
function useCalled(): (of: { readonly ingredient: string; readonly cut?: string | undefined }) => string {
  const { library } = useBook();
  const names = useNames();
  return ({ ingredient, cut }) => {
    const known = library.ingredients.get(ingredient)?.cuts.find((each) => each.id === cut);
    return `${names.ingredient(ingredient)}${known ? `, ${known.name}` : ""}`;
  };
}

/** What is typed as grams; what can't be read is left out, it is told beside its entry. */
function useLimits(typed: Asked): OnHand[] {
  const { library } = useBook();
  const weigh = weighBy(library.ingredients);
  return Object.entries(typed).flatMap(([key, text]) => {
    const [ingredient, cut] = key.split("/") as [string, string];
    const read = readTyped(text, "g");
    const grams = "amount" in read ? weigh(ingredient, read.amount) : undefined;
    return grams === undefined ? [] : [{ ingredient, ...(cut ? { cut } : {}), grams }];
  });
}

/** Each ingredient the formula takes through all its parts, to say how much of it is there. */
function HereList({
  takes,
  typed,
  onChange,
}: {
  readonly takes: AnotherAmount["takes"];
  readonly typed: Asked;
  readonly onChange: (typed: Asked) => void;
}) {
  const { library } = useBook();
  const { stock } = useStock();
  const names = useNames();
  const called = useCalled();
  const { say } = useWords();
  const weigh = weighBy(library.ingredients);
  const held = takes.flatMap((take) => {
    if (take.cut !== undefined) return [];
    const lots = [...stock.lots.values()].filter(
      (l) => l.ref.ingredient === take.ingredient && l.unit === "g",
    );
    const grams = lots.reduce((sum, lot) => sum + Math.max(0, lot.onHand), 0);
    return grams > 0 ? [[keyOf(take), `${Math.floor(grams)} g`] as const] : [];
  });
  const check = (ingredient: string) => (text: string) => {
    if (text.trim() === "") return undefined;
    const read = readTyped(text, "g");
    const label = names.ingredient(ingredient);
    if ("wrong" in read) return say(`amount.${read.wrong}`, { typed: text, label });
    return weigh(ingredient, read.amount) === undefined ? say("another.unit", { name: label }) : undefined;
  };
  return (
    <>
      <p className="quiet measure">{say("another.here.what")}</p>
      {held.length > 0 && (
        <Button className="link-button" onPress={() => onChange({ ...typed, ...Object.fromEntries(held) })}>
          {say("another.stock", { count: held.length })}
        </Button>
      )}
      <div className="another-here">
        {takes.map((take) => (
          <TextEntry
            key={keyOf(take)}
            label={called(take)}
            value={typed[keyOf(take)] ?? ""}
            check={check(take.ingredient)}
            onChange={(text) => {
              const { [keyOf(take)]: _, ...rest } = typed;
              onChange(text.trim() === "" ? rest : { ...rest, [keyOf(take)]: text });
            }}
          />
        ))}
      </div>
    </>
  );
}

/** What it comes to, and every line as the scale shows it. */
function Told({
  preparation,
  made,
  limits,
}: {
  readonly preparation: Preparation;
  readonly made: AnotherAmount;
  readonly limits: readonly OnHand[];
}) {
  const names = useNames();
  const called = useCalled();
  const { say, write } = useWords();
  const scarce = made.limit === undefined ? undefined : limits[made.limit];
  return (
    <>
      <p aria-live="polite" className="another-told">
        <Figure at={`${ANOTHER}/factor`} unfold="over">
          {say("another.factor", { factor: write.number(made.factor, 3) })}
        </Figure>
        {" · "}
        <Figure at={`${ANOTHER}/makesG`} unfold="over">
          {write.mass(made.makesG)}
        </Figure>
        {made.pieces !== undefined && (
          <>
            {" · "}
            <Figure at={`${ANOTHER}/pieces`} unfold="over">
              {say("another.pieces", { pieces: write.number(made.pieces, 1) })}
            </Figure>
          </>
        )}
        {made.portions !== undefined && (
          <>
            {" · "}
            <Figure at={`${ANOTHER}/portions`} unfold="over">
              {say("another.gives", { count: made.portions })}
            </Figure>
          </>
        )}
        {scarce && <span className="block">{say("another.scarce", { name: called(scarce) })}</span>}
      </p>
      <table className="table">
        <thead>
          <tr>
            <th scope="col">{say("bench.formula")}</th>
            <th scope="col" className="num">
              {say("another.weigh")}
            </th>
            <th scope="col" className="num">
              {say("another.buys")}
            </th>
          </tr>
        </thead>
        <tbody>
          {made.lines.map((line, i) => {
            const of = preparation.lines.find((each) => each.id === line.line);
            return (
              <tr key={line.line}>
                <th scope="row">
                  {of && names.item("ingredient" in of.item ? of.item.ingredient : of.item.preparation)}
                </th>
                <td className="num">
                  <Figure at={`${ANOTHER}/lines/${i}/weighG`} unfold="over">
                    {write.mass(line.weighG)}
                  </Figure>
                </td>
                <td className="num">
                  {line.apG !== undefined && (
                    <Figure at={`${ANOTHER}/lines/${i}/apG`} unfold="over">
                      {write.mass(line.apG)}
                    </Figure>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p className="quiet small">{say("another.alone")}</p>
    </>
  );
}
