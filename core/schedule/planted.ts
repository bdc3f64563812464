import type {
  Lag,
  Mode,
  Person,
  Placement,
  Problem,
  Resource,
  Schedule,
  Shift,
  Span,
  Task,
} from "./problem.ts";
import { Random } from "./random.ts";

/**
 * Invented services with a plan planted in them, for tests and measurements: three days to a fixed moment,
 * chains of work with longest waits, shifts with breaks, skills, ovens with one temperature, kettles to be
 * cleaned, chillers, a cold room. The plan is put down first, minute by minute, by code that shares nothing
 * with the engine; the rules are then drawn around it, so a plan that keeps them all exists.
 */
export interface Planted {
  readonly problem: Problem;
  readonly plan: Schedule;
}

export interface PlantedOptions {
  readonly tasks: number;
  readonly seed: number;
  /** Share of the paid minutes that the planted plan works, about. Default 0.75. */
  readonly load?: number;
  /**
   * True: every link and date is drawn so tightly that no task can end later than planted; the planted plan
   * is then optimal for "as late as sensible". Default false.
   */
  readonly optimal?: boolean;
}

const DAY = 1440;
const DAYS = 3;
const SERVICE = 2 * DAY + 19 * 60 + 30;
const END = 2 * DAY + 22 * 60;
const SKILLS = ["cold", "hot", "pastry", "butchery", "line"];
const SETS = [90, 120, 150, 180, 200, 230];

export function plantService(options: PlantedOptions): Planted {
  // What proves too small for its chains gets one more, and the service is tried again.
  const extra = { hands: 0, oven: 0, kettle: 0, chill: 0 };
  for (let attempt = 0; attempt < 300; attempt++) {
    const planter = new Planter(options, extra);
    const planted = planter.plant();
    if (planted) return planted;
    // The piece left over is not always the one that lacks: now and then everything grows.
    const kind = planter.short;
    extra[kind === "oven" || kind === "kettle" || kind === "chill" ? kind : "hands"]++;
    if (attempt % 3 === 2) for (const each of ["hands", "oven", "kettle", "chill"] as const) extra[each]++;
  }
  throw new RangeError("no service could be planted");
}

/** What one task of a chain asks for. */
interface Piece {
  readonly kind: "hands" | "oven" | "kettle" | "chill" | "wait" | "plate";
  readonly minutes: number;
  readonly skill?: string;
  readonly heads?: number;
  readonly set?: number;
  readonly size?: number;
  readonly class?: string;
  /** Longest wait from the piece before (end to start); none when absent. */
  readonly most?: number;
}

interface Put {
  readonly piece: Piece;
  readonly mode: number;
  readonly modes: Mode[];
  readonly start: number;
  readonly end: number;
  readonly persons: number[];
  readonly unit: number;
}

class Planter {
  private readonly options: PlantedOptions;
  private readonly r: Random;
  private readonly chains: Piece[][] = [];
  /** How long before the service the last piece of each chain may end. */
  private readonly holds: number[] = [];
  private readonly persons: Person[] = [];
  private readonly onShift: Uint8Array[] = [];
  private readonly shiftAt: Int16Array[] = [];
  private readonly busy: Uint8Array[] = [];
  private readonly ovens: number;
  private readonly shelves: Int16Array[];
  private readonly state: Int16Array[];
  private readonly kettles: number;
  private readonly kettle: Int16Array[];
  private readonly chillers: number;
  private readonly kilos: Int16Array[];
  /** The kind of piece that found no place. */
  short: Piece["kind"] = "hands";
  private budget = 0;
  private readonly classes = ["plain", "milk", "nuts"];

  constructor(
    options: PlantedOptions,
    extra: { hands: number; oven: number; kettle: number; chill: number },
  ) {
    this.options = options;
    this.r = new Random(options.seed);
    let count = 0;
    while (count < options.tasks) {
      const chain = this.chain().slice(-(options.tasks - count));
      count += chain.length;
      this.chains.push(chain);
      this.holds.push([60, 240, 480, DAY, 2 * DAY][this.r.below(5)]!);
    }
    const pieces = this.chains.flat();
    const work = pieces.reduce(
      (sum, p) => sum + (p.kind === "hands" || p.kind === "plate" ? p.minutes : 0),
      0,
    );
    const base = Math.max(2, Math.ceil(work / (options.load ?? 0.75) / 1200));
    for (let p = 0; p < base + extra.hands; p++) this.addPerson(p, base);
    const need = (kind: Piece["kind"], share: number) =>
      Math.max(1, Math.ceil(pieces.reduce((s, p) => s + (p.kind === kind ? p.minutes * share : 0), 0) / 700));
    this.ovens = need("oven", 0.5) + extra.oven;
    this.kettles = need("kettle", 1) + extra.kettle;
    this.chillers = need("chill", 0.25) + extra.chill;
    const many = (n: number, fill = 0) => Array.from({ length: n }, () => new Int16Array(END).fill(fill));
    this.shelves = many(this.ovens);
    this.state = many(this.ovens, -1);
    this.kettle = many(this.kettles, -1);
    this.kilos = many(this.chillers);
  }

  private addPerson(p: number, base: number): void {
    const { r } = this;
    const skills = p % 5 === 0 ? [...SKILLS] : [SKILLS[p % 5]!, SKILLS[r.below(5)]!, "line"];
    const shifts = [];
    const on = new Uint8Array(END);
    const at = new Int16Array(END).fill(-1);
    for (let day = 0; day < DAYS; day++) {
      // Those who came on top help on the day itself; a third of the others stay away on the first.
      if (day < DAYS - 1 && p >= base) continue;
      if (day === 0 && p % 3 === 2) continue;
      const from = day * DAY + (day === DAYS - 1 ? 60 * r.between(11, 12) : 60 * r.between(7, 10));
      const to = day === DAYS - 1 ? SERVICE + 120 : from + 480 + 30 * r.below(3);
      const rest = from + 30 * r.between(6, 8);
      shifts.push({ from, to, breaks: [{ from: rest, to: rest + 30 }] });
      on.fill(1, from, to);
      on.fill(0, rest, rest + 30);
      at.fill(shifts.length - 1, from, to);
    }
    this.persons.push({ id: `person-${p}`, skills: [...new Set(skills)], shifts });
    this.onShift.push(on);
    this.shiftAt.push(at);
    this.busy.push(new Uint8Array(END));
  }

  /** A chain of pieces, last first in time order left to right. */
  private chain(): Piece[] {
    const { r } = this;
    const skill = SKILLS[r.below(4)]!;
    const five = (a: number, b: number) => 5 * r.between(a / 5, b / 5);
    const hands = (a: number, b: number, more: Partial<Piece> = {}): Piece => ({
      kind: "hands",
      minutes: five(a, b),
      skill,
      heads: r.next() < 0.3 ? 2 : 1,
      ...more,
    });
    const set = SETS[r.below(SETS.length)]!;
    const oven = (a: number, b: number, most: number): Piece => ({
      kind: "oven",
      minutes: five(a, b),
      set,
      size: r.between(1, 5),
      most,
    });
    const chill: Piece = { kind: "chill", minutes: five(60, 120), size: r.between(3, 15), most: 30 };
    const last: Piece = {
      kind: "plate",
      minutes: five(5, 15),
      skill: "line",
      most: [30, 60, 120, 240][r.below(4)]!,
    };
    const finish: Piece[] = [hands(10, 30, { most: 2 * DAY }), last];
    switch (r.below(5)) {
      case 0:
        return [
          hands(15, 60),
          hands(5, 10),
          oven(30, 180, 15),
          hands(5, 10, { most: 10 }),
          chill,
          hands(5, 15, { most: DAY }),
          ...finish,
        ];
      case 1:
        return [
          hands(10, 40),
          { kind: "kettle", minutes: five(60, 240), class: this.classes[r.below(3)]!, most: 60 },
          hands(10, 20, { most: 15 }),
          chill,
          ...finish,
        ];
      case 2:
        return [
          hands(15, 30),
          { kind: "wait", minutes: five(45, 90), most: 20 },
          hands(20, 40, { most: 30 }),
          oven(20, 45, 30),
          { kind: "wait", minutes: 30, most: 10 },
          ...finish,
        ];
      case 3:
        return [hands(20, 60), ...finish];
      default:
        return [hands(10, 45), last];
    }
  }

  plant(): Planted | null {
    const order = this.chains.map((_, i) => i);
    this.r.shuffle(order);
    order.sort((a, b) => this.chains[b]!.length - this.chains[a]!.length);
    const put = new Map<number, Put[]>();
    for (const c of order) {
      let done: Put[] | null = null;
      for (let attempt = 0; attempt < 4 && !done; attempt++)
        done = this.plantChain(this.chains[c]!, this.holds[c]!);
      if (!done) return null;
      put.set(c, done);
    }
    return this.write(this.chains.map((_, c) => put.get(c)!));
  }

  /** Backward from the service, each piece as late as it goes less a random ease; null when one finds no place. */
  private plantChain(chain: readonly Piece[], hold: number): Put[] | null {
    this.budget = 4000;
    const put: Put[] = [];
    const latest = SERVICE - this.r.below(Math.max(1, Math.floor((hold / 2) * this.r.next())));
    return this.plantFrom(chain, chain.length - 1, latest, SERVICE - hold, put) ? put : null;
  }

  private plantFrom(
    chain: readonly Piece[],
    k: number,
    latest: number,
    earliest: number,
    put: Put[],
  ): boolean {
    if (k < 0) return true;
    const { r } = this;
    const piece = chain[k]!;
    const modes = this.modes(piece);
    const mode = r.below(modes.length);
    const ease = r.next() < 0.5 ? 0 : Math.floor(r.next() * Math.min((latest - earliest) / 2, 300));
    let end = latest - ease;
    for (let tries = 0; tries < (latest - earliest > 120 ? 150 : 2); tries++) {
      let spot: Put | null = null;
      while (!spot && end >= Math.max(1, earliest)) spot = this.endingAt(piece, modes, mode, end--);
      if (!spot || this.budget-- < 0) break;
      this.mark(spot, true);
      put.unshift(spot);
      const soonest = piece.most === undefined ? 0 : spot.start - piece.most;
      if (this.plantFrom(chain, k - 1, spot.start, soonest, put)) return true;
      put.shift();
      this.mark(spot, false);
      end -= latest - earliest > 120 ? 15 : 5;
    }
    this.short = piece.kind;
    return false;
  }

  private modes(piece: Piece): Mode[] {
    if (piece.kind === "hands" || piece.kind === "plate") {
      const one: Mode = {
        duration: piece.minutes,
        interrupt: piece.kind === "hands" ? "breaks" : "no",
        people: [{ count: 1, skill: piece.skill! }],
      };
      const skilled = this.persons.filter((p) => p.skills.includes(piece.skill!)).length;
      if (piece.heads !== 2 || skilled < 2) return [one];
      return [
        one,
        { ...one, duration: Math.ceil(piece.minutes * 0.55), people: [{ count: 2, skill: piece.skill! }] },
      ];
    }
    const need = { amount: [piece.size ?? 0] };
    if (piece.kind === "oven")
      return [
        {
          duration: piece.minutes,
          resources: [{ ...need, of: names("oven", this.ovens), state: { set: piece.set! } }],
        },
      ];
    if (piece.kind === "kettle")
      return [
        {
          duration: piece.minutes,
          resources: [
            { of: names("kettle", this.kettles), amount: [1], exclusive: true, class: piece.class! },
          ],
        },
      ];
    if (piece.kind === "chill")
      return [{ duration: piece.minutes, resources: [{ ...need, of: names("chiller", this.chillers) }] }];
    return [{ duration: piece.minutes }];
  }

  private endingAt(piece: Piece, modes: Mode[], mode: number, end: number): Put | null {
    const minutes = modes[mode]!.duration;
    const start = end - minutes;
    if (start < 0) return null;
    const base = { piece, mode, modes, start, end, persons: [] as number[], unit: -1 };
    switch (piece.kind) {
      case "wait":
        return base;
      case "oven":
        for (let u = 0; u < this.ovens; u++)
          if (this.ovenFree(u, piece, start, end)) return { ...base, unit: u };
        return null;
      case "kettle":
        for (let u = 0; u < this.kettles; u++)
          if (this.kettleFree(u, piece, start, end)) return { ...base, unit: u };
        return null;
      case "chill":
        for (let u = 0; u < this.chillers; u++)
          if (most(this.kilos[u]!, start, end) + piece.size! <= 20) return { ...base, unit: u };
        return null;
      default: {
        const heads = modes[mode]!.people![0]!.count;
        const byStart = new Map<number, number[]>();
        for (let p = 0; p < this.persons.length; p++) {
          if (!this.persons[p]!.skills.includes(piece.skill!)) continue;
          const from = this.workBack(p, end, minutes, piece.kind === "hands");
          if (from < 0) continue;
          const list = byStart.get(from) ?? [];
          list.push(p);
          byStart.set(from, list);
          if (list.length < heads) continue;
          // Persons with the same start may still rest at different minutes: both must work the whole time.
          if (heads > 1 && from !== start) continue;
          return { ...base, start: from, persons: list };
        }
        return null;
      }
    }
  }

  /** Start of free work of so many minutes that ends at `end`, over breaks of one shift if it may; -1 if none. */
  private workBack(p: number, end: number, minutes: number, breaks: boolean): number {
    const on = this.onShift[p]!;
    const at = this.shiftAt[p]!;
    const busy = this.busy[p]!;
    if (on[end - 1] !== 1) return -1;
    let left = minutes;
    for (let t = end - 1; t >= 0; t--) {
      if (busy[t] === 1 || at[t] !== at[end - 1]) return -1;
      if (on[t] === 1) {
        if (--left === 0) return t;
      } else if (!breaks) return -1;
    }
    return -1;
  }

  private ovenFree(u: number, piece: Piece, start: number, end: number): boolean {
    if (most(this.shelves[u]!, start, end) + piece.size! > 10) return false;
    const state = this.state[u]!;
    for (let t = Math.max(0, start - 40); t < Math.min(END, end + 40); t++) {
      if (state[t]! < 0 || state[t] === piece.set) continue;
      const away = t < start ? start - t - 1 : t >= end ? t - end : -1;
      if (away < Math.max(5, Math.ceil(0.2 * Math.abs(state[t]! - piece.set!)))) return false;
    }
    return true;
  }

  private kettleFree(u: number, piece: Piece, start: number, end: number): boolean {
    const kind = this.classes.indexOf(piece.class!);
    const held = this.kettle[u]!;
    for (let t = Math.max(0, start - 20); t < Math.min(END, end + 20); t++) {
      if (held[t]! < 0) continue;
      if (t >= start && t < end) return false;
      const clean = t < start ? cleaning(held[t]!, kind) : cleaning(kind, held[t]!);
      if ((t < start ? start - t - 1 : t - end) < clean) return false;
    }
    return true;
  }

  private mark(p: Put, on: boolean): void {
    for (const q of p.persons) this.busy[q]!.fill(on ? 1 : 0, p.start, p.end);
    const sign = on ? 1 : -1;
    if (p.piece.kind === "chill") bump(this.kilos[p.unit]!, p.start, p.end, sign * p.piece.size!);
    if (p.piece.kind === "kettle")
      this.kettle[p.unit]!.fill(on ? this.classes.indexOf(p.piece.class!) : -1, p.start, p.end);
    if (p.piece.kind !== "oven") return;
    const shelves = this.shelves[p.unit]!;
    bump(shelves, p.start, p.end, sign * p.piece.size!);
    for (let t = p.start; t < p.end; t++) this.state[p.unit]![t] = shelves[t]! > 0 ? p.piece.set! : -1;
  }

  private write(chains: readonly Put[][]): Planted {
    const { r } = this;
    const optimal = this.options.optimal ?? false;
    const tasks: Task[] = [];
    const lags: Lag[] = [];
    const spans: Span[] = [];
    const placements: Placement[] = [];
    let kept = 0;
    const cold = new Int16Array(END);
    chains.forEach((chain, c) => {
      chain.forEach((p, k) => {
        const id = `chain-${c}-${k}`;
        const last = k === chain.length - 1;
        tasks.push({
          id,
          modes: p.modes,
          ...(last && optimal ? { deadline: p.end } : {}),
          due: SERVICE,
          early: last ? 1 : k >= chain.length - 2 ? 0.5 : 0.1,
        });
        const kind = p.piece.kind;
        placements.push({
          task: id,
          start: p.start,
          end: p.end,
          mode: p.mode,
          persons: p.persons.map((q) => this.persons[q]!.id),
          resources: p.unit < 0 ? [] : [`${kind === "chill" ? "chiller" : kind}-${p.unit}`],
        });
        if (last)
          lags.push({
            from: { task: id, at: "end" },
            to: { task: "service", at: "start" },
            least: 0,
            most: this.holds[c]!,
            best: Math.floor(this.holds[c]! / 2),
            cost: 0.2,
          });
        if (k === 0) return;
        const before = chain[k - 1]!;
        const gap = p.start - before.end;
        const from = { task: `chain-${c}-${k - 1}`, at: "end" } as const;
        const to = { task: id, at: "start" } as const;
        const wait =
          p.piece.most === undefined
            ? {}
            : { most: Math.max(p.piece.most, gap), best: Math.floor(p.piece.most / 2), cost: 0.2 };
        lags.push({ from, to, least: optimal ? gap : Math.min(gap, 5 * r.below(2)), ...wait });
        if (before.piece.kind !== "chill") return;
        const size = Math.min(4, Math.ceil(before.piece.size! / 5));
        spans.push({
          id: `cold-${kept++}`,
          from: { task: from.task, at: "end" },
          to,
          need: { of: ["cold-room"], amount: [size] },
        });
        bump(cold, before.end, Math.max(before.end + 1, p.start), size);
      });
    });
    tasks.push({ id: "service", modes: [{ duration: 0 }], pin: { start: SERVICE } });
    placements.push({ task: "service", start: SERVICE, end: SERVICE, mode: 0, persons: [], resources: [] });
    const problem: Problem = {
      horizon: END,
      tasks,
      lags,
      spans,
      persons: this.persons.map((person, p) => ({ ...person, shifts: this.trimmed(p) })),
      resources: this.resources(most(cold, 0, END)),
      objective: { late: 1000, early: 1, hold: 1 },
    };
    return { problem, plan: { placements, spans: spans.map(() => "cold-room") } };
  }

  /** Shifts cut to the half hours in which the plan needs the person; at least one stays. */
  private trimmed(p: number): Shift[] {
    const busy = this.busy[p]!;
    const shifts: Shift[] = [];
    for (const s of this.persons[p]!.shifts) {
      const from = busy.indexOf(1, s.from);
      const to = busy.lastIndexOf(1, s.to - 1) + 1;
      if (from < 0 || from >= s.to) continue;
      const cut = {
        from: Math.max(s.from, 30 * Math.floor(from / 30)),
        to: Math.min(s.to, 30 * Math.ceil(to / 30)),
      };
      shifts.push({ ...cut, breaks: (s.breaks ?? []).filter((b) => b.from >= cut.from && b.to <= cut.to) });
    }
    return shifts.length > 0 ? shifts : [this.persons[p]!.shifts[0]!];
  }

  private resources(cold: number): Resource[] {
    const state = { lowest: 40, highest: 280, tolerance: 5, minutesPerUnit: 0.2, leastMinutes: 5 };
    const setups = this.classes.flatMap((from, a) =>
      this.classes.map((to, b) => ({ from, to, minutes: cleaning(a, b) })).filter((s) => s.minutes > 0),
    );
    return [
      ...names("oven", this.ovens).map((id) => ({ id, capacity: [10], dimensions: ["shelves"], state })),
      ...names("kettle", this.kettles).map((id) => ({ id, capacity: [1], setups })),
      ...names("chiller", this.chillers).map((id) => ({ id, capacity: [20], dimensions: ["kg"] })),
      { id: "cold-room", capacity: [Math.max(1, cold)], dimensions: ["positions"] },
    ];
  }
}

/** Minutes of cleaning from class a to class b: after nuts before anything else, after milk before plain. */
function cleaning(a: number, b: number): number {
  if (a === b) return 0;
  return a === 2 ? 20 : a === 1 && b === 0 ? 10 : 0;
}

function names(kind: string, count: number): string[] {
  return Array.from({ length: count }, (_, i) => `${kind}-${i}`);
}

function most(list: Int16Array, from: number, to: number): number {
  let top = 0;
  for (let t = from; t < to; t++) top = Math.max(top, list[t]!);
  return top;
}

function bump(list: Int16Array, from: number, to: number, by: number): void {
  for (let t = from; t < to; t++) list[t]! += by;
}
