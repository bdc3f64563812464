/** The room's public door: problem, validation, checker, engine. */
export { checkSchedule } from "./check.ts";
export { type Found, type FoundPlans, foundIn, questionOf } from "./found.ts";
export { objectiveOf, totalOf } from "./objective.ts";
export type * from "./problem.ts";
export type { Refusal } from "./refusal.ts";
export { type Progress, refused, type SolveOptions, solve } from "./solve.ts";
export { validateProblem } from "./validate.ts";
