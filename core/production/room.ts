import type { Preparation, Step, Use } from "../formula/schema.ts";
import { loadsNeeded, ofLoad, roomTaken, wholeDown, wholeRoom, withinRange } from "./plan-rules.ts";
import type { Site } from "./site.ts";
import type { Lack, RoomNeed, Space } from "./tasks.ts";
import { capacityOf, type Unit, VESSELS, WHOLE_ROOM } from "./units.ts";

/** What a step's uses come to in this kitchen: how many loads a batch goes in, and the room of one load. */
export interface RoomOfStep {
  readonly loads: number;
  /** The use that asks for most loads: index in `uses`, and equipment and capacity it was held against. */
  readonly decided?: { readonly use: number; readonly equipment: number; readonly capacity: number };
  readonly during: readonly { readonly when: Use["during"]; readonly need: RoomNeed }[];
  readonly lacks: readonly Omit<Lack, "tasks">[];
}

/** More loads than this is a mistake in the book, not a way of working. */
const MOST_LOADS = 60;

/**
 * Room of one batch of a step on the kitchen's equipment (README, P8, P9).
 * Uses of one kind at one time and temperature are one need of several dimensions on one unit. Room per kg
 * counts the larger of the mass that enters and the mass that leaves.
 */
export function roomOfStep(
  site: Site,
  prep: Preparation,
  step: Step,
  batch: { readonly inG: number; readonly outG: number; readonly pieces: number },
  inherited = 1,
): RoomOfStep {
  if (step.uses.length === 0) return { ...NOTHING, loads: inherited };
  const lacks: Omit<Lack, "tasks">[] = [];
  const wanted = groups(step.uses).map((uses) => wantedOf(site, prep, uses, batch, lacks));
  const loads = Math.max(inherited, ...wanted.map((w) => w?.loads ?? 1));
  const tightest = loads > inherited ? wanted.find((w) => w?.loads === loads) : undefined;
  const during: { when: Use["during"]; need: RoomNeed }[] = [];
  for (const w of wanted) {
    if (!w) continue;
    const space = w.totals.map(({ space: { unit, value } }) => ({
      unit,
      value: roomOfLoad(unit, value, loads),
    }));
    const { use } = w;
    during.push({
      when: use.during,
      need: {
        units: w.able.filter((unit) => holds(unit, space)).map((unit) => unit.id),
        space,
        ...(w.setC === undefined ? {} : { setC: w.setC }),
        ...(use.toleranceC === undefined ? {} : { toleranceC: use.toleranceC }),
        ...(use.exclusive || VESSELS.has(w.able[0]!.equipment.kind) ? { exclusive: true } : {}),
      },
    });
  }
  return { loads, ...(tightest ? { decided: decidedBy(step, tightest) } : {}), during, lacks };
}

const NOTHING: RoomOfStep = { loads: 1, during: [], lacks: [] };

function decidedBy(step: Step, { able, totals, loads }: Wanted): NonNullable<RoomOfStep["decided"]> {
  const unit = able.find(
    (u) =>
      loadsOn(
        u,
        totals.map((t) => t.space),
      ) === loads,
  )!;
  const total = totals.find((t) => loadsOn(unit, [t.space]) === loads)!;
  return {
    use: step.uses.indexOf(total.use),
    equipment: unit.index,
    capacity: unit.equipment.capacity.findIndex((c) => c.unit === total.space.unit),
  };
}

interface Wanted {
  readonly use: Use;
  readonly setC: number | undefined;
  readonly able: readonly Unit[];
  readonly totals: readonly { readonly use: Use; readonly space: Space }[];
  readonly loads: number;
}

function wantedOf(
  site: Site,
  prep: Preparation,
  uses: readonly Use[],
  batch: { readonly inG: number; readonly outG: number; readonly pieces: number },
  lacks: Omit<Lack, "tasks">[],
): Wanted | undefined {
  const use = uses[0]!;
  const named = use.kind ?? use.equipment!;
  const units =
    (use.kind ? site.units.byKind.get(use.kind) : site.units.byEquipment.get(use.equipment!)) ?? [];
  if (units.length === 0) {
    lacks.push({ rule: "equipment", by: 1, unit: "piece", what: `${site.kitchen.name} has no ${named}` });
    return undefined;
  }
  const { shallow, over } = byDepth(units, uses);
  if (over > 0)
    lacks.push({
      rule: "depth",
      by: over,
      unit: "mm",
      what: `${prep.name} lies ${depthOf(uses)} mm deep, no ${named} of ${site.kitchen.name} takes more than ${round(depthOf(uses) - over)} mm`,
    });
  const totals = uses.flatMap((u): Wanted["totals"][number][] => {
    const per =
      u.per === "batch" ? 1 : u.per === "kg" ? Math.max(batch.inG, batch.outG) / 1000 : batch.pieces;
    if (u.per === "piece" && batch.pieces === 0)
      doubt(site, prep, `the room on ${named} is per piece, but ${prep.name} has no pieces in its yield`);
    if (!units.some((unit) => capacityOf(unit, u.space.unit) !== undefined)) {
      const path = `${site.docs.pointer("kitchens", site.kitchen.id)}/equipment/${units[0]!.index}/capacity`;
      const what = `${prep.name} needs room on ${named} in ${u.space.unit}, but its capacity is not given so`;
      if (!site.doubts.some((d) => d.path === path && d.what === what))
        site.doubts.push({
          path,
          what,
          mend: `add a capacity in ${u.space.unit}; until then it is not counted`,
        });
      return [];
    }
    return [{ use: u, space: { unit: u.space.unit, value: roomTaken(u.space.value, per) } }];
  });
  const spaces = totals.map((t) => t.space);
  const measured = shallow.filter((unit) => spaces.every((t) => capacityOf(unit, t.unit) !== undefined));
  const { able, setC, short } = atTemperature(measured.length > 0 ? measured : shallow, use.setC);
  if (short > 0)
    lacks.push({
      rule: "range",
      by: short,
      unit: "°C",
      what: `no ${named} of ${site.kitchen.name} reaches ${use.setC} °C`,
    });
  const loads = Math.min(...able.map((unit) => loadsOn(unit, spaces)));
  if (loads > MOST_LOADS) {
    const over = spaces.find((t) => able.every((unit) => loadsOn(unit, [t]) > MOST_LOADS)) ?? spaces[0]!;
    const most = Math.max(...able.map((unit) => capacityOf(unit, over.unit) ?? 0));
    lacks.push({
      rule: "room",
      by: over.value - most,
      unit: over.unit,
      what: `a batch needs ${round(over.value)} ${over.unit} of ${named}, one holds ${round(most)}`,
    });
    return undefined;
  }
  return { use, setC, able, totals, loads };
}

/** Units that take food so deep; when none does, those that take the deepest and by how much it is too deep, mm. */
function byDepth(units: readonly Unit[], uses: readonly Use[]): { shallow: readonly Unit[]; over: number } {
  const depth = depthOf(uses);
  const beyond = (unit: Unit) => Math.max(0, depth - (unit.equipment.maxDepthMm ?? Number.POSITIVE_INFINITY));
  const over = Math.min(...units.map(beyond));
  return { shallow: units.filter((unit) => beyond(unit) === over), over };
}

const depthOf = (uses: readonly Use[]) => Math.max(0, ...uses.map((use) => use.depthMm ?? 0));

/** Units that reach the temperature; when none does, the nearest they reach and how far short that is. */
function atTemperature(
  all: readonly Unit[],
  setC: number | undefined,
): { able: readonly Unit[]; setC: number | undefined; short: number } {
  if (setC === undefined) return { able: all, setC, short: 0 };
  const ranged = all.filter((unit) => unit.equipment.rangeC);
  const units = ranged.length > 0 ? ranged : all;
  const missing = (unit: Unit) => {
    const range = unit.equipment.rangeC;
    return range ? Math.max(range[0] - setC, setC - range[1], 0) : 0;
  };
  const short = Math.min(...units.map(missing));
  const able = units.filter((unit) => missing(unit) === short);
  const range = able[0]!.equipment.rangeC;
  const reached = range ? withinRange(setC, range[0], range[1]) : setC;
  return { able, setC: reached, short };
}

function loadsOn(unit: Unit, totals: readonly Space[]): number {
  let loads = 1;
  for (const { unit: dimension, value } of totals) {
    const room = usable(unit, dimension);
    if (room <= 0) return Number.POSITIVE_INFINITY;
    loads = Math.max(loads, loadsNeeded(value, room));
  }
  return loads;
}

function usable(unit: Unit, dimension: string): number {
  const room = capacityOf(unit, dimension) ?? 0;
  return WHOLE_ROOM.has(dimension) ? wholeDown(room) : room;
}

function roomOfLoad(dimension: string, total: number, loads: number): number {
  return WHOLE_ROOM.has(dimension) ? wholeRoom(ofLoad(total, loads)) : ofLoad(total, loads);
}

function holds(unit: Unit, space: readonly Space[]): boolean {
  return space.every((s) => (capacityOf(unit, s.unit) ?? Number.POSITIVE_INFINITY) >= s.value - 1e-9);
}

/** Uses that are one need: same equipment, time and temperature. */
function groups(uses: readonly Use[]): Use[][] {
  const byKey = new Map<string, Use[]>();
  for (const use of uses) {
    const key = `${use.kind ?? ""} ${use.equipment ?? ""} ${use.during} ${use.setC ?? ""}`;
    const list = byKey.get(key);
    if (list) list.push(use);
    else byKey.set(key, [use]);
  }
  return [...byKey.values()];
}

function doubt(site: Site, prep: Preparation, what: string): void {
  const path = `${site.docs.pointer("preparations", prep.id)}/yield/pieces`;
  if (!site.doubts.some((d) => d.path === path && d.what === what))
    site.doubts.push({ path, what, mend: "give yield.pieces, or let the room be per kg or per batch" });
}

const round = (x: number) => Math.round(x * 100) / 100;
