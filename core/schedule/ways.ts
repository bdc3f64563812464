// What the engine's model holds of tasks, people and equipment; apart from the model, so that what the model is built from can read it.

/** Far beyond any time; small enough to be added to itself in 32 bits. */
export const NEVER = 0x3fffffff;

export interface Equipment {
  readonly dimensions: number;
  /** Steps of capacity: time[k] from which capacity[k * dimensions + d] holds. */
  readonly time: Int32Array;
  readonly capacity: Int32Array;
  readonly tolerance: number;
  readonly minutesPerUnit: number;
  readonly leastMinutes: number;
  /** Cleaning minutes, kind x kinds + kind; empty when there are none. */
  readonly setups: Int32Array;
  /** Longest time it can have to stand empty. */
  readonly longestGap: number;
  /** Whether needs must be compared in pairs. */
  readonly pairs: boolean;
}

/** A need of people: who could, fewest skills first, so that the versatile stay free. */
export interface PeopleDemand {
  readonly count: number;
  readonly able: readonly number[];
  /** Index of the `same` name, or -1. */
  readonly team: number;
}

/** A need of a resource, as the engine reads it. */
export interface Demand {
  readonly of: readonly number[];
  readonly amount: Int32Array;
  /** NaN when the state does not matter. */
  readonly set: number;
  /** NaN when it is the resource's own. */
  readonly tolerance: number;
  readonly exclusive: boolean;
  /** Cleaning class by number over the whole problem, or -1. */
  readonly kind: number;
  readonly batch: number;
  /** Index of the `same` name, or -1. */
  readonly same: number;
}

export interface Way {
  readonly duration: number;
  /** 0 no, 1 breaks, 2 breaks and shifts. */
  readonly interrupt: 0 | 1 | 2;
  readonly people: readonly PeopleDemand[];
  readonly demands: readonly Demand[];
  readonly heads: number;
  readonly cost: number;
}

export interface Worker {
  /** from, to, from, to ... of working time, sorted. */
  readonly work: Int32Array;
  /** For each working interval, the end of its shift. */
  readonly shiftEnd: Int32Array;
  readonly skills: number;
}

/** What a pin decides, in the direction of the model. */
export interface Decided {
  /** -1 when the start is open. */
  readonly start: number;
  /** -1 when the end follows from the work. */
  readonly end: number;
  /** -1 when open. */
  readonly mode: number;
  readonly persons: readonly number[] | null;
  readonly resources: readonly number[] | null;
  readonly status: "open" | "started" | "done";
}
