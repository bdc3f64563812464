import type { Kitchen } from "./schema.ts";

type Equipment = Kitchen["equipment"][number];

/** One unit of equipment: an oven, a deck, a burner ring. */
export interface Unit {
  /** The equipment's id; with "#2" behind it where there are several alike. */
  readonly id: string;
  readonly name: string;
  readonly equipment: Equipment;
  /** Index in the kitchen's list, for pointers. */
  readonly index: number;
}

export interface Units {
  readonly all: readonly Unit[];
  readonly byKind: ReadonlyMap<string, readonly Unit[]>;
  readonly byEquipment: ReadonlyMap<string, readonly Unit[]>;
}

/** The equipment of a kitchen, unit by unit (README, P8). */
export function unitsOf(kitchen: Kitchen): Units {
  const all: Unit[] = [];
  const byKind = new Map<string, Unit[]>();
  const byEquipment = new Map<string, Unit[]>();
  kitchen.equipment.forEach((equipment, index) => {
    for (let n = 1; n <= equipment.count; n++) {
      const alone = equipment.count === 1;
      const unit: Unit = {
        id: alone ? equipment.id : `${equipment.id}#${n}`,
        name: alone ? equipment.name : `${equipment.name} (${n})`,
        equipment,
        index,
      };
      all.push(unit);
      put(byKind, equipment.kind, unit);
      put(byEquipment, equipment.id, unit);
    }
  });
  return { all, byKind, byEquipment };
}

/** What one unit holds of a dimension; undefined when it states none. */
export function capacityOf(unit: Unit, dimension: string): number | undefined {
  return unit.equipment.capacity.find((c) => c.unit === dimension)?.value;
}

/** Dimensions that come whole only. */
export const WHOLE_ROOM: ReadonlySet<string> = new Set(["shelf", "burner", "piece"]);

/** Kinds of equipment in which food waits, by state (README, P10). */
export const STORES: Readonly<Record<"hot" | "cold" | "frozen", readonly string[]>> = {
  hot: ["hot-cabinet", "hot-cupboard"],
  cold: ["cold-room", "fridge"],
  frozen: ["freezer", "freezer-room"],
};

/**
 * Kinds that hold one preparation at a time, whatever room is left, and are cleaned before the next (README, P9).
 * Other equipment is shared: trays in an oven, bags in a bath.
 */
export const VESSELS: ReadonlySet<string> = new Set([
  "kettle",
  "mixer",
  "blender",
  "stick-blender",
  "cutter",
  "batch-freezer",
]);

function put<V>(map: Map<string, V[]>, key: string, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}
