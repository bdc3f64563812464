import type { Allergen } from "../pantry/schema.ts";
import { isPacked, passingOf } from "./contact.ts";
import { benchOf, contactsOf } from "./contacts.ts";
import type { CleanFirst } from "./plan-types.ts";
import type { Planned } from "./planned.ts";
import type { Site } from "./site.ts";
import { type Unit, VESSELS } from "./units.ts";

/** Longer than any plan: of equipment nobody says how to clean. */
const NEVER = 1e6;

/**
 * What is cleaned before a task begins, by task (README, P18): a vessel that another preparation was in, and a
 * unit or bench that had what a guest's food must be kept from. The plan has the minutes for it.
 */
export function cleanFirst(site: Site, planned: readonly Planned[]): Map<string, CleanFirst[]> {
  const told = new Map<string, CleanFirst[]>();
  const contacts = contactsOf(
    site,
    planned.map(({ task }) => task),
    NEVER,
  );
  const units = new Map(site.units.all.map((unit) => [unit.id, unit]));
  const tell = ({ task }: Planned, unit: Unit | undefined, noTraceOf: readonly Allergen[]) => {
    const one = { ...(unit ? { unit: unit.id, name: unit.name } : {}), noTraceOf };
    told.set(task.id, eachOnce([...(told.get(task.id) ?? []), one]));
  };
  for (const [place, uses] of byPlace(planned)) {
    const unit = units.get(place);
    uses.forEach((use, i) => {
      const before = uses.slice(0, i).reverse();
      const kept = carriedBefore(site, contacts, place, unit, use, before);
      const last = before[0];
      if (kept.length > 0) tell(use, unit, kept);
      else if (last && isVessel(unit) && last.task.preparation !== use.task.preparation) tell(use, unit, []);
    });
  }
  return told;
}

/** Each unit once, with all that nothing may be left of. */
export function eachOnce(told: readonly CleanFirst[]): CleanFirst[] {
  return [...Map.groupBy(told, ({ unit }) => unit).values()].map((same) => ({
    ...same[0]!,
    noTraceOf: [...new Set(same.flatMap(({ noTraceOf }) => noTraceOf))],
  }));
}

/** Vessels are cleaned before every other preparation (P9). */
const isVessel = (unit: Unit | undefined) =>
  unit !== undefined && VESSELS.has(unit.equipment.kind) && (unit.equipment.cleanMin ?? 0) > 0;

/** What was there since the place was last clean and must not come to this food. */
function carriedBefore(
  site: Site,
  contacts: ReturnType<typeof contactsOf>,
  place: string,
  unit: Unit | undefined,
  { task }: Planned,
  before: readonly Planned[],
): Allergen[] {
  const apart = site.apart;
  if (!apart || !touches(site, unit, task)) return [];
  const keptFrom = apart.keptFrom(task.preparation);
  if (keptFrom.size === 0) return [];
  for (const other of before) {
    if (!touches(site, unit, other.task)) continue;
    const carried = apart.carried(other.task.preparation, other.task.step);
    const found = [...keptFrom].filter((allergen) => carried.has(allergen));
    if (found.length > 0 && (isVessel(unit) || contacts.gap(place, other.task, task) > 0)) return found;
    // It was clean for one that is kept from the same, and nothing of that came since.
    const guarded = apart.keptFrom(other.task.preparation);
    if ([...keptFrom].every((allergen) => guarded.has(allergen))) return [];
  }
  return [];
}

/** Whether food of a task touches the place: a bench always, a unit by its kind. */
function touches(site: Site, unit: Unit | undefined, task: Planned["task"]): boolean {
  if (task.kind !== "work" && task.kind !== "wait") return false;
  if (!unit) return task.kind === "work";
  const preparation = site.docs.preparations.get(task.preparation);
  return passingOf(unit.equipment, preparation !== undefined && isPacked(preparation, task.step)) === "touch";
}

/** Who uses each unit and each bench, in the order of the plan. */
function byPlace(planned: readonly Planned[]): Map<string, Planned[]> {
  const places = new Map<string, Planned[]>();
  const put = (place: string, one: Planned) => places.set(place, [...(places.get(place) ?? []), one]);
  for (const one of [...planned].sort((a, b) => a.plan.startMin - b.plan.startMin)) {
    if (one.task.kind !== "work" && one.task.kind !== "wait") continue;
    for (const { id } of one.plan.equipment) put(id, one);
    if (one.task.kind === "work" && one.task.station !== undefined) put(benchOf(one.task.station), one);
  }
  return places;
}
