import { parseBook } from "../core/book/parse.ts";
import { type OpenLive, openLive } from "../core/run/live.ts";
import { warmings } from "../core/run/live-warm.ts";
import { run } from "../core/run/run.ts";
import { demoBook } from "../data/demo/book.ts";

/** Processor time an event may take, ms: what a cook does not notice. */
const LIMIT = 200;
const ROUNDS = 3;

/**
 * Processor time of one event of each kind in the afternoon of the day, on the demo and on 700 covers in the banquet
 * kitchen: reading the log, mending, judging and writing the plan back; after the warming up that the board does while
 * nobody asks. The first of all events is told apart.
 */
export async function liveBench() {
  const read = parseBook(demoBook);
  if (!read.ok) throw new Error("the demo is no book");
  const rows: { name: string; value: number; unit: string; goal: number; ok: boolean }[] = [];
  for (const [service, words] of [
    ["demo", "72 covers"],
    ["demo-banquet", "700 covers, banquet kitchen"],
  ] as const) {
    const { plan } = run(read.value, service, { remedies: false, trace: false });
    const open = openLive(read.value, service, plan);
    for (const warm of warmings(open, { entries: [], now: 0, rehearsal: false })) warm();
    for (const [k, [name, body]] of eventsOf(open).entries()) {
      const entry = { id: "00000000-0000-4000-8000-000000000001", at: "2027-01-30T16:00:00Z", body };
      const asked = { entries: [entry], now: nowOf(open), rehearsal: false };
      const timed = () => {
        const before = process.cpuUsage();
        open.at(asked);
        const { user, system } = process.cpuUsage(before);
        return (user + system) / 1000;
      };
      const first = timed();
      const value = Array.from({ length: ROUNDS }, timed).sort((a, b) => a - b)[ROUNDS >> 1]!;
      const { changes, breaches } = open.at(asked).live;
      const what = `${name}: ${changes.length} moved, ${breaches.length} break`;
      const row = (of: string, ms: number) =>
        void rows.push({
          name: `${words} (${plan.tasks.length} tasks), ${of}`,
          ...{ value: ms, unit: "ms", goal: LIMIT, ok: ms <= LIMIT },
        });
      if (k === 0) row("the first event of all", first);
      row(what, value);
    }
  }
  return rows;
}

const nowOf = ({ base }: OpenLive) => base.site.clock.minuteOf("D 16:00");

function eventsOf(open: OpenLive): [string, object][] {
  const now = nowOf(open);
  const { clock, crew } = open.base.site;
  const { tasks } = open.base.plan;
  const under = tasks.find(
    (t) => t.startMin < now && t.endMin > now + 5 && t.kind === "work" && t.hands.length > 0,
  )!;
  const next = tasks
    .filter((t) => t.startMin >= now && t.kind === "work" && t.hands.length > 0)
    .sort((a, b) => a.startMin - b.startMin)[0]!;
  const free = tasks
    .filter((t) => t.startMin >= now && t.kind === "work" && t.hands.length > 0)
    .sort((a, b) => a.startMin - b.startMin)
    .find(
      (t) =>
        !tasks.some((o) => o.startMin < now && o.endMin > now && o.hands.some((id) => t.hands.includes(id))),
    )!;
  const at = { when: clock.textOf(now), turn: 1 };
  const person = crew.find((cook) => under.hands.includes(cook.id))!.id;
  const hot = tasks.find((t) => t.startMin > now + 30 && t.equipment.some((e) => e.setC !== undefined))!;
  const unit = hot.equipment.find((e) => e.setC !== undefined)!.id;
  return [
    ["started", { ...at, kind: "started", task: free.id }],
    ["started while its cook is still at something else", { ...at, kind: "started", task: next.id }],
    ["done", { ...at, kind: "done", task: under.id }],
    [
      "10 min late",
      { ...at, kind: "late", task: under.id, edge: "end", byMin: 10, to: clock.textOf(under.endMin + 10) },
    ],
    [
      "30 min late",
      { ...at, kind: "late", task: under.id, edge: "end", byMin: 30, to: clock.textOf(under.endMin + 30) },
    ],
    ["a cook away for an hour", { ...at, kind: "absent", person, from: at.when, to: clock.textOf(now + 60) }],
    ["a cook away for good", { ...at, kind: "absent", person, from: at.when }],
    ["an oven out for an hour", { ...at, kind: "closed", unit, from: at.when, to: clock.textOf(now + 60) }],
    ["an oven out for good", { ...at, kind: "closed", unit, from: at.when }],
  ];
}
