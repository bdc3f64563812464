import type { Refusal } from "../refusal.ts";
import { circleIn } from "./circle.ts";
import type { Project } from "./project.ts";

/** Most activities read from a file: more would only hold up the machine. */
const MOST = 20_000;

/**
 * Reads a project from the text of a PSPLIB single-mode file (.sm) or a ProGen/max file (.sch); which of the
 * two is seen from the content. Returns the project, a refusal, or null when the text is neither.
 */
export function readProject(text: string): Project | Refusal | null {
  if (/^\s*PRECEDENCE\s+RELATIONS/im.test(text)) return guarded(() => readSm(text));
  const first = /^[^\n]*\S[^\n]*/m.exec(text)?.[0] ?? "";
  if (/^\s*\d+\s+\d+(\s+0){0,2}\s*$/.test(first)) return guarded(() => readSch(text));
  return null;
}

class Unreadable extends Error {
  readonly refusal: Refusal;
  constructor(line: number, what: string, mend: string) {
    super(what);
    this.refusal = { path: `line ${line}`, what, mend };
  }
}

function guarded(read: () => Project): Project | Refusal {
  try {
    return read();
  } catch (error) {
    if (error instanceof Unreadable) return error.refusal;
    throw error;
  }
}

interface Line {
  readonly number: number;
  readonly values: readonly number[];
}

function numbers(line: string, at: number): number[] {
  return line
    .trim()
    .split(/\s+/)
    .map((word) => {
      if (!/^-?\d{1,9}$/.test(word))
        throw new Unreadable(at, `"${word}" is not a whole number`, "correct the file");
      return Number(word);
    });
}

/** Collects activities, arcs and capacities, and refuses what does not fit together. */
class Draft {
  readonly arcs: [number, number, number][] = [];
  readonly n: number;
  readonly resources: number;
  readonly base: number;
  readonly duration: Int32Array;
  readonly demand: Int32Array;

  constructor(n: number, resources: number, base: number, line: number) {
    if (n < 1 || n > MOST) throw new Unreadable(line, `${n} activities`, `give 1 to ${MOST}`);
    if (resources < 0 || resources > 100)
      throw new Unreadable(line, `${resources} resources`, "give 0 to 100");
    this.n = n;
    this.resources = resources;
    this.base = base;
    this.duration = new Int32Array(n);
    this.demand = new Int32Array(n * resources);
  }

  /** The place of an activity in one of the file's two lists, each of which tells it once. */
  once(activity: number, line: number, told: Uint8Array): number {
    const i = this.index(activity, line);
    if (told[i])
      throw new Unreadable(line, `activity ${activity} is told twice`, "tell each once, with its own number");
    told[i] = 1;
    return i;
  }

  index(activity: number, line: number): number {
    const i = activity - this.base;
    if (i < 0 || i >= this.n)
      throw new Unreadable(line, `there is no activity ${activity}`, "correct its number");
    return i;
  }

  finish(capacity: readonly number[], line: number): Project {
    if (capacity.length !== this.resources || capacity.some((c) => c < 0))
      throw new Unreadable(
        line,
        `${capacity.length} capacities for ${this.resources} resources`,
        "give one each",
      );
    for (let i = 0; i < this.n; i++) {
      if (this.duration[i]! < 0)
        throw new Unreadable(line, `activity ${i + this.base} lasts ${this.duration[i]}`, "give 0 or more");
      // A demand above the capacity is not refused: it makes the project infeasible, and that is an answer.
      for (let r = 0; r < this.resources; r++)
        if (this.demand[i * this.resources + r]! < 0)
          throw new Unreadable(line, `activity ${i + this.base} needs less than nothing`, "give 0 or more");
    }
    return {
      n: this.n,
      resources: this.resources,
      base: this.base,
      duration: this.duration,
      demand: this.demand,
      capacity: Int32Array.from(capacity),
      from: Int32Array.from(this.arcs, (a) => a[0]),
      to: Int32Array.from(this.arcs, (a) => a[1]),
      lag: Int32Array.from(this.arcs, (a) => a[2]),
    };
  }
}

function readSm(text: string): Project {
  const lines = text.split(/\r?\n/);
  const section = (title: RegExp, skip: number): Line[] => {
    const at = lines.findIndex((line) => title.test(line));
    if (at < 0)
      throw new Unreadable(lines.length, `the section ${title.source} is missing`, "use a complete file");
    const found: Line[] = [];
    for (let k = at + 1 + skip; k < lines.length && !/^\s*\*/.test(lines[k]!); k++)
      if (/\d/.test(lines[k]!)) found.push({ number: k + 1, values: numbers(lines[k]!, k + 1) });
    return found;
  };
  const links = section(/PRECEDENCE\s+RELATIONS/i, 1);
  const work = section(/REQUESTS\/DURATIONS/i, 2);
  const free = section(/RESOURCEAVAILABILITIES/i, 1);
  const resources = free[0]?.values.length ?? 0;
  const draft = new Draft(links.length, resources, 1, links[0]?.number ?? 1);
  if (work.length !== links.length)
    throw new Unreadable(
      work[0]?.number ?? 1,
      `${work.length} durations for ${links.length} jobs`,
      "give one mode a job",
    );
  const worked = new Uint8Array(draft.n);
  for (const { number, values } of work) {
    if (values.length !== 3 + resources)
      throw new Unreadable(
        number,
        `${values.length} figures, ${3 + resources} are needed`,
        "give job, mode, duration, demands",
      );
    const i = draft.once(values[0]!, number, worked);
    draft.duration[i] = values[2]!;
    draft.demand.set(values.slice(3), i * resources);
  }
  const linked = new Uint8Array(draft.n);
  for (const { number, values } of links) {
    const [job, modes, count, ...next] = values;
    if (modes !== 1)
      throw new Unreadable(number, `job ${job} has ${modes} modes`, "only single-mode files are read");
    if (next.length !== count)
      throw new Unreadable(
        number,
        `${next.length} successors, ${count} announced`,
        "let the count and the list agree",
      );
    const i = draft.once(job!, number, linked);
    for (const to of next) draft.arcs.push([i, draft.index(to, number), draft.duration[i]!]);
  }
  const project = draft.finish(free[0]?.values ?? [], free[0]?.number ?? 1);
  const circle = circleIn(draft.n, draft.arcs)?.map((i) => i + 1);
  if (circle)
    throw new Unreadable(
      links.find(({ values }) => values[0] === circle[0])?.number ?? 1,
      `${circle.join(" > ")} wait for each other in a circle`,
      "take one of these successors out",
    );
  return project;
}

function readSch(text: string): Project {
  const lines: Line[] = [];
  text.split(/\r?\n/).forEach((line, k) => {
    const plain = line.replace(/[[\]]/g, " ");
    if (plain.trim() !== "") lines.push({ number: k + 1, values: numbers(plain, k + 1) });
  });
  const [inner, resources] = lines[0]!.values;
  const draft = new Draft(inner! + 2, resources!, 0, 1);
  const { n } = draft;
  if (lines.length !== 2 * n + 2)
    throw new Unreadable(
      lines.length,
      `${lines.length} lines, ${2 * n + 2} are needed`,
      "use a complete file",
    );
  const worked = new Uint8Array(n);
  const linked = new Uint8Array(n);
  for (const { number, values } of lines.slice(1 + n, 1 + 2 * n)) {
    if (values.length !== 3 + draft.resources)
      throw new Unreadable(
        number,
        `${values.length} figures, ${3 + draft.resources} are needed`,
        "give activity, mode, duration, demands",
      );
    const i = draft.once(values[0]!, number, worked);
    draft.duration[i] = values[2]!;
    draft.demand.set(values.slice(3), i * draft.resources);
  }
  for (const { number, values } of lines.slice(1, 1 + n)) {
    const count = values[2] ?? 0;
    if (values.length !== 3 + 2 * count)
      throw new Unreadable(
        number,
        `${values.length} figures, ${3 + 2 * count} are needed`,
        "give as many lags as successors",
      );
    const i = draft.once(values[0]!, number, linked);
    for (let k = 0; k < count; k++)
      draft.arcs.push([i, draft.index(values[3 + k]!, number), values[3 + count + k]!]);
  }
  const last = lines[1 + 2 * n]!;
  return draft.finish(last.values, last.number);
}
