import { cookRules } from "../../../../core/heat/limits-data.ts";
import { organisms } from "../../../../core/heat/organisms.ts";
import { useWords } from "../../../app/settings.tsx";
import { Pick } from "../../../parts/pick.tsx";
import type { Draft } from "./draft.ts";
import { NumberEntry } from "./number-entry.tsx";
import type { FormProps } from "./piece-form.tsx";

/** Where it is cooked, how far each figure may be off, and by what limits and organism it is judged. */
export function KitchenForm({ draft, onChange }: FormProps) {
  const { say } = useWords();
  const set = (more: Partial<Draft>) => onChange({ ...draft, ...more });
  const spread = (more: Partial<Draft["spread"]>) => set({ spread: { ...draft.spread, ...more } });
  return (
    <section className="heat-form">
      <h3>{say("heat.kitchen")}</h3>
      <div className="fields">
        <Pick
          label={say("heat.food")}
          value={draft.food}
          onChange={(food) => set({ food: food as Draft["food"] })}
          options={[
            ["", say("heat.food.none")],
            ...(Object.keys(cookRules) as (keyof typeof cookRules)[]).map(
              (food) => [food, say(`heat.food.${food}`)] as const,
            ),
          ]}
        />
        <Pick
          label={say("heat.counted")}
          value={draft.organism}
          onChange={(organism) => set({ organism })}
          options={organisms.map((each) => [
            each.id,
            say("heat.organism.of", { name: each.name, food: each.food }),
          ])}
        />
        <NumberEntry
          label={say("heat.altitude")}
          unit="m"
          value={draft.altitudeM}
          paths={["/altitudeM"]}
          onChange={(altitudeM) => set({ altitudeM })}
        />
      </div>
      <fieldset className="parts-set">
        <legend className="field-label">{say("heat.spread")}</legend>
        <div className="fields">
          <NumberEntry
            label={say("heat.spread.thickness")}
            unit="mm"
            value={draft.spread.thicknessMm}
            paths={["/spread/thicknessMm"]}
            onChange={(thicknessMm) => spread({ thicknessMm })}
          />
          <NumberEntry
            label={say("heat.spread.start")}
            unit="K"
            value={draft.spread.startC}
            paths={["/spread/startC"]}
            onChange={(startC) => spread({ startC })}
          />
          <NumberEntry
            label={say("heat.spread.medium")}
            unit="K"
            value={draft.spread.mediumC}
            paths={["/spread/mediumC"]}
            onChange={(mediumC) => spread({ mediumC })}
          />
          <NumberEntry
            label={say("heat.spread.coefficient")}
            unit="%"
            value={draft.spread.coefficientPercent}
            paths={["/spread/coefficient"]}
            onChange={(coefficientPercent) => spread({ coefficientPercent })}
          />
        </div>
      </fieldset>
    </section>
  );
}
