import type { LiveAsk } from "../production/live.ts";
import type { OpenLive } from "./live.ts";

/** Tasks that something is made up of. */
const TASKS = 4;

/** Share of the plan that is over at the minute taken: the same code runs, on little. */
const OVER = 0.75;

/**
 * Mends for nothing, one at a call: the first event of a service should not take three times as long as those after it
 * because no code has been run before. What is made up is one event of each kind that moves a plan, late in the plan,
 * of the tasks next; nothing of it is kept. With nothing ahead there is nothing to make up.
 */
export function warmings(live: OpenLive, { entries, now, rehearsal }: LiveAsk): (() => void)[] {
  const { site, plan } = live.base;
  const { clock } = site;
  const inOrder = plan.tasks.toSorted((a, b) => a.startMin - b.startMin);
  const later = Math.max(now, inOrder[Math.floor(OVER * inOrder.length)]?.startMin ?? now);
  const ahead = inOrder.filter((task) => task.startMin > later && task.hands.length > 0).slice(0, TASKS);
  const [when, to] = [clock.textOf(later), clock.textOf(later + 60)];
  const bodies = ahead.flatMap((task) => {
    const [person, unit] = [task.hands[0]!, task.equipment[0]?.id ?? site.units.all[0]?.id];
    return [
      { kind: "absent", person, from: when, to },
      { kind: "late", task: task.id, edge: "start", byMin: 20, to: clock.textOf(task.startMin + 20) },
      ...(unit === undefined ? [] : [{ kind: "closed", unit, from: when }]),
      { kind: "absent", person, from: when },
      { kind: "started", task: task.id },
    ];
  });
  return bodies.map((body) => () => {
    const turn = entries.length + 1;
    const entry = { id: "made-up", at: "1970-01-01T00:00:00Z", body: { ...body, when, turn } };
    live.at({ entries: [...entries, entry], now: later, rehearsal });
  });
}
