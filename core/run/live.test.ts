import { beforeAll, describe, expect, test } from "vitest";
import { demoBook } from "../../data/demo/book.ts";
import { parseBook } from "../book/parse.ts";
import type { Book } from "../book/schema.ts";
import { randomBook } from "../inspection/testing/random-book.ts";
import type { LiveMade } from "../production/live.ts";
import { liveRemedies } from "../production/live-remedies.ts";
import { checkSchedule } from "../schedule/index.ts";
import { type OpenLive, openLive } from "./live.ts";
import { run } from "./run.ts";
import { LiveDay } from "./testing/live-day.ts";

const read = parseBook(demoBook);
if (!read.ok) throw new Error("the demo is no book");
const book: Book = read.value;

let open: OpenLive;
beforeAll(() => {
  const { plan } = run(book, "demo", { schedules: 8, remedies: false, trace: false });
  expect(plan.status).toBe("feasible");
  open = openLive(book, "demo", plan);
}, 60_000);

const minute = (text: string) => open.base.site.clock.minuteOf(text);
const at = (text: string) => new LiveDay(open, minute(text));
const planned = (id: string) => open.base.plan.tasks.find((task) => task.id === id)!;
/** Work under way at a moment, by the plan. */
const underWay = (now: number, works = true) =>
  open.base.plan.tasks.filter(
    (t) => t.startMin < now && t.endMin > now + 5 && t.kind === "work" && t.hands.length > 0 === works,
  );

/**
 * Judged without the code that mends: what began or is over stands where the log or the plan has it, nothing else
 * begins before now, nobody works who is away, nothing stands in what is closed, and what is not kept is said.
 */
function judge(day: LiveDay, made: LiveMade): void {
  const { live, problem, repaired, stands } = made;
  expect(repaired.violations).toEqual(checkSchedule(problem.problem, repaired.schedule));
  if (repaired.violations.length > 0) expect(live.plan.broken.length).toBeGreaterThan(0);
  expect(live.plan.status).toBe(live.plan.broken.length > 0 ? "broken" : "feasible");
  const told = new Set(live.plan.broken.flatMap((b) => b.tasks));
  const byId = new Map(live.plan.tasks.map((task) => [task.id, task]));
  const marks = new Map<string, number>();
  for (const { body } of day.entries as { body: { kind: string; task: string; when: string } | null }[])
    if (body?.kind === "started") marks.set(body.task, minuteIn(day, body.when));
  for (const [id, start] of marks) expect(byId.get(id)!.startMin).toBe(start);
  for (const task of live.plan.tasks) {
    const stand = stands.get(task.id)!;
    if (stand.status === "open") {
      if (!told.has(task.id)) expect(task.startMin, task.id).toBeGreaterThanOrEqual(day.now);
    } else {
      expect(task.startMin, task.id).toBe(stand.start);
      if (!problem.rests.has(task.id)) expect(task.endMin, task.id).toBe(stand.end);
    }
    if (stand.status !== "open" || told.has(task.id)) continue;
    for (const out of live.away)
      if (task.hands.includes(out.id)) expect(shared(task, out), `${task.id} by ${out.id}`).toBe(0);
    for (const out of live.closed)
      if (task.equipment.some((each) => each.id === out.id))
        expect(shared(task, out), `${task.id} in ${out.id}`).toBe(0);
  }
}
const shared = (task: { startMin: number; endMin: number }, out: { from: number; to: number }) =>
  Math.max(0, Math.min(task.endMin, out.to) - Math.max(task.startMin, out.from));
const minuteIn = (day: LiveDay, text: string) => day.open.base.site.clock.minuteOf(text);

describe("L5, L6 what has happened stands", () => {
  test("L5 with nothing said, nothing moves, and what was to have happened is taken as done", () => {
    for (const moment of ["D-1 11:00", "D 16:00", "D 20:15"]) {
      const day = at(moment);
      expect(day.made.live.changes).toEqual([]);
      expect(day.made.live.breaches).toEqual([]);
      for (const { task, status, assumed } of day.made.live.states) {
        const { startMin, endMin } = planned(task);
        if (endMin <= day.now && startMin < day.now) expect([task, status]).toEqual([task, "done"]);
        if (startMin >= day.now) expect([task, status]).toEqual([task, "open"]);
        if (status !== "open") expect(assumed).toBe(true);
      }
      judge(day, day.made);
    }
  });

  test("L6 a task that ends later moves what follows it, and itself keeps its start", () => {
    const day = at("D 16:00");
    const [task] = underWay(day.now);
    const made = day.say({
      kind: "late",
      task: task!.id,
      edge: "end",
      byMin: 30,
      to: day.text(task!.endMin + 30),
    });
    const now = made.live.plan.tasks.find((t) => t.id === task!.id)!;
    expect([now.startMin, now.endMin]).toEqual([task!.startMin, task!.endMin + 30]);
    for (const id of task!.hands)
      for (const other of made.live.plan.tasks)
        if (other.id !== task!.id && other.hands.includes(id) && other.startMin >= day.now)
          expect(other.startMin).toBeGreaterThanOrEqual(now.endMin);
    judge(day, made);
    // Written down, it is the plan: asked again, nothing moves any more.
    expect(day.ask().live.changes).toEqual([]);
  });

  test("L6 done early frees the hands and moves nothing", () => {
    const day = at("D 16:00");
    const [task] = underWay(day.now);
    const made = day.say({ kind: "done", task: task!.id });
    const now = made.live.plan.tasks.find((t) => t.id === task!.id)!;
    expect([now.startMin, now.endMin]).toEqual([task!.startMin, day.now]);
    expect(made.live.states.find((s) => s.task === task!.id)).toMatchObject({
      status: "done",
      assumed: false,
    });
    judge(day, made);
  });

  test("L5 what comes after something late is not taken as begun", () => {
    const day = at("D 16:00");
    const chain = open.base.plan.tasks.find(
      (t) => t.kind === "work" && t.startMin > minute("D 12:00") && t.endMin < day.now && t.hands.length > 0,
    )!;
    day.say({ kind: "late", task: chain.id, edge: "start", byMin: 5, to: day.text(day.now + 5) });
    const status = (id: string) => day.made.live.states.find((s) => s.task === id)!.status;
    expect(status(chain.id)).toBe("open");
    for (const next of open.base.plan.tasks)
      if (next.after.includes(chain.id)) expect([next.id, status(next.id)]).toEqual([next.id, "open"]);
    judge(day, day.made);
  });
});

describe("L7 somebody away, equipment out", () => {
  test("L7 nobody who is away has work; the work is given to others or it is said", () => {
    const day = at("D 16:00");
    const id = day.open.base.site.crew.find((c) =>
      c.shifts.some((s) => s.from < day.now && s.to > day.now + 120),
    )!.id;
    const made = day.say({ kind: "absent", person: id, from: "D 16:00", to: "D 17:00" });
    judge(day, made);
    expect(made.live.changes.length).toBeGreaterThan(0);
    expect(day.ask().live.changes).toEqual([]);
  });

  test("L7 a blender out: its work goes to the other", () => {
    const day = at("D 16:00");
    const made = day.say({ kind: "closed", unit: "blenders#1", from: "D 16:00" });
    judge(day, made);
    expect(made.live.breaches).toEqual([]);
    const on = made.live.plan.tasks.filter(
      (t) => t.startMin >= day.now && t.equipment.some((e) => e.id === "blenders#1"),
    );
    expect(on).toEqual([]);
  });

  test("L8 what runs in an oven that dies is broken off: it goes on elsewhere, later, or it is said", () => {
    const day = at("D 16:00");
    const inOven = open.base.plan.tasks.filter(
      (t) =>
        t.startMin < day.now &&
        t.endMin > day.now &&
        t.equipment.some((e) => e.id.startsWith("range-burners")),
    );
    const unit = inOven[0]!.equipment[0]!.id;
    const back = day.say({ kind: "closed", unit, from: "D 16:00", to: "D 16:10" });
    judge(day, back);
    for (const task of inOven) {
      const now = back.live.plan.tasks.find((t) => t.id === task.id)!;
      expect(now.startMin).toBe(task.startMin);
      // As long as was left, from when the unit is back.
      expect(now.endMin).toBeGreaterThanOrEqual(task.endMin + 10);
    }
    const gone = at("D 16:00");
    const made = gone.say({ kind: "closed", unit, from: "D 16:00" });
    judge(gone, made);
    for (const task of inOven)
      expect(made.live.breaches.some((b) => b.tasks.includes(task.id) && b.what.includes("broken off"))).toBe(
        true,
      );
  });

  test("L10 the combi dead at 16:00: what has no oven is named with its minutes, and what was tried is told", () => {
    const day = at("D 16:00");
    const made = day.say({ kind: "closed", unit: "combi-1", from: "D 16:00" });
    judge(day, made);
    const waiting = open.base.plan.tasks.filter(
      (t) => t.endMin > day.now && t.equipment.some((e) => e.id === "combi-1"),
    );
    expect(waiting.length).toBeGreaterThan(2);
    for (const task of waiting) expect(made.live.breaches.some((b) => b.tasks.includes(task.id))).toBe(true);
    for (const b of made.live.breaches)
      expect([b.rule, b.by > 0, /Combi/.test(b.what)]).toEqual(["equipment", true, true]);
    const remedies = liveRemedies(open.base, { entries: day.entries, now: day.now, rehearsal: false }, made);
    expect(remedies.some((r) => r.fits && /back by/.test(r.change))).toBe(true);
    for (const { fits, result } of remedies) expect(fits).toBe(result === "fits");
  });

  test("L10 other equipment that reaches the temperature, once somebody says so, is the plan", () => {
    const day = at("D 16:00");
    const made = day.say({ kind: "closed", unit: "range-oven-1", from: "D 16:00" });
    const remedies = liveRemedies(open.base, { entries: day.entries, now: day.now, rehearsal: false }, made);
    const other = remedies.find((r) => r.instead)!;
    expect(other.moves.length).toBeGreaterThan(0);
    // Whoever is in charge says so: then it is the plan.
    day.say({ kind: "instead", each: other.instead });
    judge(day, day.made);
    expect(day.made.live.breaches.length).toBeLessThan(made.live.breaches.length);
    for (const { tasks, unit } of other.instead!)
      for (const id of tasks) {
        const task = day.made.live.plan.tasks.find((t) => t.id === id)!;
        for (const each of task.equipment) expect(each.id.split("#")[0]).toBe(unit);
      }
  });

  test("L13 a course called later takes its plates along, and nothing else", () => {
    const day = at("D 19:00");
    const milestone = open.base.set.tasks.findLast((t) => t.id.startsWith("course/"))!;
    const to = planned(milestone.id).startMin + 15;
    const made = day.say({ kind: "late", task: milestone.id, edge: "start", byMin: 15, to: day.text(to) });
    judge(day, made);
    const now = new Map(made.live.plan.tasks.map((task) => [task.id, task]));
    expect(now.get(milestone.id)!.startMin).toBe(to);
    for (const task of open.base.set.tasks) {
      const [was, is] = [planned(task.id), now.get(task.id)!];
      if (task.kind === "plate" && task.step === milestone.step) {
        expect(is.endMin).toBeLessThanOrEqual(to);
        expect(is.startMin).toBeGreaterThanOrEqual(was.startMin + 15);
      } else if (task.kind === "plate") expect([task.id, is.startMin]).toEqual([task.id, was.startMin]);
    }
    // The guests wait, and that is said; the inspector knows of nothing more.
    const said = made.live.breaches.find((b) => b.tasks.includes(milestone.id));
    expect([said?.by, said?.what]).toEqual([15, expect.stringContaining("15 min later than the service")]);
    expect(open.unsaid(made, day.now)).toEqual([]);
  });

  test("L10 a cook who does not come back: one more pair of hands is a remedy", () => {
    const day = at("D 16:00");
    const made = underWay(day.now)
      .map((task) => {
        const again = at("D 16:00");
        return { again, made: again.say({ kind: "absent", person: task.hands[0]!, from: "D 16:00" }) };
      })
      .find(({ made: { live } }) => live.breaches.length > 0)!;
    const asked = { entries: made.again.entries, now: day.now, rehearsal: false };
    const more = liveRemedies(open.base, asked, made.made).find((r) => /one more pair/.test(r.change));
    expect(more?.moves.length).toBeGreaterThan(0);
  });

  test("L10 plates that come late: their course as much later is a remedy", () => {
    const day = at("D 19:00");
    const plate = open.base.plan.tasks.findLast((t) => t.kind === "plate")!;
    const to = plate.startMin + 12;
    const made = day.say({ kind: "late", task: plate.id, edge: "start", byMin: 12, to: day.text(to) });
    const late = made.live.breaches.find((b) => b.tasks.includes(plate.id))!;
    expect(late.by).toBeGreaterThan(0);
    const remedies = liveRemedies(open.base, { entries: day.entries, now: day.now, rehearsal: false }, made);
    expect(remedies.find((r) => /min later/.test(r.change))?.fits).toBe(true);
  });
});

describe("L1 to L4 the log in any state", () => {
  const busy = () => {
    const day = at("D 16:00");
    const [one] = underWay(day.now);
    const two = day.made.live.plan.tasks.find(
      ({ hands, startMin }) =>
        startMin > day.now && hands.length > 0 && hands.every((id) => !one!.hands.includes(id)),
    );
    day.say({ kind: "started", task: one!.id });
    day.now += 3;
    day.say({ kind: "absent", person: two!.hands[0]!, from: "D 16:03", to: "D 16:40" });
    day.now += 4;
    day.say({ kind: "late", task: one!.id, edge: "end", byMin: 20, to: day.text(day.now + 40) });
    day.now += 2;
    day.say({ kind: "done", task: one!.id });
    return day;
  };

  test("L1 twice, backwards, in any order: the same plan", () => {
    const day = busy();
    const wanted = day.ask().live;
    const twice = [...day.entries, ...day.entries];
    expect(day.ask(twice).live).toEqual(wanted);
    expect(day.ask([...day.entries].reverse()).live).toEqual(wanted);
    const at = (i: number) => (i * 397) % 1009;
    const mixed = twice.map((e, i) => [at(i), e] as const).sort((a, b) => a[0] - b[0]);
    expect(day.ask(mixed.map(([, e]) => e)).live).toEqual(wanted);
  });

  test("L2 a tablet whose clock is slow: what it has seen comes first, and it is said", () => {
    const day = at("D 16:00");
    const [task] = underWay(day.now);
    day.say({ kind: "started", task: task!.id });
    const slow = { at: "2020-01-01T00:00:00.000Z" };
    const made = day.say({ kind: "done", task: task!.id, when: "D 15:40" }, slow);
    expect(made.live.states.find((s) => s.task === task!.id)!.status).toBe("done");
    expect(made.live.plan.tasks.find((t) => t.id === task!.id)!.endMin).toBe(day.now);
    expect(made.live.unfollowed[0]!.what).toMatch(/clocks/);
    judge(day, made);
    const fast = at("D 16:00");
    fast.say({ kind: "done", task: task!.id, when: "D 18:00" });
    expect(fast.made.live.plan.tasks.find((t) => t.id === task!.id)!.endMin).toBe(fast.now);
    expect(fast.made.live.unfollowed[0]!.what).toMatch(/120 min from now/);
  });

  test("L3 an undone mark, an event taken back: the plan as it was", () => {
    const day = at("D 16:00");
    const before = day.made.live.plan;
    const moved = day.say({ kind: "closed", unit: "deck-oven#2", from: "D 18:00" });
    expect(moved.live.changes.length).toBeGreaterThan(0);
    const event = day.entries[0]!.id;
    const back = day.say({ kind: "withdrawn" }, { corrects: event });
    expect(back.live.closed).toEqual([]);
    expect(back.live.plan.tasks.map((t) => [t.id, t.start, t.end])).toEqual(
      before.tasks.map((t) => [t.id, t.start, t.end]),
    );
    const [task] = underWay(day.now);
    day.say({ kind: "done", task: task!.id });
    const undone = day.say({ kind: "undone", task: task!.id });
    expect(undone.live.plan.tasks.find((t) => t.id === task!.id)!.endMin).toBe(task!.endMin);
    judge(day, undone);
  });

  test("L4 what names nothing here, or cannot be read, is said and changes nothing", () => {
    const day = at("D 16:00");
    const { tasks } = day.made.live.plan;
    const odd: [object, RegExp][] = [
      [{ kind: "done", task: "no/such/1" }, /no\/such\/1/],
      [{ kind: "absent", person: "nobody", from: "D 16:00" }, /nobody/],
      [{ kind: "closed", unit: "moon-oven", from: "D 16:00" }, /moon-oven/],
      [{ kind: "closed", unit: "combi-1", from: "D 17:00", to: "D 16:00" }, /ends after it begins|out from/],
      [{ kind: "late", task: tasks[0]!.id }, /cannot be read/],
      [{ kind: "started" }, /cannot be read/],
      [{ kind: "done", task: tasks[0]!.id, when: "D-9 10:00" }, /before the run/],
      [{ kind: "undone", task: tasks[0]!.id }, /no mark/],
    ];
    for (const [body, words] of odd) {
      const made = day.say(body);
      expect(made.live.unfollowed.map((u) => `${u.what}; ${u.mend}`).join("\n")).toMatch(words);
      expect(made.live.changes).toEqual([]);
    }
    for (const body of [null, 7, "x", [], { kind: "reading", value: 3 }, {}])
      day.entries.push({ ...day.entry({}), body });
    expect(day.ask().live.changes).toEqual([]);
  });

  test("L4 a rehearsal does not count on the day, nor after it was cleared", () => {
    const day = at("D 16:00");
    const [task] = underWay(day.now);
    day.say({ kind: "done", task: task!.id, rehearsal: true });
    expect(day.made.live.states.find((s) => s.task === task!.id)!.status).toBe("started");
    const ask = () => open.at({ entries: day.entries, now: day.now, rehearsal: true }).live;
    expect(ask().states.find((s) => s.task === task!.id)!.status).toBe("done");
    day.say({ kind: "cleared", rehearsal: true });
    expect(ask().states.find((s) => s.task === task!.id)!.status).toBe("started");
  });
});

describe("L1 to L9 random days", () => {
  const counts = { moved: 0, broken: 0, rests: 0 };
  const days = (live: OpenLive, seed: number, events: number) => {
    let state = seed * 7919 + 13;
    const next = (below: number) => {
      state = (state * 1103515245 + 12345) % 2147483648;
      return Math.floor((state / 2147483648) * below);
    };
    const { tasks } = live.base.plan;
    if (tasks.length === 0) return;
    const first = Math.min(...tasks.map((t) => t.startMin));
    const last = Math.max(...tasks.map((t) => t.endMin));
    const day = new LiveDay(live, first + next(Math.max(1, Math.floor((last - first) * 0.8))));
    for (let k = 0; k < events; k++) {
      day.now = Math.min(last, day.now + next(25));
      const near = day.made.live.plan.tasks.filter((t) => Math.abs(t.startMin - day.now) < 120);
      const under = near.filter((t) => t.startMin < day.now && t.endMin > day.now + 1);
      const pool =
        under.length > 0 && next(2) === 0 ? under : near.length > 0 ? near : [...day.made.live.plan.tasks];
      const task = pool[next(pool.length)]!;
      // Rather somebody at work, and something in use.
      const person = task.hands[0] ?? live.base.site.crew[next(live.base.site.crew.length)]?.id ?? "nobody";
      const used = under.find((t) => t.equipment.length > 0);
      const unit = (used ?? task).equipment[0]?.id ?? live.base.site.units.all[0]?.id ?? "nothing";
      const started = day.made.stands.get(task.id)!.status === "started";
      const until = next(2) === 0 ? {} : { to: day.text(day.now + 10 + next(90)) };
      const entries = day.entries.filter((e) => (e.body as { kind: string }).kind === "closed");
      const by = 5 + next(20);
      const bodies: [object, { corrects?: string }?][] = [
        [{ kind: "started", task: task.id }],
        [{ kind: "done", task: task.id }],
        [{ kind: "undone", task: task.id }],
        [
          {
            ...{ kind: "late", task: task.id, byMin: by, edge: started ? "end" : "start" },
            to: day.text(Math.max(day.now, started ? task.endMin : task.startMin) + by),
          },
        ],
        [{ kind: "absent", person, from: day.text(day.now), ...until }],
        [{ kind: "closed", unit, from: day.text(day.now), ...until }],
        ...(entries.length > 0
          ? [[{ kind: "withdrawn" }, { corrects: entries[next(entries.length)]!.id }] as [object, object]]
          : []),
      ];
      const [body, more] = bodies[next(bodies.length)]!;
      const made = day.say(body, more ?? {});
      judgeLoosely(day, made);
      if (made.live.changes.length > 0) counts.moved++;
      if (made.live.breaches.length > 0) counts.broken++;
      counts.rests += made.problem.rests.size;
    }
    const wanted = day.ask().live;
    expect(day.ask([...day.entries, ...day.entries].reverse()).live).toEqual(wanted);
  };
  /** As `judge`, for days on which tasks are begun more than once. */
  const judgeLoosely = (day: LiveDay, made: LiveMade) => {
    const { live, problem, repaired, stands } = made;
    expect(repaired.violations).toEqual(checkSchedule(problem.problem, repaired.schedule));
    expect(live.plan.status).toBe(live.plan.broken.length > 0 ? "broken" : "feasible");
    if (repaired.violations.length > 0) expect(live.plan.broken.length).toBeGreaterThan(0);
    const told = new Set(live.plan.broken.flatMap((b) => b.tasks));
    for (const task of live.plan.tasks) {
      const stand = stands.get(task.id)!;
      if (stand.status !== "open") {
        expect(task.startMin, task.id).toBe(stand.start);
        if (!problem.rests.has(task.id)) expect(task.endMin, task.id).toBe(stand.end);
      } else if (!told.has(task.id)) {
        expect(task.startMin, task.id).toBeGreaterThanOrEqual(day.now);
        for (const out of [...live.away, ...live.closed])
          if (task.hands.includes(out.id) || task.equipment.some((e) => e.id === out.id))
            expect(shared(task, out), `${task.id} ${out.id}`).toBe(0);
      }
    }
  };

  test.each([2])("the demo, day %i", (seed) => days(open, seed, 5), 60_000);

  test.each([1, 3, 4, 7, 8, 9])("random book %i", (seed) => {
    const random = randomBook(seed, 3 + ((seed * 7) % 13));
    const { plan } = run(random, "service-1", { schedules: 4, remedies: false, trace: false });
    if (plan.status === "none") return;
    days(openLive(random, "service-1", plan), seed, 4);
  });

  test("they were not dull", () => {
    expect(counts.moved).toBeGreaterThan(10);
    expect(counts.broken).toBeGreaterThan(3);
    expect(counts.rests).toBeGreaterThan(0);
  });
});
