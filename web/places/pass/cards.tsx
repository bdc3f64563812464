import { useState } from "react";
import { Button } from "react-aria-components";
import type { Placement } from "../../../core/plating/schema.ts";
import type { PlateCount } from "../../../core/run/result.ts";
import { variantWords } from "../../../words/variant.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { placementsOf } from "../../parts/placements.ts";
import { PlatePicture } from "../../parts/plate-picture.tsx";

/** Plate cards side by side, the next one half seen; a page each on paper. */
export function PlateCards() {
  const { amounts } = useTold();
  const { menu } = useService();
  const { say } = useWords();
  const order = menu?.courses.map((c) => c.id) ?? [];
  // One card for each plate that looks different: a dish in one variant.
  const cards = [
    ...new Map(
      (amounts?.plates ?? []).filter((p) => p.count + p.spare > 0).map((p) => [`${p.dish} ${p.variant}`, p]),
    ).values(),
  ].sort((a, b) => order.indexOf(a.course) - order.indexOf(b.course));
  return (
    <>
      <h1 className="unseen">{say("pass.cards")}</h1>
      {/* What scrolls must be reached by keys. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: see above */}
      <section className="cards" aria-label={say("pass.cards")} tabIndex={0}>
        {cards.map((plate) => (
          <PlateCard
            key={`${plate.dish} ${plate.variant}`}
            plate={plate}
            course={menu?.courses.find((c) => c.id === plate.course)?.name ?? plate.course}
          />
        ))}
      </section>
      <p className="page row no-print">
        <Button className="button" onPress={() => window.print()}>
          {say("pass.print")}
        </Button>
      </p>
    </>
  );
}

function PlateCard({ plate, course }: { readonly plate: PlateCount; readonly course: string }) {
  const { library } = useBook();
  const names = useNames();
  const { say, write } = useWords();
  const [chosen, setChosen] = useState<number>();
  const dish = library.dishes.get(plate.dish);
  if (!dish) return null;
  const placements = placementsOf(dish, plate.variant);
  const variant = variantWords(say, plate.variant);
  return (
    <article className="card sheet-page">
      <header className="card-head">
        <p className="quiet">
          {course}
          {variant && <strong className="card-variant"> {variant}</strong>}
        </p>
        <h2>{dish.name}</h2>
        <p className="quiet">
          {say("pass.count", { count: plate.count, spare: plate.spare })}
          {plate.seats.length > 0 && `, ${plate.seats.join(", ")}`}
          {dish.plate.plateC !== undefined &&
            `, ${say("pass.plateC", { c: write.temperature(dish.plate.plateC) })}`}
        </p>
      </header>
      <PlatePicture dish={dish} placements={placements} chosen={chosen} onChoose={setChosen} />
      <ol className="gestures">
        {placements.map((placement) => (
          <li key={placement.n}>
            <Button
              className="gesture"
              aria-pressed={chosen === placement.n}
              onPress={() => setChosen(chosen === placement.n ? undefined : placement.n)}
            >
              <span className="gesture-n">{placement.n}</span>
              <span className="gesture-text">
                <span className="gesture-what">
                  <strong>
                    {write.quantity({ value: Number(placement.amount.value), unit: placement.amount.unit })}
                  </strong>{" "}
                  {names.item(placement.preparation ?? placement.ingredient ?? "")}
                </span>
                <span className="gesture-how">{placement.gesture}</span>
                {placement.serveC && (
                  <span className="quiet">{serveWords(placement.serveC, say, write)}</span>
                )}
              </span>
            </Button>
          </li>
        ))}
      </ol>
    </article>
  );
}

/** At which temperature something leaves the pass. */
function serveWords(
  { atLeast, atMost }: NonNullable<Placement["serveC"]>,
  say: ReturnType<typeof useWords>["say"],
  write: ReturnType<typeof useWords>["write"],
): string {
  if (atLeast !== undefined && atMost !== undefined)
    return say("pass.between", { least: write.temperature(atLeast), most: write.temperature(atMost) });
  if (atLeast !== undefined) return say("pass.atLeast", { c: write.temperature(atLeast) });
  return atMost === undefined ? "" : say("pass.atMost", { c: write.temperature(atMost) });
}
