import { contactsOf } from "./contacts.ts";
import type { MadePlan } from "./make-plan.ts";
import type { Kitchen } from "./schema.ts";

/** A change of the kitchen that may mend a plan, not yet tried. */
interface KitchenChange {
  readonly what: string;
  readonly kitchen: Kitchen;
}

/** Minutes tried for cleaning what nobody has said how to clean. Common practice, no source. */
const CLEAN_MIN = 20;
/** Pieces of equipment tried at most. */
const MOST = 2;

/**
 * Changes where something must be kept apart for a guest: a cleaning between on equipment of which nobody says how
 * long cleaning takes, and a unit more, so that each food has its own.
 */
export function contactChanges({ site, set, problem }: MadePlan): KitchenChange[] {
  const contacts = contactsOf(site, set.tasks, problem.horizon + 1);
  const ids = new Set(
    site.units.all.filter((unit) => contacts.setups(unit.id).length > 0).map((unit) => unit.equipment.id),
  );
  return site.kitchen.equipment
    .filter(({ id }) => ids.has(id))
    .slice(0, MOST)
    .flatMap((equipment): KitchenChange[] => {
      const { id, name, cleanMin = 0, count } = equipment;
      const changed = (more: Partial<typeof equipment>) => ({
        ...site.kitchen,
        equipment: site.kitchen.equipment.map((one) => (one.id === id ? { ...one, ...more } : one)),
      });
      const never = contacts
        .setups(count === 1 ? id : `${id}#1`)
        .some(({ minutes }) => minutes > problem.horizon);
      return [
        ...(cleanMin === 0 && never
          ? [
              {
                what: `${name} cleaned in between, in ${CLEAN_MIN} min`,
                kitchen: changed({ cleanMin: CLEAN_MIN }),
              },
            ]
          : []),
        { what: `one more: ${name}`, kitchen: changed({ count: count + 1 }) },
      ];
    });
}
