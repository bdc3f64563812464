import { useParams } from "@tanstack/react-router";
import type { ReactNode } from "react";
import type { Key } from "../../../words/catalogue.ts";
import { useRunState, useTold } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Views } from "../../parts/views.tsx";
import { NoService } from "../no-service.tsx";
import { Allergens } from "./allergens.tsx";
import { ControlPoints } from "./control.tsx";
import { CostView } from "./cost.tsx";
import { FrontOfHouse } from "./front.tsx";
import { Guests } from "./guests.tsx";
import { RunHead } from "./head.tsx";
import { Labels } from "./labels.tsx";
import { NutritionLabels } from "./nutrition.tsx";
import { Orders } from "./orders.tsx";
import { PlanView } from "./plan.tsx";
import { PrepLists } from "./prep.tsx";
import { PullList } from "./pull.tsx";
import { Seating } from "./seating.tsx";

const VIEWS: readonly (readonly [id: string, key: Key, view: () => ReactNode])[] = [
  ["plan", "run.plan", PlanView],
  ["guests", "run.guests", Guests],
  ["seating", "run.seating", Seating],
  ["prep", "run.prep", PrepLists],
  ["orders", "run.orders", Orders],
  ["allergens", "run.allergens", Allergens],
  ["cost", "run.cost", CostView],
  ["labels", "run.labels", Labels],
  ["nutrition", "run.nutrition", NutritionLabels],
  ["pull", "run.pull", PullList],
  ["front", "run.front", FrontOfHouse],
  ["control", "run.control", ControlPoints],
];
const NAMES = VIEWS.map(([id, key]) => [id, key] as const);

/** Run: one service, from the sentence to the sheets. */
export function RunPlace() {
  const { view: asked } = useParams({ strict: false }) as { view?: string };
  const { say } = useWords();
  const { amounts } = useTold();
  const { problems } = useRunState();
  const here = useMaybeService();
  if (!here) return <NoService />;
  const [id, , View] = VIEWS.find(([name]) => name === asked) ?? VIEWS[0]!;
  return (
    <>
      <RunHead short={id !== VIEWS[0]![0]} />
      <Views place="run" label="run.views" views={NAMES} current={id} />
      {amounts ? (
        <View />
      ) : id === "guests" && problems.length > 0 ? (
        <Guests />
      ) : (
        <p className="page quiet">{say(problems.length > 0 ? "run.refused.view" : "run.computing")}</p>
      )}
    </>
  );
}
