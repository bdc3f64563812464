import type { Board } from "./board.ts";
import { minutesIn, workOf } from "./calendar.ts";
import type { Model } from "./model.ts";
import type { Objective } from "./problem.ts";

/**
 * The peaks of peaks.ts on a board, fast: minutes of hands by stretch from running sums of each person's hours, so that
 * a task costs one subtraction for each stretch it lies in.
 */
export class Crowd {
  private readonly model: Model;
  private readonly every: number;
  /** Minutes from the begin of stretch 0 to the begin of the axis. */
  private readonly before: number;
  /** By person, the minutes worked before each minute of the axis. */
  private readonly done: readonly Int32Array[];
  private readonly comfortable: Float64Array;
  /** Minutes of hands by stretch, as last counted. */
  private readonly load: Float64Array;

  constructor(model: Model, { share, every, from = 0 }: NonNullable<Objective["peak"]>) {
    const { persons = [], horizon } = model.problem;
    this.model = model;
    this.every = every;
    this.before = from > 0 ? every - from : 0;
    const hours = persons.map(workOf);
    this.done = hours.map((list) => {
      const sums = new Int32Array(horizon + 1);
      for (const { from: a, to } of list) for (let t = a; t < Math.min(to, horizon); t++) sums[t + 1] = 1;
      for (let t = 0; t < horizon; t++) sums[t + 1]! += sums[t]!;
      return sums;
    });
    const count = Math.ceil((horizon + this.before) / every);
    this.load = new Float64Array(count);
    this.comfortable = Float64Array.from({ length: count }, (_, h) => {
      const [a, b] = [this.begin(h), Math.min(this.begin(h + 1), horizon)];
      return share * hours.reduce((sum, list) => sum + minutesIn(list, Math.max(0, a), b), 0);
    });
  }

  private begin(stretch: number): number {
    return stretch * this.every - this.before;
  }

  /** Minutes of hands above the comfortable share. `moment`: real starts and ends of what is placed. */
  over(board: Board, moment: Int32Array): number {
    const { model, load, comfortable, every, before } = this;
    load.fill(0);
    for (let i = 0; i < model.n; i++) {
      const persons = board.mode[i]! < 0 ? [] : board.persons[i]!;
      const last = model.problem.horizon;
      const [from, to] = [Math.min(moment[2 * i]!, last), Math.min(moment[2 * i + 1]!, last)];
      if (persons.length === 0 || to <= from) continue;
      for (let h = Math.floor((from + before) / every), at = from; at < to; h++) {
        const next = Math.min(to, this.begin(h + 1));
        for (const p of persons) load[h]! += this.done[p]![next]! - this.done[p]![at]!;
        at = next;
      }
    }
    let sum = 0;
    for (let h = 0; h < load.length; h++) if (load[h]! > comfortable[h]!) sum += load[h]! - comfortable[h]!;
    return sum;
  }

  /** Whether a real minute lies in a stretch that was above the share when last counted. */
  full(minute: number): boolean {
    const h = Math.floor((minute + this.before) / this.every);
    return h >= 0 && h < this.load.length && this.load[h]! > this.comfortable[h]!;
  }
}
