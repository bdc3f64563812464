import { Button } from "react-aria-components";
import type { Pricing } from "../../../core/production/schema.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import type { Tried } from "../../compute/protocol.ts";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Pick } from "../../parts/pick.tsx";

const ROUNDINGS = ["up", "nearest", "down"] as const;
type Rounding = (typeof ROUNDINGS)[number];

/** The price at which food is the wanted share, with tax and service charge, on a step of prices. */
export function CostPrice({
  pricing,
  tried,
  onChange,
}: {
  readonly pricing: Pricing;
  readonly tried: Tried | undefined;
  readonly onChange: (pricing: Pricing) => void;
}) {
  const { amounts } = useTold();
  const { store, library } = useBook();
  const { service } = useService();
  const { say, write } = useWords();
  if (!amounts) return null;
  const { currency } = amounts.cost;
  const price = tried?.cost?.price;
  const percent = (value: number) => Number((value * 100).toPrecision(8));
  const written = JSON.stringify(library.services.get(service.id)?.pricing) === JSON.stringify(pricing);
  return (
    <section aria-labelledby="cost-price">
      <h2 className="part" id="cost-price">
        {say("cost.price")}
      </h2>
      <p className="quiet measure">{say("cost.price.what")}</p>
      <div className="picks">
        <CountEntry
          label={say("cost.price.share")}
          value={percent(pricing.wantedShare)}
          least={1}
          most={100}
          step={0.5}
          onChange={(typed) => onChange({ ...pricing, wantedShare: typed / 100 })}
        />
        <CountEntry
          label={say("cost.price.step", { currency })}
          value={Number(pricing.step ?? "0")}
          least={0}
          step={0.05}
          onChange={(typed) => {
            const { step: _, ...rest } = pricing;
            onChange(typed > 0 ? { ...rest, step: String(Number(typed.toFixed(3))) } : rest);
          }}
        />
        <Pick
          label={say("cost.price.rounding")}
          value={pricing.rounding ?? "up"}
          options={ROUNDINGS.map((each) => [each, say(`cost.price.${each}`)] as const)}
          onChange={(rounding) => onChange({ ...pricing, rounding: rounding as Rounding })}
        />
        <CountEntry
          label={say("cost.price.tax")}
          value={percent(pricing.tax ?? 0)}
          step={0.5}
          most={200}
          onChange={(typed) => onChange({ ...pricing, tax: typed / 100 })}
        />
        <CountEntry
          label={say("cost.price.service")}
          value={percent(pricing.service ?? 0)}
          step={0.5}
          most={200}
          onChange={(typed) => onChange({ ...pricing, service: typed / 100 })}
        />
      </div>
      {tried?.refused !== undefined && <p className="decide">▲ {tried.refused}</p>}
      {price && (
        <p className="large" aria-live="polite">
          {say("cost.price.menu")}{" "}
          <Figure at="/tried/price/menu/printed">
            <strong>{write.money(price.menu.printed, currency)}</strong>
          </Figure>{" "}
          <span className="quiet">
            {say("cost.price.exact", { price: write.money(price.menu.net, currency) })},{" "}
            {say("cost.price.comes", { share: write.share(price.menu.share) })}
          </span>
        </p>
      )}
      {written ? null : (
        <Button className="button" onPress={() => store.edit("services", { ...service, pricing })}>
          {say("cost.price.keep")}
        </Button>
      )}
    </section>
  );
}
