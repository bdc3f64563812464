/**
 * What a service asks the brigade to do, before anything has a time: tasks, the links between them and the
 * places where food waits. Plain values; `problem.ts` turns them into a scheduling problem, `plan.ts` turns the
 * schedule back. Times are whole minutes from the horizon (see clock.ts), masses g, temperatures °C.
 */

/**
 * work: by hands. look: hands looking in on something that waits. wait: passive, needs no hands. thaw: a wait
 * in the cold room. plate: the plate-up of one dish of a course. milestone: a fixed moment.
 */
export type TaskKind = "work" | "look" | "wait" | "thaw" | "plate" | "milestone";

export interface Task {
  /** "short-rib/braise/2/wait": preparation, step, batch (and load, "2.1"), part. See README, P4. */
  readonly id: string;
  readonly kind: TaskKind;
  /** Id of the preparation; of the dish when plating; "" for a milestone. */
  readonly preparation: string;
  /** Id of the step; of the course when plating; "" for a milestone. */
  readonly step: string;
  /** 1-based; 0 when the task belongs to no batch. */
  readonly batch: number;
  /** Share of the batch in this task: 1 unless the step goes in several loads. */
  readonly share: number;
  readonly name: string;
  readonly station?: string;
  readonly skill?: string;
  /** Ways of doing it, fewest hands first; one way with 0 hands when it is passive. */
  readonly ways: readonly Way[];
  readonly interruptible: boolean;
  readonly uses: readonly RoomNeed[];
  /** Mass that enters and leaves, and pieces, of this task's share. */
  readonly inG: number;
  readonly outG: number;
  readonly pieces: number;
  /** Decided start (milestones, pins). */
  readonly at?: number;
  /** Not before; a delivery, for instance. */
  readonly release?: number;
  /** Ends by this minute: a hard rule. */
  readonly deadline?: number;
  /** Should end by this minute, so that the slack the chef chose is left. */
  readonly due?: number;
  readonly status?: "started" | "done";
  /** Persons it is pinned to. */
  readonly crew?: readonly string[];
  readonly how: DurationOf;
}

/** Id of the milestone of a course. */
export const courseTask = (course: string) => `course/${course}`;

export interface Way {
  readonly hands: number;
  /** Elapsed working minutes, whole. */
  readonly minutes: number;
}

/** Where the minutes come from, for the trace: the pointer of the step (or dish) in the book, or a constant. */
export interface DurationOf {
  readonly from: "work" | "passive" | "target" | "look" | "plating" | "thaw" | "fixed";
  /** Pointer into the book of what the figures are read from, like "/preparations/3/steps/1". */
  readonly pointer: string;
}

/** Room on one unit of equipment from the task's start to its end. */
export interface RoomNeed {
  /** Units that can serve; any one of them. */
  readonly units: readonly string[];
  readonly space: readonly Space[];
  readonly setC?: number;
  readonly toleranceC?: number;
  readonly exclusive?: boolean;
  /** Needs with the same name take the same unit. */
  readonly same?: string;
}

export interface Space {
  readonly unit: string;
  readonly value: number;
}

export interface At {
  readonly task: string;
  readonly at: "start" | "end";
}

/** Why one moment waits for another; the word comes back when a plan breaks it. */
export type LinkRule =
  | "follows"
  | "after"
  | "ready"
  | "hold"
  | "life"
  | "fresh"
  | "look-in"
  | "thawed"
  | "line-check"
  | "course";

/** time(to) − time(from) is at least `least` and at most `most`; above `best` it costs. */
export interface Link {
  readonly from: At;
  readonly to: At;
  readonly rule: LinkRule;
  readonly least?: number;
  readonly most?: number;
  readonly best?: number;
  /** How the food waits, where `most` is a hold or a life. */
  readonly state?: "hot" | "cold" | "frozen" | "ambient";
}

/** Food that waits in a store from one moment to another and takes room there. */
export interface Stay {
  readonly id: string;
  readonly from: At;
  readonly to: At;
  readonly state: "hot" | "cold" | "frozen";
  readonly units: readonly string[];
  readonly positions: number;
}

/** Something no plan in this kitchen can keep, found before planning. */
export interface Lack {
  readonly rule: "equipment" | "room" | "range" | "depth" | "skill" | "hands" | "shift";
  readonly tasks: readonly string[];
  readonly by: number;
  readonly unit: string;
  readonly what: string;
  /** Of a lack over the whole time: the units that are too few, and how many times what they hold is asked for. */
  readonly units?: readonly string[];
  readonly times?: number;
}

/** A doubt about the book that did not stop the work. */
export interface Doubt {
  readonly path: string;
  readonly what: string;
  readonly mend: string;
}

/** Everything a service asks of a kitchen. */
export interface TaskSet {
  readonly tasks: readonly Task[];
  readonly links: readonly Link[];
  readonly stays: readonly Stay[];
  readonly lacks: readonly Lack[];
  readonly doubts: readonly Doubt[];
}
