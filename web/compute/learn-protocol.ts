import type { Book } from "../../core/book/schema.ts";
import type { Estimate } from "../../core/learning/learn.ts";
import type { LogLine } from "../../core/safety/log-lines.ts";

/** What a learned figure would change in the service in hand. */
export interface Effect {
  /** Packs of an order line, before and after. */
  readonly packs: readonly { readonly name: string; readonly from: number; readonly to: number }[];
  readonly costPerCover: readonly [from: number, to: number];
  readonly orderTotal: readonly [from: string, to: string];
  readonly currency: string;
  /** Hands of the whole plan, minutes; only for times. */
  readonly handsMin?: readonly [from: number, to: number];
  readonly fits?: readonly [from: boolean, to: boolean];
}

export type ToLearn =
  | { readonly type: "learn"; readonly id: number; readonly book: Book; readonly lines: readonly LogLine[] }
  | {
      readonly type: "effect";
      readonly id: number;
      readonly book: Book;
      readonly estimate: Estimate;
      readonly service: string;
      readonly covers: number;
      readonly kitchen?: string | undefined;
    };

export type FromLearn =
  | { readonly type: "learned"; readonly id: number; readonly estimates: readonly Estimate[] }
  | { readonly type: "effect"; readonly id: number; readonly effect: Effect | undefined };
