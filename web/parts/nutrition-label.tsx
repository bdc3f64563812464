import { Fragment } from "react";
import type { LabelLine, NutritionLabel } from "../../core/safety/nutrition-types.ts";
import { wordFor } from "../../words/catalogue.ts";
import { variantWords } from "../../words/variant.ts";
import { useNames } from "../app/names.ts";
import { useWords } from "../app/settings.tsx";
import { Figure } from "./figure.tsx";

export type Law = "us" | "eu";

/** Stand a step in: they are part of the line above them. */
const PARTS = new Set(["saturated", "trans", "sugars", "addedSugars"]);

/** What a label is of, in words. */
export function useLabelName(): (label: NutritionLabel) => string {
  const names = useNames();
  const { say } = useWords();
  return ({ dish, variant, preparation }) => {
    if (preparation !== undefined)
      return say("nutrition.preparation", { name: names.preparation(preparation) });
    const needs = variantWords(say, variant ?? "");
    if (needs === undefined) return say("nutrition.plate", { dish: names.dish(dish!) });
    return say("nutrition.plateFor", { dish: names.dish(dish!), variant: needs });
  };
}

/** A nutrition label and its ingredients, in our own drawing. @param at place of the label in the result. */
export function NutritionLabelView({
  label,
  at,
  law,
}: {
  readonly label: NutritionLabel;
  readonly at: number;
  readonly law: Law;
}) {
  const { say, write } = useWords();
  const name = useLabelName();
  const portion = label.portionG;
  return (
    <article className="nutrition">
      <h2 className="nutrition-name">{name(label)}</h2>
      <p className="nutrition-portion">
        {portion === undefined ? (
          say("nutrition.hundred")
        ) : (
          <Figure at={`/nutrition/${at}/portionG`}>
            {say("nutrition.portion", { mass: write.mass(portion) })}
          </Figure>
        )}
      </p>
      <Lines label={label} at={at} law={law} />
      <p className="small quiet">{say(law === "us" ? "nutrition.note.us" : "nutrition.note.eu")}</p>
      <p>
        <strong>{say("nutrition.ingredients")}:</strong> <Ingredients text={label.ingredients} />
      </p>
      {label.contains.length > 0 && (
        <p>
          <strong>
            {say("nutrition.contains", {
              list: write.list(label.contains.map((each) => wordFor(say, "allergen", each).toUpperCase())),
            })}
          </strong>
        </p>
      )}
      {label.mayContain.length > 0 && (
        <p>
          {say("nutrition.may", {
            list: write.list(label.mayContain.map((each) => wordFor(say, "allergen", each))),
          })}
        </p>
      )}
      {law === "us" && <p className="small quiet">{say("nutrition.minerals")}</p>}
      <p className="small quiet">{say("contained.elsewhere")}</p>
      <p className="small decide">▲ {say("nutrition.check")}</p>
    </article>
  );
}

function Lines({
  label,
  at,
  law,
}: {
  readonly label: NutritionLabel;
  readonly at: number;
  readonly law: Law;
}) {
  const { say } = useWords();
  const plate = label.portionG !== undefined;
  const main: readonly LabelLine[] = law === "us" ? label.us : (label.eu.perPortion ?? label.eu.per100);
  const both = law === "eu" && plate;
  const percents = main.some((line) => line.percent !== undefined) && plate;
  return (
    <table className="table nutrition-lines">
      <thead>
        <tr>
          <th>
            <span className="unseen">{say("nutrition.nutrient")}</span>
          </th>
          {both && <th className="num">{say("nutrition.per100")}</th>}
          <th className="num">{say(plate ? "nutrition.perPortion" : "nutrition.per100")}</th>
          {percents && <th className="num">{say(law === "us" ? "nutrition.daily" : "nutrition.intake")}</th>}
        </tr>
      </thead>
      <tbody>
        {main.map((line, i) => (
          <tr key={line.nutrient} data-part={PARTS.has(line.nutrient) || undefined}>
            <th scope="row">{say(`nutrient.${line.nutrient}`)}</th>
            {line.shown === undefined ? (
              <td className="num" colSpan={1 + Number(both) + Number(percents)}>
                <Unknown label={label} line={line} />
              </td>
            ) : (
              <>
                {both && <td className="num">{label.eu.per100[i]!.shown ?? say("nutrition.unknown")}</td>}
                <td className="num">
                  <Figure
                    at={`/nutrition/${at}/nutrients/${indexOf(label, line)}/${plate ? "perPortion" : "per100"}`}
                    unfold="over"
                    label={say(`nutrient.${line.nutrient}`)}
                  >
                    {line.shown}
                  </Figure>
                </td>
                {percents && <td className="num quiet">{line.percent ?? ""}</td>}
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Unknown({ label, line }: { readonly label: NutritionLabel; readonly line: LabelLine }) {
  const { say, write } = useWords();
  const amount = label.nutrients[indexOf(label, line)]!;
  const value = amount.perPortion ?? amount.per100;
  const places = value < 10 ? 1 : 0;
  return (
    <>
      {say("nutrition.unknown")}
      {Number(value.toFixed(places)) > 0 && (
        <span className="small quiet block">
          {say("nutrition.atLeast", {
            amount: `${write.number(value, places)} ${amount.unit}`,
            share: write.share(amount.known),
          })}
        </span>
      )}
    </>
  );
}

const indexOf = (label: NutritionLabel, { nutrient }: LabelLine) =>
  label.nutrients.findIndex((each) => each.nutrient === nutrient);

/** The list with what stands in capitals after a dash (the allergens) in strong type too. */
function Ingredients({ text }: { readonly text: string }) {
  return text.split(/(– [A-Z][A-Z ,]*[A-Z])/).map((part, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: parts of one text, in their order
    <Fragment key={i}>{part.startsWith("– ") ? <strong>{part}</strong> : part}</Fragment>
  ));
}

/** A few figures of a label for a margin. */
export function NutritionMargin({ label, at }: { readonly label: NutritionLabel; readonly at: number }) {
  const { say } = useWords();
  const plate = label.portionG !== undefined;
  const lines = (label.eu.perPortion ?? label.eu.per100).filter(({ nutrient }) => nutrient !== "energyKj");
  return (
    <dl className="pairs nutrition-margin">
      <dt className="quiet">{say(plate ? "nutrition.margin.plate" : "nutrition.margin.hundred")}</dt>
      <dd />
      {lines.map((line) => (
        <Fragment key={line.nutrient}>
          <dt>{say(line.nutrient === "energyKcalEu" ? "nutrient.energyKj" : `nutrient.${line.nutrient}`)}</dt>
          <dd>
            {line.shown === undefined ? (
              <span className="quiet">{say("nutrition.unknown")}</span>
            ) : (
              <Figure
                at={`/nutrition/${at}/nutrients/${indexOf(label, line)}/${plate ? "perPortion" : "per100"}`}
              >
                {line.shown}
              </Figure>
            )}
          </dd>
        </Fragment>
      ))}
    </dl>
  );
}
