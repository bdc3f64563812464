import { describe, expect, test } from "vitest";
import { randomBook } from "../inspection/testing/random-book.ts";
import { placesOfPlan } from "../production/live.ts";
import type { WrittenPlace } from "../production/live-schema.ts";
import type { Place } from "../production/live-stand.ts";
import { type OpenLive, openLive } from "./live.ts";
import { run } from "./run.ts";
import { LiveDay } from "./testing/live-day.ts";

/** What happened in all days together: a test in which nothing happens is none. */
const seen = { events: 0, moved: 0, broken: 0, feasible: 0, settled: 0, rests: 0, back: 0, twoOut: 0 };
const kinds = new Map<string, number>();

/** Numbers by a seed. */
function dice(seed: number): (below: number) => number {
  let state = seed * 7919 + 13;
  return (below) => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return Math.floor((state / 2147483648) * below);
  };
}

interface Said {
  readonly body: { readonly kind: string } & Record<string, unknown>;
  readonly corrects?: string;
  /** The task that it names. */
  readonly task?: string;
}

/** The next thing that somebody says, by chance; what is out is taken back more often than not. */
function next(day: LiveDay, roll: (below: number) => number, out: string[]): Said {
  const { tasks } = day.made.live.plan;
  const { crew, units } = day.open.base.site;
  const near = tasks.filter((t) => Math.abs(t.startMin - day.now) < 90);
  const under = near.filter((t) => t.startMin < day.now && t.endMin > day.now + 1);
  const pool = under.length > 0 && roll(2) === 0 ? under : near.length > 0 ? near : tasks;
  const task = pool[roll(pool.length)]!;
  const begun = day.made.stands.get(task.id)!.status !== "open";
  const by = 5 + roll(30);
  const from = day.text(day.now);
  const until = roll(3) > 0 ? { to: day.text(day.now + 10 + roll(80)) } : {};
  const used = tasks.find((t) => t.endMin > day.now && t.equipment.length > 0 && roll(3) === 0);
  const unit = (used ?? task).equipment[0]?.id ?? units.all[0]?.id;
  const person = task.hands[0] ?? crew[roll(crew.length)]?.id;
  const to = day.text(Math.max(day.now, begun ? task.endMin : task.startMin) + by);
  if (out.length > 0 && roll(3) === 0) return { body: { kind: "withdrawn" }, corrects: out.pop()! };
  const said: Said[] = [
    { body: { kind: "started", task: task.id }, task: task.id },
    { body: { kind: "done", task: task.id }, task: task.id },
    { body: { kind: "undone", task: task.id }, task: task.id },
    { body: { kind: "late", task: task.id, edge: begun ? "end" : "start", byMin: by, to }, task: task.id },
    ...(person === undefined ? [] : [{ body: { kind: "absent", person, from, ...until } }]),
    ...(unit === undefined ? [] : [{ body: { kind: "closed", unit, from, ...until } }]),
    ...(unit === undefined ? [] : [{ body: { kind: "closed", unit, from } }]),
  ];
  return said[roll(said.length)]!;
}

const sorted = (ids: readonly string[]) => [...ids].sort().join(" ");

/** Where the tasks stand by the plan and by all that has been written since. */
function asWritten({ open, entries }: LiveDay): Map<string, Place> {
  const { set, plan, site } = open.base;
  const stood = placesOfPlan(set, plan.tasks);
  const minute = site.clock.minuteOf;
  for (const { body } of entries) {
    const { kind, places = [] } = body as { kind: string; places?: readonly WrittenPlace[] };
    if (kind !== "placed") continue;
    for (const { task, start, end, hands, units, again } of places)
      stood.set(task, {
        ...{ start: minute(start), end: minute(end), hands, units },
        ...(again ? { again: { stopped: minute(again.stopped), at: minute(again.at) } } : {}),
      });
  }
  return stood;
}

/** One day of so many events, one after another; each answer judged against the one before it. */
function aDay(open: OpenLive, seed: number, events: number): void {
  const { tasks } = open.base.plan;
  const roll = dice(seed);
  const first = Math.min(...tasks.map((t) => t.startMin));
  const last = Math.max(...tasks.map((t) => t.endMin));
  const day = new LiveDay(open, first + roll(Math.max(1, Math.floor((last - first) * 0.9))));
  const out: string[] = [];
  for (let k = 0; k < events; k++) {
    const before = day.made;
    const stood = asWritten(day);
    day.now = Math.min(last, day.now + roll(20));
    const said = next(day, roll, out);
    const made = day.say(said.body, said.corrects === undefined ? {} : { corrects: said.corrects });
    const what = `seed ${seed}, event ${k + 1} at ${day.text(day.now)}: ${JSON.stringify(said.body)}`;
    const event = day.entries.findLast((e) => (e.body as { kind: string }).kind !== "placed")!;
    if (said.body.kind === "absent" || said.body.kind === "closed") out.push(event.id);

    // The inspector finds nothing wrong with what is still ahead that the plan does not say itself.
    expect(open.unsaid(made, day.now), what).toEqual([]);

    const backs = said.body.kind === "withdrawn" || said.body.kind === "undone";
    for (const { id } of tasks) {
      const [was, is] = [before.stands.get(id)!, made.stands.get(id)!];
      const [there, here] = [before.places.get(id)!, made.places.get(id)!];
      // What has not begun does not stand in the past, unless that is said.
      if (is.status === "open" && here.start < day.now) {
        const told = made.live.plan.broken.some((b) => b.tasks.includes(id));
        expect(told, `${id}, ${what}`).toBe(true);
      }
      // What had begun keeps its start, its hands and its equipment; what was over its end, too.
      const named = id === said.task || id === `${said.task}/wait`;
      if (was.status === "open" || named || backs || made.problem.rests.has(id)) continue;
      if (is.status === "open") continue;
      seen.settled++;
      expect(here.start, `${id}, ${what}`).toBe(there.start);
      if (was.status === "done" && !was.assumed) expect(here.end, `${id}, ${what}`).toBe(there.end);
      if (before.problem.rests.has(id)) continue;
      expect(sorted(here.hands), `${id}, ${what}`).toBe(sorted(there.hands));
      expect(sorted(here.units), `${id}, ${what}`).toBe(sorted(there.units));
    }

    // What is told to have moved is what stands elsewhere than before, no more and no less.
    // Taken back, some of what was written counts no more.
    if (
      !["withdrawn", "undone"].some((kind) =>
        day.entries.some((e) => (e.body as { kind: string }).kind === kind),
      )
    ) {
      const moved = tasks.flatMap(({ id }) => {
        const [a, b] = [stood.get(id)!, made.places.get(id)!];
        if (made.stands.get(id)!.status === "done" && !made.problem.rests.has(id)) return [];
        const same =
          a.start === b.start &&
          a.end === b.end &&
          sorted(a.hands) === sorted(b.hands) &&
          sorted(a.units) === sorted(b.units) &&
          a.again?.at === b.again?.at;
        return same ? [] : [id];
      });
      expect(sorted(made.live.changes.map((c) => c.task)), what).toBe(sorted(moved));
      if (moved.length > 0) seen.moved++;
    }

    // Written down, the answer stands: asked again, nothing moves.
    expect(day.ask().live.changes, what).toEqual([]);

    seen.events++;
    kinds.set(said.body.kind, (kinds.get(said.body.kind) ?? 0) + 1);
    if (made.live.plan.status === "broken") seen.broken++;
    else seen.feasible++;
    seen.rests += made.problem.rests.size;
    if (said.body.kind === "withdrawn") seen.back++;
    if (new Set(made.live.closed.filter((c) => c.to > day.now).map((c) => c.id)).size > 1) seen.twoOut++;
  }
}

describe("L5 to L9, L11 days of several events on random services", () => {
  test.each([1, 3, 8, 9, 11, 12, 17, 48, 61, 67])("random book %i", (seed) => {
    const book = randomBook(seed, 3 + ((seed * 5) % 9));
    const { plan } = run(book, "service-1", { schedules: 4, remedies: false, trace: false });
    if (plan.status === "none" || plan.tasks.length === 0) return;
    const open = openLive(book, "service-1", plan);
    for (const k of [0, 1, 2]) aDay(open, seed * 10 + k, 6);
  });

  test("they were not dull", () => {
    for (const kind of ["started", "done", "undone", "late", "absent", "closed", "withdrawn"])
      expect(kinds.get(kind) ?? 0, kind).toBeGreaterThan(1);
    expect(seen.moved).toBeGreaterThan(15);
    expect(seen.broken).toBeGreaterThan(5);
    expect(seen.feasible).toBeGreaterThan(20);
    expect(seen.settled).toBeGreaterThan(200);
    expect(seen.rests).toBeGreaterThan(0);
    expect(seen.twoOut).toBeGreaterThan(3);
  });
});
