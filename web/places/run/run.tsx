import { useParams } from "@tanstack/react-router";
import { type ComponentType, lazy, Suspense, useEffect } from "react";
import type { Key } from "../../../words/catalogue.ts";
import { useRunState, useTold } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Views } from "../../parts/views.tsx";
import { NoService } from "../no-service.tsx";
import { RunHead } from "./head.tsx";
import { PlanView } from "./plan.tsx";

/** Fetches the views beside the plan; once they are there, nothing. */
export const fetchSheets = () => import("./sheets.ts");
const sheet = (name: keyof Awaited<ReturnType<typeof fetchSheets>>) =>
  lazy(async () => ({ default: (await fetchSheets())[name] }));
const Guests = sheet("Guests");

const VIEWS: readonly (readonly [id: string, key: Key, view: ComponentType])[] = [
  ["plan", "run.plan", PlanView],
  ["guests", "run.guests", Guests],
  ["seating", "run.seating", sheet("Seating")],
  ["prep", "run.prep", sheet("PrepLists")],
  ["orders", "run.orders", sheet("Orders")],
  ["allergens", "run.allergens", sheet("Allergens")],
  ["cost", "run.cost", sheet("CostView")],
  ["labels", "run.labels", sheet("Labels")],
  ["nutrition", "run.nutrition", sheet("NutritionLabels")],
  ["pull", "run.pull", sheet("PullList")],
  ["front", "run.front", sheet("FrontOfHouse")],
  ["control", "run.control", sheet("ControlPoints")],
];
const NAMES = VIEWS.map(([id, key]) => [id, key] as const);

/** Run: one service, from the sentence to the sheets. */
export function RunPlace() {
  const { view: asked } = useParams({ strict: false }) as { view?: string };
  const { say } = useWords();
  const { amounts } = useTold();
  const { problems } = useRunState();
  const here = useMaybeService();
  const [id, , View] = VIEWS.find(([name]) => name === asked) ?? VIEWS[0]!;
  // While the amounts are being computed, not after.
  useEffect(() => {
    if (id !== VIEWS[0]![0]) void fetchSheets().catch(() => undefined);
  }, [id]);
  if (!here) return <NoService />;
  const wait = (
    <p className="page quiet">{say(problems.length > 0 ? "run.refused.view" : "run.computing")}</p>
  );
  return (
    <>
      <RunHead short={id !== VIEWS[0]![0]} />
      <Views place="run" label="run.views" views={NAMES} current={id} />
      <Suspense fallback={wait}>
        {amounts ? <View /> : id === "guests" && problems.length > 0 ? <Guests /> : wait}
      </Suspense>
    </>
  );
}
