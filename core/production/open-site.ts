import type { Amounts } from "./amounts.ts";
import type { Apart } from "./apart.ts";
import { type Clock, clockOf } from "./clock.ts";
import type { Documents } from "./documents.ts";
import type { Kitchen } from "./schema.ts";
import type { Cook, FillTarget, Site } from "./site.ts";
import type { Doubt } from "./tasks.ts";
import { unitsOf } from "./units.ts";

/** What a plan is made for, beside the documents and the amounts. */
export interface SiteOptions {
  readonly fillTarget: FillTarget;
  /** Instead of the amounts' kitchen: a change that is tried. */
  readonly kitchen?: Kitchen | undefined;
  /** Minute from which an ingredient is there. */
  readonly earliest?: ReadonlyMap<string, number> | undefined;
  /** What must be kept apart for a guest. */
  readonly apart?: Apart | undefined;
}

/** Sets the kitchen on the time axis of the service (README, P1, P15). */
export function openSite(docs: Documents, amounts: Amounts, options: SiteOptions): Site {
  const kitchen = options.kitchen ?? amounts.kitchen;
  const clock = clockOf(amounts.service.at, kitchen.zone, amounts.service.horizon);
  const doubts: Doubt[] = [];
  return {
    docs,
    amounts,
    kitchen,
    clock,
    crew: crewOf(docs, kitchen, clock, doubts),
    units: unitsOf(kitchen),
    fillTarget: options.fillTarget,
    earliest: options.earliest ?? new Map(),
    apart: options.apart,
    lacks: [],
    doubts,
  };
}

function crewOf(docs: Documents, kitchen: Kitchen, clock: Clock, doubts: Doubt[]): Cook[] {
  return kitchen.crew.flatMap((person, i): Cook[] => {
    const path = `${docs.pointer("kitchens", kitchen.id)}/crew/${i}/shifts`;
    const shifts: Cook["shifts"][number][] = [];
    const onAxis = person.shifts
      .map((shift, k) => ({ k, from: clock.minuteOf(shift.from), to: clock.minuteOf(shift.to), shift }))
      .sort((x, y) => x.from - y.from);
    for (const { k, from, to, shift } of onAxis) {
      if (to <= from)
        doubts.push({
          path: `${path}/${k}`,
          what: `${person.name}'s shift ends before it begins`,
          mend: "put from before to; until then the shift is left out",
        });
      // Shifts that overlap are one; work before the horizon is not planned.
      const start = Math.max(from, 0, shifts.at(-1)?.to ?? 0);
      if (to > start) shifts.push({ from: start, to, breaks: breaksOf(shift, clock, start, to) });
    }
    const works = shifts.some((s) => s.to - s.from > s.breaks.reduce((sum, b) => sum + b.to - b.from, 0));
    if (works) return [{ id: person.id, name: person.name, skills: person.skills, shifts }];
    doubts.push({
      path,
      what: `${person.name} has no minute of work between the horizon and the end of the service`,
      mend: "give a shift in that time, or take the person out",
    });
    return [];
  });
}

function breaksOf(shift: Kitchen["crew"][number]["shifts"][number], clock: Clock, from: number, to: number) {
  const breaks: { from: number; to: number }[] = [];
  for (const pause of shift.breaks
    .map((b) => ({ from: clock.minuteOf(b.from), to: clock.minuteOf(b.to) }))
    .sort((x, y) => x.from - y.from)) {
    const start = Math.max(pause.from, from, breaks.at(-1)?.to ?? 0);
    const end = Math.min(pause.to, to);
    if (start < end) breaks.push({ from: start, to: end });
  }
  return breaks;
}
