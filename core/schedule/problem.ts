/**
 * The problem as plain values: what has to be done, by whom, on what, and when it may happen.
 *
 * Time is whole minutes on one axis, 0 to `horizon`; a minute t means the interval [t, t + 1). Every interval
 * is half open: `from` belongs to it, `to` does not. Capacities and amounts are whole numbers (count grams or
 * millilitres where kilograms would need a fraction). Nothing here knows an engine.
 */

import type { Refusal } from "./refusal.ts";

/** [from, to) in minutes. */
export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** One end of a task. */
export type Edge = "start" | "end";

/** A moment of the plan: the start or the end of a task. */
export interface Moment {
  readonly task: string;
  readonly at: Edge;
}

export interface Problem {
  /** Last minute of the axis: every task ends at or before it. */
  readonly horizon: number;
  /** Live plans: an open task starts at this minute or later. Default 0. */
  readonly now?: number;
  readonly tasks: readonly Task[];
  readonly lags?: readonly Lag[];
  readonly resources?: readonly Resource[];
  readonly persons?: readonly Person[];
  readonly spans?: readonly Span[];
  /** Minutes between places; pairs not named cost nothing. Both ways unless the other way is named too. */
  readonly walks?: readonly Walk[];
  readonly objective?: Objective;
}

/** One piece of work or waiting. A task without people is passive: it needs no hands and no shift. */
export interface Task {
  readonly id: string;
  /** Ways of doing it; the engine chooses one (two pairs of hands and 40 minutes, or one pair and 75). */
  readonly modes: readonly Mode[];
  /** Earliest start. */
  readonly release?: number;
  /** Latest end: a hard rule. */
  readonly deadline?: number;
  /** Wanted end. Default: the deadline, else the horizon. */
  readonly due?: number;
  /** Cost of each minute the task ends after `due`. Default 1. */
  readonly late?: number;
  /** Cost of each minute the task ends before `due`: "as late as sensible". Default 0. */
  readonly early?: number;
  /** Who gives way when not everything fits: the higher is placed by the rules first. Default 1. */
  readonly criticality?: number;
  /** Default "open". A started task keeps its `pin`; a done task holds nothing but still anchors lags. */
  readonly status?: "open" | "started" | "done";
  /** What is decided already. `started` needs start; `done` needs start and end. */
  readonly pin?: Pin;
  /** Where the people stand; for walking. */
  readonly place?: string;
  /** For messages; default the id. */
  readonly label?: string;
}

/** Decided parts of a placement; what is absent the engine chooses. */
export interface Pin {
  readonly start?: number;
  /** Expected or real end; only with a start. It overrides the mode's duration and the shifts. */
  readonly end?: number;
  /** Index into `modes`. */
  readonly mode?: number;
  /** In the order of the mode's people needs. */
  readonly persons?: readonly string[];
  /** In the order of the mode's resource needs. */
  readonly resources?: readonly string[];
}

export interface Mode {
  /** Working minutes. The time from start to end is longer when the work is interrupted. */
  readonly duration: number;
  /**
   * What may interrupt the work: nothing (default: it fits one unbroken working interval of everyone on it),
   * breaks, or breaks and the time between shifts. Work counts only in minutes when all its people work.
   * The people and resources stay with the task until it ends.
   */
  readonly interrupt?: "no" | "breaks" | "shifts";
  readonly people?: readonly PeopleNeed[];
  readonly resources?: readonly ResourceNeed[];
  /** Cost of choosing this mode (term "modes"). Default 0. */
  readonly cost?: number;
}

export interface PeopleNeed {
  readonly count: number;
  /** Each of them has this skill; absent: anyone. */
  readonly skill?: string;
  /** Only these persons. */
  readonly among?: readonly string[];
  /**
   * A name shared with needs of other tasks that must be done by the same persons. When counts differ, the
   * smaller set lies inside the larger.
   */
  readonly same?: string;
}

/** What a task or span holds of one resource, chosen among `of`, from its start to its end. */
export interface ResourceNeed {
  /** Any one of these resources; the engine chooses. */
  readonly of: readonly string[];
  /** Amount of each dimension of the resource, in its order; missing ones are 0. */
  readonly amount: readonly number[];
  /** The state the resource must be in (a temperature). Only resources with a `state` can serve it. */
  readonly state?: { readonly set: number; readonly tolerance?: number };
  /** Nothing else on the resource at the same time, but for needs of the same `same`. */
  readonly exclusive?: boolean;
  /** Cleaning class, looked up in the resource's `setups`. */
  readonly class?: string;
  /** A load that goes in together: on one resource it overlaps only needs of the same batch and start (or `same`). */
  readonly batch?: string;
  /** A name shared with needs of other tasks and spans that must use the same resource. */
  readonly same?: string;
}

/** A resource held from one moment to another, across whatever lies between them. Empty if `to` is first. */
export interface Span {
  readonly id: string;
  readonly from: Moment;
  readonly to: Moment;
  readonly need: ResourceNeed;
}

/**
 * time(to) - time(from) is at least `least` and at most `most`. Negative figures are allowed. Above `best`
 * each minute costs `cost` (term "hold").
 */
export interface Lag {
  readonly from: Moment;
  readonly to: Moment;
  readonly least?: number;
  readonly most?: number;
  readonly best?: number;
  /** Default 1. */
  readonly cost?: number;
  /** The reason, in the words of whoever wrote the problem; it comes back in violations and conflicts. */
  readonly rule?: string;
}

/** Something with capacity: n burners, a room of positions, an oven of shelves with one temperature. */
export interface Resource {
  readonly id: string;
  /** One figure per dimension. */
  readonly capacity: readonly number[];
  /** Names of the dimensions, for messages. */
  readonly dimensions?: readonly string[];
  /** When given, the capacity inside each interval; outside all of them it is 0. */
  readonly calendar?: readonly {
    readonly from: number;
    readonly to: number;
    readonly capacity: readonly number[];
  }[];
  readonly state?: StateRule;
  /** Minutes the resource stands empty between needs of these classes, in this order. Others: 0. */
  readonly setups?: readonly { readonly from: string; readonly to: string; readonly minutes: number }[];
  readonly label?: string;
}

/**
 * One state at a time. Two needs share it when their sets differ by no more than the smaller of their
 * tolerances. Otherwise the resource stands empty between them for at least
 * max(leastMinutes, minutesPerUnit x difference) minutes, rounded up.
 */
export interface StateRule {
  readonly lowest: number;
  readonly highest: number;
  /** For needs that name none. */
  readonly tolerance: number;
  readonly minutesPerUnit: number;
  readonly leastMinutes: number;
}

export interface Person {
  readonly id: string;
  readonly skills: readonly string[];
  readonly shifts: readonly Shift[];
  readonly label?: string;
}

export interface Shift extends Interval {
  readonly breaks?: readonly Interval[];
}

export interface Walk {
  readonly from: string;
  readonly to: string;
  readonly minutes: number;
}

/** Weights of the terms; hard rules come before all of them. */
export interface Objective {
  /** Per minute of the largest end. Default 0. */
  readonly makespan?: number;
  /** Times the sum over tasks of `late` x minutes after due. Default 1000. */
  readonly late?: number;
  /** Times the sum over tasks of `early` x minutes before due. Default 1. */
  readonly early?: number;
  /** Times the sum over lags of `cost` x minutes above `best`. Default 10. */
  readonly hold?: number;
  /** Per change of state of a resource, its first state included. Default 0. */
  readonly changes?: number;
  /**
   * Per minute of hands above `share` of those there, counted by stretches of `every` minutes; one begins at `from`
   * (default 0, less than `every`). Default none.
   */
  readonly peak?: {
    readonly weight: number;
    readonly share: number;
    readonly every: number;
    readonly from?: number;
  };
  /** Per task that a break or the end of a shift interrupts. Default 0. */
  readonly pauses?: number;
  /** Per minute walked between the places of consecutive tasks of a person. Default 0. */
  readonly walk?: number;
  /** Times the sum of the chosen modes' costs. Default 1. */
  readonly modes?: number;
}

/** The terms of the objective, in the order they are reported. */
export type Term = "makespan" | "late" | "early" | "hold" | "changes" | "peak" | "pauses" | "walk" | "modes";

/** Where and when one task is done. */
export interface Placement {
  readonly task: string;
  readonly start: number;
  readonly end: number;
  readonly mode: number;
  /** Who, in the order of the mode's people needs. */
  readonly persons: readonly string[];
  /** On what, in the order of the mode's resource needs. */
  readonly resources: readonly string[];
}

/** A complete plan: one placement per task in the order of `tasks`; one resource per span in the order of `spans`. */
export interface Schedule {
  readonly placements: readonly Placement[];
  readonly spans: readonly string[];
}

/** Every hard rule by name. README.md numbers them. */
export type Rule =
  | "horizon"
  | "now"
  | "release"
  | "deadline"
  | "pin"
  | "mode"
  | "duration"
  | "least-lag"
  | "longest-wait"
  | "capacity"
  | "state"
  | "changeover"
  | "exclusive"
  | "batch"
  | "same-resource"
  | "resource-choice"
  | "person-busy"
  | "person-choice"
  | "skill"
  | "shift"
  | "same-persons";

/** One rule a schedule breaks. */
export interface Violation {
  readonly rule: Rule;
  readonly tasks: readonly string[];
  /** How much, in `unit`; always above 0. */
  readonly by: number;
  readonly unit: "min" | "amount" | "count" | "state";
  /** Resource, person, span or lag concerned, by id or by the lag's `rule`. */
  readonly on?: string;
  /** First minute at which it is broken, where there is one. */
  readonly at?: number;
  /** Which dimension of a resource is over full, where it has several. */
  readonly dimension?: number;
}

/** What may be given up, one after another, when not everything fits. */
export type Relaxation = "overtime" | "late" | "wait" | "capacity";

/** One rule of a conflict as a value, for whoever puts it in words of his own. */
export interface ConflictPart {
  readonly kind:
    | "deadline"
    | "release"
    | "pin"
    | "least"
    | "most"
    | "duration"
    | "capacity"
    | "hours"
    | "hands"
    | "horizon"
    | "now";
  /** The task bound; of a lag the one it counts from and the one it counts to. */
  readonly tasks: readonly string[];
  /** Resource, person, skill ("" for any hands) or the lag's own words. */
  readonly on?: string;
}

/** A set of rules of which no plan keeps all. */
export interface Conflict {
  readonly tasks: readonly string[];
  readonly rules: readonly string[];
  /** The same rules in the same order, as values. */
  readonly parts: readonly ConflictPart[];
  /** Minutes too many, where that is known. */
  readonly by?: number;
  /** True when every rule in it is needed: leave out any one and the rest can be kept. */
  readonly irreducible: boolean;
}

export interface Valued {
  readonly term: Term;
  /** Weighted. */
  readonly value: number;
  /** No plan has less of this term, where a bound is known. */
  readonly bound?: number;
}

/**
 * The answer. `optimal`: keeps every rule and nothing is better. `feasible`: keeps every rule. `broken`: the
 * best attempt, with what it breaks. `infeasible`: proved that no plan keeps every rule (a best attempt may
 * still be given). `unknown`: nothing found and nothing proved.
 */
export interface Result {
  /** What makes the problem unreadable; then there is nothing else. */
  readonly refusals: readonly Refusal[];
  readonly status: "optimal" | "feasible" | "broken" | "infeasible" | "unknown";
  readonly schedule: Schedule | null;
  readonly violations: readonly Violation[];
  readonly objective: readonly Valued[];
  /** Sum of the weighted terms. */
  readonly value: number;
  /** No plan has less. */
  readonly bound: number;
  /** Why the search ended. */
  readonly reason: "proved" | "schedules" | "stopped" | "refused";
  /** Schedules generated; every decode counts. */
  readonly schedules: number;
  readonly seed: number;
  /** Earliest and latest start of each task with everything else left as it is; NaN when it is in breach. */
  readonly earliest: readonly number[];
  readonly latest: readonly number[];
  readonly conflicts: readonly Conflict[];
}
