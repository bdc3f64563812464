import { Button } from "react-aria-components";
import { coversOf } from "../../../core/learning/forecast.ts";
import { useBook } from "../../app/hands.tsx";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { useCame } from "../log/use-came.ts";

/** How far the covers may miss: what is counted in now, and what the log would say, taken with one tap. */
export function CoversSpread() {
  const { say, write } = useWords();
  const { store } = useBook();
  const { service } = useService();
  const { came } = useCame();
  const { coversSpread, ...rest } = service;
  const share = (spread: number) => `${write.number(100 * spread, 1)} %`;
  // As the schema bounds it, to a tenth of a per cent.
  const seen =
    came.length > 0
      ? Math.min(0.5, Math.round((1000 * coversOf(came, service.covers).sd) / service.covers) / 1000)
      : undefined;
  return (
    <div className="measure">
      <p className={coversSpread === undefined ? "quiet" : undefined}>
        {coversSpread === undefined
          ? say("covers.spread.none")
          : say("covers.spread.said", { share: share(coversSpread) })}{" "}
        {seen !== undefined && say("covers.spread.by", { share: share(seen), services: came.length })}
      </p>
      <p className="row wrap">
        {seen !== undefined && seen !== coversSpread && (
          <Button
            className="button"
            onPress={() => store.edit("services", { ...service, coversSpread: seen })}
          >
            {say("covers.spread.take", { share: share(seen) })}
          </Button>
        )}
        {coversSpread !== undefined && (
          <Button className="button quiet-button" onPress={() => store.edit("services", rest)}>
            {say("covers.spread.drop")}
          </Button>
        )}
      </p>
    </div>
  );
}
