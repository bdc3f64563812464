import type { Dish } from "../plating/schema.ts";
import type { PlateAmount } from "./amounts.ts";
import { handsWith } from "./durations.ts";
import { handSeconds, plateUpMinutes, wholeDown, wholeUp } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { Draft } from "./step-tasks.ts";
import { courseTask, type Way } from "./tasks.ts";

/** The line check begins so long before the service … (rule of the trade, no source) */
export const LINE_CHECK_BEFORE_MIN = 60;
/** … and takes so long for one pair of hands (common practice, no source). */
export const LINE_CHECK_MIN = 10;
export const LINE_CHECK = "line-check";

/** The moment of a course and the plate-up of its dishes. */
export interface CourseMoment {
  readonly course: string;
  /** Minute at which its plates are there. */
  readonly at: number;
  /** By dish: the task of its plate-up and how long that may last. */
  readonly dishes: ReadonlyMap<string, { readonly task: string; readonly windowMin: number }>;
}

/** Fixed moments of the service: the line check, and each course with its plate-up (README, P12). */
export function milestones(site: Site, draft: Draft): CourseMoment[] {
  const check = site.clock.service - LINE_CHECK_BEFORE_MIN;
  const service = site.docs.pointer("services", site.amounts.service.id);
  if (check >= 0)
    draft.tasks.push({
      ...PLAIN,
      id: LINE_CHECK,
      kind: "milestone",
      name: "Line check and tasting",
      ...skillIfKnown(site, "lead"),
      ways: [{ hands: Math.min(1, site.crew.length), minutes: LINE_CHECK_MIN }],
      at: check,
      ...stationIfKnown(site, "pass"),
      how: { from: "fixed", pointer: service },
    });
  else
    site.doubts.push({
      path: `${service}/horizon`,
      what: "there is no room for a line check an hour before the service",
      mend: "let the horizon begin earlier",
    });
  return site.amounts.menu.courses.map((course) => {
    const at = site.clock.service + wholeDown(course.afterMin);
    const milestone = courseTask(course.id);
    draft.tasks.push({
      ...PLAIN,
      id: milestone,
      kind: "milestone",
      step: course.id,
      name: course.name,
      ways: [{ hands: 0, minutes: 0 }],
      at: Math.max(0, at),
      how: { from: "fixed", pointer: service },
    });
    const dishes = new Map<string, { task: string; windowMin: number }>();
    const plates = new Map<string, PlateAmount[]>();
    for (const plate of site.amounts.plates) {
      if (plate.course !== course.id || plate.count + plate.spare === 0) continue;
      const list = plates.get(plate.dish);
      if (list) list.push(plate);
      else plates.set(plate.dish, [plate]);
    }
    for (const [id, rows] of plates) {
      const dish = site.docs.dishes.get(id);
      if (!dish) continue;
      dishes.set(id, plateUp(site, draft, course.id, milestone, at, dish, rows));
    }
    return { course: course.id, at, dishes };
  });
}

const PLAIN = {
  preparation: "",
  step: "",
  batch: 0,
  share: 1,
  interruptible: false,
  uses: [],
  inG: 0,
  outG: 0,
  pieces: 0,
} as const;

/** All plates of one dish of one course, in a line of one or more hands, ended by the course's moment. */
function plateUp(
  site: Site,
  draft: Draft,
  course: string,
  milestone: string,
  at: number,
  dish: Dish,
  rows: readonly PlateAmount[],
): { task: string; windowMin: number } {
  const id = `plate/${course}/${dish.id}`;
  const windowMin = wholeDown(dish.windowMin);
  const seconds = handSecondsOf(rows);
  const { skill } = skillIfKnown(site, "plating");
  const able = handsWith(site, skill);
  // One gesture may need several hands at once.
  const together = Math.max(1, ...rows.flatMap((row) => row.placements.map((p) => p.hands)));
  const wanted = Math.max(together, wholeUp(seconds / 60 / Math.max(1, windowMin)));
  const ways: Way[] = [];
  for (let hands = Math.min(wanted, able); hands <= able; hands++) {
    const minutes = plateUpMinutes(seconds, Math.max(1, hands));
    if (ways.length === 0 || minutes < ways.at(-1)!.minutes) ways.push({ hands, minutes });
  }
  const plates = rows.reduce((sum, row) => sum + row.count + row.spare, 0);
  draft.tasks.push({
    ...PLAIN,
    id,
    kind: "plate",
    preparation: dish.id,
    step: course,
    name: `Plate ${dish.name}`,
    ...(skill === undefined ? {} : { skill }),
    ...stationIfKnown(site, "pass"),
    ways,
    pieces: plates,
    release: Math.max(0, at - windowMin),
    deadline: Math.max(0, at),
    how: { from: "plating", pointer: site.docs.pointer("dishes", dish.id) },
  });
  draft.links.push({
    from: { task: id, at: "end" },
    to: { task: milestone, at: "start" },
    rule: "course",
    least: 0,
  });
  return { task: id, windowMin };
}

/** Seconds of one pair of hands for all these plates. */
export function handSecondsOf(rows: readonly PlateAmount[]): number {
  return rows.reduce(
    (sum, row) =>
      sum +
      handSeconds(
        row.count + row.spare,
        row.placements.reduce((each, p) => each + p.seconds * p.hands, 0),
      ),
    0,
  );
}

/** A skill of the trade that a kitchen may or may not tell apart. */
function skillIfKnown(site: Site, skill: string): { skill?: string } {
  return site.crew.some((person) => person.skills.includes(skill)) ? { skill } : {};
}

function stationIfKnown(site: Site, station: string): { station?: string } {
  return site.kitchen.stations.some((s) => s.id === station) ? { station } : {};
}
