import type { Step } from "../../../core/formula/schema.ts";

/** The limit a reading is held against. */
export interface Limit {
  readonly value: number;
  /** The reading must be at least so much; else at most. */
  readonly least: boolean;
  readonly celsius: boolean;
}

/** The first limit of a control point; further ones are told in words. */
export function limitOf(control: Step["control"]): Limit | undefined {
  if (!control) return undefined;
  const { what, op, value } = control.limit;
  return { value, least: op.startsWith(">"), celsius: what === "coreC" || what === "airC" };
}

export function beyond(value: number, limit: Limit): boolean {
  return limit.least ? value < limit.value : value > limit.value;
}
