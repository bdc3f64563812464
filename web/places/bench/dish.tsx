import { Link, useParams } from "@tanstack/react-router";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { Dish, Placement } from "../../../core/plating/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { variantWords } from "../../../words/variant.ts";
import { Lost } from "../../app/frame.tsx";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { AmountEntry } from "../../parts/amount-entry.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Fold } from "../../parts/fold.tsx";
import { Line } from "../../parts/line.tsx";
import { NutritionMargin } from "../../parts/nutrition-label.tsx";
import { PlatePicture } from "../../parts/plate-picture.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { Formula } from "./formula.tsx";

/** One dish: the plate, what lies on it in order, and what it comes to. */
export function DishSheet() {
  const { id } = useParams({ strict: false }) as { id: string };
  const { library, store } = useBook();
  const { say } = useWords();
  const [chosen, setChosen] = useState<number>();
  const dish = library.dishes.get(id);
  if (!dish) return <Lost />;
  const edit = (more: Partial<Dish>, gesture?: string) => store.edit("dishes", { ...dish, ...more }, gesture);
  return (
    <div className="page bench-sheet">
      <Line margin={<DishWorth dish={dish} />}>
        <h1>
          <TextEntry
            label={say("bench.name")}
            hideLabel
            long
            className="title-entry"
            value={dish.name}
            onChange={(name) => edit({ name })}
            check={(typed) => (typed.trim() === "" ? say("bench.name.empty") : undefined)}
          />
        </h1>
        <p>{dish.description}</p>
        <div className="dish-plate">
          <PlatePicture dish={dish} placements={dish.placements} chosen={chosen} onChoose={setChosen} />
        </div>
      </Line>
      <h2 className="part">{say("dish.onPlate")}</h2>
      {dish.placements.map((placement, i) => (
        <OnPlate
          key={placement.n}
          placement={placement}
          chosen={chosen === placement.n}
          onChoose={() => setChosen(chosen === placement.n ? undefined : placement.n)}
          onChange={(next, gesture) => edit({ placements: dish.placements.with(i, next) }, gesture)}
        />
      ))}
      {dish.variants.length > 0 && <h2 className="part">{say("dish.variants")}</h2>}
      {dish.variants.map((variant) => (
        <VariantLine key={variant.need} dish={dish} variant={variant} />
      ))}
    </div>
  );
}

function OnPlate({
  placement,
  chosen,
  onChoose,
  onChange,
}: {
  readonly placement: Placement;
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly onChange: (placement: Placement, gesture?: string) => void;
}) {
  const names = useNames();
  const { library } = useBook();
  const { say } = useWords();
  const name = names.item(placement.preparation ?? placement.ingredient ?? "");
  const preparation =
    placement.preparation === undefined ? undefined : library.preparations.get(placement.preparation);
  return (
    <div className="on-plate" data-chosen={chosen || undefined}>
      <Line margin={<PlacementMargin placement={placement} />}>
        <span className="formula-name">
          <Button
            className="plate-number"
            aria-pressed={chosen}
            aria-label={say("dish.show", { n: placement.n, name })}
            onPress={onChoose}
          >
            {placement.n}
          </Button>
          {preparation ? (
            <Link to="/bench/preparation/$id" params={{ id: preparation.id }}>
              {name}
            </Link>
          ) : (
            name
          )}
        </span>
        <AmountEntry
          label={say("formula.amount", { name })}
          amount={placement.amount}
          onChange={(amount, gesture) => onChange({ ...placement, amount }, gesture)}
        />
      </Line>
      <div className="on-plate-more">
        <TextEntry
          label={say("dish.gesture")}
          hideLabel
          long
          value={placement.gesture}
          onChange={(gesture) => onChange({ ...placement, gesture })}
          check={(typed) => (typed.trim() === "" ? say("dish.gesture.empty") : undefined)}
        />
        <Fold summary={<span className="quiet">{say("dish.where")}</span>}>
          <div className="row wrap">
            <CountEntry
              label={say("dish.x")}
              value={placement.xMm}
              least={-400}
              step={5}
              onChange={(xMm) => onChange({ ...placement, xMm })}
            />
            <CountEntry
              label={say("dish.y")}
              value={placement.yMm}
              least={-400}
              step={5}
              onChange={(yMm) => onChange({ ...placement, yMm })}
            />
            <CountEntry
              label={say("dish.turn")}
              value={placement.turnDeg}
              least={-360}
              step={5}
              onChange={(turnDeg) => onChange({ ...placement, turnDeg })}
            />
            <CountEntry
              label={say("dish.seconds")}
              value={placement.seconds}
              onChange={(seconds) => onChange({ ...placement, seconds })}
            />
          </div>
        </Fold>
        {preparation && (
          <Fold summary={<span className="quiet">{say("dish.formula", { name })}</span>}>
            <Formula preparation={preparation} depth={1} />
          </Fold>
        )}
      </div>
    </div>
  );
}

function PlacementMargin({ placement }: { readonly placement: Placement }) {
  const { amounts } = useTold();
  const { say, write } = useWords();
  const at = amounts?.cost.preparations.findIndex((p) => p.preparation === placement.preparation) ?? -1;
  const cost = amounts?.cost.preparations[at];
  return (
    <div className="line-notes small">
      <p>
        {say(`form.${placement.form}`)}
        {placement.count > 1 && ` × ${placement.count}`}, {say("dish.takes", { seconds: placement.seconds })}
      </p>
      {cost && (
        <p>
          <Figure at={`/cost/preparations/${at}/perKg`}>
            {write.money(cost.perKg, amounts!.cost.currency)}/kg
          </Figure>
        </p>
      )}
    </div>
  );
}

function DishWorth({ dish }: { readonly dish: Dish }) {
  const { amounts } = useTold();
  const { say, write } = useWords();
  const plates = (amounts?.cost.perPlate ?? [])
    .map((p, at) => ({ ...p, at }))
    .filter((p) => p.dish === dish.id);
  const counts = (amounts?.plates ?? []).filter((p) => p.dish === dish.id);
  const contained = [
    ...new Set(
      (amounts?.allergens ?? [])
        .filter(
          (c) =>
            c.dish === dish.id &&
            (c.variant === "standard" || c.variant === "") &&
            c.allergen &&
            c.state !== "free",
        )
        .map((c) =>
          c.state === "contains"
            ? wordFor(say, "allergen", c.allergen!)
            : `${wordFor(say, "allergen", c.allergen!)}?`,
        ),
    ),
  ];
  if (!amounts) return null;
  if (plates.length === 0) return <span className="quiet">{say("bench.notServed")}</span>;
  const labelAt = amounts.nutrition.findIndex(
    (label) => label.dish === dish.id && label.variant === "standard",
  );
  const label = amounts.nutrition[labelAt];
  return (
    <>
      <dl className="figures">
        {plates.map((plate) => (
          <div key={plate.variant}>
            <dt>{variantWords(say, plate.variant) ?? say("cost.plate")}</dt>
            <dd>
              <Figure at={`/cost/perPlate/${plate.at}/plate`}>
                {write.money(plate.plate, amounts!.cost.currency)}
              </Figure>
              {plate.share !== undefined && <span className="quiet"> {write.share(plate.share)}</span>}
            </dd>
          </div>
        ))}
        <dt>{say("figure.plates")}</dt>
        <dd>
          {write.number(
            counts.reduce((sum, c) => sum + c.count + c.spare, 0),
            0,
          )}
        </dd>
        {contained.length > 0 && (
          <>
            <dt>{say("allergens.contains")}</dt>
            <dd>{write.list(contained)}</dd>
          </>
        )}
      </dl>
      {label && <NutritionMargin label={label} at={labelAt} />}
    </>
  );
}

function VariantLine({ dish, variant }: { readonly dish: Dish; readonly variant: Dish["variants"][number] }) {
  const names = useNames();
  const { say, write } = useWords();
  const nameAt = (n: number) => {
    const placement = dish.placements.find((p) => p.n === n);
    return placement ? names.item(placement.preparation ?? placement.ingredient ?? "") : String(n);
  };
  const of = (p: Placement) => names.item(p.preparation ?? p.ingredient ?? "");
  const parts = [
    ...variant.drop.map((n) => say("dish.drop", { name: nameAt(n) })),
    ...variant.replace.map((r) => say("dish.replace", { name: nameAt(r.n), by: of(r.placement) })),
    ...variant.add.map((p) => say("dish.add", { name: of(p) })),
  ];
  return (
    <p className="variant">
      <strong>{wordFor(say, "need", variant.need)}</strong> {write.list(parts)}
    </p>
  );
}
