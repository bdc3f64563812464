import { allergensSaid, leftOffSaid } from "../../../words/allergens-said.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { TracesTold } from "./traces-told.tsx";
import { VariantWords } from "./variant-words.tsx";

/** For the hall: each dish described, its allergens, and what may be left off. */
export function FrontOfHouse() {
  const { amounts: quick, plan, behind } = useTold();
  // What passes on shared equipment is told with the plan.
  const amounts = behind ? quick : (plan ?? quick);
  const { menu } = useService();
  const { say, write } = useWords();
  if (!amounts) return null;
  const words = (ids: readonly string[]) => write.list(ids.map((id) => wordFor(say, "allergen", id)));
  return (
    <div className="page sheet-page">
      <TracesTold />
      {amounts.everyCover.length > 0 && (
        <section>
          <h2 className="part">{say("front.everyCover")}</h2>
          <p className="quiet">{say("front.everyCover.note")}</p>
          {amounts.everyCover.map((line, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: the list is the menu's own, in its order
            <article key={i} className="front">
              <h3>
                <span className="dish">{line.name}</span>
              </h3>
              <p>{allergensSaid(say, line, words)}</p>
              {line.advisory && <p className="decide">▲ {line.advisory}</p>}
            </article>
          ))}
        </section>
      )}
      {(menu?.courses ?? []).map((course) => (
        <section key={course.id}>
          <h2 className="part">{course.name}</h2>
          {amounts.frontOfHouse
            .filter((line) => line.course === course.id)
            .map((line) => (
              <article key={line.dish + line.variant} className="front">
                <h3>
                  <span className="dish">{line.name}</span>
                  <VariantWords of={line.variant} />
                  <span className="quiet"> × {line.count}</span>
                </h3>
                <p>{line.describe}</p>
                <p>{allergensSaid(say, line, words)}</p>
                {line.leaveOff.map((off) => (
                  <p key={off.what} className="quiet">
                    {leftOffSaid(say, off, words)}
                  </p>
                ))}
                {line.advisory && <p className="decide">▲ {line.advisory}</p>}
              </article>
            ))}
        </section>
      ))}
    </div>
  );
}
