/** The room's public door: problem, validation, checker, engine. */
export type * from "./problem.ts";
export type { Refusal } from "./refusal.ts";
export { validateProblem } from "./validate.ts";
