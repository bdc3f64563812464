import type { Random } from "../random.ts";
import { Decoder } from "./decode.ts";
import type { Project } from "./project.ts";

/** Fewest plans kept. */
const LEAST = 5;

/** Share of the children that keep a stretch of their father's. */
const STRETCH = 0.85;

/** Stretches looked at for the one in which the father is best ahead of the mother. */
const LOOKED = 20;

/** Minutes by which a child may be worse than its father in the beginning. */
const SLACK = 3;

/** Share of the children whose activities wait only so long for those that stand before them. */
const IMPATIENT = 0.8;

/** The delay with which the order of the list is kept to. */
const SERIAL = Number.POSITIVE_INFINITY;

interface Plan {
  start: Int32Array;
  makespan: number;
  /** The activities in the order in which the next generation will place them. */
  readonly list: Int32Array;
  /** Use of all resources up to every minute, once somebody asked. */
  use?: Float64Array;
}

/**
 * Genetic search for plain projects on activity lists. Generations alternate in direction: the lists of
 * plans pushed to the left are decoded to the right and back, so every decode is also a justification pass
 * (Valls, Ballestín and Quintanilla 2005; Debels and Vanhoucke 2007). How far a decode keeps to the order of
 * its list is drawn anew each time: a short delay packs tightly where the list does not matter. A child takes
 * the place of its father when it is little worse, less and less as the end nears, while the plans kept
 * become fewer.
 */
export class Genetic {
  readonly decoder: Decoder;
  best: Int32Array;
  makespan = Number.POSITIVE_INFINITY;
  private readonly p: Project;
  private readonly random: Random;
  private readonly planned: number;
  private readonly size: number;
  private readonly forward: Int32Array;
  private readonly backward: Int32Array;
  private readonly longest: number;
  private readonly latest: Int32Array;
  private readonly mark: Uint8Array;
  private readonly waits: Int32Array;
  private readonly key: Float64Array;
  private plans: Plan[] = [];
  private toRight = false;
  private next = 0;
  private children: Plan[] = [];

  /** `planned`: schedules this search will make; it sets how many plans are kept. */
  constructor(p: Project, random: Random, planned: number) {
    this.p = p;
    this.random = random;
    this.planned = Math.max(1, planned);
    this.size = Math.max(LEAST, Math.round(0.33 * this.planned ** 0.62));
    this.decoder = new Decoder(p);
    this.best = new Int32Array(p.n);
    this.mark = new Uint8Array(p.n);
    this.waits = new Int32Array(p.n);
    this.key = new Float64Array(p.n);
    this.forward = topological(p.n, this.decoder);
    this.backward = this.forward.slice().reverse();
    this.longest = p.duration.reduce((a, b) => Math.max(a, b), 0);
    this.latest = latestStarts(p, this.decoder, this.backward);
  }

  /** What is left of the schedules planned, 1 to 0. */
  get left(): number {
    return Math.max(0, 1 - this.decoder.count / this.planned);
  }

  /** One schedule more. Returns its makespan. */
  step(): number {
    if (this.plans.length < 2 * this.size && !this.selected) return this.sample();
    if (!this.selected) {
      this.plans.sort((a, b) => a.makespan - b.makespan);
      this.plans.length = this.size;
      this.selected = true;
    }
    if (this.next === 0) this.turn();
    return this.breed();
  }

  private selected = false;

  private keep(plan: Plan): number {
    if (plan.makespan < this.makespan) {
      this.makespan = plan.makespan;
      this.best.set(plan.start);
    }
    return plan.makespan;
  }

  /** Parallel or, now and then, serial generation by latest start with noise. */
  private sample(): number {
    const { p, decoder, random, latest, key } = this;
    const plan = { start: new Int32Array(p.n), makespan: 0, list: this.forward.slice() };
    let most = 1;
    for (const l of latest) most = Math.max(most, l);
    const noise = this.plans.length === 0 ? 0 : 0.3 * most;
    for (let i = 0; i < p.n; i++) key[i] = latest[i]! + noise * random.next();
    this.reorder(plan.list, 0, p.n, false);
    plan.makespan = decoder.place(plan.list, plan.start, false, random.next() < 0.8 ? 0 : SERIAL);
    this.plans.push(plan);
    return this.keep(plan);
  }

  /** Writes every plan as a list for the other direction. */
  private turn(): void {
    this.toRight = !this.toRight;
    for (const plan of this.plans)
      if (this.toRight) this.decoder.byEnd(plan.start, this.backward, plan.list);
      else this.decoder.byStart(plan.start, this.forward, plan.list);
    this.children = [];
  }

  private breed(): number {
    const { plans, random, p, decoder, toRight } = this;
    const father = plans[this.next]!;
    // The best plan lives on: as it is, or now and then justified once more.
    const elite =
      father.makespan === this.makespan && !this.children.some((c) => c.makespan <= this.makespan);
    if (elite && random.next() < 0.8) {
      this.settle(father);
      return this.step();
    }
    const child: Plan = { start: new Int32Array(p.n), makespan: 0, list: new Int32Array(p.n) };
    if (elite) child.list.set(father.list);
    else this.cross(father, this.mother(), child.list);
    child.makespan = decoder.place(child.list, child.start, toRight, this.delay());
    if (toRight) decoder.turn(child.start, child.makespan);
    const slack = Math.round(SLACK * this.left);
    this.settle(child.makespan > father.makespan + slack ? father : child);
    return this.keep(child);
  }

  /** Minutes by which an activity may be kept waiting for one that stands before it in the list. */
  private delay(): number {
    return this.random.next() < IMPATIENT ? this.random.below(this.longest + 1) : SERIAL;
  }

  /** The best of three. */
  private mother(): Plan {
    const { plans, random } = this;
    let mother = plans[random.below(plans.length)]!;
    for (let k = 0; k < 2; k++) {
      const other = plans[random.below(plans.length)]!;
      if (other.makespan < mother.makespan) mother = other;
    }
    return mother;
  }

  private cross(father: Plan, mother: Plan, list: Int32Array): void {
    const { random } = this;
    if (random.next() < STRETCH) this.keepPeak(father, mother, list);
    else this.twoPoints(father, mother, list);
    if (random.next() < 0.2) this.shake(random.next() < 0.5 ? father.list : null, list);
    else this.mutate(list);
  }

  /** Takes a plan into the next generation, and begins it when it is full. */
  private settle(plan: Plan): void {
    this.children.push(plan);
    this.next++;
    if (this.next < this.plans.length) return;
    this.plans = this.children;
    this.next = 0;
    this.thin();
  }

  /** Drops the worst so that only as many stay as there is time for. */
  private thin(): void {
    const wanted = Math.max(LEAST, Math.round(LEAST + (this.size - LEAST) * this.left));
    if (wanted >= this.plans.length) return;
    const rank = this.plans
      .map((plan, k) => ({ plan, k }))
      .sort((a, b) => a.plan.makespan - b.plan.makespan || a.k - b.k);
    const stay = new Set(rank.slice(0, wanted).map((x) => x.plan));
    this.plans = this.plans.filter((plan) => stay.has(plan));
  }

  /** The father's list up to one point and from another on; between them the mother's order. */
  private twoPoints(father: Plan, mother: Plan, list: Int32Array): void {
    const { n } = this.p;
    const { mark, random } = this;
    let a = random.below(n);
    let b = random.below(n);
    if (a > b) [a, b] = [b, a];
    mark.fill(0);
    let x = 0;
    const take = (i: number) => {
      if (mark[i] === 1) return;
      mark[i] = 1;
      list[x++] = i;
    };
    for (let k = 0; k < a; k++) take(father.list[k]!);
    for (let k = 0; k < n && x < b; k++) take(mother.list[k]!);
    for (let k = 0; k < n; k++) take(father.list[k]!);
  }

  /**
   * Keeps together the stretch in which the father uses most more than the mother; what comes before and after follows
   * her. The two are laid side by side at the end to which their plans are pushed.
   */
  private keepPeak(father: Plan, mother: Plan, list: Int32Array): void {
    const { n, duration } = this.p;
    const { mark, random, toRight } = this;
    const span = father.makespan;
    const length = Math.max(1, Math.floor(span * (0.25 + 0.5 * random.next())));
    const [his, hers] = [this.use(father), this.use(mother)];
    const aside = toRight ? 0 : mother.makespan - span;
    const hersTo = (minute: number) => hers[Math.max(0, Math.min(mother.makespan, minute + aside))]!;
    let from = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < LOOKED; k++) {
      const at = random.below(Math.max(1, span - length + 1));
      const ahead = his[Math.min(span, at + length)]! - his[at]! - (hersTo(at + length) - hersTo(at));
      if (ahead > most) {
        most = ahead;
        from = at;
      }
    }
    const to = from + length;
    for (let i = 0; i < n; i++) {
      const start = father.start[i]!;
      const end = start + duration[i]!;
      mark[i] = toRight ? (end > to ? 0 : end > from ? 1 : 2) : start < from ? 0 : start < to ? 1 : 2;
    }
    let x = 0;
    for (let part = 0; part < 3; part++)
      for (const i of part === 1 ? father.list : mother.list) if (mark[i] === part) list[x++] = i;
  }

  /** Use of all resources, each in shares of its capacity, summed up to every minute. */
  private use(plan: Plan): Float64Array {
    plan.use ??= this.summed(plan);
    return plan.use;
  }

  private summed(plan: Plan): Float64Array {
    const { n, resources, duration, demand, capacity } = this.p;
    const steps = new Float64Array(plan.makespan + 2);
    for (let i = 0; i < n; i++) {
      let share = 0;
      for (let r = 0; r < resources; r++)
        if (capacity[r]! > 0) share += demand[i * resources + r]! / capacity[r]!;
      steps[plan.start[i]! + 1]! += share;
      steps[plan.start[i]! + duration[i]! + 1]! -= share;
    }
    for (let pass = 0; pass < 2; pass++) for (let t = 1; t < steps.length; t++) steps[t]! += steps[t - 1]!;
    return steps;
  }

  /** Swaps neighbours that do not depend on each other. */
  private mutate(list: Int32Array): void {
    const { decoder, random, toRight } = this;
    const first = toRight ? decoder.predFirst : decoder.succFirst;
    const after = toRight ? decoder.preds : decoder.succs;
    for (let k = 0; k + 1 < list.length; k++) {
      if (random.next() >= 0.05) continue;
      const [a, b] = [list[k]!, list[k + 1]!];
      let depends = false;
      for (let q = first[a]!; q < first[a + 1]!; q++) if (after[q] === b) depends = true;
      if (depends) continue;
      list[k] = b;
      list[k + 1] = a;
    }
  }

  /** Draws a new order for a short stretch of the list. */
  private shake(from: Int32Array | null, list: Int32Array): void {
    const { random, key } = this;
    const { n } = this.p;
    if (from) list.set(from);
    const length = Math.min(n, Math.max(3, Math.floor(12 * (0.3 + random.next()))));
    const at = random.below(n - length + 1);
    for (let k = at; k < at + length; k++) key[list[k]!] = random.next();
    this.reorder(list, at, at + length, this.toRight);
  }

  /** Sorts a stretch of the list by key as far as precedence allows. */
  private reorder(list: Int32Array, from: number, to: number, backward: boolean): void {
    const { decoder, mark, waits, key } = this;
    const before = backward ? decoder.succFirst : decoder.predFirst;
    const befores = backward ? decoder.succs : decoder.preds;
    const after = backward ? decoder.predFirst : decoder.succFirst;
    const afters = backward ? decoder.preds : decoder.succs;
    mark.fill(0);
    for (let k = from; k < to; k++) mark[list[k]!] = 1;
    const ready: number[] = [];
    for (let k = from; k < to; k++) {
      const i = list[k]!;
      waits[i] = 0;
      for (let q = before[i]!; q < before[i + 1]!; q++) if (mark[befores[q]!] === 1) waits[i]!++;
      if (waits[i] === 0) ready.push(i);
    }
    for (let x = from; ready.length > 0; x++) {
      let at = 0;
      for (let k = 1; k < ready.length; k++) if (key[ready[k]!]! < key[ready[at]!]!) at = k;
      const i = ready[at]!;
      ready[at] = ready[ready.length - 1]!;
      ready.pop();
      list[x] = i;
      for (let q = after[i]!; q < after[i + 1]!; q++) {
        const j = afters[q]!;
        if (mark[j] !== 1) continue;
        waits[j]!--;
        if (waits[j] === 0) ready.push(j);
      }
    }
  }
}

function topological(n: number, d: Decoder): Int32Array {
  const list = new Int32Array(n);
  const waits = new Int32Array(n);
  let size = 0;
  for (let i = 0; i < n; i++) {
    waits[i] = d.predFirst[i + 1]! - d.predFirst[i]!;
    if (waits[i] === 0) list[size++] = i;
  }
  for (let x = 0; x < size; x++)
    for (let k = d.succFirst[list[x]!]!; k < d.succFirst[list[x]! + 1]!; k++) {
      waits[d.succs[k]!]!--;
      if (waits[d.succs[k]!] === 0) list[size++] = d.succs[k]!;
    }
  return list;
}

/** Latest start of each activity in a plan as long as the longest path. */
function latestStarts(p: Project, d: Decoder, backward: Int32Array): Int32Array {
  const tail = new Int32Array(p.n);
  let longest = 0;
  for (const i of backward) {
    for (let k = d.succFirst[i]!; k < d.succFirst[i + 1]!; k++)
      tail[i] = Math.max(tail[i]!, tail[d.succs[k]!]!);
    tail[i]! += p.duration[i]!;
    longest = Math.max(longest, tail[i]!);
  }
  return tail.map((t) => longest - t);
}
