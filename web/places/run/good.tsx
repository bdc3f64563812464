import { Button } from "react-aria-components";
import { USUAL_WEIGHTS, type WeightName, weightsFor } from "../../../core/production/weights.ts";
import type { Plan } from "../../../core/run/result.ts";
import { useBook } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Fold } from "../../parts/fold.tsx";

/** A step of an entry: as fine as the usual weight is. */
const STEPS: Readonly<Record<WeightName, number>> = {
  ...{ slack: 1, stale: 0.1, waiting: 0.01, heatUps: 5, walking: 0.5, hands: 0.1, peaks: 0.1, breaks: 1 },
};

/** What one plan is better than another by: each term with its value and bound, and its weight to be set. */
export function Good({ plan }: { readonly plan: Plan }) {
  const { say, write } = useWords();
  const { store } = useBook();
  const { service } = useService();
  const weights = weightsFor(service);
  const set = (key: WeightName, value: number) =>
    store.edit("services", { ...service, weights: { ...service.weights, [key]: value } }, `weight ${key}`);
  return (
    <section className="note good">
      <Fold summary={<span className="note-title">{say("good.title")}</span>}>
        <p className="small quiet">{say("good.what")}</p>
        <ul className="rows">
          {(Object.keys(USUAL_WEIGHTS) as WeightName[]).map((key) => {
            const at = plan.objective.findIndex((term) => term.key === key);
            const term = plan.objective[at];
            return (
              <li key={key} className="good-term">
                <span className="good-name">{say(`good.key.${key}`)}</span>
                <span>
                  {term && (
                    <span className="block">
                      <Figure at={`/plan/objective/${at}/value`} label={term.term}>
                        {write.quantity(term)}
                      </Figure>
                      {term.bound !== undefined && (
                        <span className="block quiet small">
                          <Figure at={`/plan/objective/${at}/bound`} label={term.term}>
                            {say("good.bound", {
                              bound: write.quantity({ value: term.bound, unit: term.unit }),
                            })}
                          </Figure>
                        </span>
                      )}
                    </span>
                  )}
                </span>
                <CountEntry
                  label={`${say("good.weight")}: ${say(`good.key.${key}`)}`}
                  hideLabel
                  value={weights[key]}
                  most={1000}
                  step={STEPS[key]}
                  onChange={(value) => set(key, value)}
                />
                {key === "peaks" && <Peaks plan={plan} />}
              </li>
            );
          })}
        </ul>
        {service.weights && (
          <Button
            className="button quiet-button"
            onPress={() => {
              const { weights: _, ...rest } = service;
              store.edit("services", rest);
            }}
          >
            {say("good.usual")}
          </Button>
        )}
      </Fold>
    </section>
  );
}

/** The hours that are too full, each with how it came. */
function Peaks({ plan }: { readonly plan: Plan }) {
  const { say, write } = useWords();
  if (plan.peaks.length === 0) return null;
  const lines = plan.peaks.map(({ from, workedMin, thereMin }, i) => (
    <span key={from} className="block">
      {say("good.peak", { from: write.clock(from) })}{" "}
      <Figure at={`/plan/peaks/${i}/overMin`} label={say("good.peak.over")}>
        {say("good.peak.share", { worked: write.span(workedMin), there: write.span(thereMin) })}
      </Figure>
    </span>
  ));
  return <span className="good-name quiet">{lines}</span>;
}
