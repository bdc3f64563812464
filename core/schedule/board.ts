import type { Demand, Model } from "./model.ts";
import { Occupancy } from "./occupancy.ts";
import { Agenda } from "./people.ts";
import { Profile } from "./profile.ts";
import { type Ties, tiesOf } from "./ties.ts";
import { Windows } from "./windows.ts";

/** Windows moved that count as a place looked for: several times what a kitchen's plan needs. */
const MOVES = 50;

/** What is left out of account: shifts, longest waits. */
export interface Leave {
  readonly anytime?: boolean;
  readonly patient?: boolean;
}

/** A partial plan in the direction of the model: what is placed, what is given away, what windows are left. */
export class Board {
  readonly model: Model;
  readonly windows: Windows;
  readonly profiles: Profile[];
  readonly occupancies: (Occupancy | null)[];
  readonly agendas: Agenda[];
  /** What each resource holds, in no order; a hold stands under the task that begins it. */
  readonly held: Held[][];
  /** -1 while the task is not placed. */
  readonly mode: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly persons: (readonly number[])[];
  readonly resources: (readonly number[])[];
  /** Resource of each hold, -1 while it is open; -2 when it is placed but holds nothing. */
  readonly holdOn: Int32Array;
  readonly holdFrom: Int32Array;
  readonly holdTo: Int32Array;
  /** Resource chosen for each `same` name, and how many needs keep it there. */
  readonly sameOn: Int32Array;
  private readonly sameCount: Int32Array;
  /** For each team name, the sets placed so far. */
  readonly teams: { readonly task: number; readonly who: readonly number[] }[][];
  /** Placed tasks in the order they were placed, with the mark of the windows before each. */
  private readonly stack: number[] = [];
  private readonly marks: number[] = [];
  private readonly lo: Int32Array;
  private readonly hi: Int32Array;
  /** Whether the dates and arcs alone can be kept. */
  readonly sound: boolean;
  private readonly ties: Ties;
  /** The windows of an empty board, for trying what a place would ask of the rest. */
  readonly open: Windows;
  /** Needs without their class. */
  private readonly bare = new Map<Demand, Demand>();
  /** Places looked for so far. */
  tried = 0;

  constructor(model: Model, { anytime = false, patient = false }: Leave = {}) {
    this.model = model;
    const { n } = model;
    this.windows = new Windows(model.arcs, model.lo, model.hi, anytime ? null : model.hours, patient);
    this.sound = this.windows.close();
    this.windows.commit();
    this.lo = this.windows.lo.slice();
    this.hi = this.windows.hi.slice();
    this.ties = tiesOf(model.arcs, this.lo, this.hi, this.sound);
    this.open = new Windows(model.arcs, this.lo, this.hi, anytime ? null : model.hours, patient);
    this.profiles = model.equipment.map((e) => new Profile(e));
    this.occupancies = model.equipment.map((e) =>
      e.pairs ? new Occupancy(e, model.kinds, model.mirrored) : null,
    );
    this.agendas = model.workers.map((w) => new Agenda(w));
    this.held = model.equipment.map(() => []);
    this.mode = new Int32Array(n).fill(-1);
    this.start = new Int32Array(n);
    this.end = new Int32Array(n);
    this.persons = Array.from({ length: n }, () => NONE);
    this.resources = Array.from({ length: n }, () => NONE);
    this.holdOn = new Int32Array(model.holds.length).fill(-1);
    this.holdFrom = new Int32Array(model.holds.length);
    this.holdTo = new Int32Array(model.holds.length);
    this.sameOn = new Int32Array(model.sames).fill(-1);
    this.sameCount = new Int32Array(model.sames);
    this.teams = Array.from({ length: model.teams }, () => []);
  }

  /**
   * Work done, in places looked for: their number, or where one place moves many windows, as in a long chain, a
   * share of those moved.
   */
  get effort(): number {
    return Math.max(this.tried, (this.windows.moves + this.open.moves) / MOVES);
  }

  get placedCount(): number {
    return this.stack.length;
  }

  isPlaced(i: number): boolean {
    return this.mode[i]! >= 0;
  }

  /** Minute of a placed moment. */
  at(moment: number): number {
    return moment & 1 ? this.end[moment >> 1]! : this.start[moment >> 1]!;
  }

  /** Earliest and latest minute of a moment with nothing placed. */
  widest(moment: number): readonly [number, number] {
    return [this.lo[moment]!, this.hi[moment]!];
  }

  /**
   * Takes a place on the board. `holds` are the holds that this task closes, with their resources.
   * False, and nothing changed, when the windows of others would be left without a minute.
   */
  take(i: number, spot: Spot): boolean {
    const mark = this.windows.mark();
    if (!this.windows.place(i, spot.start, spot.end)) {
      this.windows.undo(mark);
      return false;
    }
    this.stack.push(i);
    this.marks.push(mark);
    this.write(i, spot);
    return true;
  }

  /** Takes a place whatever else is there. */
  force(i: number, spot: Spot): void {
    const mark = this.windows.mark();
    this.windows.force(i, spot.start, spot.end);
    this.stack.push(i);
    this.marks.push(mark);
    this.write(i, spot, true);
  }

  private write(i: number, spot: Spot, forced = false): void {
    const way = this.model.ways[i]![spot.mode]!;
    this.mode[i] = spot.mode;
    this.start[i] = spot.start;
    this.end[i] = spot.end;
    this.persons[i] = spot.persons;
    this.resources[i] = spot.resources;
    if (this.model.decided[i]?.status !== "done") {
      for (const p of spot.persons)
        if (forced) this.agendas[p]!.force(spot.start, spot.end, i);
        else this.agendas[p]!.give(spot.start, spot.end, i);
      way.demands.forEach((d, k) => {
        this.occupy(i, d, spot.resources[k]!, spot.start, spot.end);
      });
    } else
      way.demands.forEach((d, k) => {
        const on = spot.resources[k]!;
        this.occupancies[on]?.add(this.left(d, on), spot.start, spot.end);
      });
    way.demands.forEach((d, k) => {
      this.bind(d, spot.resources[k]!);
    });
    this.eachTeam(i, (team, who) => {
      this.teams[team]!.push({ task: i, who });
    });
    const holds = this.model.holdsOf[i]!;
    for (let x = 0; x < holds.length; x++) {
      const k = holds[x]!;
      const h = this.model.holds[k]!;
      if (!this.isPlaced(h.from >> 1) || !this.isPlaced(h.to >> 1)) continue;
      this.holdFrom[k] = this.at(h.from);
      this.holdTo[k] = this.at(h.to);
      const on = spot.holds[x] ?? -2;
      this.holdOn[k] = on;
      if (on < 0) continue;
      this.occupy(h.from >> 1, h.demand, on, this.holdFrom[k]!, this.holdTo[k]!);
      this.bind(h.demand, on);
    }
  }

  /**
   * What a need that is over has left on a resource: its state and its class, but for a class that nothing could come after
   * on the whole axis. That cannot be mended any more, and is told instead.
   */
  private left(d: Demand, on: number): Demand {
    const { kinds, problem, equipment } = this.model;
    const { setups } = equipment[on]!;
    const never = (k: number) => setups[k]! > problem.horizon;
    if (d.kind < 0 || setups.length === 0) return d;
    let lasts = false;
    for (let k = 0; k < kinds && !lasts; k++) lasts = never(d.kind * kinds + k) || never(k * kinds + d.kind);
    if (!lasts) return d;
    const bare = this.bare.get(d) ?? { ...d, kind: -1 };
    this.bare.set(d, bare);
    return bare;
  }

  /** The place a task has. */
  spotOf(i: number): Spot {
    return {
      start: this.start[i]!,
      end: this.end[i]!,
      mode: this.mode[i]!,
      persons: this.persons[i]!,
      resources: this.resources[i]!,
      holds: this.model.holdsOf[i]!.map((k) => this.holdOn[k]!),
    };
  }

  /** Takes back everything placed after the first `count` tasks. */
  backTo(count: number): void {
    while (this.stack.length > count) {
      const i = this.stack.pop()!;
      this.windows.undo(this.marks.pop()!);
      this.erase(i);
    }
  }

  /** Whether the task has happened or is under way: it stays where it is. */
  settled(i: number): boolean {
    const decided = this.model.decided[i];
    return decided != null && decided.status !== "open";
  }

  /** The places of all that is placed. */
  spots(): Map<number, Spot> {
    const spots = new Map<number, Spot>();
    for (const i of this.stack) spots.set(i, this.spotOf(i));
    return spots;
  }

  /** Puts everything where it was; what has no place there has none. */
  reset(spots: ReadonlyMap<number, Spot>): void {
    for (const i of this.stack) if (!this.settled(i)) this.erase(i);
    this.compact();
    for (const [i, spot] of spots) if (!this.isPlaced(i)) this.force(i, spot);
    this.redraw();
  }

  /** Puts some tasks back where they were, wherever they are now. */
  putBack(spots: ReadonlyMap<number, Spot>): void {
    for (const i of spots.keys()) if (this.isPlaced(i)) this.erase(i);
    this.compact();
    for (const [i, spot] of spots) this.force(i, spot);
    this.redraw(spots.keys());
  }

  /** Forgets the order of what is no longer placed. */
  private compact(): void {
    let kept = 0;
    for (const i of this.stack) if (this.isPlaced(i)) this.stack[kept++] = i;
    this.stack.length = kept;
  }

  /** Takes some tasks off; the windows are drawn anew from what stays. */
  remove(tasks: readonly number[]): void {
    for (const i of tasks) if (this.isPlaced(i)) this.erase(i);
    this.redraw(tasks);
  }

  /** Takes a task off and leaves the windows as they are: redraw() or drop() must follow. */
  lift(i: number): void {
    this.erase(i);
  }

  /** Puts a lifted task back where it was. */
  drop(i: number, spot: Spot): void {
    this.write(i, spot);
  }

  /** False when the task shares its people with another at the same time and can't be taken off cleanly. */
  liftable(i: number): boolean {
    return this.persons[i]!.every((p) => this.agendas[p]!.has(this.start[i]!, this.end[i]!, i));
  }

  /** Draws the windows anew from what is placed: of all, or of what the tasks given are tied to. */
  redraw(tasks?: Iterable<number>): void {
    this.compact();
    this.marks.length = 0;
    for (let k = this.stack.length; k > 0; k--) this.marks.push(0);
    const { windows, ties } = this;
    windows.commit();
    const moments = tasks ? ties.around(tasks) : ties.all;
    windows.clear(moments, this.lo, this.hi);
    for (const m of moments) if (this.isPlaced(m >> 1)) windows.fix(m, this.at(m));
    windows.spread(moments);
    windows.commit();
  }

  private erase(i: number): void {
    const way = this.model.ways[i]![this.mode[i]!]!;
    for (const k of this.model.holdsOf[i]!) {
      const on = this.holdOn[k]!;
      this.holdOn[k] = -1;
      if (on < 0) continue;
      const d = this.model.holds[k]!.demand;
      this.vacate(this.model.holds[k]!.from >> 1, d, on, this.holdFrom[k]!, this.holdTo[k]!);
      this.unbind(d);
    }
    if (this.model.decided[i]?.status !== "done") {
      for (const p of this.persons[i]!) this.agendas[p]!.takeBack(this.start[i]!, this.end[i]!);
      way.demands.forEach((d, k) => {
        this.vacate(i, d, this.resources[i]![k]!, this.start[i]!, this.end[i]!);
      });
    } else
      way.demands.forEach((d, k) => {
        const on = this.resources[i]![k]!;
        this.occupancies[on]?.remove(this.left(d, on), this.start[i]!, this.end[i]!);
      });
    for (const d of way.demands) this.unbind(d);
    this.eachTeam(i, (team) => {
      const sets = this.teams[team]!;
      sets.splice(
        sets.findLastIndex((s) => s.task === i),
        1,
      );
    });
    this.mode[i] = -1;
    this.persons[i] = NONE;
    this.resources[i] = NONE;
  }

  /** The persons of each need of a placed task that bears a team name. */
  private eachTeam(i: number, act: (team: number, who: readonly number[]) => void): void {
    const way = this.model.ways[i]![this.mode[i]!]!;
    let next = 0;
    for (const need of way.people) {
      if (need.team >= 0)
        act(
          need.team,
          way.people.length === 1 ? this.persons[i]! : this.persons[i]!.slice(next, next + need.count),
        );
      next += need.count;
    }
  }

  occupy(task: number, demand: Demand, on: number, from: number, to: number): void {
    if (to <= from) return;
    this.profiles[on]!.take(demand.amount, from, to, 1);
    this.occupancies[on]?.add(demand, from, to);
    this.held[on]!.push({ task, demand, from, to });
  }

  vacate(task: number, demand: Demand, on: number, from: number, to: number): void {
    if (to <= from) return;
    this.profiles[on]!.take(demand.amount, from, to, -1);
    this.occupancies[on]?.remove(demand, from, to);
    const held = this.held[on]!;
    const at = held.findLastIndex(
      (h) => h.demand === demand && h.from === from && h.to === to && h.task === task,
    );
    held[at] = held[held.length - 1]!;
    held.pop();
  }

  private bind(d: Demand, on: number): void {
    if (d.same < 0) return;
    if (this.sameCount[d.same]!++ === 0) this.sameOn[d.same] = on;
  }

  private unbind(d: Demand): void {
    if (d.same < 0) return;
    if (--this.sameCount[d.same]! === 0) this.sameOn[d.same] = -1;
  }

  /** Whether need d fits on resource `on` during [from, to): -1, or a start before which it can't. */
  blocks(d: Demand, on: number, from: number, to: number): number {
    const full = this.profiles[on]!.blocks(d.amount, from, to);
    const occupancy = this.occupancies[on];
    if (!occupancy) return full;
    return Math.max(full, occupancy.blocks(d, from, to));
  }
}

/** A need that stands on a resource. */
export interface Held {
  readonly task: number;
  readonly demand: Demand;
  readonly from: number;
  readonly to: number;
}

/** A place for a task. */
export interface Spot {
  readonly start: number;
  readonly end: number;
  readonly mode: number;
  readonly persons: readonly number[];
  readonly resources: readonly number[];
  /** For each hold of the task: its resource, -1 while its other moment is open, -2 when it holds nothing. */
  readonly holds: readonly number[];
}

const NONE: readonly number[] = [];
