import type { Board, Spot } from "./board.ts";
import { type Demand, NEVER, type Way } from "./model.ts";
import type { Random } from "./random.ts";

const NOBODY: readonly number[] = [];

/** How a place is looked for. */
export interface Manner {
  /** Leave the shifts out of account (overtime). */
  readonly anytime: boolean;
  /** What a person-minute weighs against a minute of time when modes are compared. */
  readonly thrift: number;
  /** Breaks ties; without it the first wins. */
  readonly random: Random | null;
}

/**
 * Looks for the earliest place of a task on the board: a mode, a start, persons and resources, inside the
 * windows and beside everything placed. After a refusal `late` says how many minutes later than its window
 * the task would have fitted (NEVER: nowhere) and `culprit` the task whose place would have to move.
 */
export class Search {
  late = NEVER;
  culprit = -1;
  private readonly board: Board;
  private readonly manner: Manner;
  private jointStart = 0;
  private jointEnd = 0;
  private readonly team: number[] = [];
  private readonly leaders: { p: number; start: number; end: number; score: number }[] = [];
  private readonly able: number[] = [];
  private readonly scores: Float64Array;
  private readonly times: number[] = [];
  private readonly on: number[] = [];
  private readonly holdsOn: number[] = [];
  private readonly tried: { demand: Demand; on: number; from: number; to: number }[] = [];

  constructor(board: Board, manner: Manner) {
    this.board = board;
    this.manner = manner;
    this.scores = new Float64Array(board.agendas.length);
  }

  /** The best place over the modes, or null. `from` asks for a start at or after it. */
  find(i: number, from = 0): Spot | null {
    const { model } = this.board;
    const decided = model.decided[i];
    let best: Spot | null = null;
    let bestScore = Number.POSITIVE_INFINITY;
    this.late = NEVER;
    this.culprit = -1;
    this.board.tried++;
    const ways = model.ways[i]!;
    for (let m = 0; m < ways.length; m++) {
      if (decided && decided.mode >= 0 && decided.mode !== m) continue;
      const spot = this.inMode(i, m, from);
      if (!spot) continue;
      const way = ways[m]!;
      const score = spot.start + spot.end + this.manner.thrift * way.heads * way.duration + way.cost;
      if (score < bestScore) {
        best = spot;
        bestScore = score;
      }
    }
    return best;
  }

  /** The earliest place of a task from a minute on in the mode, by the people and on the resources it has now. */
  again(i: number, spot: Spot, from = 0): Spot | null {
    return this.inMode(i, spot.mode, from, spot);
  }

  /** The same place, if it still keeps every rule; `held`: its holds where they were, too, where that can be. */
  exactly(i: number, spot: Spot, held: boolean): Spot | null {
    if (!this.allowed(i, spot)) return null;
    const found = this.inMode(i, spot.mode, spot.start, spot, held ? spot.holds : undefined);
    return found && found.start === spot.start && found.end === spot.end ? found : null;
  }

  /** Whether pins, skills and names shared with others still let the task have this mode, people and resources. */
  private allowed(i: number, spot: Spot): boolean {
    const decided = this.board.model.decided[i];
    if (decided && decided.mode >= 0 && decided.mode !== spot.mode) return false;
    if (decided?.persons?.some((p, k) => spot.persons[k] !== p)) return false;
    if (decided?.resources?.some((r, k) => spot.resources[k] !== r)) return false;
    const way = this.board.model.ways[i]![spot.mode]!;
    let next = 0;
    for (const need of way.people) {
      const who = spot.persons.slice(next, next + need.count);
      next += need.count;
      const able = this.candidates(need);
      if (!who.every((p) => able.includes(p)) || !this.required(need).every((p) => who.includes(p)))
        return false;
    }
    return way.demands.every((d, k) => {
      const bound = d.same >= 0 ? this.board.sameOn[d.same]! : -1;
      return d.of.includes(spot.resources[k]!) && (bound < 0 || bound === spot.resources[k]);
    });
  }

  /** The place of a task that has started or is done: what is decided, completed without asking who is free. */
  asDecided(i: number): Spot {
    const { start, end } = this.board.model.decided[i]!;
    return this.unasked(i, start, end);
  }

  /** A place at the first minute of the window, without asking who or what is free. */
  anywhere(i: number): Spot {
    const { lo } = this.board.windows;
    const d = this.board.model.decided[i] ?? null;
    const way = this.board.model.ways[i]![Math.max(0, d?.mode ?? 0)]!;
    // No shift is long enough for it: then where its dates begin.
    const start = lo[2 * i]! < NEVER ? lo[2 * i]! : this.board.model.lo[2 * i]!;
    return this.unasked(
      i,
      start,
      d && d.start >= 0 && d.end >= 0 ? start + d.end - d.start : start + way.duration,
    );
  }

  private unasked(i: number, start: number, end: number): Spot {
    const { board } = this;
    const d = board.model.decided[i] ?? null;
    const mode = Math.max(0, d?.mode ?? 0);
    const way = board.model.ways[i]![mode]!;
    const persons: number[] = [...(d?.persons ?? [])];
    if (!d?.persons)
      for (const need of way.people) {
        const able = this.candidates(need).filter((p) => !persons.includes(p));
        for (let c = 0; c < need.count; c++) persons.push(able[c] ?? need.able[c]!);
      }
    const pick = (x: Demand) =>
      x.same >= 0 && board.sameOn[x.same]! >= 0 ? board.sameOn[x.same]! : x.of[0]!;
    const resources = d?.resources ?? way.demands.map(pick);
    const holds = board.model.holdsOf[i]!.map((k) => pick(board.model.holds[k]!.demand));
    return { start, end, mode, persons, resources, holds };
  }

  private inMode(
    i: number,
    m: number,
    from: number,
    kept: Spot | null = null,
    holds?: readonly number[],
  ): Spot | null {
    const { board } = this;
    const { lo, hi } = board.windows;
    const way = board.model.ways[i]![m]!;
    const decided = board.model.decided[i] ?? null;
    const given = decided && decided.start >= 0 && decided.end >= 0 ? decided.end - decided.start : -1;
    const [latestStart, latestEnd] = [hi[2 * i]!, hi[2 * i + 1]!];
    let t = Math.max(lo[2 * i]!, from);
    for (let guard = 0; guard < 2000; guard++) {
      if (t > latestStart) return this.miss(t - latestStart, this.limiter(2 * i));
      let s = t;
      let e: number;
      if (way.heads === 0) e = s + (given >= 0 ? given : way.duration);
      else {
        s = this.people(way, t, given, kept?.persons ?? decided?.persons ?? null);
        if (s >= NEVER) return this.miss(NEVER, -1);
        if (s > latestStart) return this.miss(s - latestStart, this.limiter(2 * i));
        e = this.jointEnd;
      }
      if (e < lo[2 * i + 1]!) {
        t = s + lo[2 * i + 1]! - e;
        continue;
      }
      if (e > latestEnd) return this.miss(e - latestEnd, this.limiter(2 * i + 1));
      const next = this.equipment(i, way, s, e, kept?.resources ?? decided?.resources ?? null, holds);
      if (next < 0)
        return {
          start: s,
          end: e,
          mode: m,
          persons: way.heads === 0 ? [] : this.team.slice(),
          resources: this.on.slice(),
          holds: this.holdsOn.slice(),
        };
      if (next >= NEVER) return null;
      t = Math.max(next, s + 1);
    }
    return this.miss(NEVER, -1);
  }

  private limiter(moment: number): number {
    return this.board.windows.limiter(moment) >> 1;
  }

  private miss(late: number, culprit: number): null {
    if (late < this.late) {
      this.late = late;
      this.culprit = culprit;
    }
    return null;
  }

  /** Chooses a resource for every need and hold at [s, e); -1 when all fit, else a later start to try. */
  private equipment(
    i: number,
    way: Way,
    s: number,
    e: number,
    fixed: readonly number[] | null,
    held?: readonly number[],
  ): number {
    const next = this.chooseAll(i, way, s, e, fixed, held);
    // What was occupied so that the needs of one task see each other.
    for (const t of this.tried) this.board.vacate(i, t.demand, t.on, t.from, t.to);
    this.tried.length = 0;
    return next;
  }

  /** Occupies what was chosen where one of those after it (needs from `need` on, holds from `hold` on) could look there. */
  private try(
    way: Way,
    i: number,
    demand: Demand,
    on: number,
    from: number,
    to: number,
    need: number,
    hold: number,
  ): void {
    const { holds, holdsOf } = this.board.model;
    const looks = (d: Demand) => d.of.includes(on) || (d.same >= 0 && this.board.sameOn[d.same] === on);
    let seen = false;
    for (let k = need; k < way.demands.length && !seen; k++) seen = looks(way.demands[k]!);
    for (let x = hold; x < holdsOf[i]!.length && !seen; x++) seen = looks(holds[holdsOf[i]![x]!]!.demand);
    if (!seen) return;
    this.board.occupy(i, demand, on, from, to);
    this.tried.push({ demand, on, from, to });
  }

  private chooseAll(
    i: number,
    way: Way,
    s: number,
    e: number,
    fixed: readonly number[] | null,
    held?: readonly number[],
  ): number {
    const { board } = this;
    const { on, holdsOn } = this;
    on.length = 0;
    let next = -1;
    for (let k = 0; k < way.demands.length; k++) {
      const d = way.demands[k]!;
      const choice = this.choose(d, s, e, fixed ? fixed[k]! : -1);
      if (choice >= 0) {
        on.push(choice);
        this.try(way, i, d, choice, s, e, k + 1, 0);
      } else next = Math.max(next, -choice);
    }
    if (next >= 0) return next;
    holdsOn.length = 0;
    const holds = board.model.holdsOf[i]!;
    for (let x = 0; x < holds.length; x++) {
      const k = holds[x]!;
      const h = board.model.holds[k]!;
      const opens = h.from >> 1 === i;
      const closes = h.to >> 1 === i;
      if ((!opens && !board.isPlaced(h.from >> 1)) || (!closes && !board.isPlaced(h.to >> 1))) {
        holdsOn.push(-1);
        continue;
      }
      const from = opens ? (h.from & 1 ? e : s) : board.at(h.from);
      const to = closes ? (h.to & 1 ? e : s) : board.at(h.to);
      if (to <= from) {
        holdsOn.push(-2);
        continue;
      }
      const bound = this.boundHere(way, h.demand.same);
      const choice = this.chooseHeld(h.demand, from, to, bound, held?.[x] ?? -1);
      if (choice >= 0) {
        holdsOn.push(choice);
        this.try(way, i, h.demand, choice, from, to, way.demands.length, x + 1);
        continue;
      }
      const later = -choice;
      if (opens) next = Math.max(next, later >= NEVER ? NEVER : s + Math.max(1, later - from));
      else {
        // The other end is placed already: going later only makes it longer.
        this.miss(later >= NEVER ? NEVER : Math.max(1, later - from), h.from >> 1);
        return NEVER;
      }
    }
    return next;
  }

  /** Resource just chosen for a need of this task that bears the same name, or -1. */
  private boundHere(way: Way, same: number): number {
    if (same < 0) return -1;
    for (let k = 0; k < way.demands.length; k++) if (way.demands[k]!.same === same) return this.on[k]!;
    return -1;
  }

  /** As `choose`, but the resource that was held before where nothing stands against it. */
  private chooseHeld(d: Demand, from: number, to: number, bound: number, before: number): number {
    const free = bound < 0 && before >= 0 && d.of.includes(before);
    if (free && (d.same < 0 || this.board.sameOn[d.same]! < 0) && this.board.blocks(d, before, from, to) < 0)
      return before;
    return this.choose(d, from, to, bound);
  }

  /** The resource to use, or minus the earliest later start at which one could serve. */
  private choose(d: Demand, s: number, e: number, fixed: number): number {
    const { board } = this;
    const bound = fixed >= 0 ? fixed : d.same >= 0 ? board.sameOn[d.same]! : -1;
    if (bound >= 0) {
      const next = board.blocks(d, bound, s, e);
      return next < 0 ? bound : -next;
    }
    if (d.of.length === 1) {
      const next = board.blocks(d, d.of[0]!, s, e);
      return next < 0 ? d.of[0]! : -next;
    }
    let best = -1;
    let bestScore = Number.POSITIVE_INFINITY;
    let soonest = NEVER;
    for (const r of d.of) {
      const next = board.blocks(d, r, s, e);
      if (next >= 0) {
        soonest = Math.min(soonest, next);
        continue;
      }
      let score = this.manner.random ? this.manner.random.next() : 0;
      if (!Number.isNaN(d.set)) score += 1000 * board.occupancies[r]!.changesAround(d, s);
      if (d.amount.length > 0) score += Math.min(500, board.profiles[r]!.least(0, s, e) - d.amount[0]!);
      if (score < bestScore) {
        best = r;
        bestScore = score;
      }
    }
    return best >= 0 ? best : -soonest;
  }

  /**
   * Chooses the people for a start at or after t. Returns that start (with `team` and `jointEnd` set) or NEVER.
   */
  private people(way: Way, t: number, given: number, fixed: readonly number[] | null): number {
    const { team } = this;
    const { anytime } = this.manner;
    if (fixed) {
      team.length = 0;
      for (const p of fixed) team.push(p);
      return this.joint(
        team,
        t,
        given >= 0 ? given : way.duration,
        given >= 0 || anytime ? 0 : way.interrupt,
        given >= 0 || anytime,
      );
    }
    const free = given >= 0 || anytime;
    const minutes = given >= 0 ? given : way.duration;
    if (way.interrupt !== 0 && !free && minutes > 0) return this.interrupted(way, t, minutes);
    let s = t;
    for (let guard = 0; guard < 500; guard++) {
      const next = this.solidTeam(way, s, minutes, free);
      if (next === s) {
        this.jointStart = s;
        this.jointEnd = s + minutes;
        return s;
      }
      if (next >= NEVER) return NEVER;
      s = next;
    }
    return NEVER;
  }

  /** Fills the team for unbroken work at exactly s; returns s, or a later start to try. */
  private solidTeam(way: Way, s: number, minutes: number, anytime: boolean): number {
    const { team, able, times, board } = this;
    team.length = 0;
    for (let n = 0; n < way.people.length; n++) {
      const need = way.people[n]!;
      able.length = 0;
      times.length = 0;
      let blocked = NEVER;
      const wanted = this.required(need);
      for (let x = 0; x < wanted.length; x++) {
        const at = minutes === 0 ? s : board.agendas[wanted[x]!]!.solid(s, minutes, anytime);
        if (at > s) return at;
      }
      const candidates = this.candidates(need);
      for (let x = 0; x < candidates.length; x++) {
        const p = candidates[x]!;
        if (team.includes(p)) continue;
        const at = minutes === 0 ? s : board.agendas[p]!.solid(s, minutes, anytime);
        if (at === s) able.push(p);
        else {
          times.push(at);
          blocked = Math.min(blocked, at);
        }
      }
      if (able.length < need.count) {
        const missing = need.count - able.length;
        if (missing > times.length) return blocked;
        if (missing === 1) return blocked;
        times.sort((a, b) => a - b);
        return Math.max(s + 1, times[missing - 1]!);
      }
      this.pick(need, able, s);
    }
    return s;
  }

  /** Adds the `count` most fitting of `able` to the team. */
  private pick(need: Way["people"][number], able: number[], s: number): void {
    const { team, board, scores } = this;
    const { random } = this.manner;
    const wanted = this.required(need);
    for (let x = 0; x < able.length; x++) {
      const p = able[x]!;
      scores[x] = 10 * board.model.workers[p]!.skills + Math.min(60, s - board.agendas[p]!.lastBusy(s)) / 60;
      if (wanted.includes(p)) scores[x]! -= 1000;
    }
    for (let c = 0; c < need.count; c++) {
      let best = -1;
      let bestScore = Number.POSITIVE_INFINITY;
      for (let x = 0; x < able.length; x++) {
        if (able[x]! < 0) continue;
        const score = scores[x]! + (random ? 3 * random.next() : 0);
        if (score < bestScore) {
          best = x;
          bestScore = score;
        }
      }
      team.push(able[best]!);
      able[best] = -1;
    }
  }

  /** Who may serve a need, by the team name it bears. */
  private candidates(need: Way["people"][number]): readonly number[] {
    if (need.team < 0) return need.able;
    let able = need.able;
    for (const { who } of this.board.teams[need.team]!)
      if (who.length >= need.count) able = able.filter((p) => who.includes(p));
    return this.required(need).every((p) => able.includes(p)) ? able : [];
  }

  /** Who must be among them, because a smaller need of the same team has them. */
  private required(need: Way["people"][number]): readonly number[] {
    if (need.team < 0) return NOBODY;
    const all = this.board.teams[need.team]!.filter((s) => s.who.length < need.count).flatMap((s) => s.who);
    return [...new Set(all)];
  }

  /** Work that pauses: a leader who alone would end soonest, and others who fit the leader's hours. */
  private interrupted(way: Way, t: number, minutes: number): number {
    const { team, board, leaders } = this;
    const required = this.required(way.people[0]!);
    leaders.length = 0;
    let least = NEVER;
    for (const p of this.candidates(way.people[0]!)) {
      if (required.length > 0 && p !== required[0]) continue;
      const agenda = board.agendas[p]!;
      // One alone need not be looked at when another ends sooner.
      const start = agenda.whenFree(t, minutes, way.interrupt, way.heads === 1 ? least : NEVER);
      if (start >= NEVER) continue;
      least = Math.min(least, agenda.ended);
      let score = 10 * board.model.workers[p]!.skills + Math.min(60, start - agenda.lastBusy(start)) / 60;
      if (this.manner.random) score += 3 * this.manner.random.next();
      leaders.push({ p, start, end: agenda.ended, score });
    }
    leaders.sort((a, b) => a.end - b.end || a.score - b.score);
    let bestEnd = NEVER;
    let bestStart = NEVER;
    let bestTeam: number[] = [];
    for (const leader of leaders) {
      if (leader.end >= bestEnd) break;
      team.length = 0;
      team.push(leader.p);
      if (way.heads === 1) {
        this.jointStart = leader.start;
        this.jointEnd = leader.end;
        return leader.start;
      }
      if (!this.follow(way, leader.start, minutes)) continue;
      this.joint(team, t, minutes, way.interrupt, false);
      if (this.jointStart >= NEVER || this.jointEnd >= bestEnd) continue;
      bestEnd = this.jointEnd;
      bestStart = this.jointStart;
      bestTeam = team.slice();
    }
    team.length = 0;
    for (const p of bestTeam) team.push(p);
    this.jointStart = bestStart;
    this.jointEnd = bestEnd;
    return bestStart;
  }

  /** Completes a team of one leader with those who, alone, would end soonest from s on. */
  private follow(way: Way, s: number, minutes: number): boolean {
    const { team } = this;
    for (let x = 0; x < way.people.length; x++) {
      const need = way.people[x]!;
      const wanted = need.count - (x === 0 ? 1 : 0);
      if (wanted === 0) continue;
      const ranked: [number, number, number][] = [];
      const required = this.required(need);
      for (const p of this.candidates(need)) {
        if (team.includes(p)) continue;
        const agenda = this.board.agendas[p]!;
        if (agenda.whenFree(s, minutes, way.interrupt, NEVER) >= NEVER) continue;
        ranked.push([required.includes(p) ? -1 : agenda.ended, this.board.model.workers[p]!.skills, p]);
      }
      if (ranked.length < wanted) return false;
      ranked.sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2]);
      for (let c = 0; c < wanted; c++) team.push(ranked[c]![2]);
    }
    return true;
  }

  /**
   * Earliest work of these persons together from t on: sets jointStart and jointEnd, returns jointStart
   * (NEVER when there is none). interrupt 0: unbroken; 1: over breaks; 2: over breaks and shifts.
   */
  private joint(
    persons: readonly number[],
    t: number,
    minutes: number,
    interrupt: 0 | 1 | 2,
    anytime: boolean,
  ): number {
    const { agendas } = this.board;
    this.jointStart = NEVER;
    let s = t;
    for (let guard = 0; guard < 500; guard++) {
      let first = -1;
      let end = s;
      if (minutes === 0) first = s;
      else if (interrupt === 0) {
        let again = true;
        while (again) {
          again = false;
          for (const p of persons) {
            const at = agendas[p]!.solid(s, minutes, anytime);
            if (at >= NEVER) return NEVER;
            if (at > s) {
              s = at;
              again = true;
            }
          }
        }
        first = s;
        end = s + minutes;
      } else {
        let left = minutes;
        let cur = s;
        let limit = NEVER;
        while (left > 0) {
          let a = cur;
          let b = NEVER;
          for (let x = 0; x < persons.length; x++) {
            const g = agendas[persons[x]!]!;
            const w = g.interval(a);
            if (w < 0) return NEVER;
            if (g.startOf(w) > a) {
              a = g.startOf(w);
              b = NEVER;
              x = -1;
              continue;
            }
            b = Math.min(b, g.endOf(w));
          }
          if (first < 0) {
            first = a;
            if (interrupt === 1)
              for (const p of persons) limit = Math.min(limit, agendas[p]!.shiftOf(agendas[p]!.interval(a)));
          } else if (a >= limit) {
            first = -1;
            left = minutes;
            cur = limit;
            limit = NEVER;
            continue;
          }
          const worked = Math.min(left, b - a);
          left -= worked;
          cur = a + worked;
        }
        end = cur;
      }
      let meets = -1;
      if (interrupt !== 0) for (const p of persons) meets = Math.max(meets, agendas[p]!.meets(first, end));
      if (meets < 0) {
        this.jointStart = first;
        this.jointEnd = end;
        return first;
      }
      s = meets;
    }
    return NEVER;
  }
}
