import type { Rule } from "../schedule/problem.ts";
import { blocksOf, Surroundings } from "./blocks.ts";
import { minutesText } from "./names.ts";
import { type Asked, type Reason, Reasons, type Way } from "./reasons.ts";

/** How far a task can move one way, and why not further. */
export interface Bound {
  /** Minutes it can move with the waiting that belongs to it, everything else left as it is. */
  readonly playMin: number;
  /** Its start then, clock. */
  readonly until: string;
  /** "cannot start later" or "can start 5 min later, not more". */
  readonly says: string;
  /** What stands in the way one minute further, the foremost first. */
  readonly because: readonly Reason[];
  /** Why the foremost cannot give way either, from one to the next. */
  readonly chain: readonly Reason[];
  /** What ends the chain: something that does not move, something that could, or a circle. */
  readonly end: "fixed" | "movable" | "circle";
}

/** Why a task stands where it stands. */
export interface Explained {
  readonly task: string;
  readonly later: Bound;
  readonly earlier: Bound;
}

/** A chain is told so far: longer ones nobody follows. */
const LONGEST = 6;
/** So many reasons are told of the task itself. */
const MOST_REASONS = 3;

/**
 * Why a task of a plan does not start later or earlier (README, P23): what it would break one minute further, with
 * the waiting that belongs to it, tried by the checker; then from task to task why that cannot give way.
 * @returns undefined when the plan has no such task
 */
export function explainTask(asked: Asked, task: string): Explained | undefined {
  if (!asked.set.tasks.some((each) => each.id === task)) return undefined;
  const explainer = new Explainer(asked, task);
  return { task, later: explainer.bound(task, 1), earlier: explainer.bound(task, -1) };
}

class Explainer {
  private readonly asked: Asked;
  private readonly reasons: Reasons;
  private readonly blocks: ReadonlyMap<string, readonly string[]>;
  private readonly known = new Map<string, Surroundings>();

  constructor(asked: Asked, task: string) {
    this.asked = asked;
    this.reasons = new Reasons(asked);
    const blocks = blocksOf(asked.set);
    // A look-in has a quarter of its time to either side: it is asked about alone.
    const isLook = asked.set.tasks.some(({ id, kind }) => id === task && kind === "look");
    this.blocks = isLook ? new Map([...blocks, [task, [task]]]) : blocks;
  }

  bound(task: string, way: Way): Bound {
    const play = this.around(task).play(way);
    const because = this.reasonsAt(task, way, play + 1);
    const { start } = this.asked.schedule.placements.find((p) => p.task === task)!;
    const word = way > 0 ? "later" : "earlier";
    return {
      playMin: play,
      until: this.asked.site.clock.textOf(start + way * play),
      says: play === 0 ? `cannot start ${word}` : `can start ${minutesText(play)} ${word}, not more`,
      because: because.slice(0, MOST_REASONS),
      ...this.chain(task, because[0], way),
    };
  }

  private chain(task: string, first: Reason | undefined, way: Way): Pick<Bound, "chain" | "end"> {
    const chain: Reason[] = [];
    const word = way > 0 ? "later" : "earlier";
    const met = new Set(this.blocks.get(task));
    let next = first?.task;
    while (next !== undefined) {
      if (met.has(next)) return { chain, end: "circle" };
      const block = this.blocks.get(next)!;
      for (const id of block) met.add(id);
      const name = this.reasons.name(block[0]!);
      const reasons = this.reasonsAt(block[0]!, way, 1);
      if (reasons.length === 0) {
        const gives = minutesText(this.around(next).play(way));
        chain.push({ what: `${name} itself could move ${gives} ${word}`, task: block[0]! });
        return { chain, end: "movable" };
      }
      if (chain.length === LONGEST) return { chain, end: "movable" };
      // Rather something new than a way back.
      const found = reasons.find((each) => each.task === undefined || !met.has(each.task)) ?? reasons[0]!;
      chain.push({ what: `${name} cannot move ${word}: ${found.what}`, task: block[0]! });
      next = found.task;
    }
    return { chain, end: "fixed" };
  }

  /** What is broken so many minutes on, in words, each once: dates first, then food, then hands, then room. */
  private reasonsAt(task: string, way: Way, by: number): Reason[] {
    const block = new Set(this.blocks.get(task));
    const reasons = this.around(task)
      .brokenAt(way * by)
      .map((violation) => ({
        ...{ reason: this.reasons.of(violation, block, way, task), rank: RANK.indexOf(violation.rule) },
      }))
      .sort((a, b) => a.rank - b.rank);
    const told = new Map<string, Reason>();
    for (const { reason } of reasons) {
      // One reason for each task in the way: what else it stands in the way with comes after it.
      const other = reason.task === undefined ? reason.what : this.blocks.get(reason.task)![0]!;
      if (!told.has(other)) told.set(other, reason);
    }
    return [...told.values()];
  }

  private around(task: string): Surroundings {
    const block = this.blocks.get(task)!;
    const key = block[0]!;
    const known = this.known.get(key) ?? new Surroundings(this.asked.problem, this.asked.schedule, block);
    this.known.set(key, known);
    return known;
  }
}

/** The order in which reasons are told; each rule a moved task can break is here. */
const RANK: readonly Rule[] = [
  "pin",
  "now",
  "deadline",
  "least-lag",
  "longest-wait",
  "release",
  "shift",
  "person-busy",
  "state",
  "changeover",
  "exclusive",
  "capacity",
  "batch",
  "horizon",
];
