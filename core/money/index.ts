export * from "./money.ts";
export * from "./schema.ts";
