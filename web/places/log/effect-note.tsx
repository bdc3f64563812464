import { useEffect, useState } from "react";
import type { Estimate } from "../../../core/learning/learn.ts";
import { useWords } from "../../app/settings.tsx";
import type { Effect } from "../../compute/learn-protocol.ts";
import type { useLearned } from "./use-learned.ts";

/** What a learned figure would change in the service in hand, computed with it in the book. */
export function EffectNote({
  estimate,
  effectOf,
}: {
  readonly estimate: Estimate;
  readonly effectOf: ReturnType<typeof useLearned>["effectOf"];
}) {
  const { say, write } = useWords();
  const [effect, setEffect] = useState<Effect | "working" | undefined>("working");
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked anew for another estimate only
  useEffect(() => {
    let current = true;
    setEffect("working");
    effectOf(estimate, (found) => current && setEffect(found));
    return () => {
      current = false;
    };
  }, [estimate]);
  return (
    <div className="effect">
      <h3>{say("learned.effect")}</h3>
      {effect === "working" ? (
        <p className="quiet">{say("learned.effect.working")}</p>
      ) : effect === undefined ? (
        <p className="quiet">{say("learned.effect.cannot")}</p>
      ) : (
        <Told effect={effect} write={write} say={say} />
      )}
    </div>
  );
}

function Told({
  effect,
  write,
  say,
}: { readonly effect: Effect } & Pick<ReturnType<typeof useWords>, "write" | "say">) {
  const { packs, costPerCover, orderTotal, currency, handsMin, fits } = effect;
  const money = (amount: string | number) => write.money(amount, currency);
  const cost = money(costPerCover[0]) !== money(costPerCover[1]) || orderTotal[0] !== orderTotal[1];
  const hands = handsMin && Math.round(handsMin[0]) !== Math.round(handsMin[1]);
  if (packs.length === 0 && !cost && !hands) return <p>{say("learned.effect.none")}</p>;
  return (
    <ul className="plain">
      {packs.map(({ name, from, to }) => (
        <li key={name}>{say("learned.effect.packs", { name, from, to })}</li>
      ))}
      {cost && (
        <li>
          {say("learned.effect.cost", {
            ...{ from: money(costPerCover[0]), to: money(costPerCover[1]) },
            ...{ total: money(orderTotal[0]), totalTo: money(orderTotal[1]) },
          })}
        </li>
      )}
      {hands && (
        <li>
          {say("learned.effect.hands", { from: write.hours(handsMin[0]), to: write.hours(handsMin[1]) })}
        </li>
      )}
      {fits && fits[0] !== fits[1] && <li>{say("learned.effect.fits", { to: String(fits[1]) })}</li>}
    </ul>
  );
}
