import { given, type TraceNode } from "../ledger/ledger.ts";
import { over, shortOf, sum, times } from "../ledger/rules.ts";
import type { LogLine } from "../safety/log-lines.ts";
import * as forecastRules from "./forecast-rules.ts";
import * as rules from "./rules.ts";

/** The rules a trace of what was learned may cite, by name. */
export const LEARNED_RULES: Readonly<Record<string, (...inputs: number[]) => number>> = {
  ...(rules as unknown as Record<string, (...inputs: number[]) => number>),
  ...(forecastRules as unknown as Record<string, (...inputs: number[]) => number>),
  ...{ given, over, sum, times, shortOf },
};

export type Nodes = Record<string, TraceNode>;

/** Names of the rules as they are exported: a build may call the functions otherwise. */
const NAMES = new Map(Object.entries(LEARNED_RULES).map(([name, rule]) => [rule, name]));

function nameOf(rule: (...inputs: number[]) => number): string {
  const name = NAMES.get(rule);
  if (name === undefined) throw new Error("learning: a trace cites a rule that is not known");
  return name;
}

/** Collects nodes: of the estimate's own numbers, and of what stands behind them. */
export class Noted {
  readonly nodes: Nodes = {};
  readonly #base: string;
  constructor(base: string) {
    this.#base = base;
  }

  value(path: string): number {
    return this.nodes[path]!.value;
  }

  note(
    key: string,
    value: number,
    unit: string,
    rule: (...inputs: number[]) => number,
    inputs: readonly string[],
  ): string {
    return this.#put(`${this.#base}/${key}`, { value, unit, rule: nameOf(rule), inputs: [...inputs] });
  }

  calc(key: string, value: number, rule: (...inputs: number[]) => number, inputs: readonly string[]): string {
    return this.#put(`calc:${this.#base}/${key}`, {
      value,
      unit: "",
      rule: nameOf(rule),
      inputs: [...inputs],
    });
  }

  /** As `calc`, its value by the rule itself. */
  derived(key: string, rule: (...inputs: number[]) => number, inputs: readonly string[]): string {
    return this.calc(key, rule(...inputs.map((input) => this.value(input))), rule, inputs);
  }

  given(path: string, value: number, unit = ""): string {
    return this.#put(path, { value, unit, rule: nameOf(given), inputs: [] });
  }

  number(n: number): string {
    return this.given(`const:/number/${n}`, n);
  }

  log(line: LogLine, field: string, value: number, first: string, unit = ""): string {
    const source = { doc: `${line.at.slice(0, 10)}, ${line.by}`, kind: "measured" as const };
    return this.#put(`log:/${first}/${field}`, { value, unit, rule: nameOf(given), inputs: [], source });
  }

  #put(path: string, node: TraceNode): string {
    this.nodes[path] = node;
    return path;
  }
}
