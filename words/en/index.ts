import { another } from "./another.ts";
import { argue } from "./argue.ts";
import { bench } from "./bench.ts";
import { boardNow } from "./board-now.ts";
import { choices } from "./choices.ts";
import { common } from "./common.ts";
import { contained } from "./contained.ts";
import { cookingYields } from "./cooking-yields.ts";
import { cost } from "./cost.ts";
import { everyCover } from "./every-cover.ts";
import { food } from "./food.ts";
import { forecastTrace } from "./forecast-trace.ts";
import { guests } from "./guests.ts";
import { heat } from "./heat.ts";
import { intake } from "./intake.ts";
import { learn } from "./learn.ts";
import { learnedTrace } from "./learned-trace.ts";
import { live } from "./live.ts";
import { log } from "./log.ts";
import { noPlan } from "./no-plan.ts";
import { nutrition } from "./nutrition.ts";
import { orders } from "./orders.ts";
import { pack } from "./pack.ts";
import { pass } from "./pass.ts";
import { planTrace } from "./plan-trace.ts";
import { retention } from "./retention.ts";
import { rules } from "./rules.ts";
import { run } from "./run.ts";
import { standIns } from "./stand-ins.ts";
import { stores } from "./stores.ts";
import { suppliers } from "./suppliers.ts";
import { waits } from "./waits.ts";
import { whySoMuch } from "./why-so-much.ts";

/** The parts of the catalogue; no key stands in two of them. */
export const PARTS = {
  common,
  everyCover,
  food,
  retention,
  rules,
  planTrace,
  bench,
  another,
  heat,
  stores,
  standIns,
  suppliers,
  run,
  guests,
  orders,
  contained,
  whySoMuch,
  cost,
  argue,
  noPlan,
  nutrition,
  pack,
  pass,
  log,
  intake,
  choices,
  live,
  boardNow,
  waits,
  learn,
  learnedTrace,
  forecastTrace,
  cookingYields,
};

/** English, complete: the catalogue that gives the keys. */
export const en = {
  ...common,
  ...everyCover,
  ...food,
  ...retention,
  ...rules,
  ...planTrace,
  ...bench,
  ...another,
  ...heat,
  ...stores,
  ...standIns,
  ...suppliers,
  ...run,
  ...guests,
  ...orders,
  ...contained,
  ...whySoMuch,
  ...cost,
  ...argue,
  ...noPlan,
  ...nutrition,
  ...pack,
  ...pass,
  ...log,
  ...intake,
  ...choices,
  ...live,
  ...boardNow,
  ...waits,
  ...learn,
  ...learnedTrace,
  ...forecastTrace,
  ...cookingYields,
} as const;

export type Key = keyof typeof en;
