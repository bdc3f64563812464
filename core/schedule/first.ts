import type { Board } from "./board.ts";
import { clustersOf } from "./clusters.ts";
import { Ejector } from "./eject.ts";
import { Generator } from "./generate.ts";
import type { Random } from "./random.ts";
import type { Manner } from "./search.ts";

/**
 * How tightly tasks must be tied by a longest wait, in minutes of play, to be placed as one, and how many schedules'
 * worth of places are looked for before the next kind is tried. Large clusters keep chains together and find a plan
 * soonest where there is room; small ones find a plan where it is tight.
 */
const LEVELS = [
  { tied: 60, schedules: 3 },
  { tied: 15, schedules: 17 },
] as const;

/**
 * Rules by which clusters take their turn: by the earliest start, moved on by a share of their room. The first gives
 * the better plan; the second leaves fewer out where some have little room.
 */
const PATIENCE = [0, 0.25] as const;

const STRICT: Manner = { anytime: false, thrift: 1, random: null };

/** A first plan: serial generation, then guided ejection until everything has a place. */
export class FirstPlan {
  g: Generator;
  private readonly board: Board;
  private readonly random: Random;
  private ejector: Ejector;
  private level = 0;
  private until: number;

  constructor(board: Board, random: Random) {
    this.board = board;
    this.random = random;
    this.g = this.generator(0);
    this.g.settle();
    this.generate();
    this.ejector = new Ejector(this.g, random);
    this.until = board.effort + LEVELS[0].schedules * board.model.n;
  }

  /** Serial generation by each rule until everything has a place; else what left the fewest without. */
  private generate(): void {
    const { board, g } = this;
    const before = board.spots();
    const { earliest, room } = g.clusters;
    let best = before;
    for (const share of PATIENCE) {
      if (best !== before) board.reset(before);
      g.run(earliest.map((t, c) => t + share * room[c]!));
      if (board.placedCount > best.size) best = board.spots();
      if (this.complete) return;
    }
    if (board.placedCount < best.size) board.reset(best);
  }

  private generator(level: number): Generator {
    const { model } = this.board;
    return new Generator(model, clustersOf(model, LEVELS[level % 2]!.tied), [STRICT], this.board);
  }

  get complete(): boolean {
    return this.board.placedCount === this.board.model.n;
  }

  /** Schedules' worth of places looked for. */
  get schedules(): number {
    return this.board.effort / this.board.model.n;
  }

  /** Whether every kind of cluster has been tried for as long as a first plan is worth. */
  get spent(): boolean {
    return this.level >= LEVELS.length;
  }

  /** One cluster more; true when everything has a place. */
  step(): boolean {
    if (this.complete) return true;
    if (this.board.effort >= this.until) {
      this.ejector.restore();
      this.level++;
      this.g = this.generator(this.level);
      this.ejector = new Ejector(this.g, this.random);
      this.until = this.board.effort + LEVELS[this.level % 2]!.schedules * this.board.model.n;
    }
    this.ejector.step();
    return this.complete;
  }

  /** Leaves the board with the fewest tasks without a place. */
  restore(): void {
    this.ejector.restore();
  }
}
