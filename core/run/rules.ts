/** Every rule a trace may cite, by its name: a trace is replayed with these. */
export * from "../costing/rules.ts";
export * from "../formula/rules.ts";
export { given } from "../ledger/ledger.ts";
export * from "../ledger/rules.ts";
export * from "../pantry/rules.ts";
export * from "../production/plan-rules.ts";
export * from "../production/rules.ts";
export * from "../purchasing/rules.ts";
export * from "../safety/nutrition-rules.ts";
export * from "./summary-rules.ts";
