import { useParams } from "@tanstack/react-router";
import type { ReactNode } from "react";
import type { Key } from "../../../words/catalogue.ts";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Views } from "../../parts/views.tsx";
import { NoService } from "../no-service.tsx";
import { DayView } from "./day.tsx";
import { ForecastView } from "./forecast.tsx";
import { LearnedView } from "./learned.tsx";
import { LotsView } from "./lots.tsx";
import { RecallView } from "./recall.tsx";
import { WriteView } from "./write/write.tsx";

const VIEWS: readonly (readonly [id: string, key: Key, view: () => ReactNode])[] = [
  ["day", "log.view.day", DayView],
  ["write", "log.view.write", WriteView],
  ["lots", "log.view.lots", LotsView],
  ["learned", "log.view.learned", LearnedView],
  ["forecast", "log.view.forecast", ForecastView],
  ["recall", "log.view.recall", RecallView],
];
const NAMES = VIEWS.map(([id, key]) => [id, key] as const);

/** Log: a page a day; what is to be watched, what happened, what was measured and learned, where lots went. */
export function LogPlace() {
  const here = useMaybeService();
  const { say } = useWords();
  const { view: asked = "day" } = useParams({ strict: false }) as { view?: string };
  if (!here) return <NoService />;
  const [id, , View] = VIEWS.find(([name]) => name === asked) ?? VIEWS[0]!;
  return (
    <>
      <Views place="log" label="log.views" views={NAMES} current={id} />
      {id !== "day" && (
        <div className="page">
          <h1>{say(`log.view.${id}` as Key)}</h1>
        </div>
      )}
      <View />
    </>
  );
}
