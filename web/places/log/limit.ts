import type { ControlPoint } from "../../../core/run/result.ts";

/** A mark to be reached within so many minutes of the first reading: cooling, reheating. */
export interface Mark {
  readonly value: number;
  readonly withinMin: number;
}

/** The limit a reading is held against. */
export interface Limit {
  /** What must be held; where there are marks, what is held in the end. */
  readonly value: number;
  /** The value itself is not enough. */
  readonly strict: boolean;
  /** The reading must be at least so much; else at most. */
  readonly least: boolean;
  readonly celsius: boolean;
  /** Nothing holds before these: the reading is on its way to them. */
  readonly marks: readonly Mark[];
}

/** A reading against its limit; on the way: nothing is broken, nothing is reached. */
export type Judged = "within" | "on the way" | "beyond";

/**
 * The limit of a control point, whoever wrote it: by its parts. A reading is of what the first part is of; of several
 * the strictest counts.
 */
export function limitOf({ parts }: Pick<ControlPoint, "parts">): Limit | undefined {
  const first = parts.find((part) => MEASURED.has(part.what));
  if (!first) return undefined;
  const least = first.op.startsWith(">");
  const own = parts.filter((part) => part.what === first.what && part.op.startsWith(">") === least);
  const marks = own
    .flatMap(({ value, withinMin }) => (withinMin === undefined ? [] : [{ value, withinMin }]))
    .sort((a, b) => a.withinMin - b.withinMin);
  const values = own.map((part) => part.value);
  const value = values.reduce((a, b) => (least ? Math.max(a, b) : Math.min(a, b)));
  return {
    ...{ value, least, marks },
    strict: own.some((part) => part.value === value && part.op.length === 1),
    celsius: first.what === "coreC" || first.what === "airC",
  };
}

/** What one reading of a person or a probe can be of; a log reduction and a document are none. */
const MEASURED: ReadonlySet<string> = new Set(["coreC", "airC", "minutes", "pH"]);

/** @param minutes since the first reading of the point. */
export function judge(value: number, limit: Limit, minutes: number): Judged {
  const holds = (mark: number) =>
    value === mark ? !limit.strict : limit.least ? value > mark : value < mark;
  if (limit.marks.some((mark) => minutes >= mark.withinMin && !holds(mark.value))) return "beyond";
  if (holds(limit.value)) return "within";
  return limit.marks.length > 0 ? "on the way" : "beyond";
}
