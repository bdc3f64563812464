import type {
  Answered,
  Answers,
  Confirmed,
  ListFile,
  Oven,
  ReadProblem,
  TiedList,
} from "../../core/intake/index.ts";
import type { Ingredient } from "../../core/pantry/schema.ts";
import type { Offer } from "../../core/purchasing/schema.ts";

/** What the worker must know of the book. */
export interface IntakeBook {
  readonly ingredients: readonly Ingredient[];
  readonly preparations: readonly {
    readonly id: string;
    readonly lines: readonly { readonly item: object }[];
  }[];
  readonly ovens: readonly Oven[];
}

/** A file as it was dropped or opened. */
export interface OpenedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface ListQuestion {
  readonly file: OpenedFile;
  readonly sheet?: string | undefined;
  readonly confirmed: Confirmed;
  readonly offers: readonly Offer[];
  readonly from: string;
  readonly currency?: string | undefined;
  /** Rows that a person tied to an ingredient, or to none, by place. */
  readonly ties: Readonly<Record<number, string | null>>;
}

/** Questions and their answers, by name. */
export interface Intake {
  readonly recipe: {
    readonly asked: { readonly source: string | OpenedFile; readonly nth: number; readonly answers: Answers };
    readonly told: {
      readonly answered: Answered;
      readonly titles: readonly string[];
      readonly problems: readonly ReadProblem[];
    };
  };
  readonly list: { readonly asked: ListQuestion; readonly told: ListFile & TiedList };
  readonly take: {
    readonly asked: ListQuestion & { readonly chosen: readonly number[] };
    readonly told: { readonly offers: Offer[]; readonly missing: readonly Offer[] };
  };
  readonly import: {
    readonly asked: { readonly files: readonly OpenedFile[] };
    readonly told: Found;
  };
  readonly starter: { readonly asked: { readonly typed: string }; readonly told: Found };
}
export type Asked = keyof Intake;

/** Ingredients to choose from, with what is doubtful about them and what could not be read. */
export interface Found {
  readonly ingredients: readonly Ingredient[];
  readonly doubts: readonly { readonly ingredient: string; readonly what: string }[];
  readonly problems: readonly { readonly at: string; readonly what: string; readonly mend: string }[];
}

export type ToIntake =
  | { readonly type: "book"; readonly book: IntakeBook }
  | {
      readonly type: "ask";
      readonly id: number;
      readonly what: Asked;
      readonly asked: Intake[Asked]["asked"];
    };
export type FromIntake =
  | { readonly id: number; readonly told: Intake[Asked]["told"] }
  | { readonly id: number; readonly failed: string };
