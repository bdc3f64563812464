import type { Refusal } from "../refusal.ts";
import { circleIn } from "./circle.ts";
import { longestPlan, type Project } from "./project.ts";

/** Most activities read from a file, and the longest it may take: more would only hold up the machine. */
const MOST = 20_000;
const LONGEST = 1_000_000;

/**
 * Reads a project from the text of a PSPLIB single-mode file (.sm) or a ProGen/max file (.sch); which of the
 * two is seen from the content. Returns the project, a refusal, or null when the text is neither.
 */
export function readProject(written: string): Project | Refusal | null {
  const text = written.replace(/\r\n?/g, "\n");
  if (/^\s*PRECEDENCE\s+RELATIONS/im.test(text)) return guarded(() => readSm(text));
  const first = /^[^\n]*\S[^\n]*/m.exec(text)?.[0] ?? "";
  if (/^\s*-?\d+\s+-?\d+(\s+0){0,2}\s*$/.test(first)) return guarded(() => readSch(text));
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

  /**
   * What an activity takes: itself, its mode, its duration, its demands. A demand above the capacity is not refused: it makes
   * the project infeasible, and that is an answer.
   */
  work({ number, values }: Line, told: Uint8Array): void {
    if (values.length !== 3 + this.resources)
      throw new Unreadable(
        number,
        `${values.length} figures, ${3 + this.resources} are needed`,
        "give activity, mode, duration, demands",
      );
    const [activity, mode, lasts, ...demands] = values;
    singleMode(mode!, number);
    const i = this.once(activity!, number, told);
    if (lasts! < 0) throw new Unreadable(number, `activity ${activity} lasts ${lasts}`, "give 0 or more");
    if (demands.some((each) => each < 0))
      throw new Unreadable(number, `activity ${activity} needs less than nothing`, "give 0 or more");
    this.duration[i] = lasts!;
    this.demand.set(demands, i * this.resources);
  }

  finish(capacity: readonly number[], line: number): Project {
    const less = capacity.find((c) => c < 0);
    if (less !== undefined) throw new Unreadable(line, `a capacity is ${less}`, "give 0 or more");
    if (capacity.length !== this.resources)
      throw new Unreadable(
        line,
        `${capacity.length} capacities for ${this.resources} resources`,
        "give one each",
      );
    const project: Project = {
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
    const lasts = longestPlan(project);
    if (lasts > LONGEST)
      throw new Unreadable(
        line,
        `durations and lags come to ${lasts}, one after the other`,
        `count in a larger unit: at most ${LONGEST} are read`,
      );
    return project;
  }
}

function readSm(text: string): Project {
  const lines = text.split("\n");
  const section = (title: string, skip: number): Line[] => {
    const heads = lines.flatMap((line, k) =>
      new RegExp(title.replace(" ", "\\s+"), "i").test(line) ? [k] : [],
    );
    const [at, again] = heads;
    if (at === undefined)
      throw new Unreadable(lines.length, `the section ${title} is missing`, "use a complete file");
    if (again !== undefined)
      throw new Unreadable(again + 1, `the section ${title} stands twice`, "give one project a file");
    const found: Line[] = [];
    for (let k = at + 1 + skip; k < lines.length && !/^\s*\*/.test(lines[k]!); k++)
      if (/\d/.test(lines[k]!)) found.push({ number: k + 1, values: numbers(lines[k]!, k + 1) });
    return found;
  };
  const links = section("PRECEDENCE RELATIONS", 1);
  const work = section("REQUESTS/DURATIONS", 2);
  const free = section("RESOURCEAVAILABILITIES", 1);
  const [capacities, more] = free;
  if (!capacities)
    throw new Unreadable(lines.length, "no capacity is given", "give the capacities in the last section");
  if (more) throw new Unreadable(more.number, "capacities are given twice", "give one line of them");
  const resources = capacities.values.length;
  announced(lines, /^\s*jobs\b.*:\s*(\d+)/i, links.length, "jobs");
  announced(lines, /^\s*-\s*renewable\s*:\s*(\d+)/i, resources, "renewable resources");
  const draft = new Draft(links.length, resources, 1, links[0]?.number ?? 1);
  sameJobs(links, work);
  const worked = new Uint8Array(draft.n);
  for (const line of work) draft.work(line, worked);
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
  const project = draft.finish(capacities.values, capacities.number);
  const circle = circleIn(draft.n, draft.arcs)?.map((i) => i + 1);
  if (circle)
    throw new Unreadable(
      links.find(({ values }) => values[0] === circle[0])?.number ?? 1,
      `${circle.join(" > ")} wait for each other in a circle`,
      "take one of these successors out",
    );
  return project;
}

/** What a count in the header says, where it says one. */
function announced(lines: readonly string[], header: RegExp, found: number, what: string): void {
  for (const [k, line] of lines.entries()) {
    const [, said] = header.exec(line) ?? [];
    if (said !== undefined && Number(said) !== found)
      throw new Unreadable(k + 1, `${said} ${what} are announced, ${found} are told`, "let them agree");
  }
}

/** Each job has one line of successors and one of durations. */
function sameJobs(links: readonly Line[], work: readonly Line[]): void {
  for (const list of [links, work]) {
    const seen = new Set<number>();
    for (const { number, values } of list) {
      if (seen.has(values[0]!))
        throw new Unreadable(
          number,
          `activity ${values[0]} is told twice`,
          "tell each once, with its own number",
        );
      seen.add(values[0]!);
    }
  }
  const linked = new Set(links.map(({ values }) => values[0]));
  const worked = new Set(work.map(({ values }) => values[0]));
  for (const { number, values } of links)
    if (!worked.has(values[0]))
      throw new Unreadable(number, `activity ${values[0]} has no duration`, "give one mode a job");
  for (const { number, values } of work)
    if (!linked.has(values[0]))
      throw new Unreadable(number, `activity ${values[0]} has no line of successors`, "give each job one");
}

function singleMode(mode: number, line: number): void {
  if (mode !== 1)
    throw new Unreadable(
      line,
      `mode ${mode} stands here`,
      "only files with one mode each, numbered 1, are read",
    );
}

function readSch(text: string): Project {
  const lines: Line[] = [];
  text.split("\n").forEach((line, k) => {
    const plain = line.replace(/[[\]]/g, " ");
    if (plain.trim() !== "") lines.push({ number: k + 1, values: numbers(plain, k + 1) });
  });
  const [inner, resources] = lines[0]!.values;
  const draft = new Draft(inner! + 2, resources!, 0, 1);
  const { n } = draft;
  if (lines.length !== 2 * n + 2)
    throw new Unreadable(
      lines.length,
      `${lines.length} lines, ${2 * n + 2} are needed for ${n} activities`,
      "use a complete file",
    );
  const worked = new Uint8Array(n);
  const linked = new Uint8Array(n);
  for (const line of lines.slice(1 + n, 1 + 2 * n)) draft.work(line, worked);
  for (const { number, values } of lines.slice(1, 1 + n)) {
    const count = values[2] ?? 0;
    if (count < 0) throw new Unreadable(number, `${count} successors are announced`, "give 0 or more");
    if (values.length > 1) singleMode(values[1]!, number);
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
